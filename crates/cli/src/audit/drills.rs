//! Drills for what a report finds.

use std::io::{self, Write as _};

use standpoint_board::{Board, Units, chart::Setup, file as board_file, store::GrowingFile};
use standpoint_charting::{
    audit::{AuditedShot, Findings},
    import::BadRow,
    insight::{Insight, insights},
    practice,
    report::{FIRST, ReportModel, ShotWriter},
};
use standpoint_export::{make, offscreen_canvas::OffscreenCanvas};
use standpoint_geometry::End;
use standpoint_sheet::Paper;
use standpoint_workbench::wanted::Look;

/// Shots that a drill's ball is chosen from, at most; longer files give the first ones. It bounds the memory.
const KEPT: usize = 20_000;

/// Keeps shots to make drills of.
#[derive(Default)]
pub struct Keeping {
    shots: Vec<AuditedShot>,
}

impl ShotWriter for Keeping {
    fn shot(&mut self, shot: &AuditedShot) -> io::Result<()> {
        if self.shots.len() < KEPT {
            self.shots.push(shot.clone());
        }
        Ok(())
    }

    fn bad(&mut self, _: &BadRow) -> io::Result<()> {
        Ok(())
    }

    fn finish(&mut self, _: &ReportModel) -> io::Result<()> {
        Ok(())
    }
}

/// The first findings of a player as a board, a page for each; of the player with the costliest one where none is named.
pub fn board(kept: &Keeping, findings: &Findings, setup: &Setup, player: Option<End>, units: Units) -> Option<Board> {
    let found = insights(&findings.cells);
    let player = player.or(found.first().map(|insight| insight.player))?;
    let first: Vec<&Insight> = found.iter().filter(|insight| insight.player == player).take(FIRST).collect();
    let board = practice::board(setup, &first, &kept.shots)?;
    Some(Board { units, ..board })
}

/// Writes drills as sheets, or as a board where the file has its ending.
///
/// # Errors
/// When they cannot be made or written.
pub fn write(board: &Board, as_board: bool, paper: Paper, out: &mut GrowingFile) -> io::Result<()> {
    if as_board {
        let text = board_file::to_text(board).map_err(|report| io::Error::other(report.to_string()))?;
        return out.write_all(text.as_bytes());
    }
    let mut canvas = OffscreenCanvas::new().map_err(|error| io::Error::other(error.to_string()))?;
    let look = Look { paper, ..Look::default() };
    let pages = (0..board.pages.len()).collect();
    let pdf = make::pdf(&mut canvas, &[(board.clone(), pages)], &board.title, &look);
    out.write_all(&pdf.map_err(|error| io::Error::other(error.to_string()))?)
}
