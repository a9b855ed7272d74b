//! The compared shots: each with its letter, its pattern, and the places of both players.

use egui::{Align2, CornerRadius, Pos2, Rect, Stroke, StrokeKind, Vec2, vec2};
use glam::DVec2;
use standpoint_geometry::{Answer, Choice, Outcome, Weighed};
use standpoint_language::tr;
use standpoint_ui::theme::Theme;
use standpoint_workbench::{
    compare::{
        Comparison,
        scheduler::Row,
        state::{CompareState, Item},
        words as said,
    },
    words,
};

use super::OverlayView;
use crate::{
    brush::{Brush, Dash, Side},
    labels::{LabelId, Placer, Wish},
    touch_rect,
};

/// The line pattern of a shot by its rank; the letter tells what the patterns do not.
#[must_use]
pub fn dash(theme: &Theme, rank: usize) -> Dash {
    let p = &theme.m.pattern;
    Dash::Pattern([p.long, p.dotted, p.dash_dot, p.dashed][rank % 4])
}

/// The shots on the court that can be played, with their ranks.
fn playable(comparison: &Comparison) -> impl Iterator<Item = (usize, &Row, &Weighed, &Answer)> {
    comparison.beside().into_iter().enumerate().filter_map(|(rank, row)| {
        let weighed = row.weighed()?;
        let (_, answer) = weighed.result.as_ref().ok()?;
        Some((rank, row, weighed, answer))
    })
}

/// Paths, landings and spots.
pub fn paint(brush: &Brush<'_>, view: OverlayView<'_>) {
    for (rank, row, _, answer) in playable(view.comparison) {
        // The drawn shot is on the court already.
        if row.item != Item::Usual(Choice::AsDrawn) {
            flight(brush, rank, answer);
        }
        recovery(brush, rank, answer);
    }
    for target in &view.comparison.state().targets {
        let place = view.session.hitter_end().turn2(target.seen);
        brush.ring(brush.point(place), 13.0 * brush.growth(), 1.6, Side::Hitter);
    }
    for (_, _, _, answer) in playable(view.comparison) {
        brush.bounce(brush.point(answer.shot.landing.place), Side::Hitter);
    }
}

/// The path to the bounce, and thinner from there to the opponent.
fn flight(brush: &Brush<'_>, rank: usize, answer: &Answer) {
    let (m, dash) = (&brush.theme.m.stroke, dash(brush.theme, rank));
    let until = match &answer.outcome {
        Outcome::Play(play) => play.receipt.time,
        Outcome::NoReply(receipt) => receipt.time,
        Outcome::Winner { .. } => f64::INFINITY,
    };
    let shot = &answer.shot;
    let part = |from: f64, to: f64| {
        let inside = shot.path.iter().filter(move |p| p.time >= from && p.time <= to);
        inside.map(|p| p.point.truncate())
    };
    let landing = shot.landing;
    let volleyed = until < landing.time;
    let first: Vec<DVec2> = part(0.0, landing.time.min(until)).chain((!volleyed).then_some(landing.place)).collect();
    brush.line(&brush.points(first), m.medium, Side::Hitter, dash);
    if !volleyed {
        let second: Vec<DVec2> = std::iter::once(landing.place).chain(part(landing.time, until)).collect();
        brush.line(&brush.points(second), m.thin, Side::Hitter, dash);
    }
    if let Outcome::Play(play) = &answer.outcome {
        brush.ring(brush.point(play.receipt.contact.truncate()), 5.0 * brush.growth(), 1.8, Side::Opponent);
    }
}

/// The run to the spot of this shot, as far as it goes in time, and the spot.
fn recovery(brush: &Brush<'_>, rank: usize, answer: &Answer) {
    let Some(play) = answer.play() else { return };
    let run = &play.recovery;
    let (m, dash) = (&brush.theme.m, dash(brush.theme, rank));
    let (from, to) = (brush.point(run.start), brush.point(run.reached.place));
    if from.distance(to) > 30.0 {
        let clear = (to - from).normalized() * 15.0;
        brush.line(&[from + clear, to], m.stroke.thin, Side::Hitter, dash);
    }
    if run.short_by > standpoint_workbench::words::SHORT {
        brush.line(
            &brush.points([run.reached.place, play.spot.place]),
            m.stroke.thin,
            Side::Hitter,
            Dash::Pattern(m.pattern.dotted),
        );
        brush.ring(to, 5.0, m.stroke.thin, Side::Hitter);
    }
    let spot = brush.point(play.spot.place);
    let (ink, edge) = brush.inks(Side::Hitter);
    let square = Rect::from_center_size(spot, Vec2::splat(9.0 * brush.growth()));
    brush.painter.rect(square, CornerRadius::ZERO, ink, Stroke::new(1.8, edge), StrokeKind::Outside);
}

#[derive(Clone, Copy, PartialEq)]
enum Shape {
    /// Where the ball lands: round.
    Landing,
    /// Where to stand: square.
    Spot,
}

/// A letter on the court.
fn badge(brush: &Brush<'_>, center: Pos2, rank: usize, shape: Shape) {
    let (ink, edge) = brush.inks(Side::Hitter);
    let radius = 9.0 * brush.growth();
    match shape {
        Shape::Landing => {
            brush.painter.circle(center, radius, ink, Stroke::new(1.6, edge));
        }
        Shape::Spot => {
            let square = Rect::from_center_size(center, Vec2::splat(1.8 * radius));
            brush.painter.rect(square, CornerRadius::same(2), ink, Stroke::new(1.6, edge), StrokeKind::Outside);
        }
    }
    let galley = brush.text(CompareState::letter(rank).to_string(), edge);
    let corner = Align2::CENTER_CENTER.anchor_size(center, galley.size()).min;
    brush.painter.galley(corner, galley, edge);
}

/// Areas that labels must not cover.
pub fn obstacles(brush: &Brush<'_>, comparison: &Comparison) -> Vec<Rect> {
    let places = playable(comparison).flat_map(|(_, _, _, answer)| {
        let spot = answer.play().map(|play| play.spot.place);
        [Some(answer.shot.landing.place), spot]
    });
    places.flatten().map(|place| touch_rect(brush.point(place), 11.0 * brush.growth())).collect()
}

/// The names with what they win, and the letters of the spots.
pub fn tags(brush: &Brush<'_>, placer: &mut Placer, comparison: &Comparison) {
    for (rank, row, weighed, answer) in playable(comparison) {
        if let Some(play) = answer.play() {
            let size = Vec2::splat(21.0 * brush.growth());
            let anchor = brush.point(play.spot.place);
            let wish = Wish { id: LabelId::GhostSpot(rank), anchor, size, gap: 7.0 * brush.growth(), beside: false };
            if let Some(rect) = placer.place(&wish) {
                badge(brush, rect.center(), rank, Shape::Spot);
            }
        }
        let win = weighed.win().map(words::points).unwrap_or_default();
        let text = tr!("{}: {} in 100", said::label(row.item), win);
        let galley = brush.text(text, *brush.theme.court.ink);
        let anchor = brush.point(answer.shot.landing.place);
        let disc = 22.0 * brush.growth();
        let size = vec2(galley.size().x + disc + 6.0, galley.size().y.max(disc));
        if let Some(rect) =
            placer.place(&Wish { id: LabelId::Ghost(rank), anchor, size, gap: 9.0 * brush.growth(), beside: false })
        {
            badge(brush, rect.left_center() + vec2(disc / 2.0, 0.0), rank, Shape::Landing);
            brush.haloed(rect.left_center() + vec2(disc + 3.0, 0.0), Align2::LEFT_CENTER, &galley);
        }
    }
}
