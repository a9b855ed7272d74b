//! A thumbnail of a page: court, shots as arrows, and marks.

use egui::{CornerRadius, Rect, Shape, Stroke, Vec2};
use glam::{DVec2, dvec2};
use standpoint_board::{
    Page,
    marks::{Form, Marks},
};
use standpoint_geometry::{Court, End};

use crate::{
    theme::Theme,
    transform::{CourtView, Moved, Transform},
};

/// Ground shown beside and behind the lines, m.
const AROUND: DVec2 = dvec2(0.9, 2.2);

/// An arrow of a thumbnail: hitter, start and end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Way {
    /// The striker's end.
    pub end: End,
    /// From here.
    pub from: DVec2,
    /// To here.
    pub to: DVec2,
}

/// The arrows of a page's shots; a following one begins at the target of the one before.
#[must_use]
pub fn ways(page: &Page) -> Vec<Way> {
    let mut before: Option<DVec2> = None;
    page.shots
        .iter()
        .map(|spec| {
            let from = before.filter(|_| spec.follows).unwrap_or(spec.shot.contact.truncate());
            before = Some(spec.shot.target);
            Way { end: spec.hitter_end, from, to: spec.shot.target }
        })
        .collect()
}

/// The empty court in a rectangle, upright, with the near side down unless it is turned over.
pub fn court(rect: Rect, lines: &Court, flipped: bool, theme: &Theme) -> (Transform, Vec<Shape>) {
    let half = dvec2(lines.outer_half_width(), lines.half_length()) + AROUND;
    let scale = (f64::from(rect.width()) / half.x).min(f64::from(rect.height()) / half.y) / 2.0;
    let moved = Some(Moved { center: DVec2::ZERO, scale });
    let at = CourtView { moved, ..CourtView::fitted(if flipped { 2 } else { 0 }) }.transform(rect, lines);
    let c = &theme.court;
    let inside = |half: DVec2| Rect::from_two_pos(at.screen_from_court(-half), at.screen_from_court(half));
    let thin = Stroke::new(0.8, *c.line);
    let mut shapes = vec![
        Shape::rect_filled(rect, CornerRadius::same(theme.m.radius.small as u8), *c.surround),
        Shape::rect_filled(inside(dvec2(lines.outer_half_width(), lines.half_length())), CornerRadius::ZERO, *c.court),
    ];
    let segment = |from: DVec2, to: DVec2| [at.screen_from_court(from), at.screen_from_court(to)];
    shapes.extend(lines.lines().iter().map(|line| Shape::line_segment(segment(line.from, line.to), thin)));
    let half = lines.outer_half_width() + 0.5;
    shapes.push(Shape::line_segment(segment(dvec2(-half, 0.0), dvec2(half, 0.0)), Stroke::new(1.6, *c.net)));
    (at, shapes)
}

/// An arrow: the hitter's light and solid, the opponent's dark and broken, as on the large court.
pub fn way(at: &Transform, way: &Way, coached: End, width: f32, theme: &Theme) -> Vec<Shape> {
    let c = &theme.court;
    let ours = way.end == coached;
    let (ink, edge) = if ours { (*c.hitter, *c.hitter_ink) } else { (*c.opponent, *c.opponent_ink) };
    let (a, b) = (at.screen_from_court(way.from), at.screen_from_court(way.to));
    let along = (b - a).normalized();
    if !along.is_finite() || along == Vec2::ZERO {
        return Vec::new();
    }
    let size = 4.0 + width;
    let shaft = [a, b - along * size * 0.8];
    let mut shapes = vec![Shape::line_segment(shaft, Stroke::new(width + 1.4, edge))];
    if ours {
        shapes.push(Shape::line_segment(shaft, Stroke::new(width, ink)));
    } else {
        shapes.extend(Shape::dashed_line(&shaft, Stroke::new(width, ink), 3.5, 2.0));
    }
    let across = along.rot90() * size * 0.6;
    let head = vec![b, b - along * size + across, b - along * size - across];
    shapes.push(Shape::convex_polygon(head, ink, Stroke::new(0.7, edge)));
    shapes
}

/// Marks of a page.
pub fn marks(at: &Transform, marks: &Marks, theme: &Theme) -> Vec<Shape> {
    let ink = *theme.court.ink;
    let line = Stroke::new(1.0, ink);
    marks
        .shown()
        .map(|mark| {
            let points: Vec<_> = mark.form.outline().into_iter().map(|p| at.screen_from_court(p)).collect();
            match (&mark.form, points.as_slice()) {
                (Form::Text { .. }, [at, ..]) => Shape::line_segment([*at, *at + Vec2::X * 7.0], line),
                (_, [at]) => Shape::circle_filled(*at, 1.6, ink),
                _ => Shape::line(points, line),
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use standpoint_board::{Board, patterns::Pattern};

    use super::*;

    #[test]
    fn the_ways_of_a_rally_hang_together() {
        let page = Pattern::CrossCrossLine.page(&Board::demo(), false);
        let ways = ways(&page);
        assert_eq!(ways.len(), page.shots.len());
        assert!(ways.windows(2).all(|w| w[1].from == w[0].to));
    }
}
