//! Faults of a row, in words, each with its remedy.

use std::fmt;

use standpoint_language::{brief, decimal, text, tr};

use standpoint_board::problem::{listed, nearest};

/// A row that could not be read.
#[derive(Debug, Clone, PartialEq)]
pub struct BadRow {
    /// Line of the file where it begins, counted from 1 with the heading.
    pub line: u64,
    /// Everything that is wrong with it, at least one.
    pub faults: Vec<CellFault>,
}

/// One thing wrong with a row.
#[derive(Debug, Clone, PartialEq)]
pub struct CellFault {
    /// The heading of the column in the file; empty for the row as a whole.
    pub column: String,
    /// What is wrong.
    pub kind: FaultKind,
}

/// What is wrong with a cell or a row.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum FaultKind {
    /// A required cell is blank.
    #[error("{}", text("the cell is blank"))]
    Blank,
    /// No number.
    #[error("{}", tr!("`{}` is not a number", found))]
    NotANumber {
        /// What is there.
        found: String,
    },
    /// Bytes that are not text.
    #[error("{}", text("the cell is not text in UTF-8"))]
    NotText,
    /// A cell with a line break in it: most likely a quote that is not closed.
    #[error("{}", tr!("the cell goes on over {} lines", lines))]
    LineBreak {
        /// How many.
        lines: u64,
    },
    /// A text too long for a chart.
    #[error("{}", tr!("the text has {} characters, {} are allowed", found, limit))]
    TextTooLong {
        /// Characters found.
        found: usize,
        /// Characters allowed.
        limit: usize,
    },
    /// A character that cannot be shown.
    #[error("{}", tr!("the text contains the control character {}", format!("U+{found:04X}")))]
    ControlCharacter {
        /// Its code.
        found: u32,
    },
    /// More or fewer cells than headings.
    #[error("{}", tr!("the row has {} cells, the heading {}", found, wanted))]
    Cells {
        /// Cells found.
        found: usize,
        /// Headings.
        wanted: usize,
    },
    /// Beyond its bounds, in the unit of the file.
    #[error("{}", tr!("{} is outside {} to {} {}", brief(*found), brief(*low), brief(*high), unit))]
    OutOfRange {
        /// The number.
        found: f64,
        /// Least allowed.
        low: f64,
        /// Most allowed.
        high: f64,
        /// Unit.
        unit: &'static str,
    },
    /// Outside the court and its run-off.
    #[error("{}", tr!("{} {} lies outside the site, which reaches to {} {} on either side", brief(*found), unit, decimal(*limit, 2), unit))]
    OffSite {
        /// The coordinate.
        found: f64,
        /// Greatest magnitude allowed.
        limit: f64,
        /// Unit.
        unit: &'static str,
    },
    /// At the wrong end.
    #[error("{}", wrong_end(*found, unit, end, whose))]
    WrongEnd {
        /// The coordinate.
        found: f64,
        /// Unit.
        unit: &'static str,
        /// "near" or "far".
        end: &'static str,
        /// Whose place it is.
        whose: &'static str,
    },
    /// A name that is not among those allowed.
    #[error("{}", tr!("`{}` is not one of the names allowed here", found))]
    UnknownName {
        /// What is there.
        found: String,
        /// Names allowed.
        known: Vec<&'static str>,
    },
    /// One coordinate of a place without the other.
    #[error("{}", text("one coordinate is given and the other is not"))]
    HalfAPlace,
    /// Met before it was struck.
    #[error("{}", tr!("{} s is not after the contact at {} s", brief(*met), brief(*struck)))]
    MetTooEarly {
        /// Time when it is met, s.
        met: f64,
        /// Time when it is struck, s.
        struck: f64,
    },
    /// A text that is not a date.
    #[error("{}", tr!("`{}` is not a date", found))]
    NotADate {
        /// What is there.
        found: String,
    },
    /// Not written as a score.
    #[error("{}", tr!("`{}` is not a score", found))]
    NotAScore {
        /// What is there.
        found: String,
    },
    /// An earlier row has a different fact about the same point.
    #[error("{}", text("a row before it says something else of the same point"))]
    OtherThanBefore,
    /// Neither a landing nor a place where it was met.
    #[error("{}", text("the shot neither lands nor is it met"))]
    NowhereToGo,
}

/// A place at the wrong end; `whose` is one of the words used by the reader of rows.
fn wrong_end(found: f64, unit: &str, end: &str, whose: &str) -> String {
    let whose = match whose {
        "the hitter's" => text("the hitter's"),
        "the opponent's" => text("the opponent's"),
        "the landing" => text("the landing"),
        other => other,
    };
    if end == "near" {
        tr!("{} {} lies at the near end, and {} place is at the other", brief(found), unit, whose)
    } else {
        tr!("{} {} lies at the far end, and {} place is at the other", brief(found), unit, whose)
    }
}

impl FaultKind {
    /// What to do about it.
    #[must_use]
    pub fn remedy(&self) -> String {
        match self {
            Self::Blank => text("Write a number here.").to_owned(),
            Self::NotANumber { found } if found.contains(',') => {
                text("Write a point for the decimals, as in 3.25, or separate the cells by semicolons.").to_owned()
            }
            Self::NotANumber { .. } => {
                text("Write a number such as 3.25, or leave the cell blank if it may be.").to_owned()
            }
            Self::NotText => text("Save the file as UTF-8.").to_owned(),
            Self::LineBreak { .. } => text("Close the quote, or remove it.").to_owned(),
            Self::TextTooLong { limit, .. } => tr!("Shorten it to {} characters.", limit),
            Self::ControlCharacter { .. } => text("Remove it.").to_owned(),
            Self::Cells { found, wanted } if found > wanted => {
                text("Put quotes around a cell that contains the separator, or remove the surplus cells.").to_owned()
            }
            Self::Cells { .. } => text("Add the missing cells; they may be blank.").to_owned(),
            Self::OutOfRange { .. } => text("Check the number and its unit.").to_owned(),
            Self::OffSite { .. } => text("Check the number, the unit of lengths, and where the zero is.").to_owned(),
            Self::WrongEnd { .. } => {
                text("Check the sign, the hitter, and from which side places are told.").to_owned()
            }
            Self::UnknownName { found, known } => match nearest(found, known) {
                Some(name) => tr!("Did you mean `{}`?", name),
                None => tr!("Write one of {}, or leave the cell blank.", listed(known)),
            },
            Self::NotADate { .. } => text("Write the year, the month and the day, as in 2026-05-03.").to_owned(),
            Self::NotAScore { .. } => {
                text("Write the finished sets, the games and the points, the near player first: 6-4 2-3 40-30.")
                    .to_owned()
            }
            Self::OtherThanBefore => text("Say it in one row of the point and leave the others blank.").to_owned(),
            Self::HalfAPlace => text("Fill in both, or leave both blank.").to_owned(),
            Self::MetTooEarly { .. } => text("Write a later time, from the same zero.").to_owned(),
            Self::NowhereToGo => text("Fill in the landing, the place where it was met, or both.").to_owned(),
        }
    }
}

impl fmt::Display for CellFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if !self.column.is_empty() {
            write!(f, "column `{}`: ", self.column)?;
        }
        write!(f, "{}. {}", self.kind, self.kind.remedy())
    }
}

impl fmt::Display for BadRow {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, fault) in self.faults.iter().enumerate() {
            let newline = if i == 0 { "" } else { "\n" };
            write!(f, "{newline}line {}, {fault}", self.line)?;
        }
        Ok(())
    }
}
