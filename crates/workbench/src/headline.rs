//! The sentence over the court, in a coach’s words, and what it means.

use standpoint_geometry::answer::{Outcome, Play};
use standpoint_language::{text, tr};

use crate::{
    elsewhere,
    session::Session,
    words::{self, SHORT},
};

/// How the sentence is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// An answer.
    Answer,
    /// The shot cannot be played as it stands.
    Refusal,
}

/// The sentence in a coach's words.
#[must_use]
pub fn sentence(session: &Session) -> (String, Tone) {
    if let Some(ended) = session.ended() {
        return (tr!("This shot never comes: {}", ended), Tone::Refusal);
    }
    if let Some(refusal) = session.refusal() {
        let (what, _) = words::refusal(refusal, session.units());
        return (tr!("This shot cannot be played: {}", what), Tone::Refusal);
    }
    let said = match session.answer().map(|answer| &answer.outcome) {
        Some(Outcome::Play(play)) => {
            let (court, units) = (session.court(), session.units());
            if session.coached_hits() {
                words::stand(play.spot.place, session.hitter_end(), &court, units)
            } else {
                let place = words::place(play.spot.place, session.hitter_end(), &court, units);
                tr!("{0} belongs {1}", hitter_name(session), place)
            }
        }
        Some(Outcome::Winner { late_by, .. }) if session.coached_hits() => {
            let late = words::seconds(*late_by);
            match seldom_in(session).map(words::percent) {
                Some(seldom) => tr!("A winner, but only {0} go in: the opponent is {1} too late", seldom, late),
                None => tr!("A winner: the opponent is {} too late", late),
            }
        }
        Some(Outcome::Winner { late_by, .. }) => {
            tr!("A winner by {0}: {1} too late to be reached", hitter_name(session), words::seconds(*late_by))
        }
        Some(Outcome::NoReply(_)) => text("The opponent reaches it, but no reply is likely to go in").to_owned(),
        None => text("No shot on this page").to_owned(),
    };
    (said, Tone::Answer)
}

/// How often the shot goes in, when it more often does not.
fn seldom_in(session: &Session) -> Option<f64> {
    session.answer().map(|answer| answer.shot.chance_in).filter(|chance| *chance < 0.5)
}

/// The name of the player who hits.
fn hitter_name(session: &Session) -> &str {
    &session.board().card(session.hitter_end()).name
}

/// What the sentence means, or what can be done about it.
#[must_use]
pub fn explanation(session: &Session) -> String {
    if session.ended().is_some() {
        return text("Change the shots before it, or let it start by itself (G)").to_owned();
    }
    if let Some(elsewhere) = session.what_if() {
        return elsewhere::sentence(elsewhere, session);
    }
    if let Some(refusal) = session.refusal() {
        return words::refusal(refusal, session.units()).1;
    }
    match session.answer().map(|answer| &answer.outcome) {
        Some(Outcome::Play(play)) if session.coached_hits() => stakes(play, session),
        Some(Outcome::Play(play)) => tr!("The other player’s place: {}", stakes(play, session)),
        Some(Outcome::Winner { .. }) if !session.coached_hits() => {
            text("Look at the shot before: it left too much open").to_owned()
        }
        Some(Outcome::Winner { .. }) => text("Recover to the middle at leisure: nothing comes back").to_owned(),
        Some(Outcome::NoReply(receipt)) => {
            tr!("They meet it on the {} under full pressure", words::wing(receipt.wing))
        }
        None => String::new(),
    }
}

fn stakes(play: &Play, session: &Session) -> String {
    let lost = words::points(play.spot.exposure);
    let middle = words::points(play.middle.exposure);
    let run = &play.recovery;
    if run.short_by <= SHORT {
        return tr!("{0} points in 100 are lost from there, {1} from the middle", lost, middle);
    }
    let short = words::length(run.short_by, session.units());
    let cost = words::decimal(run.extra_exposure * 100.0, 0);
    tr!(
        "{0} points in 100 are lost from there, {1} from the middle; you get {2} short of it, and lose {3} more",
        lost,
        middle,
        short,
        cost
    )
}
