//! Loads the question of a command: the board in a file and one of its shots.

use std::path::{Path, PathBuf};

use standpoint_board::{
    Board, Report, ShotSpec, Units,
    problem::{Problem as BoardProblem, where_said},
    rally::{Ended, Rally},
    store::{self, LoadError},
};
use standpoint_geometry::{AimError, Answer, Court, End, Situation, SolveError, Solver};
use standpoint_workbench::{solved, words};

use super::{
    args::{Reading, Which},
    exact::Exact,
    fault::{Fault, Problem, line},
};

/// A question: a shot of a board.
#[derive(Debug)]
pub struct Asked {
    /// The board's file.
    pub file: PathBuf,
    /// The board.
    pub board: Board,
    /// The page, counted from 1.
    pub page: usize,
    /// The shot, counted from 1.
    pub shot: usize,
    /// The shot, with contact and places from the shots before it where it follows them.
    pub spec: ShotSpec,
    /// The question put to the solver.
    pub situation: Situation,
    /// The answer to it.
    answer: Result<Answer, SolveError>,
    /// Units of the answer in words.
    pub units: Units,
}

impl Asked {
    /// Reads the board and works out the rally as far as the shot, from the solved game of its players or quickly.
    ///
    /// # Errors
    /// A file that cannot be read or is no sound board, a page or shot that is not there, or a rally that ends before.
    pub fn read(which: &Which, reading: &Reading, exact: Exact) -> Result<Self, Box<Fault>> {
        let (file, page, shot) = (which.file.clone(), which.page, which.shot);
        let board = read_board(&file)?;
        if board.situation(page - 1, shot - 1).is_some_and(|asked| asked.validate().is_empty()) {
            exact.ensure(&solved::of_board(&board));
        }
        let rally = match board.page(page - 1).filter(|page| shot <= page.shots.len()) {
            None => return Err(not_there(&board, &file, page, shot)),
            Some(page) => Rally::new().resolve(&board, page, shot - 1, &mut Solver::new()).cloned(),
        };
        let resolved = rally.map_err(|ended| rally_ended(&file, page, shot, ended))?;
        let units = reading.units(board.units);
        let (spec, situation, answer) = (resolved.spec, resolved.situation, resolved.result);
        Ok(Self { file, board, page, shot, spec, situation, answer, units })
    }

    /// The answer.
    ///
    /// # Errors
    /// A shot that cannot be played.
    pub fn answer(&self) -> Result<&Answer, Box<Fault>> {
        self.answer.as_ref().map_err(|error| self.refusal(error))
    }

    /// Why there is no answer.
    #[must_use]
    pub fn refusal(&self, error: &SolveError) -> Box<Fault> {
        refusal(&self.place(), error, self.units)
    }

    /// Where the shot is: `a.standpoint: page 1, shot 2`.
    #[must_use]
    pub fn place(&self) -> String {
        place_of(&self.file, self.page, self.shot)
    }

    /// The end of the hitter.
    #[must_use]
    pub fn end(&self) -> End {
        self.situation.hitter_end
    }

    /// The court.
    #[must_use]
    pub fn court(&self) -> &Court {
        &self.situation.conditions.court
    }

    /// Name of the player at an end.
    #[must_use]
    pub fn name(&self, end: End) -> String {
        name_of(&self.board, end)
    }
}

/// Name of the player at an end of a board.
#[must_use]
pub fn name_of(board: &Board, end: End) -> String {
    let name = board.card(end).name.trim();
    if name.is_empty() { format!("the {} player", words::end(end)) } else { name.to_owned() }
}

/// Where a shot is, for a message.
#[must_use]
pub fn place_of(file: &Path, page: usize, shot: usize) -> String {
    format!("{}: page {page}, shot {shot}", file.display())
}

/// Reads a board.
///
/// # Errors
/// Everything that is wrong with the file.
pub fn read_board(path: &Path) -> Result<Board, Box<Fault>> {
    store::load_board(path).map_err(|error| load_fault(path, "board", &error))
}

