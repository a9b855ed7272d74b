//! Look of the inks: each has colour, sign and, for areas, hatching, so that meaning never depends on colour alone.

use egui::{Color32, Pos2, Shape, Stroke, Vec2, pos2, vec2};
use standpoint_board::marks::Ink;
use standpoint_ui::theme::{color::contrast, tokens::CourtColors};

use super::brush::Brush;

/// Fill and edge of an ink.
#[must_use]
pub fn colors(court: &CourtColors, ink: Ink) -> (Color32, Color32) {
    match ink {
        Ink::Plain => (*court.ink, *court.halo),
        Ink::Coached => (*court.hitter, *court.hitter_ink),
        Ink::Other => (*court.opponent, *court.opponent_ink),
        Ink::Ball => (*court.ball, *court.hitter_ink),
        Ink::Warning => (*court.alert, *court.alert_ink),
    }
}

/// The sign of an ink: a disc for the coached player, a square on its corner for the other, a ring for the ball and a
/// triangle for what to watch out for. Plain ink has none.
pub fn sign(painter: &egui::Painter, (fill, edge): (Color32, Color32), ink: Ink, c: Pos2, r: f32) {
    let stroke = Stroke::new((r * 0.28).max(1.2), edge);
    match ink {
        Ink::Plain => {}
        Ink::Coached => {
            painter.circle(c, r, fill, stroke);
        }
        Ink::Other => {
            let corners = [vec2(0.0, -1.0), vec2(1.0, 0.0), vec2(0.0, 1.0), vec2(-1.0, 0.0)];
            painter.add(Shape::convex_polygon(corners.map(|d| c + d * r * 1.25).to_vec(), fill, stroke));
        }
        Ink::Ball => {
            painter.circle(c, r, fill, stroke);
            painter.circle_filled(c, r * 0.4, edge);
        }
        Ink::Warning => {
            let corners = [vec2(0.0, -1.25), vec2(1.15, 0.85), vec2(-1.15, 0.85)];
            painter.add(Shape::convex_polygon(corners.map(|d| c + d * r).to_vec(), fill, stroke));
        }
    }
}

/// Directions of an ink's hatching, in degrees on the screen, and whether it is dotted.
fn hatching(ink: Ink) -> (&'static [f32], bool) {
    match ink {
        Ink::Plain => (&[], false),
        Ink::Coached => (&[-45.0], false),
        Ink::Other => (&[45.0], false),
        Ink::Ball => (&[0.0], true),
        Ink::Warning => (&[-45.0, 45.0], false),
    }
}

/// Distance between the lines of a hatching, points.
const HATCH: f32 = 13.0;

/// Least visible contrast with the court.
const SEEN: f32 = 1.3;

/// The fill of an ink, or its edge where the fill is too close to the court, such as white on paper.
#[must_use]
pub fn seen(court: &CourtColors, fill: Color32, edge: Color32) -> Color32 {
    if contrast(fill, *court.court) < SEEN { edge } else { fill }
}

/// Hatches a rectangle or an ellipse with the given half size.
pub fn hatch(brush: &Brush<'_>, ink: Ink, center: Pos2, half: Vec2, round: bool) {
    let court = &brush.theme.court;
    let (fill, edge) = colors(court, ink);
    let color = seen(court, fill, edge);
    let (angles, dotted) = hatching(ink);
    let step = HATCH * brush.growth();
    let stroke = Stroke::new(1.2, color.gamma_multiply(0.75));
    for angle in angles {
        let along = Vec2::angled(angle.to_radians());
        let reach = half.length();
        let count = (reach / step).floor().min(200.0) as i32;
        for i in -count..=count {
            let from = along.rot90() * (i as f32 * step);
            let Some((a, b)) = chord(from, along, half, round) else { continue };
            let ends = [center + from + along * a, center + from + along * b];
            if dotted {
                brush.painter.extend(Shape::dotted_line(&ends, stroke.color, step, 1.7));
            } else {
                brush.painter.line_segment(ends, stroke);
            }
        }
    }
}

/// The part of a line inside a shape round the origin, as distances along it.
fn chord(from: Vec2, along: Vec2, half: Vec2, round: bool) -> Option<(f32, f32)> {
    let half = half.max(Vec2::splat(1e-3));
    let (p, d) = (from / half, along / half);
    let (a, b) = if round {
        let (dd, pd, pp) = (d.dot(d), p.dot(d), p.dot(p));
        let root = (pd * pd - dd * (pp - 1.0)).max(-1.0);
        if root <= 0.0 {
            return None;
        }
        ((-pd - root.sqrt()) / dd, (-pd + root.sqrt()) / dd)
    } else {
        let slab = |p: f32, d: f32| {
            if d.abs() < 1e-9 {
                if p.abs() <= 1.0 { (f32::NEG_INFINITY, f32::INFINITY) } else { (1.0, -1.0) }
            } else {
                (((-1.0 - p) / d).min((1.0 - p) / d), ((-1.0 - p) / d).max((1.0 - p) / d))
            }
        };
        let (x, y) = (slab(p.x, d.x), slab(p.y, d.y));
        (x.0.max(y.0), x.1.min(y.1))
    };
    (b > a).then_some((a, b))
}

/// An icon-sized picture of an ink for tool bar and menus: a stroke with its sign.
pub fn sample(painter: &egui::Painter, court: &CourtColors, ink: Ink, rect: egui::Rect) {
    let (fill, edge) = colors(court, ink);
    let y = rect.center().y;
    let ends = [pos2(rect.left() + 3.0, y), pos2(rect.right() - 3.0, y)];
    painter.line_segment(ends, Stroke::new(6.0, edge));
    painter.line_segment(ends, Stroke::new(3.0, fill));
    sign(painter, (fill, edge), ink, rect.center(), rect.height() * 0.27);
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use super::*;
    use standpoint_ui::theme::tokens::Tokens;

    #[test]
    fn inks_differ_by_more_than_their_colour() {
        let hatchings: HashSet<String> = Ink::ALL.iter().map(|ink| format!("{:?}", hatching(*ink))).collect();
        assert_eq!(hatchings.len(), Ink::ALL.len());
    }

    #[test]
    fn every_ink_stands_out_from_its_own_edge() {
        let tokens = Tokens::load().unwrap();
        for (name, court) in tokens.courts.all() {
            for ink in Ink::ALL {
                let (fill, edge) = colors(court, ink);
                let ratio = contrast(fill, edge);
                assert!(ratio >= 4.5, "{ink:?}, {name}: {ratio:.2}");
            }
        }
    }

    #[test]
    fn a_hatching_line_ends_at_the_edge() {
        let along = vec2(1.0, 0.0);
        let ends =
            |y: f32, round| chord(vec2(0.0, y), along, vec2(30.0, 10.0), round).map(|(a, b)| (a.round(), b.round()));
        assert_eq!(ends(0.0, true), Some((-30.0, 30.0)));
        assert_eq!(ends(11.0, true), None);
        assert_eq!(ends(9.0, false), Some((-30.0, 30.0)));
        assert_eq!(ends(11.0, false), None);
    }
}
