//! Summaries of audits as files that can be merged, such as a year audited in parts on several machines.
//!
//! A summary is JSON. Its sums are written as whole numbers, so that parts merged in order give what the
//! whole would have given, to the last digit.

use std::io::{self, Write};

use serde::{Deserialize, Serialize};
use standpoint_language::{text, tr};

use super::findings::Findings;
use crate::fit::Habits;
use crate::report::ReportModel;
use standpoint_board::chart::file as chart_file;
use standpoint_board::chart::model::{Chart, Setup};

/// The version written, and the last that is read.
pub const VERSION: u32 = 1;
/// Largest summary that is read, bytes; 400 sessions of two players have about three million.
pub const SIZE_LIMIT: u64 = 64 * 1024 * 1024;

/// Results of an audit without its shots.
#[derive(Debug, Clone, PartialEq)]
pub struct Summary {
    /// Players and conditions; the title is that of the first part.
    pub setup: Setup,
    /// What came out.
    pub findings: Findings,
    /// Habits.
    pub habits: Habits,
}

/// Why a summary cannot be read or merged.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum SummaryError {
    /// The file is something else.
    #[error("{}", text("this is not the summary of a report"))]
    NotASummary,
    /// The summary is of a later program.
    #[error("{}", tr!("the summary is of version {}, and this program reads versions up to {}", found, known))]
    Newer {
        /// Version of the file.
        found: u64,
        /// Last version this program reads.
        known: u32,
    },
    /// The summary is damaged.
    #[error("{}", tr!("the summary is damaged: {}", reason))]
    Damaged {
        /// The parser's message, with line and column.
        reason: String,
    },
    /// The summary is of other players or conditions.
    #[error("{}", text("the summaries are of different players or conditions"))]
    OtherPlayers,
}

impl SummaryError {
    /// What to do about it.
    #[must_use]
    pub fn remedy(&self) -> &'static str {
        match self {
            Self::NotASummary => text("Choose a file that a report has written as its summary to be merged."),
            Self::Newer { .. } => text("Update the program to open it."),
            Self::Damaged { .. } => text("Make that part again."),
            Self::OtherPlayers => text("Make all parts with the same players, court, ball and air."),
        }
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    standpoint_summary: u32,
    /// Players and conditions, as a chart without points.
    setup: String,
    findings: Findings,
    habits: Habits,
}

/// The header that identifies a file.
#[derive(Deserialize)]
struct Mark {
    standpoint_summary: Option<u64>,
}

impl Summary {
    /// The body of a summary.
    #[must_use]
    pub fn new(setup: &Setup, findings: &Findings, habits: &Habits) -> Self {
        let setup = Setup { sessions: Vec::new(), ..setup.clone() };
        Self { setup, findings: findings.summarized(), habits: habits.clone() }
    }

    /// Merges the next part.
    ///
    /// # Errors
    /// [`SummaryError::OtherPlayers`]; then nothing is changed.
    pub fn merge(&mut self, next: &Self) -> Result<(), SummaryError> {
        if !self.setup.is_alike(&next.setup) {
            return Err(SummaryError::OtherPlayers);
        }
        self.findings.merge(&next.findings);
        self.habits.merge(&next.habits);
        Ok(())
    }

    /// The report, as of an audit of the whole; lines of the file and blocks of consecutive shots are left out.
    #[must_use]
    pub fn report(&self) -> ReportModel {
        ReportModel::new(&self.setup, &self.findings, &self.habits)
    }

    /// Writes it.
    ///
    /// # Errors
    /// When it cannot be written, or when the players cannot be read back.
    pub fn write(&self, mut out: impl Write) -> io::Result<()> {
        let mut chart = Chart::new(self.setup.clone());
        chart.tidy();
        let setup = chart_file::to_text(&chart).map_err(io::Error::other)?;
        let (findings, habits) = (self.findings.clone(), self.habits.clone());
        let file = File { standpoint_summary: VERSION, setup, findings, habits };
        serde_json::to_writer(&mut out, &file).map_err(io::Error::from)?;
        writeln!(out)
    }

    /// Reads it.
    ///
    /// # Errors
    /// See [`SummaryError`].
    pub fn read(bytes: &[u8]) -> Result<Self, SummaryError> {
        let mark: Mark = serde_json::from_slice(bytes).map_err(|_| SummaryError::NotASummary)?;
        match mark.standpoint_summary {
            None => return Err(SummaryError::NotASummary),
            Some(found) if found > u64::from(VERSION) => return Err(SummaryError::Newer { found, known: VERSION }),
            Some(_) => {}
        }
        let damaged = |reason: String| SummaryError::Damaged { reason };
        let file: File = serde_json::from_slice(bytes).map_err(|error| damaged(error.to_string()))?;
        let chart = chart_file::from_text(&file.setup).map_err(|report| damaged(report.to_string()))?;
        let summary = Self { setup: chart.setup, findings: file.findings, habits: file.habits };
        if summary.findings.is_sound() {
            Ok(summary)
        } else {
            Err(damaged(text("its counts do not add up").to_owned()))
        }
    }
}
