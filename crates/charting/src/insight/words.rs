//! Findings in words: one sentence each, with certainty and number of shots.

use standpoint_geometry::{Stroke, Wing};
use standpoint_language::{decimal, text, tr};

use super::{Axis, Change, Insight, Measure, ShotGroup};
use crate::audit::{Direction, FromSide, Length, Pressure, Role};
use crate::stats::Estimate;

/// A finding as a sentence.
#[must_use]
pub fn sentence(insight: &Insight) -> String {
    let metres = decimal(insight.error.value.abs(), 1);
    let which = match (insight.axis, insight.error.value > 0.0) {
        (Axis::Across, true) => tr!("stands {} m too far right", metres),
        (Axis::Across, false) => tr!("stands {} m too far left", metres),
        (Axis::Along, true) => tr!("stands {} m too deep", metres),
        (Axis::Along, false) => tr!("stands {} m too far forward", metres),
    };
    let hundred = |share: f64| decimal(100.0 * share, 0);
    let range = |of: Estimate, unit: f64, digits: usize| {
        tr!("{} to {}", decimal(of.low * unit, digits), decimal(of.high * unit, digits))
    };
    tr!(
        "{}: {} ({}): {} given away ({}), {} elsewhere; {} shots",
        capital(&group(&insight.group)),
        which,
        range(insight.error, 1.0, 1),
        tr!("{n} point in 100" | "{n} points in 100" % (100.0 * insight.cost.value).round() as i64),
        range(insight.cost, 100.0, 0),
        hundred(insight.cost_elsewhere.value),
        insight.shots
    )
}

/// The text as a sentence begins.
fn capital(text: &str) -> String {
    let mut rest = text.chars();
    rest.next().map_or_else(String::new, |first| first.to_uppercase().chain(rest).collect())
}

/// A difference in a coach's words: the first compared with the second.
#[must_use]
pub fn change(change: &Change) -> String {
    let (unit, digits) = if change.measure == Measure::Cost { (100.0, 0) } else { (1.0, 1) };
    let value = |of: Estimate| decimal(of.value * unit, digits);
    let range =
        tr!("{} to {}", decimal(change.difference.low * unit, digits), decimal(change.difference.high * unit, digits));
    let (first, second, shots) = (value(change.first), value(change.second), change.shots);
    let group = capital(&group(&change.group));
    let said = match change.measure {
        Measure::Across => tr!("{0}: {1} m to the right of the best place, here {2} m", group, first, second),
        Measure::Along => tr!("{0}: {1} m too deep, here {2} m", group, first, second),
        Measure::Cost => tr!("{0}: {1} points in 100 given away, here {2}", group, first, second),
    };
    tr!("{0} (difference {1}; {2} and {3} shots)", said, range, shots.0, shots.1)
}

/// A group in words.
#[must_use]
pub fn group(group: &ShotGroup) -> String {
    let parts = [
        group.wing.map(wing),
        group.stroke.map(stroke),
        group.direction.map(direction),
        group.side.map(side),
        group.pressure.map(pressure),
        group.length.map(|length| match length {
            Length::Short => text("in the first four strokes"),
            Length::Middle => text("from the fifth to the eighth stroke"),
            Length::Long => text("from the ninth stroke on"),
        }),
        group.role.map(|role| match role {
            Role::Serving => text("in own service games"),
            Role::Receiving => text("when receiving"),
        }),
    ];
    let said: Vec<&str> = parts.into_iter().flatten().collect();
    if said.is_empty() { text("All shots").to_owned() } else { said.join(", ") }
}

/// A wing, as the first word.
#[must_use]
pub fn wing(wing: Wing) -> &'static str {
    match wing {
        Wing::Forehand => text("Forehand"),
        Wing::Backhand => text("Backhand"),
    }
}

/// The side of the court that a ball was struck from.
#[must_use]
pub fn side(side: FromSide) -> &'static str {
    match side {
        FromSide::Left => text("from the left"),
        FromSide::Middle => text("from the middle"),
        FromSide::Right => text("from the right"),
    }
}

/// Whether a stroke was hurried.
#[must_use]
pub fn pressure(pressure: Pressure) -> &'static str {
    match pressure {
        Pressure::AtEase => text("with time"),
        Pressure::Hurried => text("under pressure"),
    }
}

fn stroke(stroke: Stroke) -> &'static str {
    match stroke {
        Stroke::Topspin => text("topspin"),
        Stroke::Flat => text("flat"),
        Stroke::Slice => text("slice"),
        Stroke::Drop => text("drop shot"),
        Stroke::Lob => text("lob"),
        Stroke::Volley => text("volley"),
        Stroke::Overhead => text("overhead"),
        Stroke::Serve => text("serve"),
    }
}

fn direction(direction: Direction) -> &'static str {
    match direction {
        Direction::CrossCourt => text("cross-court"),
        Direction::DownTheLine => text("down the line"),
        Direction::Middle => text("through the middle"),
        Direction::InsideOut => text("inside-out"),
        Direction::InsideIn => text("inside-in"),
        Direction::ServeMiddle => text("serve down the T"),
        Direction::ServeBody => text("serve at the body"),
        Direction::ServeWide => text("serve wide"),
    }
}
