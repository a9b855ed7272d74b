//! Charts from CSV files.
//!
//! A heading is required; a [`Mapping`] gives the column of each fact, the units and the frame. Rows are read one by
//! one, so a file may be of any size, and each row is either read or reported as a [`BadRow`] with line, column, reason
//! and remedy: their counts add up to the rows of the file. Blank lines do not count as rows.

mod cells;
mod column;
mod encoding;
mod export;
mod fault;
mod lines;
mod mapping;
mod point_facts;
mod rows;
mod values;
mod whose;

use std::io::Read;

pub use column::Column;
pub use encoding::Encoding;
pub use export::{cells, write_chart};
pub use fault::{BadRow, CellFault, FaultKind};
pub use mapping::{HeaderFault, LengthUnit, Mapping, Sides, SpeedUnit};
pub use point_facts::PointFacts;
pub use rows::{ReadError, Row, RowReader, read_headings};
pub use values::{Unknown, meanings, suggested_value, unknown_values};

use standpoint_board::chart::model::{Chart, Point, Setup};

/// A chart read from a file, with what could not be read.
#[derive(Debug, Clone, PartialEq)]
pub struct Imported {
    /// What could be read.
    pub chart: Chart,
    /// Rows of the file, without the heading; the sum of shots and bad rows.
    pub rows: u64,
    /// Rows that could not be read.
    pub bad: Vec<BadRow>,
    /// Headings that nothing is read from.
    pub unused: Vec<String>,
    /// Encoding of the text.
    pub encoding: Encoding,
}

/// Reads a whole file into a chart.
///
/// Consecutive rows with the same session, point and ends become one point; without a column for the point each row is
/// one. A bad row ends its point, as the next row is not known to follow the shot before.
///
/// # Errors
/// See [`ReadError`]; bad rows are not errors but part of the result.
pub fn read_chart(input: impl Read, mapping: &Mapping, setup: Setup) -> Result<Imported, ReadError> {
    let mut reader = RowReader::new(input, mapping, &setup.court)?;
    let mut imported = Imported {
        chart: Chart::new(setup),
        rows: 0,
        bad: Vec::new(),
        unused: reader.unused(),
        encoding: Encoding::Utf8,
    };
    let mut goes_on = false;
    while let Some(row) = reader.next_row()? {
        imported.rows += 1;
        let row = match row {
            Ok(row) => row,
            Err(bad) => {
                imported.bad.push(bad);
                goes_on = false;
                continue;
            }
        };
        let label = row.point.as_deref().unwrap_or_default();
        match imported.chart.points.last_mut() {
            Some(point)
                if goes_on && point.label == label && point.session == *row.session && point.ends == row.ends =>
            {
                point.shots.push(row.shot);
            }
            _ => imported.chart.points.push(Point {
                session: row.session.to_string(),
                label: label.to_owned(),
                ends: row.ends,
                shots: vec![row.shot],
                ..Point::default()
            }),
        }
        row.told.put(&mut imported.chart);
        goes_on = row.point.is_some();
    }
    imported.encoding = reader.encoding();
    Ok(imported)
}
