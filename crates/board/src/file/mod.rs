//! Boards as text, and back.
//!
//! A board is written in RON, one module for each version of the format; `docs/file-format.md` describes it. Numbers
//! are written to four decimals of the unit in their name (0.1 mm for a length), so that two versions of a board
//! compare line by line; [`crate::Board::tidy`] brings a board to exactly what a file gives back.
//!
//! Reading parses once, converts, checks, and reports every problem with its line.

mod fields;
mod literal;
mod tree;
mod v1;

use std::collections::HashSet;

use fields::{Found, LISTED, Notes, is_within, locate};
use tree::{Node, Stop, Value, Why};

use crate::check;
use crate::model::Board;
use crate::problem::{Place, Problem, ProblemKind, Report};

/// Ending of board files, without the dot.
pub const EXTENSION: &str = "standpoint";
/// Largest board that is read or written, bytes.
pub const SIZE_LIMIT: u64 = 16 * 1024 * 1024;
/// The version this program writes, and the last that it reads.
pub const VERSION: u32 = v1::VERSION;

/// The part that marks a board and tells its version.
const VERSION_FIELD: &str = "standpoint_board";

/// The board as text of the current version.
///
/// # Errors
///
/// A report of all that is wrong with the board, if anything is: what could not be read back is not written. A board
/// whose places are kept on its [`crate::Site`] and whose figures come from controls with bounds is always well.
pub fn to_text(board: &Board) -> Result<String, Report> {
    let problems = check::check(board);
    if !problems.is_empty() {
        let unlisted = problems.len().saturating_sub(LISTED);
        return Err(Report { problems: problems.into_iter().take(LISTED).collect(), unlisted });
    }
    let style = ron::ser::PrettyConfig::new().new_line("\n").indentor("  ").depth_limit(5);
    let text = ron::ser::to_string_pretty(&v1::BoardFile::from(board), style);
    let not_written = |error: ron::Error| ProblemKind::NotWritten { reason: error.to_string() };
    let text = text.map_err(|error| Report::of(Problem::new("", not_written(error))))? + "\n";
    size_allowed(text.len() as u64)?;
    Ok(text)
}

/// The board in the bytes of a file, of any version up to [`VERSION`].
///
/// # Errors
///
/// A report of everything that is wrong, each with line, role and remedy. A problem of notation ends the reading, as
/// what follows it has no certain meaning; all others are told at once.
pub fn from_bytes(bytes: &[u8]) -> Result<Board, Report> {
    size_allowed(bytes.len() as u64)?;
    match std::str::from_utf8(bytes) {
        Ok(text) => from_text(text),
        Err(error) => {
            let byte = error.valid_up_to();
            let before = String::from_utf8_lossy(&bytes[..byte]);
            let kind = ProblemKind::NotText { byte };
            Err(Report::of(Problem { at: Some(Lines::of(&before).place(byte)), role: String::new(), kind }))
        }
    }
}

/// The board in a text; see [`from_bytes`].
///
/// # Errors
///
/// As [`from_bytes`].
pub fn from_text(text: &str) -> Result<Board, Report> {
    size_allowed(text.len() as u64)?;
    let lines = Lines::of(text);
    let mut notes = Notes::default();
    if let Some(version) = tree::leading_version(text)
        && newer(&mut notes, &version)
    {
        return Err(lines.report(notes));
    }
    let root = tree::parse(text).map_err(|stop| lines.report_stop(stop))?;
    if !version_known(&mut notes, &root) {
        return Err(lines.report(notes));
    }
    let board = v1::read(&mut notes, &root).into_board();
    note_findings(&mut notes, &root, &board);
    if notes.found.is_empty() { Ok(board) } else { Err(lines.report(notes)) }
}

