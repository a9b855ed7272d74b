//! Processor time of a frame while the target is dragged, on the demo board and on a large one
//! of 200 pages of 20 shots with 2,000 marks; and the time to open the large one.
//!
//! `cargo bench -p standpoint --bench frame`
//!
//! A frame is everything but what the graphics card does: the answer, the panels, the court, the accessibility tree and
//! the triangles. 60 frames a second leave 16.7 ms for it.

#![allow(clippy::unwrap_used, reason = "a measurement that fails says where")]
#![allow(clippy::print_stdout, reason = "the figures are what it is for")]

use std::time::Instant;

use common::center;
use egui::vec2;
use standpoint_app::app::Start;
use standpoint_board::{Board, store};

#[path = "../tests/common/mod.rs"]
mod common;
#[path = "../../board/benches/shared/large_board.rs"]
#[allow(dead_code, reason = "the other benchmark uses more of it")]
mod large_board;

/// Frames that are measured.
const FRAMES: usize = 240;

fn main() {
    let dir = tempfile::tempdir().unwrap();
    for (name, board) in [("demo", Board::demo()), ("large", large_board::board())] {
        let path = dir.path().join(format!("{name}.standpoint"));
        store::save_board(&path, &board).unwrap();
        let began = Instant::now();
        let file = path.clone();
        let mut window = common::opened(vec2(1440.0, 900.0), Some(1.0 / 60.0), move || Start {
            file: Some(file.clone()),
            ..Start::default()
        });
        println!("{name} board: open after {:.0} ms, four frames among them", began.elapsed().as_secs_f64() * 1e3);
        let from = center(&window, "Ball target");
        window.hover_at(from);
        window.step();
        window.drag_at(from);
        window.step();
        let mut times: Vec<f64> = (0..FRAMES)
            .map(|i| {
                let turn = i as f32 / FRAMES as f32 * std::f32::consts::TAU;
                window.hover_at(from + vec2(60.0 * turn.sin(), 40.0 * (2.0 * turn).sin()));
                let began = Instant::now();
                window.step();
                let shapes = window.output().shapes.clone();
                std::hint::black_box(window.ctx.tessellate(shapes, 1.0));
                began.elapsed().as_secs_f64() * 1e3
            })
            .collect();
        assert!(common::app(&window).session().generation() > FRAMES as u64 / 2, "the drag changes the answer");
        times.sort_by(f64::total_cmp);
        let at = |share: f64| times[((FRAMES - 1) as f64 * share) as usize];
        println!(
            "  a frame of a drag: {:.2} ms median, {:.2} ms in nine of ten, {:.2} ms at most",
            at(0.5),
            at(0.9),
            at(1.0)
        );
    }
}
