//! The played-out rally: the worth of a ball, compared with published aggregates and common practice.
//!
//! Aggregates: `tests/data/rally`, see the README there. Everything runs on the shipped tables of the levels.

mod choices;
mod places;
mod played;
mod sides;
mod solved;
mod table;

use std::sync::LazyLock;

use standpoint_geometry::{
    Level,
    worth::{Basis, Game, PlayedStroke, Simulation, matchup, stand_in},
};

/// The professional levels, which the aggregates are about, with their group in the tables.
const PROFESSIONAL: [(Level, &str); 2] = [(Level::ProMan, "men"), (Level::ProWoman, "women")];

/// The solved game of a level; fails when its shipped table no longer fits the model.
fn solved(level: Level) -> Game {
    let (game, basis) = stand_in(&matchup(level));
    assert_eq!(
        basis,
        Basis::Solved,
        "{level:?}: the shipped table was solved for another model: run scripts/level-tables"
    );
    game
}

/// Simulated points of each professional level.
const POINTS: u32 = 6000;
static PLAYED: [LazyLock<Vec<PlayedStroke>>; 2] = [LazyLock::new(|| play(0)), LazyLock::new(|| play(1))];

/// The strokes of simulated points of a professional level, in order.
fn played(group: usize) -> &'static [PlayedStroke] {
    &PLAYED[group]
}

fn play(group: usize) -> Vec<PlayedStroke> {
    let game = solved(PROFESSIONAL[group].0);
    std::thread::scope(|scope| {
        let halves = [0, 1].map(|half| {
            let game = &game;
            scope.spawn(move || {
                let mut simulation = Simulation::new(game, 20 + u64::from(half));
                let mut rows = Vec::new();
                for n in (0..POINTS).filter(|n| n % 2 == half) {
                    // Server and side alternate in the shares of a match.
                    assert!(simulation.point(n, (n as usize / 8) % 2, (n / 2) % 2 == 1, &mut rows));
                }
                rows
            })
        });
        halves.into_iter().flat_map(|half| half.join().expect("no panic")).collect()
    })
}
