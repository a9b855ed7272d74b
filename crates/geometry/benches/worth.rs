//! The solve of a rally between two players: from nothing, and from the table of the nearest level.
//!
//! `cargo bench -p standpoint-geometry --bench worth`
//!
//! Wanted: at most 5 s on two cores for a pair that differs from every level.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a benchmark says what it measured, or fails")]

use std::{sync::atomic::AtomicBool, time::Instant};

use standpoint_geometry::{
    Level,
    worth::{Behaviour, Game, Matchup, Simulation, load, matchup, pack, stand_in},
};

fn main() {
    let threads = std::thread::available_parallelism().map_or(1, usize::from).min(2);
    println!("{threads} threads");
    for (name, pair) in [("the men's level against itself", matchup(Level::ProMan)), ("a pair of its own", odd_pair())]
    {
        let Matchup { conditions, players: [a, b] } = &pair;
        let start = Instant::now();
        let game = Game::new(conditions, [a, b], &Behaviour::default(), 0.48);
        println!("{name}: strokes built in {:.0} ms", start.elapsed().as_secs_f64() * 1e3);
        solve(&format!("{name}, from nothing"), game, threads);
        let (game, basis) = stand_in(&pair);
        let game = solve(&format!("{name}, from the nearest level ({basis:?})"), game, threads);
        let start = Instant::now();
        let bytes = pack(&pair, &game);
        let packed = start.elapsed();
        let start = Instant::now();
        load(&pair, &bytes).unwrap();
        println!(
            "{name}: {} kB, packed in {:.0} ms, read in {:.0} ms",
            bytes.len() / 1000,
            packed.as_secs_f64() * 1e3,
            start.elapsed().as_secs_f64() * 1e3
        );
    }
    let (game, _) = stand_in(&matchup(Level::ProMan));
    let mut simulation = Simulation::new(&game, 1);
    let mut rows = Vec::new();
    let start = Instant::now();
    for n in 0..200 {
        simulation.point(n, (n as usize / 2) % 2, n % 2 == 1, &mut rows);
    }
    println!("200 points on one core: {:.1} s, {} strokes", start.elapsed().as_secs_f64(), rows.len());
}

/// Two players unlike every level, and each other: a left-hander with a weak backhand against a slow one.
fn odd_pair() -> Matchup {
    let level = matchup(Level::Tournament);
    let [mut a, mut b] = level.players;
    a = a.mirrored();
    a.backhand.speed *= 0.8;
    b.movement.v_max *= 0.85;
    Matchup { players: [a, b], ..level }
}

fn solve(what: &str, mut game: Game, threads: usize) -> Game {
    let start = Instant::now();
    assert!(game.solve(threads, &AtomicBool::new(false)), "cancelled");
    println!("{what}: {:.2} s, {} rounds, last change {:.4}", start.elapsed().as_secs_f64(), game.rounds, game.change);
    game
}
