//! A large board: 200 pages of 20 shots with 2,000 marks. How long it takes to write, to read, to save, to open and to
//! change.
//!
//! `cargo bench -p standpoint-board --bench large`

#![allow(clippy::print_stdout, reason = "the figures are what it is for")]
#![allow(clippy::unwrap_used, reason = "a benchmark that cannot do its work has failed")]

use std::hint::black_box;
use std::sync::Arc;
use std::time::Instant;

use glam::DVec2;
use standpoint_board::marks::{Form, Ink, Layer, Pattern as Line};
use standpoint_board::patterns::Pattern;
use standpoint_board::{Board, History, Page, check, file, store};

const PAGES: usize = 200;
const SHOTS: usize = 20;
const MARKS: usize = 10;

fn board() -> Board {
    let blank = Board::blank();
    let pages = (0..PAGES).map(|i| Arc::new(page(&blank, i)));
    let mut board = Board { pages: pages.collect(), ..blank.clone() };
    board.tidy();
    board
}

fn page(blank: &Board, number: usize) -> Page {
    let mut page = Pattern::CrossCrossLine.page(blank, number % 2 == 1);
    while page.shots.len() < SHOTS {
        let mut next = page.shots[page.shots.len() - 1].turned();
        next.follows = true;
        page.shots.push(next);
    }
    page.title = format!("Page {number}");
    page.notes = "What this page is about, in a line or two.\nAnd what to look for.".to_owned();
    page.cues = vec!["Split as the ball is struck".to_owned(), "Recover first".to_owned()];
    for i in 0..MARKS {
        let at = DVec2::new(0.7 * i as f64 - 3.0, -3.0 - 0.01 * number as f64);
        let form = match i % 5 {
            0 => Form::Cone { at },
            1 => Form::Arrow { from: at, to: at + DVec2::Y, bend: 0.3, pattern: Line::Dashed },
            2 => Form::Text { at, text: "Stand here".to_owned(), size: 0.4 },
            3 => Form::Zone { from: at, to: at + DVec2::ONE, round: true },
            _ => {
                let points = (0..60).map(|j| at + 0.05 * f64::from(j) * DVec2::new(1.0, (0.4 * f64::from(j)).sin()));
                Form::Pen { points: points.collect(), pattern: Line::Solid }
            }
        };
        page.marks.add(Layer::Sketch, Ink::Plain, form);
    }
    page
}

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