/// Why a file cannot be read; `kind` says what it should hold.
#[must_use]
pub fn load_fault(path: &Path, kind: &'static str, error: &LoadError) -> Box<Fault> {
    let remedy = error.remedy();
    match error {
        LoadError::Content { report, .. } => {
            let message = match report.count() {
                1 => format!("there is something wrong with the {kind}"),
                count => format!("there are {count} things wrong with the {kind}"),
            };
            let problems = report.problems.iter().map(problem).collect();
            Box::new(Fault { kind, message, remedy: remedy.to_owned(), by: None, problems, lines: lines(path, report) })
        }
        other => Fault::new("file", "standpoint", other.to_string(), remedy),
    }
}

fn problem(problem: &BoardProblem) -> Problem {
    Problem {
        line: problem.at.map(|at| at.line),
        column: problem.at.map(|at| at.column),
        role: problem.role.clone(),
        message: problem.kind.to_string(),
        remedy: problem.kind.remedy(),
    }
}

/// One line for each problem: `FILE:LINE:COLUMN: part: what — remedy`.
fn lines(path: &Path, report: &Report) -> Vec<String> {
    let line = |problem: &BoardProblem| {
        let mut place = path.display().to_string();
        if let Some(at) = problem.at {
            place.push_str(&format!(":{}:{}", at.line, at.column));
        }
        if !problem.role.is_empty() {
            place.push_str(&format!(": {}", where_said(&problem.role)));
        }
        line(&place, &problem.kind.to_string(), &problem.kind.remedy())
    };
    let more = (report.unlisted > 0).then(|| format!("{}: and {} more", path.display(), report.unlisted));
    report.problems.iter().map(line).chain(more).collect()
}

fn not_there(board: &Board, file: &Path, page: usize, shot: usize) -> Box<Fault> {
    let place = file.display().to_string();
    let (what, option, there) = match board.page(page - 1) {
        None => (format!("there is no page {page}"), "--page", board.pages.len()),
        Some(found) => (format!("there is no shot {shot} on page {page}"), "--shot", found.shots.len()),
    };
    let remedy = match there {
        1 => format!("Leave {option} out: there is one only."),
        last => format!("Choose {option} 1 to {last}."),
    };
    Fault::new("not_there", &place, what, remedy)
}

fn rally_ended(file: &Path, page: usize, shot: usize, ended: Ended) -> Box<Fault> {
    let (Ended::Unplayable(last) | Ended::NotReturned(last)) = ended;
    let remedy = format!("Change shot {last}, or ask for an earlier one.");
    Fault::new("rally_ended", &place_of(file, page, shot), ended.to_string(), remedy)
}

/// Why a shot has no answer.
fn refusal(place: &str, error: &SolveError, units: Units) -> Box<Fault> {
    let (what, remedy) = words::refusal(error, units);
    let (kind, by) = refusal_kind(error);
    let mut fault = Fault::new(kind, place, format!("this shot cannot be played: {what}"), format!("{remedy}."));
    fault.by = by.map(super::round::rounded);
    fault
}

/// The kind of refusal in one word, and the metres by which the shot misses.
#[must_use]
pub fn refusal_kind(error: &SolveError) -> (&'static str, Option<f64>) {
    match error {
        SolveError::Invalid(_) => ("invalid", None),
        SolveError::Aim(aim) => match aim {
            AimError::ContactBeyondNet => ("contact_beyond_net", None),
            AimError::TargetNotBeyondNet => ("target_not_beyond_net", None),
            AimError::Net { by } => ("net", Some(*by)),
            AimError::TooSlow { short_by } => ("too_slow", Some(*short_by)),
            AimError::Long { by } => ("long", Some(*by)),
            AimError::Wide { by } => ("wide", Some(*by)),
            AimError::ServeFromInside { by } => ("serve_from_inside", Some(*by)),
            AimError::ServeFromBeside => ("serve_from_beside", None),
            AimError::NoServiceBox => ("no_service_box", None),
            AimError::VolleyFromBehind { by } => ("volley_from_behind", Some(*by)),
            AimError::OverheadTooLow { .. } => ("overhead_too_low", None),
            AimError::TooFast => ("too_fast", None),
        },
    }
}