impl Board {
    /// Rounds every number to what a file gives back, so that a board and its file agree exactly. Pages that are
    /// already tidy stay shared with the history. Call it at the end of a gesture.
    pub fn tidy(&mut self) {
        let mut board = Self { pages: std::mem::take(&mut self.pages), ..self.clone() };
        for page in &mut board.pages {
            if page.shots.iter().any(|shot| v1::tidy_shot(shot) != *shot) {
                let page = std::sync::Arc::make_mut(page);
                page.shots.iter_mut().for_each(|shot| *shot = v1::tidy_shot(shot));
            }
        }
        let pages = std::mem::take(&mut board.pages);
        *self = Self { pages, ..v1::BoardFile::from(&board).into_board() };
    }
}

fn size_allowed(bytes: u64) -> Result<(), Report> {
    if bytes <= SIZE_LIMIT {
        return Ok(());
    }
    Err(Report::of(Problem::new("", ProblemKind::TooLarge { bytes, limit: SIZE_LIMIT })))
}

/// Notes a version beyond [`VERSION`].
fn newer(notes: &mut Notes, version: &Node<'_>) -> bool {
    let Value::Number(number) = version.value else { return false };
    let newer = number.fract() == 0.0 && number > f64::from(VERSION);
    if newer {
        let kind = ProblemKind::NewerVersion { found: number as u64, known: u64::from(VERSION) };
        notes.add(version.at, VERSION_FIELD, kind);
    }
    newer
}

/// Whether the file says that it is a board of a version we know; notes what it says instead.
fn version_known(notes: &mut Notes, root: &Node<'_>) -> bool {
    let version = match &root.value {
        Value::Struct(_, fields) => fields.iter().find(|field| field.name == VERSION_FIELD),
        _ => None,
    };
    let Some(version) = version.map(|field| &field.node) else {
        notes.add(root.at, "", ProblemKind::NotABoard);
        return false;
    };
    if newer(notes, version) {
        return false;
    }
    let known = matches!(version.value, Value::Number(number) if number.total_cmp(&f64::from(VERSION)).is_eq());
    if !known {
        let found = match &version.value {
            Value::Number(number) => number.to_string(),
            other => other.describe(),
        };
        notes.add(version.at, VERSION_FIELD, ProblemKind::NoSuchVersion { found });
    }
    known
}

/// Adds what the check of the board finds, except where the file's part is itself missing or wrong and the board holds
/// a stand-in.
fn note_findings(notes: &mut Notes, root: &Node<'_>, board: &Board) {
    if notes.unlisted > 0 {
        return;
    }
    let wrong: HashSet<String> = notes.found.iter().map(|found| found.role.clone()).collect();
    let stands_in = |role: &str| wrong.iter().any(|part| is_within(role, part));
    for finding in check::findings(board) {
        let rests = finding.rests_on.as_deref();
        let shaken = rests.is_some_and(|rests| stands_in(rests) || wrong.iter().any(|part| is_within(part, rests)));
        if !shaken && !stands_in(&finding.problem.role) {
            let at = locate(root, &finding.problem.role).at;
            notes.add(at, finding.problem.role, finding.problem.kind);
        }
    }
}

/// Where the lines of a text begin.
struct Lines<'t> {
    text: &'t str,
    starts: Vec<usize>,
}

impl<'t> Lines<'t> {
    fn of(text: &'t str) -> Self {
        let starts = std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect();
        Self { text, starts }
    }

    fn place(&self, at: usize) -> Place {
        let line = self.starts.partition_point(|start| *start <= at);
        let start = self.starts[line - 1];
        Place { line, column: self.text[start..at].chars().count() + 1 }
    }

    fn problem(&self, Found { at, role, kind }: Found) -> Problem {
        Problem { at: Some(self.place(at)), role, kind }
    }

    fn report(&self, mut notes: Notes) -> Report {
        notes.found.sort_by_key(|found| found.at);
        let problems = notes.found.into_iter().map(|found| self.problem(found)).collect();
        Report { problems, unlisted: notes.unlisted }
    }

    fn report_stop(&self, stop: Stop) -> Report {
        let kind = match stop.why {
            Why::Kind(kind) => kind,
            Why::Unclosed(what, opened) => ProblemKind::Unclosed { what, opened: self.place(opened) },
        };
        Report::of(self.problem(Found { at: stop.at, role: String::new(), kind }))
    }
}
