//! All shots of a rally at once, by their numbers, without an answer: for a sheet, where nothing can be played.

use egui::{Align2, Pos2, Stroke};
use standpoint_geometry::Outcome;
use standpoint_workbench::session::Session;

use super::{
    brush::{Brush, Dash, Side},
    court, marks, sketch,
};

/// Paints the court with what is drawn on it and the shots that are known, in their order.
pub fn paint(brush: &Brush<'_>, session: &Session) {
    let lines = session.court();
    court::ground(brush, &lines);
    court::lines(brush, &lines);
    if let Some(drawn) = session.marks() {
        sketch::zones(brush, drawn);
    }
    court::net(brush, &lines);
    let coached = session.board().coached;
    let side = |end| if end == coached { Side::Hitter } else { Side::Opponent };
    for resolved in session.rally() {
        let Ok(answer) = &resolved.result else { break };
        let until = match &answer.outcome {
            Outcome::Play(play) => play.receipt.time,
            Outcome::NoReply(receipt) => receipt.time,
            Outcome::Winner { .. } => answer.shot.path.last().map_or(0.0, |point| point.time),
        };
        way(brush, &answer.shot, until, side(resolved.spec.hitter_end));
    }
    if let Some(first) = session.rally().first() {
        let hitter = session.board().hitter_place(&first.spec);
        let (near, far) = if first.spec.hitter_end == coached {
            (hitter, first.spec.opponent_place)
        } else {
            (first.spec.opponent_place, hitter)
        };
        marks::opponent(brush, far);
        marks::hitter(brush, near);
    }
    if let Some(drawn) = session.marks() {
        sketch::marks(brush, drawn);
    }
    for (i, resolved) in session.rally().iter().enumerate() {
        let at = brush.point(resolved.spec.shot.contact.truncate());
        number(brush, at, i + 1, side(resolved.spec.hitter_end));
    }
}

/// A shot to where it bounces in one stroke, then to where it is met in dashes.
fn way(brush: &Brush<'_>, shot: &standpoint_geometry::ShotFlight, until: f64, side: Side) {
    let m = &brush.theme.m;
    let landing = shot.landing;
    let seen = |from: f64, to: f64| {
        let within = shot.path.iter().filter(move |p| p.time >= from - 1e-9 && p.time <= to + 1e-9);
        brush.points(within.map(|p| p.point.truncate()))
    };
    let bounce = brush.point(landing.place);
    let mut first = seen(0.0, landing.time.min(until));
    if until >= landing.time {
        first.push(bounce);
        let mut second = vec![bounce];
        second.extend(seen(landing.time, until));
        brush.line(&second, m.stroke.medium, side, Dash::Pattern(m.pattern.dashed));
    }
    brush.line(&first, m.stroke.bold, side, Dash::Solid);
    if let [.., before, tip] = first[..] {
        brush.arrow_head(before, tip, 14.0, side);
    }
}

/// The number of a shot where it is struck.
fn number(brush: &Brush<'_>, center: Pos2, number: usize, side: Side) {
    let (ink, edge) = brush.inks(side);
    brush.painter.circle(center, 11.0 * brush.growth(), ink, Stroke::new(1.6, edge));
    let galley = brush.text(number.to_string(), edge);
    let corner = Align2::CENTER_CENTER.anchor_size(center, galley.size()).min;
    brush.painter.galley(corner, galley, edge);
}
