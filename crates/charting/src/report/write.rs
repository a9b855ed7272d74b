//! Reports as CSV and JSON, written during the audit.

use std::borrow::Cow;
use std::io::{self, Write};

use serde::Serialize;

use super::model::{GroupReport, ReportModel};
use super::row::{ShotRow, bad_row, shot_row};
use crate::audit::{AuditedShot, Sink};
use crate::fit::Habits;
use crate::import::BadRow;
use crate::spreadsheet::{guarded, io_error};

/// Most bad rows listed in a JSON report; the others are counted.
const LISTED: usize = 10_000;

/// Version of the JSON report.
pub const JSON_VERSION: u32 = 1;

/// A writer of audited shots, one by one.
pub trait ShotWriter {
    /// Writes a shot.
    ///
    /// # Errors
    /// When it cannot be written.
    fn shot(&mut self, shot: &AuditedShot) -> io::Result<()>;

    /// Writes a row that could not be read, or notes it for the end.
    ///
    /// # Errors
    /// When it cannot be written.
    fn bad(&mut self, row: &BadRow) -> io::Result<()>;

    /// Writes the end.
    ///
    /// # Errors
    /// When it cannot be written.
    fn finish(&mut self, report: &ReportModel) -> io::Result<()>;
}

/// One row for each row of the file, read or bad, under a heading.
pub struct ShotsCsv<W: Write> {
    csv: csv::Writer<W>,
}

impl<W: Write> ShotsCsv<W> {
    /// Begins a table.
    pub fn new(out: W) -> Self {
        Self { csv: csv::Writer::from_writer(out) }
    }
}

impl<W: Write> ShotWriter for ShotsCsv<W> {
    fn shot(&mut self, shot: &AuditedShot) -> io::Result<()> {
        self.csv.serialize(for_a_table(shot_row(shot))).map_err(io_error)
    }

    fn bad(&mut self, row: &BadRow) -> io::Result<()> {
        self.csv.serialize(for_a_table(bad_row(row))).map_err(io_error)
    }

    fn finish(&mut self, _: &ReportModel) -> io::Result<()> {
        self.csv.flush()
    }
}

/// The row with its texts as they go into a table.
fn for_a_table(mut row: ShotRow<'_>) -> ShotRow<'_> {
    for text in [&mut row.session, &mut row.point, &mut row.reason] {
        if let Cow::Owned(guarded) = guarded(text) {
            *text = guarded.into();
        }
    }
    row
}

/// One object with every shot, every bad row and the report.
pub struct ReportJson<W: Write> {
    out: W,
    shots: u64,
    bad: Vec<BadJson>,
    unlisted: u64,
}

#[derive(Debug, Serialize)]
struct BadJson {
    line: u64,
    faults: Vec<FaultJson>,
}

#[derive(Debug, Serialize)]
struct FaultJson {
    column: String,
    message: String,
    remedy: String,
}

impl<W: Write> ReportJson<W> {
    /// Begins the object.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn new(mut out: W) -> io::Result<Self> {
        write!(out, "{{\n\"standpoint_audit\": {JSON_VERSION},\n\"shots\": [")?;
        Ok(Self { out, shots: 0, bad: Vec::new(), unlisted: 0 })
    }
}

impl<W: Write> ShotWriter for ReportJson<W> {
    fn shot(&mut self, shot: &AuditedShot) -> io::Result<()> {
        self.out.write_all(if self.shots == 0 { b"\n" } else { b",\n" })?;
        self.shots += 1;
        serde_json::to_writer(&mut self.out, &shot_row(shot)).map_err(io::Error::from)
    }

    fn bad(&mut self, row: &BadRow) -> io::Result<()> {
        if self.bad.len() == LISTED {
            self.unlisted += 1;
            return Ok(());
        }
        let fault = |fault: &crate::import::CellFault| FaultJson {
            column: fault.column.clone(),
            message: fault.kind.to_string(),
            remedy: fault.kind.remedy(),
        };
        self.bad.push(BadJson { line: row.line, faults: row.faults.iter().map(fault).collect() });
        Ok(())
    }

    fn finish(&mut self, report: &ReportModel) -> io::Result<()> {
        write!(self.out, "\n],\n\"bad_rows\": ")?;
        serde_json::to_writer(&mut self.out, &self.bad).map_err(io::Error::from)?;
        write!(self.out, ",\n\"bad_rows_unlisted\": {},\n\"report\": ", self.unlisted)?;
        serde_json::to_writer(&mut self.out, report).map_err(io::Error::from)?;
        writeln!(self.out, "\n}}")?;
        self.out.flush()
    }
}

/// The report without its shots.
#[derive(Debug, Default)]
pub struct NoShots;

