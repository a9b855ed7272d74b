//! Players, balls, the spot and the recovery run.

use egui::{CornerRadius, Pos2, Rect, Shape, Stroke, StrokeKind, Vec2, vec2};
use glam::DVec2;
use standpoint_geometry::{Interception, Recovery};

use super::brush::{Brush, Dash, Side};

/// Radius of the spot's sign: so many times the size of letters, and at most so many metres.
const SPOT_RADIUS: (f32, f64) = (1.55, 1.0);

/// Radius of a player's mark in points.
#[must_use]
pub fn player_radius(brush: &Brush<'_>) -> f32 {
    brush.at.length(0.4).clamp(10.0, 24.0)
}

/// The hitter, by their own sign.
pub fn hitter(brush: &Brush<'_>, place: DVec2) {
    player(brush, place, Side::Hitter);
}

/// The opponent, by their own sign.
pub fn opponent(brush: &Brush<'_>, place: DVec2) {
    player(brush, place, Side::Opponent);
}

fn player(brush: &Brush<'_>, place: DVec2, side: Side) {
    if brush.is_coached(side) { disc(brush, place, side) } else { diamond(brush, place, side) }
}

/// The coached player: a light disc with shoulders towards the net.
fn disc(brush: &Brush<'_>, place: DVec2, side: Side) {
    let (ink, edge) = brush.inks(side);
    let (c, r) = (brush.point(place), player_radius(brush));
    let ahead = brush.at.screen_displacement(DVec2::new(0.0, -place.y.signum())).normalized();
    let shoulder = ahead.rot90() * r * 1.35;
    let bow = [c - shoulder, c + ahead * r * 0.55, c + shoulder];
    brush.painter.line(bow.to_vec(), Stroke::new(r * 0.62 + 2.6, edge));
    brush.painter.line(bow.to_vec(), Stroke::new(r * 0.62, ink));
    brush.painter.circle(c, r * 0.8, ink, Stroke::new(1.8, edge));
    brush.painter.circle_filled(c, r * 0.26, edge);
}

/// The other player: a dark square standing on its corner.
fn diamond(brush: &Brush<'_>, place: DVec2, side: Side) {
    let (ink, edge) = brush.inks(side);
    let (c, r) = (brush.point(place), player_radius(brush) * 1.25);
    let corners = [vec2(0.0, -r), vec2(r, 0.0), vec2(0.0, r), vec2(-r, 0.0)].map(|d| c + d);
    brush.painter.add(Shape::convex_polygon(corners.to_vec(), ink, Stroke::new(1.8, edge)));
    brush.painter.circle_filled(c, r * 0.22, edge);
}

/// The ball at a contact.
pub fn ball(brush: &Brush<'_>, place: DVec2, side: Side) {
    let edge = *brush.theme.court.hitter_ink;
    let c = brush.point(place);
    let g = brush.growth();
    brush.painter.circle(c, 6.4 * g, *brush.theme.court.ball, Stroke::new(1.8, edge));
    if side == Side::Opponent {
        brush.ring(c, 10.5 * g, 1.6, Side::Opponent);
    }
}

/// The target: a ball in a ring with four ticks.
pub fn target(brush: &Brush<'_>, place: DVec2) {
    let c = brush.point(place);
    let g = brush.growth();
    brush.ring(c, 11.0 * g, 1.8, Side::Hitter);
    let (ink, edge) = brush.inks(Side::Hitter);
    for d in [Vec2::X, Vec2::Y, -Vec2::X, -Vec2::Y] {
        let tick = [c + d * 8.0 * g, c + d * 15.0 * g];
        brush.painter.line_segment(tick, Stroke::new(3.4, edge.gamma_multiply(0.6)));
        brush.painter.line_segment(tick, Stroke::new(1.8, ink));
    }
    brush.painter.circle(c, 4.6 * g, *brush.theme.court.ball, Stroke::new(1.4, edge));
}

/// And at least so many points.
const SPOT_LEAST: f32 = 15.0;

/// Radius of the spot's sign in points: the largest sign on the court, so that it is told from afar.
#[must_use]
pub fn spot_radius(brush: &Brush<'_>) -> f32 {
    (SPOT_RADIUS.0 * brush.font().size).min(brush.at.length(SPOT_RADIUS.1)).max(SPOT_LEAST)
}

/// The spot: two feet on a disc of its own colour in two rings. Painted after everything else, so that nothing hides it.
pub fn spot(brush: &Brush<'_>, place: DVec2) {
    let (c, r) = (brush.point(place), spot_radius(brush));
    let court = &brush.theme.court;
    brush.painter.circle_filled(c, r, *court.hitter_ink);
    brush.painter.circle_filled(c, r - 1.8, *court.spot_ink);
    brush.painter.circle_filled(c, r - 4.6, *court.spot);
    let ahead = brush.at.screen_displacement(DVec2::new(0.0, -place.y.signum())).normalized();
    let side = ahead.rot90();
    for s in [-1.0, 1.0] {
        // A sole and a heel, toes towards the net.
        let foot = c + side * (s * r * 0.28);
        let sole = [foot + ahead * r * 0.34, foot - ahead * r * 0.02];
        brush.painter.line_segment(sole, Stroke::new(r * 0.30, *court.spot_ink));
        for end in sole {
            brush.painter.circle_filled(end, r * 0.15, *court.spot_ink);
        }
        brush.painter.circle_filled(foot - ahead * r * 0.36, r * 0.12, *court.spot_ink);
    }
}

