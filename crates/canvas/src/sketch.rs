//! Painting of marks. It needs a brush and the marks only, so that thumbnails and a presentation can
//! paint the same.

use egui::{Align2, Color32, CornerRadius, FontId, Pos2, Rect, Shape, Stroke, StrokeKind, Vec2, vec2};
use glam::DVec2;
use standpoint_board::marks::{Form, Ink, Mark, Marks, Pattern, arc};
use standpoint_ui::theme::fonts;

use super::{
    brush::{Brush, Dash},
    inks,
};

/// Paints the zones, which lie under everything else.
pub fn zones(brush: &Brush<'_>, marks: &Marks) {
    for mark in marks.shown() {
        if let Form::Zone { from, to, round } = mark.form {
            zone(brush, mark.ink, from, to, round);
        }
    }
}

/// Paints all marks but the zones.
pub fn marks(brush: &Brush<'_>, marks: &Marks) {
    for mark in marks.shown() {
        if !matches!(mark.form, Form::Zone { .. }) {
            one(brush, mark);
        }
    }
}

/// Paints one mark.
pub fn one(brush: &Brush<'_>, mark: &Mark) {
    form(brush, mark.ink, &mark.form);
}

/// Paints a form in an ink.
pub fn form(brush: &Brush<'_>, ink: Ink, form: &Form) {
    match form {
        Form::Pen { points, pattern } => {
            let points = brush.points(points.iter().copied());
            line(brush, ink, &points, *pattern);
            start_sign(brush, ink, points.first());
        }
        Form::Arrow { from, to, bend, pattern } => arrow(brush, ink, &arc(*from, *to, *bend), *pattern),
        Form::Text { at, text, size } => words(brush, ink, brush.point(*at), text, *size),
        Form::Cone { at } => cone(brush, ink, brush.point(*at)),
        Form::Basket { at } => basket(brush, ink, brush.point(*at)),
        Form::Person { at, letter } => person(brush, ink, brush.point(*at), letter),
        Form::Zone { from, to, round } => zone(brush, ink, *from, *to, *round),
    }
}

/// Radius of a thing that stands on the court, in points.
#[must_use]
pub fn thing_radius(brush: &Brush<'_>) -> f32 {
    brush.at.length(0.3).clamp(7.5, 20.0)
}

/// Lines drawn by hand are rails, two strokes side by side: what is computed never looks like that.
fn line_width(brush: &Brush<'_>) -> f32 {
    brush.theme.m.stroke.broad * brush.growth().sqrt()
}

/// Part of a rail's width that lies open between its strokes.
const OPEN: f32 = 0.36;

fn line(brush: &Brush<'_>, ink: Ink, points: &[Pos2], pattern: Pattern) {
    let (fill, edge) = inks::colors(&brush.theme.court, ink);
    let dash = match pattern {
        Pattern::Solid => Dash::Solid,
        Pattern::Dashed => Dash::Pattern(brush.theme.m.pattern.dashed),
    };
    brush.cased(points, Stroke::new(line_width(brush), fill), edge, dash);
    brush.stroke(points, Stroke::new(line_width(brush) * OPEN, edge), dash);
}

fn start_sign(brush: &Brush<'_>, ink: Ink, start: Option<&Pos2>) {
    if let Some(start) = start {
        inks::sign(brush.painter, inks::colors(&brush.theme.court, ink), ink, *start, 5.0 * brush.growth());
    }
}

fn arrow(brush: &Brush<'_>, ink: Ink, places: &[DVec2], pattern: Pattern) {
    let mut points = brush.points(places.iter().copied());
    let (Some(start), Some(tip)) = (points.first().copied(), points.last().copied()) else { return };
    let size = (15.0 * brush.growth()).min(start.distance(tip) * 0.6);
    let back = points.iter().rev().find(|p| p.distance(tip) >= size).copied().unwrap_or(start);
    // The line ends inside the head, so that no blunt end shows at its tip.
    points.retain(|p| p.distance(tip) >= size * 0.35);
    let along = (tip - back).normalized();
    points.push(tip - along * size * 0.35);
    line(brush, ink, &points, pattern);
    let (fill, edge) = inks::colors(&brush.theme.court, ink);
    // An open head: filled ones are computed.
    let across = along.rot90() * size * 0.55;
    let head = [tip - along * size + across, tip, tip - along * size - across];
    let width = line_width(brush) * 0.6;
    brush.painter.line(head.to_vec(), Stroke::new(width + 2.4, edge));
    brush.painter.line(head.to_vec(), Stroke::new(width, fill));
    start_sign(brush, ink, Some(&start));
}

/// The height of letters on the screen: as on the court, but never too small to read.
#[must_use]
pub fn text_height(brush: &Brush<'_>, size: f64) -> f32 {
    brush.at.length(size).clamp(10.0, 160.0).round()
}

