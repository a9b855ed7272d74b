//! Reads a file row by row: nothing but the row at hand is kept.

use std::io::{self, BufRead, BufReader, Cursor, Read};
use std::sync::Arc;

use csv::{ByteRecord, ReaderBuilder};
use standpoint_language::{text, tr};

use super::cells::Cells;
use super::column::Column;
use super::fault::{BadRow, CellFault, FaultKind};
use super::mapping::{HeaderFault, Layout, Mapping};
use crate::chart::model::{Ends, ObservedShot};
use crate::choices::CourtChoice;
use crate::site::Site;

/// Longest heading that is looked at, bytes.
const HEADER_LIMIT: u64 = 1 << 20;
/// What may stand between cells when the mapping does not say.
const SEPARATORS: [char; 3] = [',', ';', '\t'];

/// A row that could be read.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Line of the file where it begins, counted from 1 with the heading.
    pub line: u64,
    /// The day, match or set.
    pub session: Arc<str>,
    /// The point; `None` where the file has no such column, and then no row has to do with another.
    pub point: Option<Arc<str>>,
    /// Whether the players were still at the ends where they began.
    pub ends: Ends,
    /// The shot.
    pub shot: ObservedShot,
}

/// Why a file cannot be read at all.
#[derive(Debug, thiserror::Error)]
pub enum ReadError {
    /// Its heading is wrong.
    #[error(transparent)]
    Header(#[from] HeaderFault),
    /// The system says so.
    #[error("{}", tr!("the file could not be read: {}", .0))]
    Io(#[from] io::Error),
}

impl ReadError {
    /// What to do about it.
    #[must_use]
    pub fn remedy(&self) -> String {
        match self {
            Self::Header(fault) => fault.remedy(),
            Self::Io(_) => text("Try again, or read a copy.").to_owned(),
        }
    }
}

type Input<R> = io::Chain<Cursor<Vec<u8>>, BufReader<LineFeeds<R>>>;

/// Ends every line with one line feed, whatever the file does, the last one too: then lines can be counted.
struct LineFeeds<R> {
    inner: BufReader<R>,
    after_return: bool,
    last: u8,
}

impl<R: Read> Read for LineFeeds<R> {
    fn read(&mut self, out: &mut [u8]) -> io::Result<usize> {
        let mut written = 0;
        while written == 0 && !out.is_empty() {
            let bytes = self.inner.fill_buf()?;
            if bytes.is_empty() {
                if self.last == b'\n' {
                    break;
                }
                (out[0], self.last, written) = (b'\n', b'\n', 1);
                break;
            }
            let taken = bytes.len().min(out.len());
            for byte in &bytes[..taken] {
                let paired = *byte == b'\n' && self.after_return;
                self.after_return = *byte == b'\r';
                if !paired {
                    self.last = if self.after_return { b'\n' } else { *byte };
                    out[written] = self.last;
                    written += 1;
                }
            }
            self.inner.consume(taken);
        }
        Ok(written)
    }
}

/// The rows of a file.
pub struct RowReader<R: Read> {
    csv: csv::Reader<Input<R>>,
    layout: Layout,
    mapping: Mapping,
    site: Site,
    decimal_comma: bool,
    record: ByteRecord,
    session: Arc<str>,
    point: Arc<str>,
}

impl<R: Read> RowReader<R> {
    /// Reads the heading.
    ///
    /// # Errors
    /// A heading that does not go with the mapping, or a file that cannot be read.
    pub fn new(input: R, mapping: &Mapping, court: &CourtChoice) -> Result<Self, ReadError> {
        let (separator, input) = begun(input, mapping.separator)?;
        let mut csv = csv_reader(input, separator);
        let headings = headings(&mut csv)?;
        Ok(Self {
            csv,
            layout: Layout::find(mapping, headings)?,
            mapping: mapping.clone(),
            site: Site::of(court),
            decimal_comma: separator != ',',
            record: ByteRecord::new(),
            session: "".into(),
            point: "".into(),
        })
    }

    /// Headings that nothing is read from.
    #[must_use]
    pub fn unused(&self) -> Vec<String> {
        self.layout.unused()
    }

    /// Bytes read so far.
    #[must_use]
    pub fn bytes(&self) -> u64 {
        self.csv.position().byte()
    }

    /// The next row: read, or bad; `None` at the end of the file.
    ///
    /// # Errors
    /// A file that cannot be read on.
    pub fn next_row(&mut self) -> Result<Option<Result<Row, BadRow>>, ReadError> {
        let before = self.csv.position().line();
        let more = self.csv.read_byte_record(&mut self.record).map_err(io::Error::from)?;
        if !more {
            return Ok(None);
        }
        let breaks = self.record.as_slice().iter().filter(|byte| **byte == b'\n').count() as u64;
        // The reader has just gone past the line feed that ends the row. Where the row begins it does not tell exactly:
        // blank lines before it count as part of it. A quote that is not closed runs into the end of the file instead.
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
            site: &self.site,
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
            return Err(BadRow { line, faults });
        }
        let shot = cells.shot();
        let ends = if cells.changed_ends() { Ends::Changed } else { Ends::AsBegun };
        let session = cells.line(Column::Session).unwrap_or_default();
        let point = cells.line(Column::Point).unwrap_or_default();
        let faults = cells.faults;
        if !faults.is_empty() {
            return Err(BadRow { line, faults });
        }
        // Most rows repeat what the one before said.
        for (kept, text) in [(&mut self.session, session), (&mut self.point, point)] {
            if **kept != *text {
                *kept = text.into();
            }
        }
        let point = self.layout.at[Column::Point.index()].map(|_| Arc::clone(&self.point));
        Ok(Row { line, session: Arc::clone(&self.session), point, ends, shot })
    }
}

/// The headings of a file, for a dialog that maps them.
///
/// # Errors
/// A file that cannot be read or has no heading.
pub fn read_headings(input: impl Read, separator: Option<char>) -> Result<Vec<String>, ReadError> {
    let (separator, input) = begun(input, separator)?;
    headings(&mut csv_reader(input, separator))
}

fn csv_reader<R: Read>(input: R, separator: char) -> csv::Reader<R> {
    let separator = u8::try_from(separator).unwrap_or(b',');
    ReaderBuilder::new().has_headers(false).flexible(true).delimiter(separator).from_reader(input)
}

/// Looks at the first line for what separates its cells, and gives back a reader that starts with it again.
fn begun<R: Read>(input: R, separator: Option<char>) -> io::Result<(char, Input<R>)> {
    let lines = LineFeeds { inner: BufReader::new(input), after_return: false, last: b'\n' };
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
    if !csv.read_byte_record(&mut record).map_err(io::Error::from)? {
        return Err(HeaderFault::Empty.into());
    }
    let text = |bytes: &[u8]| std::str::from_utf8(bytes).map(|text| text.trim().to_owned());
    let headings: Result<Vec<String>, _> = record.iter().map(text).collect();
    Ok(headings.map_err(|_| HeaderFault::NotText)?)
}
