//! Times to write, read, save, open and undo a large board of 200 pages of 20 shots with 2,000 marks; also to
//! change.
//!
//! `cargo bench -p standpoint-board --bench large`

#![allow(clippy::print_stdout, reason = "the figures are what it is for")]
#![allow(clippy::unwrap_used, reason = "a benchmark that cannot do its work has failed")]

use std::hint::black_box;
use std::time::Instant;

use large_board::{MARKS, PAGES, SHOTS, board};
use standpoint_board::{Board, History, check, file, store};

#[path = "shared/large_board.rs"]
mod large_board;

/// Median of several runs, ms.
fn median<T>(what: &str, runs: usize, mut run: impl FnMut() -> T) -> f64 {
    let mut times: Vec<f64> = (0..runs)
        .map(|_| {
            let start = Instant::now();
            black_box(run());
            start.elapsed().as_secs_f64() * 1e3
        })
        .collect();
    times.sort_by(f64::total_cmp);
    let median = times[runs / 2];
    println!("{what:<44} {median:>9.3} ms");
    median
}

fn main() {
    let board = board();
    let text = file::to_text(&board).unwrap();
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("large.standpoint");
    println!("{PAGES} pages of {SHOTS} shots with {} marks, {} kB; medians", PAGES * MARKS, text.len() / 1000);
    median("check everything", 11, || check::check(&board));
    median("write the text", 11, || file::to_text(&board).unwrap());
    median("read the text", 11, || file::from_text(&text).unwrap());
    median("save to the disk", 11, || store::save_board(&path, &board).unwrap());
    let open = median("open from the disk", 11, || store::open_board(&path).unwrap());
    println!("{:<44} {}", "  within 1 s", if open <= 1000.0 { "yes" } else { "NO" });
    let mut history = History::new(board.clone(), 0_usize);
    let mut number = 0;
    let mut edit = |board: &mut Board| {
        number += 1;
        let page = number % PAGES;
        board.shot_mut(page, number % SHOTS).unwrap().shot.target.x = -2.0 + (number % 100) as f64 * 0.01;
    };
    median("an edit as one step", 1001, || history.apply("Move target", 0, &mut edit));
    median("tidy up after a gesture", 101, || {
        let mut after = history.doc().clone();
        after.tidy();
        after
    });
    median("undo", 501, || history.undo());
    median("redo", 501, || history.redo());
    median("a frame of a drag: change one shot", 1001, || {
        if !history.in_gesture() {
            history.begin("Drag");
        }
        edit(history.doc_mut());
    });
}
