//! Reads a file row by row; only the current row is kept.

use std::io::{self, BufRead, BufReader, Cursor, Read};
use std::sync::Arc;

use csv::{ByteRecord, ReaderBuilder};
use standpoint_language::{text, tr};

use super::cells::Cells;
use super::column::Column;
use super::encoding::Encoding;
use super::fault::{BadRow, CellFault, FaultKind};
use super::lines::{Endless, Gauge, Lines, ROW_LIMIT};
use super::mapping::{HeaderFault, Layout, Mapping};
use super::point_facts::PointFacts;
use crate::spreadsheet::io_error;
use standpoint_board::chart::ends::Ends;
use standpoint_board::chart::model::ObservedShot;
use standpoint_board::choices::CourtChoice;
use standpoint_board::play_area::PlayArea;

/// Longest heading that is read, bytes.
const HEADER_LIMIT: u64 = 1 << 20;
/// Separators that are detected when the mapping gives none.
const SEPARATORS: [char; 3] = [',', ';', '\t'];

/// A row that could be read.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Line of the file where it begins, counted from 1 with the heading.
    pub line: u64,
    /// The day, match or set.
    pub session: Arc<str>,
    /// The point; `None` where the file has no such column, and then each row is a point of its own.
    pub point: Option<Arc<str>>,
    /// Whether the players were still at the ends where they began.
    pub ends: Ends,
    /// The shot.
    pub shot: ObservedShot,
    /// Facts about the point from this row and earlier ones.
    pub told: PointFacts,
}