impl ShotWriter for NoShots {
    fn shot(&mut self, _: &AuditedShot) -> io::Result<()> {
        Ok(())
    }

    fn bad(&mut self, _: &BadRow) -> io::Result<()> {
        Ok(())
    }

    fn finish(&mut self, _: &ReportModel) -> io::Result<()> {
        Ok(())
    }
}

/// Passes shots to a writer, collects habits, and reports bad rows.
pub struct Passing<'a> {
    /// Destination of the shots.
    pub writer: &'a mut dyn ShotWriter,
    /// Habits so far.
    pub habits: Habits,
    /// Called for each bad row.
    pub on_bad: &'a mut dyn FnMut(&BadRow) -> io::Result<()>,
}

impl Sink for Passing<'_> {
    fn shot(&mut self, shot: &AuditedShot) -> io::Result<()> {
        self.habits.add(shot);
        self.writer.shot(shot)
    }

    fn bad(&mut self, row: &BadRow) -> io::Result<()> {
        self.writer.bad(row)?;
        (self.on_bad)(row)
    }
}

/// Table of unreadable rows, one line for each fault, to correct the file.
pub struct BadRowsCsv<W: Write> {
    csv: csv::Writer<W>,
}

impl<W: Write> BadRowsCsv<W> {
    /// Begins a table.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn new(out: W) -> io::Result<Self> {
        let mut csv = csv::Writer::from_writer(out);
        csv.write_record(["line", "column", "reason", "remedy"]).map_err(io_error)?;
        Ok(Self { csv })
    }

    /// Writes a row.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn write(&mut self, row: &BadRow) -> io::Result<()> {
        for fault in &row.faults {
            let (line, reason, remedy) = (row.line.to_string(), fault.kind.to_string(), fault.kind.remedy());
            let cells = [line.as_str(), &fault.column, &reason, &remedy];
            self.csv.write_record(cells.map(guarded).iter().map(|cell| cell.as_bytes())).map_err(io_error)?;
        }
        Ok(())
    }

    /// Flushes the writer.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn finish(&mut self) -> io::Result<()> {
        self.csv.flush()
    }
}

/// A row of the summary.
#[derive(Debug, Serialize)]
struct SummaryRow<'a> {
    player: &'a str,
    by: &'a str,
    group: &'a str,
    shots: u64,
    judged: u64,
    winners: u64,
    no_reply: u64,
    missed: u64,
    not_seen: u64,
    not_playable: u64,
    reachable: Option<f64>,
    across: Option<f64>,
    across_low: Option<f64>,
    across_high: Option<f64>,
    across_deviation: Option<f64>,
    along: Option<f64>,
    along_low: Option<f64>,
    along_high: Option<f64>,
    along_deviation: Option<f64>,
    across_spot: Option<f64>,
    along_spot: Option<f64>,
    extra: Option<f64>,
    avoidable: Option<f64>,
    available_s: Option<f64>,
    needed_s: Option<f64>,
    telling: u64,
    to_the_middle: Option<f64>,
}

/// Writes every group of a report as one row.
///
/// # Errors
/// When it cannot be written.
pub fn summary_csv(report: &ReportModel, out: impl Write) -> io::Result<()> {
    let mut csv = csv::Writer::from_writer(out);
    for player in &report.players {
        let mut row = |by: &str, name: &str, group: &GroupReport| {
            csv.serialize(summary_row(player.began, by, &guarded(name), group)).map_err(io_error)
        };
        row("all", "all", &player.all)?;
        for table in &player.tables {
            for named in &table.groups {
                row(table.by, &named.name, &named.group)?;
            }
        }
        for session in &player.sessions {
            row("session", &session.name, &session.group)?;
        }
    }
    csv.flush()
}

fn summary_row<'a>(player: &'a str, by: &'a str, name: &'a str, of: &GroupReport) -> SummaryRow<'a> {
    SummaryRow {
        player,
        by,
        group: name,
        shots: of.shots,
        judged: of.judged,
        winners: of.winners,
        no_reply: of.no_reply,
        missed: of.missed,
        not_seen: of.not_seen,
        not_playable: of.not_playable,
        reachable: of.reachable.map(|share| share.value),
        across: of.across.mean,
        across_low: of.across.low,
        across_high: of.across.high,
        across_deviation: of.across.deviation,
        along: of.along.mean,
        along_low: of.along.low,
        along_high: of.along.high,
        along_deviation: of.along.deviation,
        across_spot: of.across_spot.mean,
        along_spot: of.along_spot.mean,
        extra: of.extra.mean,
        avoidable: of.avoidable.mean,
        available_s: of.available_s.mean,
        needed_s: of.needed_s.mean,
        telling: of.telling,
        to_the_middle: of.to_the_middle.map(|share| share.value),
    }
}
