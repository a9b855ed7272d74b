//! `check`: whether boards and charts are sound, and whether the shots of boards can be played.

use std::{
    ffi::OsStr,
    io::Write,
    path::{Path, PathBuf},
};

use clap::Args;
use standpoint_board::{Board, chart::file as chart_file, rally::Rally};
use standpoint_geometry::Solver;
use standpoint_workbench::words;

use super::{
    complain,
    fault::{Fault, Stop, line},
    load::{load_fault, place_of, read_board},
};

/// Arguments of `check`.
#[derive(Debug, Args)]
pub struct CheckArgs {
    /// The boards, and charts.
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<PathBuf>,
}

/// Checks boards and charts; the answer is whether all are sound.
///
/// # Errors
/// When the answer cannot be written.
pub fn run(args: &CheckArgs, out: &mut dyn Write) -> Result<bool, Stop> {
    let mut solver = Solver::new();
    let mut sound = true;
    for file in &args.files {
        match checked(&mut solver, file) {
            Ok((charted, warnings)) => {
                let shots = match charted {
                    None => String::new(),
                    Some(1) => ", 1 charted shot".to_owned(),
                    Some(count) => format!(", {count} charted shots"),
                };
                let note = match warnings.len() {
                    0 => shots,
                    1 => format!("{shots}, 1 warning"),
                    count => format!("{shots}, {count} warnings"),
                };
                writeln!(out, "{}: ok{note}", file.display())?;
                // Flushed, so that both streams stay in order on one terminal.
                out.flush()?;
                warnings.iter().for_each(|warning| complain(warning));
            }
            Err(fault) => {
                sound = false;
                out.flush()?;
                fault.lines.iter().for_each(|line| complain(line));
            }
        }
    }
    Ok(sound)
}

/// Reads a board or a chart: the number of charted shots, if any, and notes about it.
fn checked(solver: &mut Solver, file: &Path) -> Result<(Option<usize>, Vec<String>), Box<Fault>> {
    if file.extension() == Some(OsStr::new(chart_file::EXTENSION)) {
        let chart = chart_file::load(file).map_err(|error| load_fault(file, "chart", &error))?;
        return Ok((Some(chart.shots()), Vec::new()));
    }
    let board = read_board(file)?;
    Ok((board.chart.as_ref().map(|chart| chart.shots()), warnings(solver, file, &board)))
}

/// Shots that cannot be played or never happen. The board is valid all the same: a rally is often drawn before its
/// shots are right.
fn warnings(solver: &mut Solver, file: &Path, board: &Board) -> Vec<String> {
    let mut found = Vec::new();
    for (i, page) in board.pages.iter().enumerate() {
        let mut rally = Rally::new();
        for j in 0..page.shots.len() {
            let place = format!("{}: warning", place_of(file, i + 1, j + 1));
            match rally.resolve(board, page, j, solver).map(|resolved| &resolved.result) {
                Ok(Ok(_)) => {}
                Ok(Err(error)) => {
                    let (what, remedy) = words::refusal(error, board.units);
                    found.push(line(&place, &format!("this shot cannot be played: {what}"), &format!("{remedy}.")));
                }
                Err(ended) => {
                    found.push(line(&place, &ended.to_string(), "Change that shot, or let this one begin anew."));
                    break;
                }
            }
        }
    }
    found
}
