//! What recovering away from the spot costs, in words.

use standpoint_language::{tr, within};

use crate::{
    session::{Elsewhere, Session},
    words,
};

/// Smallest gap that is mentioned, m.
pub const LEAST_GAP: f64 = 0.05;

/// Cost of the place, and the reply that punishes it.
#[must_use]
pub fn describe(elsewhere: &Elsewhere, session: &Session) -> (String, String) {
    let chosen = &elsewhere.chosen;
    let more = chosen.place.exposure - elsewhere.spot.place.exposure;
    let first = tr!("the opponent wins {} in 100, {}", words::points(chosen.place.exposure), words::more_points(more));
    let reply = words::reply(chosen.reply.name);
    let second = if chosen.uncovered >= LEAST_GAP {
        tr!("{}: {} uncovered", reply, words::length(chosen.uncovered, session.units()))
    } else {
        format!("{reply}: {}", words::spare(chosen.reply.time_to_spare))
    };
    (first, second)
}

/// The cost as sentences.
#[must_use]
pub fn sentence(elsewhere: &Elsewhere, session: &Session) -> String {
    let (first, second) = describe(elsewhere, session);
    tr!("Recovering there instead: {} against the spot. The reply that punishes it, {}", first, within(&second))
}
