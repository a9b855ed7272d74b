//! Time to the first coarse pass of the aim map and to the whole map, with the window's worker.
//!
//! The aims are 100 ms and 1 s on two cores.

#![allow(clippy::unwrap_used, reason = "a measurement that fails says where")]
#![allow(clippy::print_stdout, reason = "the figures are what it is for")]

use std::{
    thread,
    time::{Duration, Instant},
};

use standpoint_board::Board;
use standpoint_workbench::compare::{
    scheduler::{CompareScheduler, Needs},
    state::CompareState,
    worker::Worker,
};

/// Maps measured, after one to warm up.
const RUNS: usize = 15;

fn main() {
    let mut situation = Board::demo().situation(0, 0).unwrap();
    let mut worker = Worker::new(|| ());
    let (mut scheduler, state) = (CompareScheduler::default(), CompareState::default());
    let needs = Needs { map: true, ..Needs::default() };
    let (mut first, mut whole) = (Vec::new(), Vec::new());
    for run in 0..=RUNS {
        // A new contact each time, so that nothing is cached.
        situation.shot.contact.x += 0.05;
        situation.hitter_place.x += 0.05;
        let began = Instant::now();
        let (orders, _) = scheduler.update(run as f64, Some(&situation), &state, needs);
        let (orders, _) = if orders.is_empty() {
            scheduler.update(run as f64 + 0.5, Some(&situation), &state, needs)
        } else {
            (orders, None)
        };
        for order in orders {
            worker.start(order.kind, order.round, order.works);
        }
        let mut coarse = None;
        while scheduler.map_part() < 1.0 {
            for report in worker.take() {
                scheduler.take(report);
            }
            if coarse.is_none() && scheduler.map_is_fresh() {
                coarse = Some(began.elapsed());
            }
            thread::sleep(Duration::from_micros(200));
        }
        if run > 0 {
            first.push(coarse.unwrap_or_default());
            whole.push(began.elapsed());
        }
    }
    let cells = scheduler.map().unwrap().map().worth.len();
    let millis = |d: Duration| d.as_secs_f64() * 1e3;
    println!("first coarse map: median {:.0} ms (aim 100)", millis(median(&mut first)));
    println!("whole map, {cells} targets: median {:.0} ms (aim 1000)", millis(median(&mut whole)));
}

fn median(times: &mut [Duration]) -> Duration {
    times.sort();
    times[times.len() / 2]
}
