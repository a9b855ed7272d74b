//! One whole answer after a change of the target, on one core, and the brute-force reference in the same run.
//!
//! `cargo bench -p standpoint-geometry --bench live`
//!
//! Four numbers: the usual drag (a drive on a full court whose target moves a little from frame to frame), a place judged
//! in the same situations as an audit does, random situations of every kind, and how many times as long the brute force
//! takes on some of those. Medians are told, with the least, which a busy machine disturbs less.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a benchmark says what it measured, or fails")]

use std::{hint::black_box, time::Instant};

use glam::{dvec2, dvec3};
use standpoint_geometry::{
    oracle::{Fineness, Oracle},
    presets::Level,
    situation::Situation,
    solver::Solver,
};

#[path = "../../../tests/tests/outside/situations.rs"]
#[allow(dead_code, reason = "the tests use more of it")]
mod situations;

/// Frames of the drag, random situations, runs of each, and situations given to the brute force.
const FRAMES: usize = 120;
const RANDOM: usize = 200;
const RUNS: usize = 7;
const SLOW: usize = 3;

fn main() {
    let mut solver = Solver::new();
    for level in [Level::Club, Level::ProMan] {
        let frames: Vec<Situation> = (0..FRAMES).map(|i| frame(level, i)).collect();
        tell(&format!("drag of a drive, {level:?}"), &frames, |s| {
            black_box(solver.solve(black_box(s)).unwrap());
        });
        tell(&format!("a place judged, {level:?}"), &frames, |s| {
            black_box(solver.judge_place(black_box(s), dvec2(0.4, -12.6), None).unwrap());
        });
    }
    let mut random = situations::Seeded(7);
    let mut some = Vec::new();
    while some.len() < RANDOM {
        let situation = random.situation();
        if situation.conditions.law == standpoint_geometry::flight::FlightLaw::SpinDependent
            && solver.solve(&situation).is_ok_and(|a| a.play().is_some())
        {
            some.push(situation);
        }
    }
    // A board keeps its ball and air while one drags; a change of them builds the flights anew, which is told apart.
    let usual = situations::usual_conditions();
    let same: Vec<Situation> = some
        .iter()
        .map(|s| {
            let mut s = *s;
            (s.conditions.air, s.conditions.ball) = (usual.air, usual.ball);
            s
        })
        .filter(|s| solver.solve(s).is_ok_and(|a| a.play().is_some()))
        .collect();
    let fast = tell("random situations", &same, |s| {
        black_box(solver.solve(black_box(s)).unwrap());
    });
    let slow = median(
        same.iter()
            .take(SLOW)
            .map(|s| {
                let start = Instant::now();
                let oracle = Oracle::new(s, Fineness::default()).unwrap().unwrap();
                black_box(oracle.solve());
                start.elapsed().as_secs_f64()
            })
            .collect(),
    );
    println!("brute force: {:.0} ms, {:.0} times as long", slow * 1e3, slow / fast);
}

/// A drive from a little right of the middle; its target wanders over the court and never repeats.
fn frame(level: Level, i: usize) -> Situation {
    let player = situations::right_handed(level);
    let turn = i as f64 / FRAMES as f64 * std::f64::consts::TAU;
    let target = dvec2(3.4 * turn.sin(), 8.6 + 2.2 * (2.0 * turn).cos());
    situations::drive(player, player, dvec3(1.6, -12.1, 1.0), target)
}

/// Prints and returns the median time that a situation takes, s.
fn tell(what: &str, situations: &[Situation], mut run: impl FnMut(&Situation)) -> f64 {
    let mut all = Vec::new();
    let mut least = vec![f64::INFINITY; situations.len()];
    for _ in 0..RUNS {
        for (situation, least) in situations.iter().zip(&mut least) {
            let start = Instant::now();
            run(situation);
            let took = start.elapsed().as_secs_f64();
            *least = least.min(took);
            all.push(took);
        }
    }
    let quiet = median(least.clone());
    let slowest = least.iter().copied().fold(0.0, f64::max);
    let all = median(all);
    println!(
        "{what}: {:.2} ms median, {:.2} ms median of each one's quickest, {:.2} ms the slowest of those",
        all * 1e3,
        quiet * 1e3,
        slowest * 1e3
    );
    all
}

fn median(mut v: Vec<f64>) -> f64 {
    v.sort_by(f64::total_cmp);
    v[v.len() / 2]
}
