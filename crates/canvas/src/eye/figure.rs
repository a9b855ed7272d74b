//! A player as a figure that stands on the court, with their sign on the chest.

use egui::{Pos2, Shape, Stroke, Vec2, vec2};
use glam::{DVec2, DVec3};

use super::film::Film;
use crate::brush::Side;

/// A figure is never smaller than this, points.
const LEAST: f32 = 34.0;
/// Radius of a ball as painted, m: larger than it is, to be seen from across the court.
const BALL: f32 = 0.11;

/// A player.
pub(super) struct Figure {
    pub place: DVec2,
    /// Stature, m.
    pub tall: f64,
    pub side: Side,
    /// A ball being struck.
    pub ball: Option<DVec3>,
}

impl Figure {
    /// Paints the figure as seen from the camera.
    pub fn paint(&self, film: &Film<'_, '_>) {
        let feet = self.place.extend(0.0);
        let (Some(at), Some(scale)) = (film.point(feet), film.scale(feet)) else { return };
        let height = (self.tall as f32 * scale).max(LEAST);
        let up = |x: f32, part: f32| at + vec2(x * height, -part * height);
        let (ink, edge) = film.brush.inks(self.side);
        let painter = film.brush.painter;
        let shadow = film.brush.theme.court.hitter_ink.gamma_multiply(0.3);
        painter.add(Shape::ellipse_filled(at, vec2(height * 0.2, height * 0.05), shadow));
        let ball = self.ball.and_then(|ball| film.point(ball));
        let shoulder = up(0.0, 0.78);
        // The racket reaches for the ball.
        let hand = ball.map(|ball| shoulder + (ball - shoulder) * 0.55);
        let limbs: Vec<(Pos2, Pos2, f32)> = [
            (up(-0.1, 0.0), up(-0.03, 0.5), 0.085),
            (up(0.1, 0.0), up(0.03, 0.5), 0.085),
            (up(0.0, 0.5), up(0.0, 0.76), 0.2),
        ]
        .into_iter()
        .chain(hand.map(|hand| (shoulder, hand, 0.065)))
        .collect();
        for (from, to, width) in &limbs {
            painter.line_segment([*from, *to], Stroke::new(width * height + 3.0, edge));
        }
        let head = up(0.0, 0.915);
        painter.circle(head, height * 0.085, ink, Stroke::new(1.6, edge));
        for (from, to, width) in &limbs {
            painter.line_segment([*from, *to], Stroke::new(width * height, ink));
        }
        self.sign(film, up(0.0, 0.64), height * 0.085);
        if let (Some(hand), Some(ball)) = (hand, ball) {
            racket(film, hand, ball, height, (ink, edge));
            let r = (BALL * scale).max(4.5);
            let c = &film.brush.theme.court;
            painter.circle(ball, r, *c.ball, Stroke::new(1.4, *c.hitter_ink));
        }
    }

    fn sign(&self, film: &Film<'_, '_>, at: Pos2, r: f32) {
        let (_, edge) = film.brush.inks(self.side);
        if film.brush.is_coached(self.side) {
            film.brush.painter.circle_filled(at, r * 0.8, edge);
        } else {
            let corners = [vec2(0.0, -r), vec2(r, 0.0), vec2(0.0, r), vec2(-r, 0.0)].map(|d| at + d);
            film.brush.painter.add(Shape::convex_polygon(corners.to_vec(), edge, Stroke::NONE));
        }
    }
}

fn racket(film: &Film<'_, '_>, hand: Pos2, ball: Pos2, height: f32, (ink, edge): (egui::Color32, egui::Color32)) {
    let along = (ball - hand).normalized();
    if !along.is_finite() || along == Vec2::ZERO {
        return;
    }
    let painter = film.brush.painter;
    let r = height * 0.075;
    let neck = ball - along * r;
    painter.line_segment([hand, neck], Stroke::new(4.4, edge));
    painter.line_segment([hand, neck], Stroke::new(2.4, ink));
    painter.circle_stroke(ball, r, Stroke::new(4.0, edge));
    painter.circle_stroke(ball, r, Stroke::new(2.0, ink));
}
