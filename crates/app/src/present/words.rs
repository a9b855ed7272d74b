//! Wording of a presentation at each step.

use standpoint_language::{text, tr, within};
use standpoint_workbench::{headline, session::Session, why, words};

use super::show::{RevealStep, Show, steps};

/// The sentence over the court, and the one below it.
#[must_use]
pub fn describe(show: &Show, session: &Session) -> (String, String) {
    let board = session.board();
    let hitter = &board.card(session.hitter_end()).name;
    let opponent = &board.card(session.hitter_end().other()).name;
    match (show.step(), session.play()) {
        (RevealStep::Answer, _) => (headline::sentence(session).0, why(session)),
        (RevealStep::Wedge, Some(play)) => {
            let width = words::decimal(play.wedge.width().to_degrees(), 0);
            (tr!("{}’s angle of replies: {}°", opponent, width), text("Which two balls would hurt most?").to_owned())
        }
        (RevealStep::Replies, Some(_)) => {
            let names: Vec<String> = session
                .best()
                .into_iter()
                .enumerate()
                .map(|(i, reply)| format!("{} {}", i + 1, words::reply(reply.name)))
                .collect();
            (tr!("The best replies: {}", names.join(", ")), question(session))
        }
        _ => (question(session), shot(session, hitter)),
    }
}

/// The cause in one sentence, or what else there is to say.
fn why(session: &Session) -> String {
    why::sentence(session)
        .filter(|_| session.play().is_some_and(|play| play.recovery.short_by <= words::SHORT))
        .unwrap_or_else(|| headline::explanation(session))
}

/// What the players are asked.
fn question(session: &Session) -> String {
    if session.coached_hits() {
        text("Where would you stand?").to_owned()
    } else {
        tr!("Where should {} recover to?", session.board().card(session.hitter_end()).name)
    }
}

/// The shot in a few words.
fn shot(session: &Session, hitter: &str) -> String {
    let Some(spec) = session.shot() else { return String::new() };
    let speed = words::speed(spec.shot.speed, session.units());
    format!("{hitter}: {}, {speed}", within(words::stroke(spec.shot.stroke)))
}

/// The title of the page, once it gives nothing away any more.
#[must_use]
pub fn title<'a>(show: &Show, session: &'a Session) -> &'a str {
    session.page().filter(|_| show.step() == RevealStep::Answer).map_or("", |page| page.title.as_str())
}

/// Where the presentation has got to.
#[must_use]
pub fn place(session: &Session) -> String {
    let at = session.selection();
    let pages = session.board().pages.len();
    let shots = session.page().map_or(0, |page| page.shots.len());
    let (page, shot) = (at.page + 1, at.shot + 1);
    match (pages > 1, shots > 1) {
        (true, true) => tr!("Page {} of {}, shot {} of {}", page, pages, shot, shots),
        (true, false) => tr!("Page {} of {}", page, pages),
        (false, true) => tr!("Shot {} of {}", shot, shots),
        (false, false) => String::new(),
    }
}

/// The effect of the next press.
#[must_use]
pub fn next(show: &Show, session: &Session) -> &'static str {
    match show.next_step(session) {
        Some(RevealStep::Shot) => text("the shot"),
        Some(RevealStep::Wedge) => text("the opponent's angle"),
        Some(RevealStep::Replies) => text("the two best replies"),
        Some(RevealStep::Answer) if session.play().is_some() => text("the zone and the spot"),
        Some(RevealStep::Answer) => text("what comes of it"),
        None => {
            let at = session.selection();
            if session.board().shot(at.page, at.shot + 1).is_some() {
                text("the next shot")
            } else if session.board().page(at.page + 1).is_some() {
                text("the next page")
            } else {
                text("nothing: this is the end")
            }
        }
    }
}

/// Which step of how many.
#[must_use]
pub fn count(show: &Show, session: &Session) -> (usize, usize) {
    let steps = steps(session);
    let done = steps.iter().filter(|step| **step <= show.step()).count();
    (done, steps.len())
}

/// The full description, for assistive technology.
#[must_use]
pub fn announced(show: &Show, session: &Session) -> String {
    if show.black {
        return text("The screen is black").to_owned();
    }
    let (first, second) = describe(show, session);
    let (step, steps) = count(show, session);
    let step = tr!("Step {} of {}", step, steps);
    let parts = [title(show, session), &place(session), &step, &first, &second].map(str::to_owned);
    parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(". ")
}
