//! What the habits of an opponent change, in words.

use glam::DVec2;
use standpoint_board::{KnownHabits, Units};
use standpoint_geometry::{End, HabitCase, HabitUsed, Play, Way};
use standpoint_language::{text, tr};

use crate::{session::Session, words};

/// A smaller shift to a side is not told, m: it is below the digit that is shown.
const ASIDE: f64 = 0.05;
/// Nor a smaller one in depth, m: depth is flat.
const IN_DEPTH: f64 = 0.3;

/// The sentence of the answer in view, where habits of the other player are known and count.
#[must_use]
pub fn sentence(session: &Session) -> Option<String> {
    let play = session.play().filter(|_| session.what_if().is_none())?;
    let end = session.hitter_end();
    describe(play, &session.board().card(end.other()).name, end, session.units())
}

/// What the habits of the opponent changed: how often they go which way, from how many shots, and by how much the spot
/// moved. `None` where nothing was counted in this case.
#[must_use]
pub fn describe(play: &Play, opponent: &str, end: End, units: Units) -> Option<String> {
    let used = play.habit.as_ref()?;
    let seen: u32 = used.counts.iter().sum();
    if seen == 0 {
        return None;
    }
    let way = clearest(used);
    let (count, tenth) = (used.counts[way as usize], words::decimal(10.0 * used.shares[way as usize], 0));
    let goes = tr!("{0} {1} {2} times in 10", opponent, does(used.case, way), tenth);
    let when = match used.case {
        HabitCase::Rally(_, _, true) => text("under pressure"),
        HabitCase::Rally(_, _, false) => text("with time"),
        HabitCase::Serve { second: false, .. } => text("with the first serve"),
        HabitCase::Serve { second: true, .. } => text("with the second serve"),
    };
    Some(tr!("{0} {1} ({2} of {3} seen): {4}", goes, when, count, seen, moved(used, play.spot.place, end, units)))
}

/// The way that is chosen more often than the model expects by most.
fn clearest(used: &HabitUsed) -> Way {
    let more = |way: &Way| used.shares[*way as usize] - used.expected[*way as usize];
    Way::ALL.into_iter().max_by(|a, b| more(a).total_cmp(&more(b))).unwrap_or(Way::Across)
}

fn does(case: HabitCase, way: Way) -> &'static str {
    match (case, way) {
        (HabitCase::Rally(..), Way::Across) => text("goes cross-court"),
        (HabitCase::Rally(..), Way::Middle) => text("goes through the middle"),
        (HabitCase::Rally(..), Way::Line) => text("goes down the line"),
        (HabitCase::Serve { .. }, Way::Across) => text("serves wide"),
        (HabitCase::Serve { .. }, Way::Middle) => text("serves at the body"),
        (HabitCase::Serve { .. }, Way::Line) => text("serves to the T"),
    }
}

/// How far the spot moved, as the player at `end` sees it.
fn moved(used: &HabitUsed, spot: DVec2, end: End, units: Units) -> String {
    let by = end.turn2(spot - used.without.place);
    let mut said = Vec::new();
    if by.x.abs() >= ASIDE {
        let far = words::length(by.x.abs(), units);
        said.push(if by.x > 0.0 { tr!("{} further right", far) } else { tr!("{} further left", far) });
    }
    if by.y.abs() >= IN_DEPTH {
        let far = words::length(by.y.abs(), units);
        said.push(if by.y > 0.0 { tr!("{} further forward", far) } else { tr!("{} further back", far) });
    }
    if said.is_empty() { text("the spot stays where it is").to_owned() } else { said.join(", ") }
}

/// What habits were counted from: `Ivo Tander: 84 strokes and 31 serves in 3 matches, the last on 2026-05-10`.
#[must_use]
pub fn origin(known: &KnownHabits) -> String {
    let mut shots = [0u64; 2];
    for case in standpoint_geometry::ReplyHabits::cases() {
        let counted: u64 = known.counts.counts(case).into_iter().map(u64::from).sum();
        shots[usize::from(matches!(case, HabitCase::Serve { .. }))] += counted;
    }
    let strokes = tr!("one stroke" | "{n} strokes" % shots[0] as usize);
    let serves = tr!("one serve" | "{n} serves" % shots[1] as usize);
    let matches = tr!("one match" | "{n} matches" % known.matches as usize);
    match known.last {
        Some(date) => tr!("{0}: {1} and {2} in {3}, the last on {4}", known.of, strokes, serves, matches, date),
        None => tr!("{0}: {1} and {2} in {3}", known.of, strokes, serves, matches),
    }
}
