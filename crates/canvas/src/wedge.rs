//! The directions left to the opponent: the wedge, its edges and its bisector.

use egui::{Shape, Stroke};
use glam::DVec2;
use standpoint_geometry::{Bisector, Court, Wedge};

use super::brush::{Brush, Dash, Side};

/// Direction of an azimuth on the ground.
#[must_use]
pub fn direction(azimuth: f64) -> DVec2 {
    DVec2::new(azimuth.sin(), azimuth.cos())
}

/// The wedge: its ground up to the net, where the shading begins, and its edges to where the replies along them land.
pub fn wedge(brush: &Brush<'_>, wedge: &Wedge) {
    let left = at_net(wedge.apex, direction(wedge.left));
    let right = at_net(wedge.apex, direction(wedge.right));
    if let (Some(left), Some(right)) = (left, right) {
        let corners = brush.points([wedge.apex, left, right]);
        brush.painter.add(Shape::convex_polygon(corners, *brush.theme.court.wedge, Stroke::NONE));
    }
    let long = Dash::Pattern(brush.theme.m.pattern.long);
    for landing in [wedge.left_landing, wedge.right_landing] {
        brush.line(&brush.points([wedge.apex, landing]), brush.theme.m.stroke.thin, Side::Opponent, long);
        let end = brush.point(landing);
        brush.ring(end, 3.0, brush.theme.m.stroke.thin, Side::Opponent);
    }
}

/// The bisector, to a little behind the spot's depth.
pub fn bisector(brush: &Brush<'_>, apex: DVec2, bisector: &Bisector, court: &Court) {
    let along = direction(bisector.azimuth);
    let end = (bisector.place + along).clamp(
        DVec2::new(-court.site_half_width(), -court.site_half_length()),
        DVec2::new(court.site_half_width(), court.site_half_length()),
    );
    let dash = Dash::Pattern(brush.theme.m.pattern.dash_dot);
    brush.line(&brush.points([apex, end]), brush.theme.m.stroke.thin, Side::Hitter, dash);
}

/// Where a ray meets the plane of the net.
#[must_use]
pub fn at_net(from: DVec2, along: DVec2) -> Option<DVec2> {
    let t = -from.y / along.y;
    (t.is_finite() && t > 0.0).then(|| from + along * t)
}

#[cfg(test)]
mod tests {
    use glam::dvec2;

    use super::*;

    #[test]
    fn azimuth_nought_looks_forward_and_turns_right() {
        assert!((direction(0.0) - DVec2::Y).length() < 1e-12);
        assert!((direction(std::f64::consts::FRAC_PI_2) - DVec2::X).length() < 1e-12);
    }

    #[test]
    fn a_ray_away_from_the_net_never_meets_it() {
        assert!(at_net(dvec2(1.0, 5.0), DVec2::Y).is_none());
        assert_eq!(at_net(dvec2(1.0, 5.0), -DVec2::Y), Some(dvec2(1.0, 0.0)));
    }
}
