//! Boards as text, and back.
//!
//! A board is written in RON, one module for each version of the format; `docs/file-format.md` describes it. Numbers
//! are written to four decimals of the unit in their name (0.1 mm for a length), so that two versions of a board
//! compare line by line; [`crate::Board::tidy`] brings a board to exactly what a file gives back.
//!
//! Reading parses once, converts, checks, and reports every problem with its line.

mod clip;
pub(crate) mod fields;
pub(crate) mod habits;
mod literal;
pub(crate) mod reading;
pub(crate) mod tree;
pub(crate) mod v1;
mod v2;

pub use clip::{marks_from_text, marks_to_text};
pub use fields::Named;
pub use tree::shortened;
pub use v1::convert::{into as read_back, out as as_written};

use fields::{Diagnostics, LISTED};
use reading::Format;
use tree::Node;

use crate::check;
use crate::model::Board;
use crate::problem::{Problem, ProblemKind, Report};

/// Ending of board files, without the dot.
pub const EXTENSION: &str = "standpoint";
/// Largest board that is read or written, bytes: with a chart of some 40,000 shots. A longer chart is kept in a file of
/// its own.
pub const SIZE_LIMIT: u64 = 16 * 1024 * 1024;
/// The version this program writes, and the last that it reads.
pub const VERSION: u32 = v2::VERSION;

/// Header and limits of board files.
const FORMAT: Format = Format {
    mark: "standpoint_board",
    version: VERSION,
    size_limit: SIZE_LIMIT,
    value_limit: tree::VALUE_LIMIT,
    stranger: ProblemKind::NotABoard,
};

/// The board as text of the current version.
///
/// # Errors
///
/// A report of all problems of the board: nothing is written that could not be read back. A board
/// whose places are kept on its [`crate::PlayArea`] and whose figures come from controls with bounds is always valid.
pub fn to_text(board: &Board) -> Result<String, Report> {
    let problems = check::check(board);
    if !problems.is_empty() {
        let unlisted = problems.len().saturating_sub(LISTED);
        return Err(Report { problems: problems.into_iter().take(LISTED).collect(), unlisted });
    }
    let style = ron::ser::PrettyConfig::new().new_line("\n").indentor("  ").depth_limit(5);
    let text = ron::ser::to_string_pretty(&v2::BoardFile::from(board), style);
    let not_written = |error: ron::Error| ProblemKind::NotWritten { reason: error.to_string() };
    let text = text.map_err(|error| Report::of(Problem::new("", not_written(error))))? + "\n";
    if board.chart.is_some() && text.len() as u64 > SIZE_LIMIT {
        let bytes = text.len() as u64;
        return Err(Report::of(Problem::new("chart", ProblemKind::ChartTooLarge { bytes, limit: SIZE_LIMIT })));
    }
    FORMAT.size_allowed(text.len() as u64)?;
    Ok(text)
}

/// The board in the bytes of a file, of any version up to [`VERSION`].
///
/// # Errors
///
/// A report of everything that is wrong, each with line, role and remedy. A problem of notation ends the reading, as
/// the meaning of the rest is uncertain; all others are reported at once.
pub fn from_bytes(bytes: &[u8]) -> Result<Board, Report> {
    FORMAT.size_allowed(bytes.len() as u64)?;
    from_text(reading::text_of(bytes)?)
}

/// The board in a text; see [`from_bytes`].
///
/// # Errors
///
/// As [`from_bytes`].
pub fn from_text(text: &str) -> Result<Board, Report> {
    let convert = |notes: &mut Diagnostics, root: &Node<'_>| match FORMAT.version_in(root) {
        Some(v1::VERSION) => v1::read(notes, root).into_board(),
        _ => v2::read(notes, root).into_board(),
    };
    FORMAT.read(text, convert, check::findings)
}

impl Board {
    /// Rounds every number to what a file gives back, so that a board and its file agree exactly, and brings marks back
    /// to where they may lie. Pages that are already tidy stay shared with the history. Call it at the end of a
    /// gesture.
    pub fn tidy(&mut self) {
        let mut pages = std::mem::take(&mut self.pages);
        // Charts are tidied while they are noted.
        let chart = self.chart.take();
        *self = v2::BoardFile::from(&*self).into_board();
        let area = self.play_area();
        for page in &mut pages {
            if page.shots.iter().any(|shot| v2::tidy_shot(shot) != *shot) {
                let page = std::sync::Arc::make_mut(page);
                page.shots.iter_mut().for_each(|shot| *shot = v2::tidy_shot(shot));
            }
            if let Some(marks) = v2::tidy_marks(&page.marks, &area) {
                std::sync::Arc::make_mut(page).marks = marks;
            }
        }
        (self.pages, self.chart) = (pages, chart);
    }
}
