//! What a printed report is made from.

use standpoint_board::{Units, chart::Setup};
use standpoint_charting::{import::BadRow, pictures::Pictures, report::ReportModel};
use standpoint_sheet::Paper;

use super::places::Places;

/// Shots that a group needs to be told of.
pub(super) const FEWEST: u64 = 15;

/// Input of a printed report.
pub struct ReportInput<'a> {
    /// What came out.
    pub report: &'a ReportModel,
    /// Players and conditions.
    pub setup: &'a Setup,
    /// Units.
    pub units: Units,
    /// On what it is printed.
    pub paper: Paper,
    /// Places of both players.
    pub places: &'a [Places; 2],
    /// What the shots of both players look like.
    pub pictures: &'a Pictures,
    /// Rows that could not be read.
    pub bad: &'a [BadRow],
    /// How many more there were.
    pub unlisted: u64,
}
