//! The headline over the court, and the line that explains it.

use standpoint_geometry::{Outcome, Play, Stroke};
use standpoint_language::{text, tr};

use crate::{
    elsewhere, habits,
    session::Session,
    standing, why,
    words::{self, SHORT},
};

/// Kind of headline.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// An answer.
    Answer,
    /// The shot cannot be played as it stands.
    Refusal,
}

/// The headline as a sentence.
#[must_use]
pub fn sentence(session: &Session) -> (String, Tone) {
    if let Some(ended) = session.ended() {
        return (tr!("The point is already over: {}", ended), Tone::Refusal);
    }
    if let Some(refusal) = session.refusal() {
        let (what, _) = words::refusal(refusal, session.units());
        return (tr!("This shot cannot be played: {}", what), Tone::Refusal);
    }
    let said = match session.answer().map(|answer| &answer.outcome) {
        Some(Outcome::Play(play)) => {
            let (court, units, end) = (session.court(), session.units(), session.hitter_end());
            let short = play.recovery.short_by > SHORT;
            let reached = || words::place(play.recovery.reached.place, end, &court, units);
            match (session.coached_hits(), short) {
                (true, false) => standing::stand(play, end, &court, units),
                (true, true) => tr!("Get as far as {}", reached()),
                (false, false) => {
                    tr!("{0} should stand {1}", hitter_name(session), standing::place(play, end, &court, units))
                }
                (false, true) => tr!("{0} gets as far as {1}", hitter_name(session), reached()),
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

/// A shot this many times as fast as the player usually hits is named. A choice: the spread has grown visibly by then.
const VERY_FAST: f64 = 1.3;

/// What is wrong with the picture although there is an answer: the hitter is too far from the ball, or the shot is beyond
/// the player.
#[must_use]
pub fn warning(session: &Session) -> Option<String> {
    apart(session).or_else(|| too_fast(session))
}

/// A hitter who stands where the ball cannot be reached.
fn apart(session: &Session) -> Option<String> {
    let spec = session.shot()?;
    let (place, card) = (spec.hitter_place?, session.board().card(spec.hitter_end));
    let reach = card.player().reach;
    let away = place.distance(spec.shot.contact.truncate());
    let most = reach.forehand.max(reach.backhand).max(reach.ahead);
    (away > most).then(|| {
        let length = words::length(away, session.units());
        tr!("{0} stands {1} from the ball and cannot reach it; Shift+R puts the hitter beside it", card.name, length)
    })
}

/// A shot beyond what the player usually hits.
fn too_fast(session: &Session) -> Option<String> {
    let spec = session.shot()?;
    let card = session.board().card(spec.hitter_end);
    let player = card.player();
    let usual = match spec.shot.stroke {
        Stroke::Serve => player.serve.first_speed,
        Stroke::Overhead => 1.25 * player.forehand.speed,
        _ => player.forehand.speed.max(player.backhand.speed),
    };
    (spec.shot.speed > VERY_FAST * usual).then(|| {
        let speed = words::speed(usual, session.units());
        tr!("Out of reach for most shots of {0}, who usually hits {1}", card.name, speed)
    })
}

/// Note for answers based on the nearest level; `solving` while an exact game is being computed.
#[must_use]
pub fn basis(session: &Session, solving: bool) -> Option<&'static str> {
    session.is_estimate().then(|| {
        if solving {
            text("Estimate for the nearest level; working it out for these players…")
        } else {
            text("Estimate for the nearest level")
        }
    })
}

/// Chance that the shot goes in, if that is below one half.
fn seldom_in(session: &Session) -> Option<f64> {
    session.answer().map(|answer| answer.shot.chance_in).filter(|chance| *chance < 0.5)
}

/// The name of the player who hits.
fn hitter_name(session: &Session) -> &str {
    &session.board().card(session.hitter_end()).name
}

/// Explanation of the headline, or the remedy.
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
        Some(Outcome::Play(play)) => {
            let cause = why::sentence(session).filter(|_| play.recovery.short_by <= SHORT);
            // Habits that count are the cause that a person asks for.
            match habits::sentence(session).or(cause) {
                Some(cause) => format!("{cause}. {}", stakes(play, session)),
                None => stakes(play, session),
            }
        }
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

/// Points the other player wins: from the spot, or from the reachable place and from the spot beyond it.
fn stakes(play: &Play, session: &Session) -> String {
    let run = &play.recovery;
    let coached = session.coached_hits();
    if run.short_by <= SHORT {
        let spot = words::of_hundred(play.spot.exposure);
        let middle = words::points(play.middle.exposure);
        return if coached {
            tr!("The opponent wins {0} against you there, {1} in the middle", spot, middle)
        } else {
            tr!("You win {0} against them there, {1} in the middle", spot, middle)
        };
    }
    let reached = words::of_hundred(run.reached.exposure);
    let best = standing::place(play, session.hitter_end(), &session.court(), session.units());
    let there = words::points(play.spot.exposure);
    if coached {
        tr!("The opponent wins {0} there; best, but out of reach: {1}, {2} in 100", reached, best, there)
    } else {
        tr!("You win {0} there; best, but out of reach: {1}, {2} in 100", reached, best, there)
    }
}
