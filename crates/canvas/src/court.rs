//! The court: ground, lines of their true width, net.

use egui::{CornerRadius, Rect, Stroke};
use glam::{DVec2, dvec2};
use standpoint_geometry::{Court, CourtLine};

use super::brush::{Brush, Dash};

/// Least width of a line, points, so that it stays visible from a distance.
const LEAST_LINE: f32 = 1.3;

/// The run-off and the ground inside the lines.
pub fn ground(brush: &Brush<'_>, court: &Court) {
    let ground = dvec2(court.site_half_width(), court.site_half_length());
    let inside = dvec2(court.outer_half_width(), court.half_length());
    let c = &brush.theme.court;
    brush.painter.rect_filled(rect(brush, -ground, ground), CornerRadius::same(3), *c.surround);
    brush.painter.rect_filled(rect(brush, -inside, inside), CornerRadius::ZERO, *c.court);
}

/// The lines, with a casing that keeps them apart from the shading.
pub fn lines(brush: &Brush<'_>, court: &Court) {
    let lines = court.lines();
    let bands: Vec<Rect> = lines.iter().map(|line| band(brush, line)).collect();
    for band in &bands {
        brush.painter.rect_filled(band.expand(1.0), CornerRadius::ZERO, *brush.theme.court.line_edge);
    }
    for band in &bands {
        brush.painter.rect_filled(*band, CornerRadius::ZERO, *brush.theme.court.line);
    }
}

/// The net from above: cord, strap and posts.
pub fn net(brush: &Brush<'_>, court: &Court) {
    let c = &brush.theme.court;
    let post = court.post_x().max(court.outer_half_width() + 0.3);
    let width = brush.at.length(0.07).max(2.6);
    let cord = brush.points([dvec2(-post, 0.0), dvec2(post, 0.0)]);
    brush.stroke(&cord, Stroke::new(width + 1.6, *c.tape), Dash::Solid);
    brush.stroke(&cord, Stroke::new(width, *c.net), Dash::Solid);
    let strap = brush.at.length(0.05).max(2.0);
    brush.painter.circle(brush.point(DVec2::ZERO), strap, *c.tape, Stroke::new(1.0, *c.net));
    let carriers = [-post, post, -court.post_x(), court.post_x()];
    for x in carriers {
        let p = brush.point(dvec2(x, 0.0));
        brush.painter.circle(p, brush.at.length(0.075).max(3.0), *c.net, Stroke::new(1.0, *c.tape));
    }
}

fn band(brush: &Brush<'_>, line: &CourtLine) -> Rect {
    let half = (line.width / 2.0).max(f64::from(LEAST_LINE / brush.at.scale()) / 2.0);
    let along = (line.to - line.from).normalize_or_zero();
    let across = dvec2(along.y.abs(), along.x.abs()) * half;
    rect(brush, line.from.min(line.to) - across, line.from.max(line.to) + across)
}

fn rect(brush: &Brush<'_>, a: DVec2, b: DVec2) -> Rect {
    Rect::from_two_pos(brush.point(a), brush.point(b))
}

/// The nearest line to a place, if one is nearer than `within`, m: the place moved onto it, along either axis.
#[must_use]
pub fn snapped(court: &Court, place: DVec2, within: f64) -> DVec2 {
    let hold = |value: f64, lines: &[f64]| {
        lines
            .iter()
            .map(|line| (line, (value.abs() - line).abs()))
            .filter(|(_, distance)| *distance < within)
            .min_by(|a, b| a.1.total_cmp(&b.1))
            .map_or(value, |(line, _)| line.copysign(value))
    };
    let across: Vec<f64> =
        [Some(0.0), Some(court.half_width()), court.doubles_width.map(|w| w / 2.0)].into_iter().flatten().collect();
    let along: Vec<f64> = [court.service_line, Some(court.half_length())].into_iter().flatten().collect();
    dvec2(hold(place.x, &across), hold(place.y, &along))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_hold_what_is_near_them_only() {
        let court = Court::default();
        let near = dvec2(-court.half_width() + 0.1, court.half_length() - 0.12);
        assert_eq!(snapped(&court, near, 0.2), dvec2(-court.half_width(), court.half_length()));
        let far = dvec2(2.0, 8.5);
        assert_eq!(snapped(&court, far, 0.2), far);
        assert_eq!(snapped(&court, dvec2(0.05, -3.0), 0.2), dvec2(0.0, -3.0));
    }
}
