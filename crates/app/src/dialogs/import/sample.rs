//! The beginning of a table, and what it gives with a mapping.

use egui::{Label, RichText, ScrollArea, Ui};
use egui_extras::{Column as Width, TableBuilder};
use standpoint_board::chart::{
    Setup,
    import::{Column, Mapping, RowReader, read_headings},
};
use standpoint_language::{text, tr};

use crate::{
    chart::names,
    theme::{Theme, style},
};

/// Rows shown.
const SHOWN: usize = 5;
/// Rows that are tried with the mapping while it is chosen.
const TRIED: usize = 200;

/// The beginning of a table.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Sample {
    bytes: Vec<u8>,
    /// The headings.
    pub headings: Vec<String>,
    /// The first rows as they stand there.
    rows: Vec<Vec<String>>,
    /// Why nothing can be read at all.
    pub problem: Option<String>,
    /// Why it cannot be read with the mapping.
    pub faults: Option<String>,
    tried: usize,
    bad: usize,
    /// The first thing that is wrong with a row.
    first_bad: Option<String>,
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
        while self.tried < TRIED {
            match reader.next_row() {
                Ok(Some(row)) => {
                    self.tried += 1;
                    if let Err(bad) = row {
                        self.bad += 1;
                        self.first_bad
                            .get_or_insert_with(|| bad.to_string().lines().next().unwrap_or_default().to_owned());
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

    /// The first rows, and how the mapping fares with them.
    pub fn preview(&self, ui: &mut Ui, mapping: &Mapping, theme: &Theme) {
        ui.label(RichText::new(text("First rows")).text_style(style::emphasis()));
        let used = |heading: &str| mapping.columns.values().any(|column| column.trim() == heading.trim());
        ScrollArea::horizontal().id_salt("first rows").max_height(150.0).show(ui, |ui| {
            let mut table = TableBuilder::new(ui).striped(true).vscroll(false);
            for heading in &self.headings {
                let width = (heading.chars().count() as f32 * 8.0 + 16.0).clamp(56.0, 140.0);
                table = table.column(Width::exact(width).clip(true));
            }
            table
                .header(22.0, |mut header| {
                    for heading in &self.headings {
                        header.col(|ui| {
                            let text = RichText::new(heading).small();
                            let text = if used(heading) { text.strong() } else { text.color(*theme.ui.soft) };
                            ui.add(Label::new(text).truncate());
                        });
                    }
                })
                .body(|body| {
                    body.rows(20.0, self.rows.len(), |mut row| {
                        let cells = &self.rows[row.index()];
                        for i in 0..self.headings.len() {
                            row.col(|ui| {
                                let cell = cells.get(i).map_or("", String::as_str);
                                ui.add(Label::new(RichText::new(cell).small()).truncate());
                            });
                        }
                    });
                });
        });
        if self.faults.is_none() {
            let (tried, bad) = (self.tried, self.bad);
            let text = match (&self.first_bad, bad) {
                (Some(first), 1..) => tr!("{} of the first {} rows cannot be read so far: {}", bad, tried, first),
                _ => tr!("All of the first {} rows can be read.", tried),
            };
            let color = if bad > 0 { *theme.ui.warn } else { *theme.ui.soft };
            ui.add(Label::new(RichText::new(text).small().color(color)).wrap());
        }
    }
}
