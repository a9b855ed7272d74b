//! Time to make a PDF of 20 pages and a moving picture of 3 s, from boards to bytes.
//!
//! The aims are 2 s and 3 s.

#![allow(clippy::unwrap_used, reason = "a measurement that fails says where")]
#![allow(clippy::print_stdout, reason = "the figures are what it is for")]

use std::{
    sync::Arc,
    time::{Duration, Instant},
};

use standpoint_board::{Board, patterns::Pattern};
use standpoint_export::{make, offscreen_canvas::OffscreenCanvas};
use standpoint_workbench::{
    session::Session,
    wanted::{Format, Look},
};

/// Runs measured, after one to warm up.
const RUNS: usize = 7;
/// Length of the moving picture, s.
const CLIP_S: f64 = 3.0;

fn main() {
    let mut board = Board::demo();
    let mut patterns = Pattern::ALL.iter().cycle();
    while board.pages.len() < 20 {
        let mirrored = board.pages.len().is_multiple_of(2);
        let page = patterns.next().unwrap().page(&board, mirrored);
        board.pages.push(Arc::new(page));
    }
    let look = Look::default();
    let mut bytes = 0;
    let pdf = measured(|| {
        let mut canvas = OffscreenCanvas::new().unwrap();
        let pages = (0..board.pages.len()).collect();
        bytes = make::pdf(&mut canvas, &[(board.clone(), pages)], &board.title, &look).unwrap().len();
    });
    println!("PDF of 20 pages, {} kB: median {:.2} s (aim 2)", bytes / 1024, pdf.as_secs_f64());

    // A rally that lasts at least as long, cut by its frame rate: as many frames as 3 s at 15 a second have.
    let mut session = Session::new(board.clone(), None);
    let rally = (0..board.pages.len()).find(|page| {
        session.select(standpoint_workbench::selection::Selection { page: *page, shot: 0 });
        while session.fill() {}
        session.timeline().duration() >= CLIP_S
    });
    let page = rally.expect("a pattern lasts three seconds");
    let duration = session.timeline().duration();
    let rate = 15.0 * CLIP_S / duration;
    for (format, name) in [(Format::Gif, "GIF"), (Format::Apng, "APNG")] {
        let look = Look { rate, ..Look::default() };
        let clip = measured(|| {
            let mut canvas = OffscreenCanvas::new().unwrap();
            let mut session = Session::new(board.clone(), None);
            bytes = make::page(&mut canvas, &mut session, page, format, &look).unwrap().len();
        });
        println!("{name} of 45 frames, {} kB: median {:.2} s (aim 3)", bytes / 1024, clip.as_secs_f64());
    }
}

fn measured(mut work: impl FnMut()) -> Duration {
    work();
    let mut times: Vec<Duration> = (0..RUNS)
        .map(|_| {
            let began = Instant::now();
            work();
            began.elapsed()
        })
        .collect();
    times.sort();
    times[RUNS / 2]
}
