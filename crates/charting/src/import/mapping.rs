//! Mapping of a file's columns, with units and frame.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use standpoint_geometry::units::{FOOT, KMH, MPH};
use standpoint_language::{text, tr};

use super::column::{Column, plain};
use super::encoding::Encoding;
use standpoint_board::check::LINE_LIMIT;
use standpoint_board::file::shortened;
use standpoint_board::problem::{listed, nearest};

/// Most headings that a message lists.
const HEADINGS_TOLD: usize = 40;

/// The reading of a file: for each canonical column its heading in the file, and the meaning of the numbers.
///
/// Plain data: dialogs store it and the command line reads it from a file.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Mapping {
    /// Headings by column; columns left out are searched under their own names.
    pub columns: BTreeMap<Column, String>,
    /// Unit of places and heights.
    pub lengths: LengthUnit,
    /// Unit of speeds.
    pub speeds: SpeedUnit,
    /// Frame of places.
    pub sides: Sides,
    /// Meaning of values in the file, by column: for each value, one of the names that the column may hold.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub values: BTreeMap<Column, BTreeMap<String, String>>,
    /// The encoding; detected when left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub encoding: Option<Encoding>,
    /// The separator of cells; detected from the heading when left out.
    pub separator: Option<char>,
}

/// Unit of places and heights.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LengthUnit {
    /// Metres.
    #[default]
    Metres,
    /// Feet and their decimals.
    Feet,
}

impl LengthUnit {
    /// Metres in one.
    #[must_use]
    pub fn metres(self) -> f64 {
        match self {
            Self::Metres => 1.0,
            Self::Feet => FOOT,
        }
    }

    /// Its sign.
    #[must_use]
    pub fn sign(self) -> &'static str {
        match self {
            Self::Metres => "m",
            Self::Feet => "ft",
        }
    }
}

/// Unit of speeds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SpeedUnit {
    /// Kilometres per hour.
    #[default]
    Kmh,
    /// Miles per hour.
    Mph,
    /// Metres per second.
    MetresPerSecond,
}

impl SpeedUnit {
    /// Metres per second in one.
    #[must_use]
    pub fn metres_per_second(self) -> f64 {
        match self {
            Self::Kmh => KMH,
            Self::Mph => MPH,
            Self::MetresPerSecond => 1.0,
        }
    }

    /// Its sign.
    #[must_use]
    pub fn sign(self) -> &'static str {
        match self {
            Self::Kmh => "km/h",
            Self::Mph => "mph",
            Self::MetresPerSecond => "m/s",
        }
    }
}

/// Frame of places.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sides {
    /// Fixed: one frame for the whole file, the near end has negative `y`.
    #[default]
    AsFilmed,
    /// Turned so that the hitter is always at the near end.
    HitterNear,
}

/// Why a file cannot be read with a mapping.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum HeaderFault {
    /// Nothing in it.
    #[error("{}", text("the file is empty"))]
    Empty,
    /// The first line holds numbers.
    #[error("{}", text("the first line holds numbers only: there is no heading"))]
    NoHeader,
    /// Bytes that are not text.
    #[error("{}", text("the heading is not text in UTF-8"))]
    NotText,
    /// Required columns are missing.
    #[error("{}", tr!("there is no column for {}", listed(names)))]
    Missing {
        /// Their names.
        names: Vec<&'static str>,
        /// The headings of the file.
        headings: Vec<String>,
    },
    /// A heading that the mapping names is not in the file.
    #[error("{}", tr!("the column for `{}` is to be called `{}`, and there is none of that name", column, heading))]
    Unknown {
        /// Which column.
        column: &'static str,
        /// The heading wanted.
        heading: String,
        /// The headings of the file.
        headings: Vec<String>,
    },
    /// Two columns with one heading.
    #[error("{}", tr!("two columns are called `{}`", heading))]
    Twice {
        /// The heading.
        heading: String,
    },
}

impl HeaderFault {
    /// What to do about it.
    #[must_use]
    pub fn remedy(&self) -> String {
        match self {
            Self::Empty => text("Choose another file.").to_owned(),
            Self::NoHeader => text("Put a line with the names of the columns first.").to_owned(),
            Self::NotText => text("Save the file as UTF-8.").to_owned(),
            Self::Missing { headings, .. } => {
                tr!("Say which column it is, as in `contact_x=HEADING`; the file has {}.", quoted(headings))
            }
            Self::Unknown { heading, headings, .. } => {
                let known: Vec<&str> = headings.iter().map(String::as_str).filter(|h| h.len() <= LINE_LIMIT).collect();
                match nearest(heading, &known) {
                    Some(name) => tr!("Did you mean `{}`?", name),
                    None => tr!("The file has {}.", quoted(headings)),
                }
            }
            Self::Twice { .. } => text("Give one of them another name.").to_owned(),
        }
    }
}

