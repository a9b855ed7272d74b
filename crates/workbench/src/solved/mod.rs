//! Games solved for the exact players, court and ball in view: kept on disk, and solved in the background.

mod background;
mod shelf;

use std::sync::atomic::AtomicBool;

use standpoint_board::{Board, chart::Setup};
use standpoint_geometry::worth::{Game, Games, Matchup, load, pack, stand_in};

pub use background::{Background, Doing};
pub use shelf::{CACHE_DIR_VARIABLE, Shelf};

/// Threads that solve a game.
pub const THREADS: usize = 2;

/// The two players of a board on its court.
#[must_use]
pub fn of_board(board: &Board) -> Matchup {
    Matchup { conditions: board.conditions(), players: [board.near.player(), board.far.player()] }
}

/// The two players of a chart on its court.
#[must_use]
pub fn of_setup(setup: &Setup) -> Matchup {
    of_board(&setup.board(vec![standpoint_board::Page::blank().into()]))
}

/// Origin of an exact game.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Found {
    /// From memory.
    Known,
    /// It lay on the disk.
    Kept,
    /// It was solved.
    Solved,
}

/// Makes answers for two players use a game solved for them: from memory, else from the disk, else by
/// solving it, announced by `begin`. `None` when cancelled.
///
/// A solved game is used as it reads from the disk, so that the next run gives the same answer.
pub fn ensure(
    matchup: &Matchup,
    shelf: &Shelf,
    threads: usize,
    cancel: &AtomicBool,
    begin: impl FnOnce(),
) -> Option<Found> {
    if Games::shared().solved(matchup) {
        return Some(Found::Known);
    }
    let canonical = matchup.canonical();
    let (found, game) = find(&canonical, shelf, threads, cancel, begin)?;
    Games::shared().insert(canonical, game);
    Some(found)
}

/// The exact game of a matchup in its canonical form: from the disk, or solved and kept there.
fn find(
    canonical: &Matchup,
    shelf: &Shelf,
    threads: usize,
    cancel: &AtomicBool,
    begin: impl FnOnce(),
) -> Option<(Found, Game)> {
    if let Some(game) = shelf.take(canonical) {
        return Some((Found::Kept, game));
    }
    begin();
    Some((Found::Solved, solve(canonical, shelf, threads, cancel)?))
}

/// Solves a matchup in its canonical form and keeps it.
fn solve(canonical: &Matchup, shelf: &Shelf, threads: usize, cancel: &AtomicBool) -> Option<Game> {
    let (mut game, _) = stand_in(canonical);
    if !game.solve(threads, cancel) {
        return None;
    }
    let bytes = pack(canonical, &game);
    // A game that cannot be kept is solved again the next time.
    let _ = shelf.put(canonical, &bytes);
    Some(load(canonical, &bytes).unwrap_or(game))
}
