//! Shots audited per second, on all cores and on one.
//!
//! `cargo bench -p standpoint-board --bench audit`

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a benchmark says what it measured, or fails")]

use std::sync::atomic::AtomicBool;
use std::time::Instant;

use standpoint_board::chart::Setup;
use standpoint_board::chart::audit::{Compare, Crew, Findings, Kept, Watch};
use standpoint_board::chart::invented::{self, Habit};

fn main() {
    let setup = Setup::default();
    let chart = invented::chart(&setup, 1, 150, [Habit::EXPERT, Habit::MIDDLE]);
    let mut bare = chart.clone();
    for shot in bare.points.iter_mut().flat_map(|point| &mut point.shots) {
        (shot.speed, shot.topspin, shot.contact_height, shot.hitter_place, shot.opponent_place) =
            (None, None, None, None, None);
    }
    println!("{} shots; median of five runs", chart.shots());
    for (what, chart) in [("everything noted", &chart), ("no speeds, heights or bodies", &bare)] {
        for threads in [0, 1] {
            let crew = Crew::new(&setup, Compare::default(), threads).unwrap();
            let mut rates: Vec<f64> = (0..5)
                .map(|_| {
                    let start = Instant::now();
                    let mut watch = Watch { progress: &mut |_| (), stop: &AtomicBool::new(false) };
                    let mut kept = Kept::default();
                    let findings: Findings = crew.audit_chart(chart, &mut kept, &mut watch).unwrap();
                    assert_eq!(findings.shots(), chart.shots() as u64);
                    chart.shots() as f64 / start.elapsed().as_secs_f64()
                })
                .collect();
            rates.sort_by(f64::total_cmp);
            let cores = if threads == 0 { "all cores" } else { "one core " };
            println!("{cores}, {what}: {:.0} shots a second", rates[2]);
        }
    }
}
