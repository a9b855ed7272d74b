//! An invented session as a CSV file on the standard output.
//!
//! `cargo run --release -p standpoint-board --example invented_chart -- [SEED [POINTS [ROWS]]]`
//!
//! The near player recovers where the model says, the far one always to the middle. With ROWS the points are
//! repeated, as further sessions, up to that number of rows: a file to measure the audit's speed and memory.

#![allow(clippy::unwrap_used, reason = "an example says what it could not do, and ends")]

use std::io::{BufWriter, Write as _, stdout};

use standpoint_board::chart::{Chart, Setup};
use standpoint_charting::{
    import::{Mapping, write_chart},
    invented::{self, Habit},
};

fn main() {
    let numbers: Vec<u64> = std::env::args().skip(1).map(|word| word.parse().unwrap()).collect();
    let number = |i: usize, usual: u64| numbers.get(i).copied().unwrap_or(usual);
    let chart =
        invented::chart(&Setup::default(), number(0, 7), number(1, 60) as usize, [Habit::EXPERT, Habit::MIDDLE]);
    let wanted = number(2, 0) as usize;
    let repeats = wanted.div_ceil(chart.shots().max(1)).max(1);
    let mut out = BufWriter::new(stdout().lock());
    for repeat in 0..repeats {
        let mut part = Vec::new();
        write_chart(&named(&chart, repeat, wanted), &Mapping::default(), &mut part).unwrap();
        let text = String::from_utf8(part).unwrap();
        let rows = text.lines().skip(usize::from(repeat > 0));
        let heading = usize::from(repeat == 0);
        let left = if wanted == 0 { usize::MAX } else { wanted - repeat * chart.shots() + heading };
        rows.take(left).for_each(|row| writeln!(out, "{row}").unwrap());
    }
    out.flush().unwrap();
}

/// The chart, its sessions named after the repeat.
fn named(chart: &Chart, repeat: usize, wanted: usize) -> Chart {
    let mut chart = chart.clone();
    if wanted > 0 {
        chart.points.iter_mut().for_each(|point| point.session = format!("week {}", repeat + 1));
    }
    chart
}
