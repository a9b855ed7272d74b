//! What is noted next, as a question, and the names of places.

use standpoint_board::chart::score::{CourtSide, ServeNumber};
use standpoint_charting::notebook::{DueServe, Notebook, ShotPlace};
use standpoint_language::{text, tr};

/// The next place, as a question.
#[must_use]
pub fn of(step: ShotPlace) -> &'static str {
    match step {
        ShotPlace::Contact => text("Where is the ball struck?"),
        ShotPlace::Landing => text("Where does it land?"),
        ShotPlace::Met => text("Where does the opponent meet it?"),
        ShotPlace::Stood => text("Where does the hitter stand now?"),
    }
}

/// Name of a place of a shot.
#[must_use]
pub fn name(step: ShotPlace) -> &'static str {
    match step {
        ShotPlace::Contact => text("Contact"),
        ShotPlace::Landing => text("Landing"),
        ShotPlace::Met => text("Opponent’s contact"),
        ShotPlace::Stood => text("Where they stood"),
    }
}

/// What is noted next.
#[must_use]
pub fn next(notes: &Notebook) -> String {
    if notes.tally().is_some_and(|tally| tally.winner().is_some()) {
        return text("The match is over").to_owned();
    }
    match notes.due_serve() {
        Some(due) => serve(&due),
        None if notes.live_step() == Some(ShotPlace::Landing) => {
            let end = notes.draft().hitter;
            let name = &notes.setup().card(notes.ends().began(end)).name;
            tr!("Where does the ball of {} land?", name)
        }
        None => of(notes.draft().step()).to_owned(),
    }
}

fn serve(due: &DueServe) -> String {
    let side = match due.side {
        CourtSide::Deuce => text("deuce side"),
        CourtSide::Ad => text("ad side"),
    };
    match due.number {
        ServeNumber::First => tr!("First serve, {}", side),
        ServeNumber::Second => tr!("Second serve, {}", side),
    }
}
