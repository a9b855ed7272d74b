//! How the columns of a CSV file are read.

use std::path::PathBuf;

use clap::{Args, ValueEnum};
use standpoint_board::store;
use standpoint_charting::import::{Column, LengthUnit, Mapping, Sides, SpeedUnit};

use crate::{fault::Fault, load::load_fault};

/// Largest file with a mapping that is read, bytes.
const MAPPING_LIMIT: u64 = 1 << 20;

/// How the columns of a CSV file are read.
#[derive(Debug, Default, Args)]
pub struct LayoutArgs {
    /// Which heading of the file a column has, as in `contact_x=hit_x`; may be given again. Columns that carry their own
    /// names need none.
    #[arg(long, value_name = "COLUMN=HEADING", value_parser = mapped)]
    pub map: Vec<(Column, String)>,
    /// A file with all of this, in RON; what is said on the command line counts more.
    #[arg(long, value_name = "FILE")]
    pub mapping: Option<PathBuf>,
    /// Unit of places and heights; metres without it.
    #[arg(long, value_enum)]
    pub lengths: Option<LengthsArg>,
    /// Unit of speeds; km/h without it.
    #[arg(long, value_enum)]
    pub speeds: Option<SpeedsArg>,
    /// From which side places are told; as filmed without it.
    #[arg(long, value_enum)]
    pub sides: Option<SidesArg>,
    /// Separator of cells: a comma, a semicolon, or `tab`; detected from the heading without it.
    #[arg(long, value_name = "CHARACTER", value_parser = separator)]
    pub separator: Option<char>,
}

/// Units of places and heights.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum LengthsArg {
    /// Metres.
    Metres,
    /// Feet and their decimals.
    Feet,
}

/// Units of speeds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum SpeedsArg {
    /// Kilometres per hour.
    Kmh,
    /// Miles per hour.
    Mph,
    /// Metres per second.
    Mps,
}

/// From which side places are told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum SidesArg {
    /// One frame for the whole file; the near end has negative `y`.
    AsFilmed,
    /// Turned so that the hitter is always at the near end.
    HitterNear,
}

impl LayoutArgs {
    /// The mapping of all these options.
    ///
    /// # Errors
    /// A mapping file that cannot be read.
    pub fn mapping(&self) -> Result<Mapping, Box<Fault>> {
        let mut mapping = match &self.mapping {
            None => Mapping::default(),
            Some(path) => {
                let bytes =
                    store::load_bytes(path, MAPPING_LIMIT).map_err(|error| load_fault(path, "mapping", &error))?;
                ron::de::from_bytes(&bytes).map_err(|error| {
                    let place = format!("{}:{}", path.display(), error.span.start);
                    let remedy = "Write it like (columns: {contact_x: \"hit_x\"}, lengths: feet).";
                    Fault::new("mapping", &place, error.code.to_string(), remedy)
                })?
            }
        };
        mapping.columns.extend(self.map.iter().cloned());
        if let Some(lengths) = self.lengths {
            mapping.lengths = match lengths {
                LengthsArg::Metres => LengthUnit::Metres,
                LengthsArg::Feet => LengthUnit::Feet,
            };
        }
        if let Some(speeds) = self.speeds {
            mapping.speeds = match speeds {
                SpeedsArg::Kmh => SpeedUnit::Kmh,
                SpeedsArg::Mph => SpeedUnit::Mph,
                SpeedsArg::Mps => SpeedUnit::MetresPerSecond,
            };
        }
        if let Some(sides) = self.sides {
            mapping.sides = match sides {
                SidesArg::AsFilmed => Sides::AsFilmed,
                SidesArg::HitterNear => Sides::HitterNear,
            };
        }
        mapping.separator = self.separator.or(mapping.separator);
        Ok(mapping)
    }
}

fn mapped(text: &str) -> Result<(Column, String), String> {
    let (name, heading) = text.split_once('=').ok_or("write it like contact_x=hit_x")?;
    let column = Column::named(name).ok_or_else(|| {
        let names = Column::ALL.map(Column::name).join(", ");
        format!("there is no column `{name}`; the columns are {names}")
    })?;
    if heading.trim().is_empty() {
        return Err("the heading is blank".to_owned());
    }
    Ok((column, heading.to_owned()))
}

fn separator(text: &str) -> Result<char, String> {
    let mut chars = text.chars();
    match (text, chars.next(), chars.next()) {
        ("tab" | "\\t", ..) => Ok('\t'),
        (_, Some(c), None) if c.is_ascii() && !c.is_ascii_alphanumeric() && c != '"' => Ok(c),
        _ => Err("write one character, such as ; or the word tab".to_owned()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_said_counts_more_than_what_is_kept() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("ours.ron");
        std::fs::write(&path, "(columns: {contact_x: \"a\", contact_y: \"b\"}, lengths: feet, sides: hitter_near)")
            .unwrap();
        let args = LayoutArgs {
            map: vec![mapped("contact_y=c").unwrap()],
            mapping: Some(path),
            sides: Some(SidesArg::AsFilmed),
            separator: Some(separator("tab").unwrap()),
            ..LayoutArgs::default()
        };
        let mapping = args.mapping().unwrap();
        assert_eq!(mapping.columns[&Column::ContactX], "a");
        assert_eq!(mapping.columns[&Column::ContactY], "c");
        assert_eq!((mapping.lengths, mapping.sides), (LengthUnit::Feet, Sides::AsFilmed));
        assert_eq!(mapping.separator, Some('\t'));
    }

    #[test]
    fn what_makes_no_sense_is_refused() {
        assert!(mapped("contact_x").is_err() && mapped("elbow=x").is_err() && mapped("contact_x= ").is_err());
        assert!(separator("ab").is_err() && separator("x").is_err() && separator("").is_err());
    }
}
