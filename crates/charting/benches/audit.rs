//! Shots audited per second, on all cores and on one.
//!
//! `cargo bench -p standpoint-board --bench audit`
//!
//! Two rates are printed: by wall-clock time, which suffers on a busy machine, and by processor time of this process
//! (on Linux), which suffers much less. The second is for one core.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a benchmark says what it measured, or fails")]

use std::fs;
use std::sync::atomic::AtomicBool;
use std::time::Instant;

use standpoint_board::Page;
use standpoint_board::chart::{Chart, Setup};
use standpoint_charting::audit::{CollectedShots, Compare, Crew, Watch};
use standpoint_charting::invented::{self, Habit};
use standpoint_geometry::Solver;

/// Runs of each kind; the median counts.
const RUNS: usize = 5;

fn main() {
    let setup = Setup::default();
    let chart = invented::chart(&setup, 1, 100, [Habit::EXPERT, Habit::MIDDLE]);
    let mut bare = chart.clone();
    for shot in bare.points.iter_mut().flat_map(|point| &mut point.shots) {
        (shot.speed, shot.topspin, shot.contact_height) = (None, None, None);
        (shot.hitter_place, shot.opponent_place) = (None, None);
    }
    println!("{} shots; median of {RUNS} runs", chart.shots());
    answers(&setup, &chart);
    for (what, chart) in [("everything noted", &chart), ("no speeds, heights or bodies", &bare)] {
        for threads in [0, 1] {
            let crew = Crew::new(&setup, Compare::default(), threads).unwrap();
            let cores = if threads == 0 { "all cores" } else { "one core" };
            tell(&format!("audit on {cores}, {what}"), chart.shots(), || {
                let kept = audited(&crew, chart);
                assert_eq!(kept.shots.len(), chart.shots());
            });
        }
    }
}

fn audited(crew: &Crew, chart: &Chart) -> CollectedShots {
    let mut watch = Watch { progress: &mut |_| (), stop: &AtomicBool::new(false) };
    let mut kept = CollectedShots::default();
    crew.audit_chart(chart, &mut kept, &mut watch).unwrap();
    kept
}

/// For comparison: whole answers for the same shots, as the window computes them.
fn answers(setup: &Setup, chart: &Chart) {
    let kept = audited(&Crew::new(setup, Compare::default(), 0).unwrap(), chart);
    let board = setup.board(vec![Page::blank().into()]);
    let judged = kept.shots.iter().filter_map(|shot| shot.judged()).take(300);
    let situations: Vec<_> = judged.map(|judged| board.situation_of(&judged.spec)).collect();
    let mut solver = Solver::new();
    tell("whole answers on one core", situations.len(), || {
        situations.iter().for_each(|situation| drop(solver.solve(situation).unwrap()));
    });
}

/// Runs work on a number of shots, and prints the rates.
fn tell(what: &str, shots: usize, mut run: impl FnMut()) {
    let rate = |seconds: f64| shots as f64 / seconds;
    let mut rates: Vec<(f64, f64)> = (0..RUNS)
        .map(|_| {
            let (start, worked) = (Instant::now(), worked());
            run();
            (rate(start.elapsed().as_secs_f64()), worked.zip(self::worked()).map_or(f64::NAN, |(a, b)| rate(b - a)))
        })
        .collect();
    let mut median = |of: fn(&(f64, f64)) -> f64| {
        rates.sort_by(|a, b| of(a).total_cmp(&of(b)));
        of(&rates[RUNS / 2])
    };
    println!("{what}: {:.0} a second by the clock, {:.0} by processor time", median(|r| r.0), median(|r| r.1));
}

/// Processor time of this process, all threads together, s.
fn worked() -> Option<f64> {
    let stat = fs::read_to_string("/proc/self/stat").ok()?;
    // The name in parentheses may hold blanks; user and system time are the 12th and 13th fields after it, in ticks of
    // a hundredth of a second.
    let mut fields = stat.rsplit_once(')')?.1.split_whitespace().skip(11);
    let ticks: f64 = [fields.next()?, fields.next()?].iter().filter_map(|field| field.parse::<f64>().ok()).sum();
    Some(ticks / 100.0)
}