/// Why a file cannot be read at all.
#[derive(Debug, thiserror::Error)]
pub enum ReadError {
    /// Its heading is wrong.
    #[error(transparent)]
    Header(#[from] HeaderFault),
    /// A row that does not end.
    #[error("{}", tr!("the row that begins in line {} goes on for more than {} bytes", line, limit))]
    EndlessRow {
        /// Where it begins.
        line: u64,
        /// Bytes that a row may have.
        limit: u64,
    },
    /// The system's error.
    #[error("{}", tr!("the file could not be read: {}", .0))]
    Io(#[from] io::Error),
}

impl ReadError {
    /// What to do about it.
    #[must_use]
    pub fn remedy(&self) -> String {
        match self {
            Self::Header(fault) => fault.remedy(),
            Self::EndlessRow { .. } => text(
                "Close a quote that is open there, or break the lines; a row of a chart is a few hundred bytes long.",
            )
            .to_owned(),
            Self::Io(_) => text("Try again, or read a copy.").to_owned(),
        }
    }
}

type Input<R> = io::Chain<Cursor<Vec<u8>>, BufReader<Lines<R>>>;

/// The error of a reader; for an endless row it names the line where the row begins.
fn read_error(error: io::Error, line: u64) -> ReadError {
    let endless = error.get_ref().is_some_and(|inner| inner.is::<Endless>());
    if endless { ReadError::EndlessRow { line, limit: ROW_LIMIT } } else { ReadError::Io(error) }
}

/// The rows of a file.
pub struct RowReader<R: Read> {
    csv: csv::Reader<Input<R>>,
    gauge: Arc<Gauge>,
    layout: Layout,
    mapping: Mapping,
    area: PlayArea,
    decimal_comma: bool,
    record: ByteRecord,
    session: Arc<str>,
    point: Arc<str>,
    /// Facts about the current point.
    open: Option<(Ends, PointFacts)>,
}

impl<R: Read> RowReader<R> {
    /// Reads the heading.
    ///
    /// # Errors
    /// A heading that does not go with the mapping, or a file that cannot be read.
    pub fn new(input: R, mapping: &Mapping, court: &CourtChoice) -> Result<Self, ReadError> {
        let gauge = Arc::new(Gauge::default());
        let lines = Lines::new(input, mapping.encoding, Arc::clone(&gauge));
        let (separator, input) = begun(lines, mapping.separator).map_err(|error| read_error(error, 1))?;
        let mut csv = csv_reader(input, separator);
        let headings = headings(&mut csv)?;
        gauge.next_row();
        Ok(Self {
            csv,
            gauge,
            layout: Layout::find(mapping, headings)?,
            mapping: mapping.clone(),
            area: PlayArea::of(court),
            decimal_comma: separator != ',',
            record: ByteRecord::new(),
            session: "".into(),
            point: "".into(),
            open: None,
        })
    }

    /// Headings that nothing is read from.
    #[must_use]
    pub fn unused(&self) -> Vec<String> {
        self.layout.unused()
    }

    /// Bytes taken from the file so far; somewhat more than its rows.
    #[must_use]
    pub fn bytes(&self) -> u64 {
        self.gauge.bytes()
    }

    /// Encoding of the text, as far as it has been read.
    #[must_use]
    pub fn encoding(&self) -> Encoding {
        self.gauge.encoding()
    }

    /// The column that a heading of the file is read as.
    #[must_use]
    pub fn column(&self, heading: &str) -> Option<Column> {
        Column::ALL.into_iter().find(|column| self.layout.has(*column) && self.layout.heading(*column) == heading)
    }

    /// The next row: read, or bad; `None` at the end of the file.
    ///
    /// # Errors
    /// When the file cannot be read any further.
    pub fn next_row(&mut self) -> Result<Option<Result<Row, BadRow>>, ReadError> {
        let before = self.csv.position().line();
        let more = self.csv.read_byte_record(&mut self.record).map_err(io_error);
        if !more.map_err(|error| read_error(error, before))? {
            return Ok(None);
        }
        self.gauge.next_row();
        let breaks = self.record.as_slice().iter().filter(|byte| **byte == b'\n').count() as u64;
        // The reader has just passed the line feed that ends the row. It does not report the exact beginning of the
        // row: blank lines before it count as part of it. An unclosed quote runs to the end of the file.
        let after = self.csv.position().line();
        let ended = after - before > breaks;
        let line = after - breaks - u64::from(ended);
        Ok(Some(self.row(line, breaks)))
    }

    fn row(&mut self, line: u64, breaks: u64) -> Result<Row, BadRow> {
        let mut cells = Cells {
            record: &self.record,
            layout: &self.layout,
            mapping: &self.mapping,
            area: &self.area,
            decimal_comma: self.decimal_comma,
            faults: Vec::new(),
        };
        let (found, wanted) = (self.record.len(), self.layout.headings.len());
        if found != wanted {
            let mut faults = vec![CellFault { column: String::new(), kind: FaultKind::Cells { found, wanted } }];
            if breaks > 0 {
                let kind = FaultKind::LineBreak { lines: breaks + 1 };
                faults.insert(0, CellFault { column: String::new(), kind });
            }
            self.open = None;
            return Err(BadRow { line, faults });
        }
        let (shot, ends) = cells.shot();
        let session = cells.line(Column::Session).unwrap_or_default();
        let point = cells.line(Column::Point).unwrap_or_default();
        let follows =
            self.layout.at[Column::Point.index()].is_some() && *self.session == *session && *self.point == *point;
        let before = self.open.take().filter(|(known, _)| follows && *known == ends).map(|(_, told)| told);
        let now = cells.point_facts(ends);
        let told = before.map_or_else(|| now.clone(), |before| cells.agree(&before, &now));
        let faults = cells.faults;
        if !faults.is_empty() {
            return Err(BadRow { line, faults });
        }
        // Most rows repeat the previous one.
        for (kept, text) in [(&mut self.session, session), (&mut self.point, point)] {
            if **kept != *text {
                *kept = text.into();
            }
        }
        let point = self.layout.at[Column::Point.index()].map(|_| Arc::clone(&self.point));
        self.open = Some((ends, told.clone()));
        Ok(Row { line, session: Arc::clone(&self.session), point, ends, shot, told })
    }
}

/// The headings of a file, for a dialog that maps them.
///
/// # Errors
/// A file that cannot be read or has no heading.
pub fn read_headings(input: impl Read, separator: Option<char>) -> Result<Vec<String>, ReadError> {
    let lines = Lines::new(input, None, Arc::new(Gauge::default()));
    let (separator, input) = begun(lines, separator).map_err(|error| read_error(error, 1))?;
    headings(&mut csv_reader(input, separator))
}

fn csv_reader<R: Read>(input: R, separator: char) -> csv::Reader<R> {
    let separator = u8::try_from(separator).unwrap_or(b',');
    ReaderBuilder::new().has_headers(false).flexible(true).delimiter(separator).from_reader(input)
}

/// Detects the separator from the first line; returns a reader that starts with that line again.
fn begun<R: Read>(lines: Lines<R>, separator: Option<char>) -> io::Result<(char, Input<R>)> {
    let mut input = BufReader::new(lines);
    let mut first = Vec::new();
    input.by_ref().take(HEADER_LIMIT).read_until(b'\n', &mut first)?;
    let count = |separator: char| first.iter().filter(|byte| char::from(**byte) == separator).count();
    let most = SEPARATORS.into_iter().rev().max_by_key(|separator| count(*separator));
    let separator = separator.or(most).unwrap_or(',');
    Ok((separator, Cursor::new(first).chain(input)))
}

fn headings<R: Read>(csv: &mut csv::Reader<R>) -> Result<Vec<String>, ReadError> {
    let mut record = ByteRecord::new();
    if !csv.read_byte_record(&mut record).map_err(|error| read_error(io_error(error), 1))? {
        return Err(HeaderFault::Empty.into());
    }
    let text = |bytes: &[u8]| std::str::from_utf8(bytes).map(|text| text.trim().to_owned());
    let headings: Result<Vec<String>, _> = record.iter().map(text).collect();
    Ok(headings.map_err(|_| HeaderFault::NotText)?)
}
