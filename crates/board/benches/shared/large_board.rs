//! The large board that is measured: 200 pages of 20 shots with 2,000 marks.

use std::sync::Arc;

use glam::DVec2;
use standpoint_board::marks::{Form, Ink, Layer, Pattern as Line};
use standpoint_board::patterns::Pattern;
use standpoint_board::{Board, Page};

/// Pages of the board.
pub const PAGES: usize = 200;
/// Shots on each page.
pub const SHOTS: usize = 20;
/// Marks on each page.
pub const MARKS: usize = 10;

/// The board.
pub fn board() -> Board {
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
