//! Charts as text, and back.
//!
//! A chart is written in RON like a board, see [`mod@crate::file`]: versioned, read by the same machinery, and with every
//! problem reported. `docs/charting.md` describes it. Each shot is one line; what was not seen is left out.

pub(crate) mod layout;
mod names;
pub(crate) mod read;

use layout::ChartPart;

use std::path::Path;

use super::check;
use super::model::Chart;
use crate::file::fields::{Diagnostics, LISTED};
use crate::file::reading::{self, Format};
use crate::file::tree::Node;
use crate::problem::{Problem, ProblemKind, Report};
use crate::store::{self, LoadError, SaveError, Stamp};

/// Ending of chart files, without the dot.
pub const EXTENSION: &str = "chart";
/// Largest chart that is read or written, bytes.
pub const SIZE_LIMIT: u64 = 64 * 1024 * 1024;
pub use layout::VERSION;

/// Header and limits of chart files.
const FORMAT: Format = Format {
    mark: "standpoint_chart",
    version: VERSION,
    size_limit: SIZE_LIMIT,
    value_limit: check::VALUE_LIMIT,
    stranger: ProblemKind::NotAChart,
};

/// The chart as text of the current version.
///
/// # Errors
///
/// A report of all problems of the chart: nothing is written that could not be read back.
pub fn to_text(chart: &Chart) -> Result<String, Report> {
    let problems = check::check(chart);
    if !problems.is_empty() {
        let unlisted = problems.len().saturating_sub(LISTED);
        return Err(Report { problems: problems.into_iter().take(LISTED).collect(), unlisted });
    }
    let style = ron::ser::PrettyConfig::new().new_line("\n").indentor("  ").depth_limit(4);
    let not_written = |error: ron::Error| ProblemKind::NotWritten { reason: error.to_string() };
    let text = ron::ser::to_string_pretty(&ChartPart::from(chart).marked(), style);
    let text = text.map_err(|error| Report::of(Problem::new("", not_written(error))))? + "\n";
    FORMAT.size_allowed(text.len() as u64)?;
    Ok(text)
}

/// The chart in the bytes of a file, of any version up to [`VERSION`].
///
/// # Errors
///
/// A report of everything that is wrong, each with line, role and remedy.
pub fn from_bytes(bytes: &[u8]) -> Result<Chart, Report> {
    FORMAT.size_allowed(bytes.len() as u64)?;
    from_text(reading::text_of(bytes)?)
}

/// The chart in a text; see [`from_bytes`].
///
/// # Errors
///
/// As [`from_bytes`].
pub fn from_text(text: &str) -> Result<Chart, Report> {
    let convert = |notes: &mut Diagnostics, root: &Node<'_>| {
        let version = FORMAT.version_in(root).unwrap_or(VERSION);
        read::read(notes, root, version).into_chart()
    };
    FORMAT.read(text, convert, check::findings)
}

impl Chart {
    /// Rounds every number to what a file gives back, so that a chart and its file agree exactly.
    pub fn tidy(&mut self) {
        *self = ChartPart::from(&*self).into_chart();
    }
}

/// Saves a chart; the former file is never lost.
///
/// # Errors
///
/// See [`SaveError`].
pub fn save(path: &Path, chart: &Chart) -> Result<(), SaveError> {
    let text = to_text(chart).map_err(SaveError::Board)?;
    store::save_text(path, &text)
}

/// Saves a chart over the file it was opened from or last saved to, unless somebody else has changed that, and
/// returns the stamp for the next time; see [`store::save_board_over`].
///
/// # Errors
///
/// See [`SaveError`].
pub fn save_over(path: &Path, chart: &Chart, expected: Option<&Stamp>) -> Result<Stamp, SaveError> {
    let text = to_text(chart).map_err(SaveError::Board)?;
    if let Some(expected) = expected {
        expected.holds(path)?;
    }
    store::save_text(path, &text)?;
    Ok(Stamp::of(text.as_bytes()))
}

/// Opens a chart.
///
/// # Errors
///
/// See [`LoadError`].
pub fn load(path: &Path) -> Result<Chart, LoadError> {
    open(path).map(|(chart, _)| chart)
}

/// Opens a chart with the stamp that [`save_over`] asks for.
///
/// # Errors
///
/// See [`LoadError`].
pub fn open(path: &Path) -> Result<(Chart, Stamp), LoadError> {
    let bytes = store::load_bytes(path, SIZE_LIMIT)?;
    match from_bytes(&bytes) {
        Ok(chart) => Ok((chart, Stamp::of(&bytes))),
        Err(report) => Err(LoadError::Content { path: path.to_owned(), report }),
    }
}