fn words(brush: &Brush<'_>, ink: Ink, at: Pos2, text: &str, size: f64) {
    let (fill, edge) = inks::colors(&brush.theme.court, ink);
    let font = FontId::new(text_height(brush, size), fonts::strong());
    let galley = brush.painter.layout_no_wrap(text.to_owned(), font.clone(), fill);
    let corner = Align2::LEFT_TOP.anchor_size(at - vec2(0.0, font.size * 0.6), galley.size()).min;
    for step in 0..8 {
        let by = Vec2::angled(std::f32::consts::TAU * step as f32 / 8.0) * (font.size * 0.09).max(1.6);
        let halo = edge.gamma_multiply(0.9);
        brush.painter.galley_with_override_text_color(corner + by, std::sync::Arc::clone(&galley), halo);
    }
    brush.painter.galley(corner, galley, fill);
    let r = font.size * 0.28;
    inks::sign(brush.painter, (fill, edge), ink, at - vec2(r * 2.2, 0.0), r);
}

/// A cone as it stands: a slim triangle with a stripe on a flat foot.
fn cone(brush: &Brush<'_>, ink: Ink, c: Pos2) {
    let (fill, edge) = inks::colors(&brush.theme.court, ink);
    let r = thing_radius(brush);
    let stroke = Stroke::new(1.6, edge);
    let foot = Rect::from_center_size(c + vec2(0.0, r * 0.72), vec2(r * 2.1, r * 0.5));
    brush.painter.rect(foot, CornerRadius::same((r * 0.2) as u8), fill, stroke, StrokeKind::Middle);
    let (top, wide) = (c - vec2(0.0, r * 1.25), r * 0.72);
    let body =
        vec![top + vec2(r * 0.16, 0.0), c + vec2(wide, r * 0.55), c + vec2(-wide, r * 0.55), top - vec2(r * 0.16, 0.0)];
    brush.painter.add(Shape::convex_polygon(body, fill, stroke));
    let stripe = [c + vec2(-r * 0.42, -r * 0.2), c + vec2(r * 0.42, -r * 0.2)];
    brush.painter.line_segment(stripe, Stroke::new(r * 0.3, edge));
    badge(brush, ink, c, r);
}

/// A basket: a tub with three balls on top.
fn basket(brush: &Brush<'_>, ink: Ink, c: Pos2) {
    let (fill, edge) = inks::colors(&brush.theme.court, ink);
    let r = thing_radius(brush) * 1.1;
    let stroke = Stroke::new(1.6, edge);
    for x in [-0.55, 0.55, 0.0] {
        let ball = c + vec2(x * r, if x.abs() < 0.1 { -r * 0.75 } else { -r * 0.5 });
        brush.painter.circle(ball, r * 0.42, *brush.theme.court.ball, Stroke::new(1.3, *brush.theme.court.hitter_ink));
    }
    let tub =
        vec![c + vec2(-r, -r * 0.3), c + vec2(r, -r * 0.3), c + vec2(r * 0.7, r * 0.95), c + vec2(-r * 0.7, r * 0.95)];
    brush.painter.add(Shape::convex_polygon(tub, fill, stroke));
    for x in [-0.35, 0.35] {
        let bar = [c + vec2(x * r * 1.2, -r * 0.1), c + vec2(x * r, r * 0.75)];
        brush.painter.line_segment(bar, Stroke::new(r * 0.16, edge));
    }
    badge(brush, ink, c, r);
}

/// A person: the letter on the sign of the ink, on a rounded square in plain ink.
fn person(brush: &Brush<'_>, ink: Ink, c: Pos2, letter: &str) {
    let (fill, edge) = inks::colors(&brush.theme.court, ink);
    let r = thing_radius(brush) * 1.25;
    if ink == Ink::Plain || ink == Ink::Ball {
        let square = Rect::from_center_size(c, Vec2::splat(r * 1.9));
        brush.painter.rect(
            square,
            CornerRadius::same((r * 0.5) as u8),
            fill,
            Stroke::new(1.8, edge),
            StrokeKind::Middle,
        );
    } else {
        inks::sign(brush.painter, (fill, edge), ink, c, r * 1.1);
    }
    let font = FontId::new((r * if letter.chars().count() > 1 { 0.95 } else { 1.3 }).round(), fonts::strong());
    let middle = if ink == Ink::Warning { c + vec2(0.0, r * 0.2) } else { c };
    brush.painter.text(middle, Align2::CENTER_CENTER, letter, font, edge);
}

/// The sign of the ink at the foot of a thing.
fn badge(brush: &Brush<'_>, ink: Ink, c: Pos2, r: f32) {
    let colors = inks::colors(&brush.theme.court, ink);
    inks::sign(brush.painter, colors, ink, c + vec2(r * 1.15, r * 0.9), (r * 0.36).max(3.6));
}