/// Where the receiver of a serve waits: the opponent's corners around two feet.
pub fn waiting(brush: &Brush<'_>, place: DVec2) {
    let c = brush.point(place);
    let (ink, edge) = brush.inks(Side::Opponent);
    let r = 17.0 * brush.growth();
    for d in [Vec2::X, Vec2::Y, -Vec2::X, -Vec2::Y] {
        let (tip, across) = (c + d * r, d.rot90() * r * 0.3);
        let corner = vec![tip - d * r * 0.3 + across, tip, tip - d * r * 0.3 - across];
        brush.painter.line(corner.clone(), Stroke::new(4.4, edge));
        brush.painter.line(corner, Stroke::new(2.4, ink));
    }
    feet(brush, c, place, Side::Opponent, ink);
}

/// Where the player really gets to: two hollow feet in a broken ring.
pub fn reached(brush: &Brush<'_>, place: DVec2) {
    let c = brush.point(place);
    let (ink, edge) = brush.inks(Side::Hitter);
    for k in 0..4 {
        let from = 90.0 * k as f32 + 12.0;
        let arc: Vec<Pos2> = (0..=6).map(|i| c + Vec2::angled((from + 11.0 * i as f32).to_radians()) * 13.0).collect();
        brush.painter.line(arc.clone(), Stroke::new(4.4, edge.gamma_multiply(0.8)));
        brush.painter.line(arc, Stroke::new(2.2, ink));
    }
    feet(brush, c, place, Side::Hitter, edge);
}

fn feet(brush: &Brush<'_>, c: Pos2, place: DVec2, inks: Side, fill: egui::Color32) {
    let (ink, edge) = brush.inks(inks);
    let ahead = brush.at.screen_displacement(DVec2::new(0.0, -place.y.signum())).normalized();
    let side = ahead.rot90();
    let upright = ahead.x.abs() < 0.5;
    let g = brush.growth();
    let size = if upright { vec2(4.4, 10.0) } else { vec2(10.0, 4.4) } * g;
    for s in [-1.0, 1.0] {
        let foot = Rect::from_center_size(c + side * (s * 4.0 * g), size);
        brush.painter.rect_filled(foot.expand(2.4), CornerRadius::same(4), edge);
        brush.painter.rect(foot, CornerRadius::same(2), fill, Stroke::new(1.2, ink), StrokeKind::Inside);
    }
}

/// The run to the spot: the part that is run as a broad arrow, and the part that is missing in dots.
pub fn run(brush: &Brush<'_>, run: &Recovery, spot: DVec2) {
    let m = &brush.theme.m;
    let reached = run.reached.place;
    let short = run.short_by > 0.05;
    let tip = if short { reached } else { spot };
    let (from, to) = (brush.point(run.start), brush.point(tip));
    let along = (to - from).normalized();
    let (off, before) = (player_radius(brush), if short { 14.0 } else { spot_radius(brush) + 3.0 });
    let head = 17.0 * brush.growth();
    if along.is_finite() && (to - from).length() > off + before + head {
        let end = to - along * before;
        brush.line(&[from + along * off, end - along * head * 0.6], m.stroke.broad, Side::Hitter, Dash::Solid);
        brush.arrow_head(from, end, head, Side::Hitter);
    }
    if short {
        brush.line(&[to, brush.point(spot)], m.stroke.medium, Side::Hitter, Dash::Pattern(m.pattern.dotted));
    }
}

/// The opponent's way to the ball.
pub fn chase(brush: &Brush<'_>, from: DVec2, receipt: &Interception) {
    let m = &brush.theme.m;
    let (a, b) = (brush.point(from), brush.point(receipt.place));
    if (b - a).length() > 16.0 {
        brush.line(&[a, b], m.stroke.thin, Side::Opponent, Dash::Pattern(m.pattern.dotted));
        brush.arrow_head(a, b, 9.0, Side::Opponent);
    }
}

/// Where the opponent comes closest to a ball that gets past: a broken ring with a cross.
pub fn missed(brush: &Brush<'_>, place: DVec2) {
    let c = brush.point(place);
    let (ink, edge) = brush.inks(Side::Opponent);
    for d in [vec2(6.0, 6.0), vec2(6.0, -6.0)] {
        brush.painter.line_segment([c - d, c + d], Stroke::new(5.0, edge));
        brush.painter.line_segment([c - d, c + d], Stroke::new(2.6, ink));
    }
}

/// The ring around a thing under the pointer, held, or with the focus.
pub fn halo(brush: &Brush<'_>, center: Pos2, strong: bool) {
    let radius = brush.theme.m.touch / 2.0;
    let width = if strong { 2.6 } else { 1.4 };
    brush.painter.circle_stroke(center, radius, Stroke::new(width + 2.0, *brush.theme.court.halo));
    brush.painter.circle_stroke(center, radius, Stroke::new(width, *brush.theme.court.ink));
}
