//! Places measured by tape from two lines.

use glam::DVec2;
use standpoint_geometry::{Court, End, LineName, Side};

/// Side of a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Beside {
    /// Towards the middle of the court (sidelines) or towards the net (baselines and service lines).
    Inside,
    /// Away from it.
    Outside,
    /// On the line, to the nearest centimetre.
    On,
    /// To the left of the centre line as the player at that end faces the net.
    Left,
    /// To the right of it.
    Right,
}

/// A distance from one line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FromLine {
    /// Distance to the line's outer edge (its middle, for the centre line), m, not negative.
    pub distance: f64,
    /// Side of the line.
    pub beside: Beside,
    /// Which line.
    pub line: LineName,
}

/// A place measured from two lines that cross at right angles; enough to find it again with a tape.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured {
    /// Across the court.
    pub across: FromLine,
    /// Along it.
    pub along: FromLine,
}

/// Distance up to which a place is on the line, m: half a centimetre.
const ON_M: f64 = 0.005;

/// Measures a place from the nearest line across and the nearest line along the court on its half.
///
/// Distances are from the outer edges, as courts are measured; those from the centre line from its middle. The net does
/// not count as a line.
#[must_use]
pub fn measured(court: &Court, place: DVec2) -> Measured {
    let end = if place.y <= 0.0 { End::Near } else { End::Far };
    Measured { across: across(court, place, end), along: along(court, place, end) }
}

fn across(court: &Court, place: DVec2, end: End) -> FromLine {
    let side = if place.x < 0.0 { Side::Left } else { Side::Right };
    let mut lines = vec![(court.half_width(), LineName::SinglesSideline(side))];
    if court.outer_half_width() > court.half_width() {
        lines.push((court.outer_half_width(), LineName::DoublesSideline(side)));
    }
    let x = place.x.abs();
    let from_center = x;
    let nearest = lines
        .into_iter()
        .map(|(at, line)| FromLine { distance: (x - at).abs(), beside: sided(at - x), line })
        .min_by(|a, b| a.distance.total_cmp(&b.distance));
    match nearest {
        Some(side) if side.distance <= from_center => side,
        _ => {
            let beside = if from_center < ON_M {
                Beside::On
            } else if place.x * end.sign() > 0.0 {
                Beside::Right
            } else {
                Beside::Left
            };
            FromLine { distance: from_center, beside, line: LineName::CenterServiceLine }
        }
    }
}

fn along(court: &Court, place: DVec2, end: End) -> FromLine {
    let y = place.y.abs();
    let mut lines = vec![(court.half_length(), LineName::Baseline(end))];
    if let Some(service) = court.service_line {
        lines.push((service, LineName::ServiceLine(end)));
    }
    lines
        .into_iter()
        .map(|(at, line)| FromLine { distance: (y - at).abs(), beside: sided(at - y), line })
        .min_by(|a, b| a.distance.total_cmp(&b.distance))
        .unwrap_or(FromLine { distance: y, beside: Beside::Inside, line: LineName::Baseline(end) })
}

fn sided(inside_by: f64) -> Beside {
    if inside_by.abs() < ON_M {
        Beside::On
    } else if inside_by > 0.0 {
        Beside::Inside
    } else {
        Beside::Outside
    }
}

impl Measured {
    /// The measured place.
    #[must_use]
    pub fn place(&self, court: &Court) -> DVec2 {
        let signed = |f: &FromLine| match f.beside {
            Beside::Inside | Beside::Left => -f.distance,
            Beside::Outside | Beside::Right => f.distance,
            Beside::On => 0.0,
        };
        let (end, y) = match self.along.line {
            LineName::Baseline(end) => (end, court.half_length() + signed(&self.along)),
            LineName::ServiceLine(end) => (end, court.service_line.unwrap_or(0.0) + signed(&self.along)),
            _ => (End::Near, 0.0),
        };
        let x = match self.across.line {
            LineName::SinglesSideline(side) => side.sign() * (court.half_width() + signed(&self.across)),
            LineName::DoublesSideline(side) => side.sign() * (court.outer_half_width() + signed(&self.across)),
            _ => end.sign() * signed(&self.across),
        };
        DVec2::new(x, -end.sign() * y)
    }
}

#[cfg(test)]
mod tests {
    use standpoint_geometry::{NetPosts, Stage};

    use super::*;

    #[test]
    fn a_place_is_measured_from_the_two_nearest_lines() {
        let court = Court::new(Stage::Full, NetPosts::SinglesSticks);
        // 1.2 m inside the singles sideline (4.115 m) and 0.9 m behind the service line (6.40 m).
        let m = measured(&court, DVec2::new(2.915, -7.3));
        assert_eq!((m.across.line, m.across.beside), (LineName::SinglesSideline(Side::Right), Beside::Inside));
        assert!((m.across.distance - 1.2).abs() < 1e-9);
        assert_eq!((m.along.line, m.along.beside), (LineName::ServiceLine(End::Near), Beside::Outside));
        assert!((m.along.distance - 0.9).abs() < 1e-9);
    }

    #[test]
    fn left_and_right_are_the_facing_players() {
        let court = Court::new(Stage::Full, NetPosts::SinglesSticks);
        assert_eq!(measured(&court, DVec2::new(0.8, -12.0)).across.beside, Beside::Right);
        assert_eq!(measured(&court, DVec2::new(0.8, 12.0)).across.beside, Beside::Left);
    }

    #[test]
    fn measuring_and_laying_out_again_leads_back() {
        for stage in [Stage::Full, Stage::Orange, Stage::Red] {
            let court = Court::new(stage, NetPosts::SinglesSticks);
            for i in -30..=30 {
                for j in -40..=40 {
                    let place = DVec2::new(f64::from(i) * 0.211, f64::from(j) * 0.377);
                    let again = measured(&court, place).place(&court);
                    assert!(again.distance(place) < 0.0072, "{stage:?} {place} {again}");
                }
            }
        }
    }
}
