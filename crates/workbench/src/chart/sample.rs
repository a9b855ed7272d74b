//! A sample of a table, and what a mapping reads from it.

use standpoint_board::chart::{ObservedShot, Setup};
use standpoint_charting::import::{Column, Mapping, RowReader, Unknown, read_headings, unknown_values};
use standpoint_language::{text, tr};

use crate::chart::names;

/// Rows shown.
const SHOWN: usize = 5;
/// Number of rows read with the mapping while it is chosen.
const TRIED: usize = 200;

/// A sample: the beginning of a table.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Sample {
    bytes: Vec<u8>,
    /// The headings.
    pub headings: Vec<String>,
    /// The first rows, unread.
    pub rows: Vec<Vec<String>>,
    /// Why nothing can be read at all.
    pub problem: Option<String>,
    /// Why it cannot be read with the mapping.
    pub faults: Option<String>,
    /// Rows read with the mapping.
    pub tried: usize,
    /// Rows among them that cannot be read.
    pub bad: usize,
    /// The first thing that is wrong with a row.
    pub first_bad: Option<String>,
    /// Words that are not the program's own, by column, with how often they occur in the rows tried.
    pub words: Unknown,
    /// Shots of the rows that could be read.
    pub shots: Vec<ObservedShot>,
}

impl Sample {
    /// The sample in these bytes.
    #[must_use]
    pub fn new(bytes: Vec<u8>) -> Self {
        let mut sample = Self { bytes, ..Self::default() };
        sample.split(None);
        sample
    }

    fn split(&mut self, separator: Option<char>) {
        match read_headings(self.bytes.as_slice(), separator) {
            Ok(headings) if headings.iter().any(|heading| !heading.trim().is_empty()) => self.headings = headings,
            Ok(_) => self.problem = Some(text("The file is empty. Choose another file.").to_owned()),
            Err(error) => self.problem = Some(format!("{error}. {}", error.remedy())),
        }
        // The separator that the headings were split by: the one between the first two, in the first line.
        let text = String::from_utf8_lossy(&self.bytes);
        let first = text.lines().next().unwrap_or_default();
        let found = [',', ';', '\t'].into_iter().rev().max_by_key(|c| first.matches(*c).count());
        let delimiter = separator.or(found).and_then(|c| u8::try_from(c).ok()).unwrap_or(b',');
        let mut reader =
            csv::ReaderBuilder::new().flexible(true).delimiter(delimiter).from_reader(self.bytes.as_slice());
        let row =
            |record: csv::ByteRecord| record.iter().map(|cell| String::from_utf8_lossy(cell).into_owned()).collect();
        self.rows = reader.byte_records().flatten().take(SHOWN).map(row).collect();
    }

    /// Tries the first rows with a mapping.
    pub fn check(&mut self, mapping: &Mapping) {
        (self.tried, self.bad, self.faults, self.first_bad) = (0, 0, None, None);
        self.shots.clear();
        self.words.clear();
        let missing = Column::REQUIRED.into_iter().filter(|column| !mapping.columns.contains_key(column));
        let missing: Vec<&str> = missing.map(names::column).collect();
        if !missing.is_empty() {
            self.faults = Some(tr!("Choose a column for {}.", missing.join(", ")));
            return;
        }
        let mut reader = match RowReader::new(self.bytes.as_slice(), mapping, &Setup::default().court) {
            Ok(reader) => reader,
            Err(error) => {
                self.faults = Some(format!("{error}. {}", error.remedy()));
                return;
            }
        };
        // Whatever they are mapped to, so that a meaning can be chosen anew.
        let bare = Mapping { values: Default::default(), ..mapping.clone() };
        self.words = unknown_values(self.bytes.as_slice(), &bare, &Setup::default(), TRIED as u64).unwrap_or_default();
        while self.tried < TRIED {
            match reader.next_row() {
                Ok(Some(row)) => {
                    self.tried += 1;
                    match row {
                        Ok(row) => self.shots.push(row.shot),
                        Err(bad) => {
                            self.bad += 1;
                            self.first_bad
                                .get_or_insert_with(|| bad.to_string().lines().next().unwrap_or_default().to_owned());
                        }
                    }
                }
                Ok(None) => break,
                Err(error) => {
                    self.faults = Some(format!("{error}. {}", error.remedy()));
                    return;
                }
            }
        }
    }

    /// An example of what a column holds.
    #[must_use]
    pub fn example(&self, heading: &str) -> &str {
        let at = self.headings.iter().position(|known| known.trim() == heading.trim());
        let cell = |row: &Vec<String>| at.and_then(|at| row.get(at).cloned());
        let full = self.rows.iter().position(|row| cell(row).is_some_and(|cell| !cell.trim().is_empty()));
        full.zip(at).and_then(|(row, at)| self.rows[row].get(at)).map_or("", |cell| cell.as_str())
    }
}
