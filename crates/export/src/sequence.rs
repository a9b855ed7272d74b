//! The shots of a page in their order, in words.

use standpoint_board::Board;
use standpoint_geometry::{End, Outcome};
use standpoint_language::{text, tr};
use standpoint_sheet::{Column, Table};
use standpoint_workbench::{phrases, selection::Selection, session::Session, words};

/// The rally as a table: player, stroke, target, speed and outcome.
#[must_use]
pub fn table(session: &mut Session, page: usize) -> Table {
    let mut table = Table::new([
        Column::right(text("No.")),
        Column::left(text("Player")),
        Column::left(text("Shot")),
        Column::left(text("Lands (as the player sees it)")),
        Column::left(text("Then")),
    ]);
    let before = session.selection();
    let shots = session.board().page(page).map_or(0, |page| page.shots.len());
    for shot in 0..shots {
        session.select(Selection { page, shot });
        table.row(row(session, shot));
    }
    session.select(before);
    table
}

fn row(session: &Session, shot: usize) -> [String; 5] {
    let Some(spec) = session.shot() else { return Default::default() };
    let (board, units, court) = (session.board(), session.units(), session.court());
    let stroke = spec.shot.stroke;
    let said = format!("{}, {}", words::stroke(stroke), words::speed(spec.shot.speed, units));
    let target = phrases::target(spec.hitter_end.turn2(spec.shot.target), &court, stroke, units);
    [(shot + 1).to_string(), player(board, spec.hitter_end), said, target, then(session)]
}

/// The only shot of a page in a line: who, what, how fast, where to.
#[must_use]
pub fn only(session: &Session) -> Option<String> {
    session.shot()?;
    let [_, player, said, target, _] = row(session, 0);
    Some(format!("{player}: {said}; {target}"))
}

/// What to call the player at an end.
#[must_use]
pub fn player(board: &Board, end: End) -> String {
    let name = board.card(end).name.trim();
    if name.is_empty() {
        match end {
            End::Near => text("The near player").to_owned(),
            End::Far => text("The far player").to_owned(),
        }
    } else {
        name.to_owned()
    }
}

/// Outcome of the shot being looked at.
fn then(session: &Session) -> String {
    let units = session.units();
    if let Some(ended) = session.ended() {
        return tr!("Point already over: {}", ended);
    }
    if let Some(refusal) = session.refusal() {
        return tr!("Cannot be played: {}", words::refusal(refusal, units).0);
    }
    let Some(answer) = session.answer() else { return String::new() };
    match &answer.outcome {
        Outcome::Play(play) => {
            let place = words::place(play.spot.place, session.hitter_end(), &session.court(), units);
            let short = play.recovery.short_by;
            if short > words::SHORT {
                tr!("To {}; does not get there by {}", place, words::length(short, units))
            } else {
                tr!("To {}", place)
            }
        }
        Outcome::Winner { .. } => text("A winner").to_owned(),
        Outcome::NoReply(_) => text("No reply is likely to go in").to_owned(),
    }
}
