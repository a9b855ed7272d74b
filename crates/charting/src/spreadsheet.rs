//! Texts in tables that a spreadsheet may open.
//!
//! A spreadsheet takes a cell that begins with one of a few characters for a formula and computes it. Texts come from
//! files of others, so a text that begins so leaves with an apostrophe before it, which spreadsheets take for "this is
//! a text" (OWASP, "CSV Injection"). Reading takes it away again, so a table of this program comes back as it was.

use std::borrow::Cow;
use std::io;

/// What stands before a guarded text.
const GUARD: char = '\'';

/// Whether a spreadsheet would compute a cell that begins with this.
fn computes(c: char) -> bool {
    matches!(c, '=' | '+' | '-' | '@' | '\t' | '\r' | '\n')
}

/// Whether the text, apart from guards before it, would be computed. A plain number stays a number.
fn is_computed(text: &str) -> bool {
    text.starts_with(computes) && text.parse::<f64>().is_err()
}

/// The text as it goes into a table.
#[must_use]
pub fn guarded(text: &str) -> Cow<'_, str> {
    if is_computed(text.trim_start_matches(GUARD)) { format!("{GUARD}{text}").into() } else { text.into() }
}

/// The text of a cell that [`guarded`] may have written.
#[must_use]
pub fn unguarded(cell: &str) -> &str {
    match cell.strip_prefix(GUARD) {
        Some(text) if is_computed(text.trim_start_matches(GUARD)) => text,
        _ => cell,
    }
}

/// The system's error, without the CSV writer's wrapper: a reader that has gone away stays known as one.
#[must_use]
pub fn io_error(error: csv::Error) -> io::Error {
    match error.into_kind() {
        csv::ErrorKind::Io(error) => error,
        other => io::Error::other(format!("{other:?}")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_that_would_be_computed_is_guarded_and_comes_back() {
        for text in ["=1+1", "+A1", "-2+3", "@SUM(A1)", "\t=1", "\r=1", "'=1", "''@x", "--1"] {
            let cell = guarded(text);
            assert_eq!(cell, format!("'{text}"));
            assert_eq!(unguarded(&cell), text);
        }
    }

    #[test]
    fn other_texts_and_numbers_stay_as_they_are() {
        for text in ["", "Sunday", "-3", "+1.5", "-1e3", "'twas", "6-4 2-3", "a=b", "'", "'-3"] {
            assert_eq!(guarded(text), text);
            assert_eq!(unguarded(text), text);
        }
    }

    #[test]
    fn a_reader_that_goes_away_stays_known() {
        let gone = csv::Error::from(io::Error::from(io::ErrorKind::BrokenPipe));
        assert_eq!(io_error(gone).kind(), io::ErrorKind::BrokenPipe);
    }
}
