//! Scores of places and choices: points from 0 to 100 for the trainee.
//!
//! They are based on estimates of a model.

/// Exposure above the least at which half the points for exposure are gone: eight points in a hundred. A choice.
const HALF_EXPOSURE: f64 = 0.08;
/// Distance from the spot at which half the points for distance are gone, m. A choice: about two steps.
const HALF_DISTANCE: f64 = 2.5;
/// Weight of the exposure: the cost of a place matters more than its distance. A choice.
const EXPOSURE_PART: f64 = 0.8;
/// Loss of the chance to win the point at which half the points of a choice are gone. A choice.
const HALF_WIN: f64 = 0.05;
/// Least score of a right answer.
pub const RIGHT: u8 = 80;

/// Falls from 1 to 0, one half at `half`; negative values count as 0.
fn fading(value: f64, half: f64) -> f64 {
    let value = if value.is_finite() { value.max(0.0) } else { f64::MAX.sqrt() };
    1.0 / (1.0 + (value / half).powi(2))
}

/// Points for a place: by `extra`, its exposure above that of the spot (a share of points), and `distance` from the spot
/// (m). 100 at the spot; less with more of either.
#[must_use]
pub fn of_place(extra: f64, distance: f64) -> u8 {
    let part = EXPOSURE_PART * fading(extra, HALF_EXPOSURE) + (1.0 - EXPOSURE_PART) * fading(distance, HALF_DISTANCE);
    (100.0 * part).round() as u8
}

/// Points of a place, rescaled so that `idle`, the points for doing nothing, becomes 0 and the best stays 100.
#[must_use]
pub fn gained(points: u8, idle: u8) -> u8 {
    if idle >= 100 {
        return 0;
    }
    let (points, idle) = (f64::from(points), f64::from(idle));
    (100.0 * ((points - idle) / (100.0 - idle)).max(0.0)).round() as u8
}

/// Points for the choice of a shot that wins the point less often than the best by `lost` (a share of points).
#[must_use]
pub fn of_choice(lost: f64) -> u8 {
    (100.0 * fading(lost, HALF_WIN)).round() as u8
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn the_spot_has_all_points_and_the_zone_counts_as_right() {
        assert_eq!(of_place(0.0, 0.0), 100);
        // The zone is where the exposure is up to two points in a hundred above the least.
        assert!(of_place(0.02, 0.8) >= RIGHT);
        assert!(of_place(0.12, 2.0) < RIGHT);
        assert_eq!(of_choice(0.0), 100);
        assert!(of_choice(0.03) < RIGHT && of_choice(0.01) >= RIGHT);
    }

    #[test]
    fn figures_that_are_none_give_no_points_and_no_fault() {
        assert_eq!(of_place(f64::NAN, f64::INFINITY), 0);
        assert_eq!(of_choice(f64::NAN), 0);
    }

    #[test]
    fn doing_nothing_has_no_points_and_the_best_place_all_of_them() {
        for idle in [0, 20, 60, 79] {
            assert_eq!((gained(idle, idle), gained(100, idle)), (0, 100));
            assert_eq!(gained(idle.saturating_sub(5), idle), 0, "worse than nothing is nothing");
        }
        assert_eq!(gained(100, 100), 0);
    }

    proptest! {
        #[test]
        fn more_exposure_or_more_distance_never_gives_more_points(
            extra in 0.0..1.0f64, more in 0.0..1.0f64, distance in 0.0..20.0f64, farther in 0.0..20.0f64,
        ) {
            prop_assert!(of_place(extra + more, distance) <= of_place(extra, distance));
            prop_assert!(of_place(extra, distance + farther) <= of_place(extra, distance));
            prop_assert!(of_choice(extra + more) <= of_choice(extra));
            prop_assert!(of_place(extra, distance) <= 100);
        }

        #[test]
        fn much_more_of_either_gives_fewer_points(extra in 0.0..0.2f64, distance in 0.0..4.0f64) {
            prop_assert!(of_place(extra + 0.05, distance) < of_place(extra, distance));
            prop_assert!(of_place(extra, distance + 2.5) < of_place(extra, distance));
        }
    }
}