fn zone(brush: &Brush<'_>, ink: Ink, from: DVec2, to: DVec2, round: bool) {
    let (fill, edge) = inks::colors(&brush.theme.court, ink);
    let rect = Rect::from_two_pos(brush.point(from), brush.point(to));
    let (center, half) = (rect.center(), rect.size() / 2.0);
    let ground = fill.gamma_multiply(0.2);
    let outline = if round {
        (0..=64).map(|i| center + half * Vec2::angled(std::f32::consts::TAU * i as f32 / 64.0)).collect()
    } else {
        vec![rect.left_top(), rect.right_top(), rect.right_bottom(), rect.left_bottom(), rect.left_top()]
    };
    brush.painter.add(Shape::convex_polygon(outline.clone(), ground, Stroke::NONE));
    inks::hatch(brush, ink, center, half, round);
    brush.cased(&outline, Stroke::new(brush.theme.m.stroke.medium, fill), edge, Dash::Solid);
    let sign_at = if round { center - vec2(0.0, half.y) } else { rect.left_top() };
    inks::sign(brush.painter, (fill, edge), ink, sign_at, 5.0 * brush.growth());
}

/// Area of a mark on the screen.
#[must_use]
pub fn bounds(brush: &Brush<'_>, form: &Form) -> Rect {
    match form {
        Form::Text { at, text, size } => {
            let font = FontId::new(text_height(brush, *size), fonts::strong());
            let galley = brush.painter.layout_no_wrap(text.clone(), font.clone(), *brush.theme.court.ink);
            Rect::from_min_size(brush.point(*at) - vec2(0.0, font.size * 0.6), galley.size())
        }
        other => {
            let points = brush.points(other.outline());
            let rect = Rect::from_points(&points);
            if other.standing_at().is_some() { rect.expand(thing_radius(brush) * 1.4) } else { rect }
        }
    }
}

/// Most places that labels avoid: on a page with more there is no room anyway.
const COVERED: usize = 300;

/// Areas that labels avoid: things, other words, and lines in small pieces.
#[must_use]
pub fn covered(brush: &Brush<'_>, marks: &Marks) -> Vec<Rect> {
    let mut rects = Vec::new();
    for mark in marks.shown() {
        match &mark.form {
            Form::Zone { .. } => {}
            Form::Pen { .. } | Form::Arrow { .. } => {
                let points = brush.points(mark.form.outline());
                for pair in points.windows(2) {
                    let pieces = (pair[0].distance(pair[1]) / 14.0).ceil().clamp(1.0, 60.0);
                    let at = |i: usize| pair[0].lerp(pair[1], i as f32 / pieces);
                    rects.extend((0..pieces as usize).map(|i| super::touch_rect(at(i), 6.0)));
                }
            }
            other => rects.push(bounds(brush, other)),
        }
        if rects.len() >= COVERED {
            break;
        }
    }
    rects.truncate(COVERED);
    rects
}

/// Highlight of a chosen mark: a dashed frame, or for a line dashed lines on both sides.
pub fn chosen(brush: &Brush<'_>, mark: &Mark) {
    beside(brush, mark, Dash::Pattern(brush.theme.m.pattern.dotted));
}

/// From when on a chosen mark is there in a presentation, quietly above it.
pub fn appears(brush: &Brush<'_>, mark: &Mark, said: &str) {
    let font = FontId::proportional(brush.theme.m.text.small);
    let galley = brush.painter.layout_no_wrap(said.to_owned(), font, *brush.theme.court.ink);
    let corner = bounds(brush, &mark.form).expand(8.0).left_top() - vec2(0.0, galley.size().y + 2.0);
    let rect = Rect::from_min_size(corner, galley.size()).expand2(vec2(4.0, 1.0));
    brush.painter.rect_filled(rect, brush.theme.m.radius.small, *brush.theme.court.halo);
    brush.painter.galley(corner, galley, *brush.theme.court.ink);
}

/// Highlight of a mark under the pointer.
pub fn pointed_at(brush: &Brush<'_>, mark: &Mark) {
    beside(brush, mark, Dash::Solid);
}

fn beside(brush: &Brush<'_>, mark: &Mark, dash: Dash) {
    let color = *brush.theme.court.ink;
    if !matches!(mark.form, Form::Pen { .. } | Form::Arrow { .. }) {
        let rect = bounds(brush, &mark.form).expand(6.0);
        let corners = [rect.left_top(), rect.right_top(), rect.right_bottom(), rect.left_bottom(), rect.left_top()];
        return brush.cased(&corners, Stroke::new(brush.theme.m.stroke.thin, color), *brush.theme.court.halo, dash);
    }
    let points = brush.points(mark.form.outline());
    for side in [-7.0, 7.0] {
        let along = |i: usize| (points[(i + 1).min(points.len() - 1)] - points[i.saturating_sub(1)]).normalized();
        let moved: Vec<Pos2> = (0..points.len()).map(|i| points[i] + along(i).rot90() * side).collect();
        brush.cased(&moved, Stroke::new(brush.theme.m.stroke.thin, color), *brush.theme.court.halo, dash);
    }
}

/// A dashed frame.
pub fn frame(brush: &Brush<'_>, rect: Rect, color: Color32) {
    let corners = [rect.left_top(), rect.right_top(), rect.right_bottom(), rect.left_bottom(), rect.left_top()];
    let stroke = Stroke::new(brush.theme.m.stroke.thin, color);
    brush.stroke(&corners, Stroke::new(stroke.width + 2.0, *brush.theme.court.halo), Dash::Solid);
    brush.stroke(&corners, stroke, Dash::Pattern(brush.theme.m.pattern.dashed));
}
