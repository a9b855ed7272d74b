//! Where to stand, with a range of depths where depth makes no measurable difference.

use standpoint_board::Units;
use standpoint_geometry::{Court, End, Play, units::FOOT};
use standpoint_language::tr;

use crate::words::{self, across, decimal};

/// A zone deeper than this is given as a range, m.
const DEEP: f64 = 0.8;

/// The spot of a play as the player at `end` sees it facing the net: `1.2 m right of the centre mark, 1 to 2.5 m behind the
/// baseline`.
#[must_use]
pub fn place(play: &Play, end: End, court: &Court, units: Units) -> String {
    match range(play, units) {
        Some(depth) => format!("{}, {depth}", across(play.spot.place, end, court, units)),
        None => words::place(play.spot.place, end, court, units),
    }
}

/// The spot as advice: `Stand 1.2 m right of the centre mark, 1 to 2.5 m behind the baseline`.
#[must_use]
pub fn stand(play: &Play, end: End, court: &Court, units: Units) -> String {
    match range(play, units) {
        Some(depth) => tr!("Stand {}, {}", across(play.spot.place, end, court, units), depth),
        None => words::stand(play.spot.place, end, court, units),
    }
}

/// The equivalent depths, if far enough apart: from the baseline, to half a metre or a foot.
#[must_use]
pub fn range(play: &Play, units: Units) -> Option<String> {
    let (low, high) = play.depth_range;
    if play.at_net || high - low <= DEEP {
        return None;
    }
    let step = match units {
        Units::Metres => 0.5,
        Units::Feet => FOOT,
    };
    let [low, high] = [low, high].map(|depth| (depth / step).round() as i64);
    // Without the unit, which follows the second figure.
    let bare = |steps: i64| match units {
        Units::Metres => decimal(steps as f64 * 0.5, if steps % 2 == 0 { 0 } else { 1 }),
        Units::Feet => decimal(steps as f64, 0),
    };
    let full = |steps: i64| match units {
        Units::Metres => words::with_unit(&bare(steps), "m"),
        Units::Feet => format!("{}′", bare(steps)),
    };
    Some(match (low, high) {
        _ if low >= high => return None,
        (0, _) => tr!("on the baseline to {} behind it", full(high)),
        (_, 0) => tr!("{} inside the baseline to on it", full(-low)),
        _ if low > 0 => tr!("{0} to {1} behind the baseline", bare(low), full(high)),
        _ if high < 0 => tr!("{0} to {1} inside the baseline", bare(-high), full(-low)),
        _ => tr!("from {0} inside to {1} behind the baseline", full(-low), full(high)),
    })
}

#[cfg(test)]
mod tests {
    use glam::dvec2;
    use standpoint_board::Board;
    use standpoint_geometry::solve;

    use super::*;

    fn play() -> Play {
        let situation = Board::demo().situation(0, 0).unwrap();
        solve(&situation).unwrap().play().unwrap().clone()
    }

    #[test]
    fn a_flat_depth_is_told_as_a_range() {
        let mut play = play();
        play.at_net = false;
        play.spot.place = dvec2(1.2, -13.6);
        let mut said = |range, units| {
            play.depth_range = range;
            stand(&play, End::Near, &Court::default(), units)
        };
        let metres = Units::Metres;
        assert_eq!(said((0.9, 2.6), metres), "Stand 1.2 m right of the centre mark, 1 to 2.5 m behind the baseline");
        assert_eq!(said((-0.1, 1.9), metres), "Stand 1.2 m right of the centre mark, on the baseline to 2 m behind it");
        assert!(said((-0.6, 1.6), metres).ends_with("from 0.5 m inside to 1.5 m behind the baseline"));
        assert!(said((-2.0, -0.9), metres).ends_with("1 to 2 m inside the baseline"));
        assert!(said((-1.1, 0.1), metres).ends_with("1 m inside the baseline to on it"));
        assert!(said((0.9, 2.6), Units::Feet).ends_with("3 to 9′ behind the baseline"));
        assert!(said((1.4, 2.1), metres).ends_with("1.7 m behind the baseline"), "0.7 m are no range");
        play.at_net = true;
        play.depth_range = (-10.0, -8.0);
        assert_eq!(range(&play, metres), None, "at the net the place itself is told");
    }
}
