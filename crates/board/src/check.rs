//! Checks a board and its chart, and reports every problem.

pub(crate) mod board;

pub use board::{CUE_LIMIT, LETTER_LIMIT, LINE_LIMIT, MARK_LIMIT, NOTES_LIMIT, POINT_LIMIT, WORDS_LIMIT};

use board::Finding;

use crate::model::Board;
use crate::problem::Problem;

/// All problems of a board; empty if it is valid.
#[must_use]
pub fn check(board: &Board) -> Vec<Problem> {
    findings(board).into_iter().map(|finding| finding.problem).collect()
}

/// The problems, each with the part it is based on.
pub(crate) fn findings(board: &Board) -> Vec<Finding> {
    let mut found = board::findings(board);
    if let Some(chart) = &board.chart {
        found.extend(crate::chart::check::findings(chart).into_iter().map(|finding| finding.within("chart")));
    }
    found
}
