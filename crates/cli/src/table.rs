//! Aligned text.

use std::io::{self, Write};

/// Alignment of a column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lean {
    /// Words.
    Left,
    /// Figures.
    Right,
}

/// A table with a heading of one or more lines.
#[derive(Debug, Clone)]
pub struct Table {
    leans: Vec<Lean>,
    heading: Vec<Vec<String>>,
    rows: Vec<Vec<String>>,
}

/// Blanks before the first column.
const INDENT: &str = "  ";
/// Blanks between columns.
const GAP: &str = "  ";

impl Table {
    /// An empty table; `leans` has the alignment of each column.
    #[must_use]
    pub fn new(leans: &[Lean]) -> Self {
        Self { leans: leans.to_vec(), heading: Vec::new(), rows: Vec::new() }
    }

    /// Adds a line of the heading.
    pub fn heading(&mut self, cells: &[&str]) {
        self.heading.push(cells.iter().map(|&cell| cell.to_owned()).collect());
    }

    /// Adds a row; missing cells at its end stay blank.
    pub fn row(&mut self, cells: Vec<String>) {
        self.rows.push(cells);
    }

    /// Writes the table.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn write(&self, out: &mut dyn Write) -> io::Result<()> {
        let width = |column: usize| {
            let cells = self.heading.iter().chain(&self.rows);
            cells.filter_map(|row| row.get(column)).map(|cell| cell.chars().count()).max().unwrap_or(0)
        };
        let widths: Vec<usize> = (0..self.leans.len()).map(width).collect();
        for row in self.heading.iter().chain(&self.rows) {
            let mut line = String::from(INDENT);
            for (i, (cell, &width)) in row.iter().zip(&widths).enumerate() {
                if i > 0 {
                    line.push_str(GAP);
                }
                match self.leans[i] {
                    Lean::Left => line.push_str(&format!("{cell:<width$}")),
                    Lean::Right => line.push_str(&format!("{cell:>width$}")),
                }
            }
            writeln!(out, "{}", line.trim_end())?;
        }
        Ok(())
    }
}

/// Writes labels and values in two columns under a title.
///
/// # Errors
/// When it cannot be written.
pub fn facts(out: &mut dyn Write, title: &str, facts: &[(&str, String)]) -> io::Result<()> {
    /// The same width in every section, so that they line up.
    const LABEL: usize = 18;
    writeln!(out, "\n{title}")?;
    for (label, text) in facts {
        writeln!(out, "{INDENT}{label:<LABEL$}{text}")?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_stand_under_each_other_whatever_their_letters_weigh() {
        let mut table = Table::new(&[Lean::Left, Lean::Right]);
        table.heading(&["who", "run"]);
        table.row(vec!["Ünal".to_owned(), "6′ 3″".to_owned()]);
        table.row(vec!["B".to_owned(), "−11″".to_owned()]);
        let mut text = Vec::new();
        table.write(&mut text).unwrap();
        assert_eq!(String::from_utf8(text).unwrap(), "  who     run\n  Ünal  6′ 3″\n  B      −11″\n");
    }
}