/// Headings in words: the first ones, each shortened, however many and however long they are.
fn quoted(headings: &[String]) -> String {
    let (first, more) = headings.split_at(headings.len().min(HEADINGS_TOLD));
    let names: Vec<String> = first.iter().map(|heading| format!("`{}`", shortened(heading))).collect();
    if !more.is_empty() {
        return tr!("{} and {} more", names.join(", "), more.len());
    }
    match names.as_slice() {
        [] => text("nothing").to_owned(),
        [one] => one.clone(),
        [head @ .., last] => tr!("{} and {}", head.join(", "), last),
    }
}

/// Where each column is in a file.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Layout {
    /// Position of each column, by [`Column::index`].
    pub at: [Option<usize>; Column::ALL.len()],
    /// The headings of the file.
    pub headings: Vec<String>,
}

impl Layout {
    /// Finds the columns of a mapping among the headings of a file.
    pub fn find(mapping: &Mapping, headings: Vec<String>) -> Result<Self, HeaderFault> {
        if headings.iter().all(|heading| heading.trim().is_empty()) {
            return Err(HeaderFault::Empty);
        }
        let number = |heading: &String| heading.trim().replace(',', ".").parse::<f64>().is_ok();
        if headings.iter().all(|heading| heading.trim().is_empty() || number(heading)) {
            return Err(HeaderFault::NoHeader);
        }
        let mut at = [None; Column::ALL.len()];
        for column in Column::ALL {
            let wanted = mapping.columns.get(&column);
            let name = wanted.map_or(column.name(), String::as_str);
            // A heading given by hand matches exactly, apart from blanks around it.
            let same = |heading: &str| match wanted {
                Some(wanted) => heading.trim() == wanted.trim(),
                None => plain(heading) == plain(name),
            };
            let mut found = headings.iter().enumerate().filter(|(_, heading)| same(heading)).map(|(i, _)| i);
            at[column.index()] = found.next();
            if found.next().is_some() {
                return Err(HeaderFault::Twice { heading: name.trim().to_owned() });
            }
            if wanted.is_some() && at[column.index()].is_none() {
                return Err(HeaderFault::Unknown { column: column.name(), heading: name.trim().to_owned(), headings });
            }
        }
        let missing = Column::REQUIRED.into_iter().filter(|column| at[column.index()].is_none());
        let names: Vec<&str> = missing.map(Column::name).collect();
        if names.is_empty() {
            // Every fault names a heading, so headings are cut short.
            let headings = headings.iter().map(|heading| heading.chars().take(LINE_LIMIT).collect()).collect();
            Ok(Self { at, headings })
        } else {
            Err(HeaderFault::Missing { names, headings })
        }
    }

    /// Whether a column is in the file.
    pub fn has(&self, column: Column) -> bool {
        self.at[column.index()].is_some()
    }

    /// Headings that no column is read from.
    pub fn unused(&self) -> Vec<String> {
        let used = |i: &usize| !self.at.contains(&Some(*i));
        (0..self.headings.len()).filter(used).map(|i| self.headings[i].clone()).collect()
    }

    /// Heading of a column in the file.
    pub fn heading(&self, column: Column) -> &str {
        self.at[column.index()].map_or(column.name(), |i| self.headings[i].as_str())
    }
}

impl Mapping {
    /// The mapping suggested by a file's headings: columns by their own names, everything else as in `self`.
    ///
    /// A dialog shows this first; columns left out of the result have to be chosen by hand.
    #[must_use]
    pub fn suggested(&self, headings: &[String]) -> Self {
        let mut columns = BTreeMap::new();
        for column in Column::ALL {
            let kept = self.columns.get(&column).filter(|wanted| headings.iter().any(|h| h.trim() == wanted.trim()));
            let own = || headings.iter().find(|heading| plain(heading) == plain(column.name()));
            if let Some(heading) = kept.or_else(own) {
                columns.insert(column, heading.trim().to_owned());
            }
        }
        Self { columns, ..self.clone() }
    }
}
