//! A moment of the rally that is played: the ball with its shadow and its trail, and where the players are.

use egui::{Align2, Color32, Pos2, Shape, Stroke, Vec2, vec2};
use glam::{DVec2, DVec3};
use standpoint_board::{marks::Marks, playback::Moment};
use standpoint_geometry::End;
use standpoint_language::text;
use standpoint_workbench::session::Session;

use super::{
    brush::{Brush, Side},
    court, inks, marks, sketch,
};

/// Opacity of the answer while the rally is played.
pub const DIM: f32 = 0.32;
/// Length of the trail, s, and its pieces.
const TRAIL: (f64, usize) = (0.4, 20);
/// Where the shadow falls for each metre of height, in metres on the ground as seen on the screen.
const SHADOW: Vec2 = vec2(0.34, 0.26);
/// How much larger the ball is for each metre of height.
const NEARER: f32 = 0.28;

/// Paints the moment, the net and the marks.
pub fn paint(brush: &Brush<'_>, session: &Session, drawn: Option<&Marks>, moment: &Moment) {
    if let Some(drawn) = drawn {
        sketch::zones(brush, drawn);
    }
    court::net(brush, &session.court());
    if let Some(drawn) = drawn {
        sketch::marks(brush, drawn);
    }
    let place = |end| if end == End::Near { moment.near } else { moment.far };
    let coached = session.board().coached;
    trail(brush, session, moment);
    shadow(brush, moment.ball);
    // The players keep their looks while they take turns: the coached one has those of the hitter.
    marks::opponent(brush, place(coached.other()));
    marks::hitter(brush, place(coached));
    for end in [End::Near, End::Far] {
        name(brush, place(end), end, &session.board().card(end).name);
    }
    if moment.split {
        split(brush, brush.point(place(hitter_end(session, moment))));
    }
    ball(brush, moment.ball);
}

/// The end from which the ball in flight was struck.
fn hitter_end(session: &Session, moment: &Moment) -> End {
    session.rally().get(moment.shot).map_or(End::Near, |resolved| resolved.spec.hitter_end)
}

/// A name behind its player, or over them where the court lies, and always on the canvas.
fn name(brush: &Brush<'_>, place: DVec2, end: End, name: &str) {
    let behind = brush.at.screen_displacement(DVec2::new(0.0, -end.sign())).normalized();
    let galley = brush.text(name, *brush.theme.court.ink);
    let away = marks::player_radius(brush) * 1.6 + galley.size().y / 2.0;
    let side = if behind.y.abs() > 0.5 { behind } else { -Vec2::Y };
    let room = brush.painter.clip_rect().shrink2(galley.size() / 2.0 + Vec2::splat(4.0));
    let at = room.clamp(brush.point(place) + side * away);
    brush.haloed(at, Align2::CENTER_CENTER, &galley);
}

/// The last moments of the ball: thinner and fainter the longer ago.
fn trail(brush: &Brush<'_>, session: &Session, moment: &Moment) {
    let Some(now) = session.playback().time else { return };
    let timeline = session.timeline();
    let at = |i: usize| {
        let before = now - TRAIL.0 * i as f64 / TRAIL.1 as f64;
        (before >= 0.0).then(|| timeline.at(before)).flatten().map(|then| brush.point(then.ball.truncate()))
    };
    let c = &brush.theme.court;
    let color = inks::seen(c, *c.ball, *c.hitter_ink);
    let mut last = brush.point(moment.ball.truncate());
    for (i, point) in (1..=TRAIL.1).map_while(|i| at(i).map(|p| (i, p))) {
        let part = 1.0 - i as f32 / TRAIL.1 as f32;
        brush
            .painter
            .line_segment([last, point], Stroke::new(1.0 + 5.0 * part, color.gamma_multiply(0.15 + 0.6 * part)));
        last = point;
    }
}

fn size(brush: &Brush<'_>, height: f32) -> f32 {
    6.4 * brush.growth() * (1.0 + NEARER * height.max(0.0))
}

/// The shadow on the ground: away from the ball with its height, and softer.
fn shadow(brush: &Brush<'_>, ball: DVec3) {
    let height = ball.z.max(0.0) as f32;
    let at = brush.point(ball.truncate()) + SHADOW * brush.at.length(f64::from(height));
    let dark = *brush.theme.court.hitter_ink;
    let r = 5.4 * brush.growth() * (1.0 + 0.12 * height);
    let strength = (0.6 - 0.08 * height).clamp(0.18, 0.6);
    brush.painter.add(Shape::ellipse_filled(at, vec2(r * 1.15, r * 0.75), dark.gamma_multiply(strength)));
}

fn ball(brush: &Brush<'_>, ball: DVec3) {
    let edge: Color32 = *brush.theme.court.hitter_ink;
    let at = brush.point(ball.truncate());
    brush.painter.circle(at, size(brush, ball.z as f32), *brush.theme.court.ball, Stroke::new(1.8, edge));
}

/// The split step: two chevrons at either side of the feet, and the word.
fn split(brush: &Brush<'_>, feet: Pos2) {
    let r = marks::player_radius(brush) * 1.7;
    for side in [-1.0, 1.0] {
        for step in [0.0, 6.0] {
            let tip = feet + vec2(side * (r + step + 5.0), 0.0);
            let arms = [tip + vec2(-side * 5.0, -8.0), tip, tip + vec2(-side * 5.0, 8.0)];
            brush.line(&arms, 2.4, Side::Hitter, super::brush::Dash::Solid);
        }
    }
    let word = brush.text(text("split step"), *brush.theme.court.ink);
    brush.haloed(feet + vec2(r + 18.0, 0.0), Align2::LEFT_CENTER, &word);
}
