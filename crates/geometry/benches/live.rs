//! One whole answer after a change of the target, on one core.
//!
//! `cargo bench -p standpoint-geometry --bench live`, or with `-- Club` at the end the drag of one level alone.
//!
//! For each level: the usual drag (a drive on a full court whose target moves a little from frame to frame), and a place
//! judged in the same situations as an audit does; then random situations of every kind. Medians are told, with the median
//! of each situation's quickest run, which a busy machine disturbs less. Wanted: at most 2 ms for the drag.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a benchmark says what it measured, or fails")]

use std::{hint::black_box, time::Instant};

use glam::{dvec2, dvec3};
use standpoint_geometry::{Level, Situation, Solver, Surface};

#[path = "../../../tests/tests/outside/situations.rs"]
#[allow(dead_code, reason = "the tests use more of it")]
mod situations;

/// Frames of the drag, random situations, and runs of each.
const FRAMES: usize = 120;
const RANDOM: usize = 60;
const RUNS: usize = 7;

fn main() {
    let mut solver = Solver::new();
    let only = std::env::args().skip(1).find(|a| !a.starts_with('-'));
    for level in [Level::Club, Level::Tournament, Level::ProMan, Level::ProWoman] {
        if only.as_ref().is_some_and(|o| *o != format!("{level:?}")) {
            continue;
        }
        let frames: Vec<Situation> = (0..FRAMES).map(|i| frame(level, i)).collect();
        let basis = solver.solve(&frames[0]).unwrap().basis;
        tell(&format!("drag of a drive, {level:?} ({basis:?})"), &frames, |s| {
            black_box(solver.solve(black_box(s)).unwrap());
        });
        if only.is_some() {
            return;
        }
        tell(&format!("a place judged, {level:?}"), &frames, |s| {
            black_box(solver.judge_place(black_box(s), dvec2(0.4, -12.6), None).unwrap());
        });
    }
    let mut random = situations::Seeded(7);
    let mut some = Vec::new();
    while some.len() < RANDOM {
        let situation = random.situation();
        if solver.solve(&situation).is_ok_and(|a| a.play().is_some()) {
            some.push(situation);
        }
    }
    // A board keeps its players, court and ball while one drags; a change of them builds the strokes anew.
    let mut all = Vec::new();
    for situation in &some {
        black_box(solver.solve(situation).unwrap());
        let start = Instant::now();
        black_box(solver.solve(black_box(situation)).unwrap());
        all.push(start.elapsed().as_secs_f64());
    }
    println!("random situations, strokes known: {:.2} ms median", median(all) * 1e3);
    let start = Instant::now();
    for situation in &some {
        black_box(solver.solve(black_box(situation)).unwrap());
    }
    let each = start.elapsed().as_secs_f64() / some.len() as f64;
    println!("random situations, strokes built anew: {:.1} ms each", each * 1e3);
}

/// A drive from a little right of the middle, on the court of the level tables; its target wanders over the other half and
/// never repeats.
fn frame(level: Level, i: usize) -> Situation {
    let player = situations::right_handed(level);
    let turn = i as f64 / FRAMES as f64 * std::f64::consts::TAU;
    let target = dvec2(3.4 * turn.sin(), 8.6 + 2.2 * (2.0 * turn).cos());
    let mut s = situations::drive(player, player, dvec3(1.6, -12.1, 1.0), target);
    s.conditions.surface = Surface::from_pace(37.0);
    s
}

/// Prints the median time that a situation takes.
fn tell(what: &str, situations: &[Situation], mut run: impl FnMut(&Situation)) {
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
    println!(
        "{what}: {:.2} ms median, {:.2} ms median of each one's quickest, {:.2} ms the slowest of those",
        median(all) * 1e3,
        quiet * 1e3,
        slowest * 1e3
    );
}

fn median(mut v: Vec<f64>) -> f64 {
    v.sort_by(f64::total_cmp);
    v[v.len() / 2]
}
