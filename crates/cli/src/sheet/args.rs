//! The arguments of `sheet`.

use std::path::PathBuf;

use clap::{Args, ValueEnum};
use standpoint_board::playback::Pace;
use standpoint_language::Language;
use standpoint_sheet::{Paper, raster::SIDES};
use standpoint_workbench::{
    edit::Colours,
    settings::Sight,
    wanted::{Format, Look, RATES},
};

use crate::args::Reading;

/// Arguments of `sheet`.
#[derive(Debug, Args)]
pub struct SheetArgs {
    /// The boards, or folders of boards.
    #[arg(required = true, value_name = "BOARD")]
    pub boards: Vec<PathBuf>,
    /// Where to write; the ending says what: pdf, svg, png, gif or apng. Several pictures are numbered. A folder takes
    /// a file for each board.
    #[arg(long, short, value_name = "FILE")]
    pub output: PathBuf,
    /// What to write into a folder.
    #[arg(long, value_enum, value_name = "FORMAT")]
    pub format: Option<FormatArg>,
    /// The pages, such as 2 or 1,3-5, counted from 1; all of them without it.
    #[arg(long, value_name = "LIST", value_parser = picked)]
    pub pages: Option<Picked>,
    /// The shot that is drawn, counted from 1; the last one on pages with fewer.
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u32).range(1..))]
    pub shot: u32,
    /// The paper of a PDF.
    #[arg(long, value_enum, default_value_t = PaperArg::A4)]
    pub paper: PaperArg,
    /// Size of a picture in pixels; as the court is without it.
    #[arg(long, value_name = "WIDTHxHEIGHT", value_parser = size)]
    pub size: Option<(u32, u32)>,
    /// Frames a second of an animation.
    #[arg(long, value_name = "FRAMES", default_value_t = 15.0, value_parser = rate)]
    pub rate: f64,
    /// How fast the rally goes in an animation.
    #[arg(long, value_enum, default_value_t = PaceArg::True)]
    pub pace: PaceArg,
    /// Colours of the court.
    #[arg(long, value_enum, default_value_t = ColoursArg::Paper)]
    pub colours: ColoursArg,
    /// Draw the court lying instead of upright; a picture wider than high lies without being asked.
    #[arg(long)]
    pub lying: bool,
    /// From where a picture shows the court.
    #[arg(long, value_enum, default_value_t = SeenArg::Above)]
    pub seen: SeenArg,
    /// The language of what is written; what is told here stays English.
    #[arg(long, value_name = "de|en", value_parser = super::super::language, default_value = "en")]
    pub language: Language,
    /// Units of what is read.
    #[command(flatten)]
    pub reading: Reading,
}

impl SheetArgs {
    /// How it is to look.
    #[must_use]
    pub fn look(&self) -> Look {
        let lying = self.lying || self.size.is_some_and(|(width, height)| width > height);
        Look {
            paper: match self.paper {
                PaperArg::A4 => Paper::A4,
                PaperArg::Letter => Paper::Letter,
            },
            colours: match self.colours {
                ColoursArg::Paper => Colours::Paper,
                ColoursArg::Surface => Colours::Surface,
                ColoursArg::Bright => Colours::Bright,
            },
            turn: u8::from(lying),
            sight: match self.seen {
                SeenArg::Above => None,
                SeenArg::Eye => Some(Sight::Eyes),
                SeenArg::Behind => Some(Sight::Behind),
            },
            size: self.size,
            rate: self.rate,
            pace: match self.pace {
                PaceArg::True => Pace::True,
                PaceArg::Half => Pace::Half,
                PaceArg::Quarter => Pace::Quarter,
            },
            shot: self.shot as usize - 1,
            ..Look::default()
        }
    }
}

/// A format by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum FormatArg {
    /// Sheets to print.
    Pdf,
    /// Pictures in vectors.
    Svg,
    /// Pictures in pixels.
    Png,
    /// Animations.
    Gif,
    /// Animations in full colour.
    Apng,
}

impl FormatArg {
    /// The format it names.
    #[must_use]
    pub fn format(self) -> Format {
        match self {
            Self::Pdf => Format::Pdf,
            Self::Svg => Format::Svg,
            Self::Png => Format::Png,
            Self::Gif => Format::Gif,
            Self::Apng => Format::Apng,
        }
    }
}

/// A view by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum SeenArg {
    /// From above.
    Above,
    /// Through the eyes of the hitter who waits at the spot.
    Eye,
    /// From behind the hitter's end.
    Behind,
}

/// Paper by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum PaperArg {
    /// 210 mm by 297 mm.
    A4,
    /// 8.5 in by 11 in.
    Letter,
}

/// A pace by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum PaceArg {
    /// As it is.
    True,
    /// Half as fast.
    Half,
    /// A quarter as fast.
    Quarter,
}

/// Colours by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum ColoursArg {
    /// Black on white.
    Paper,
    /// Those of the surface.
    Surface,
    /// Strong contrast.
    Bright,
}

/// Pages, counted from 0.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picked(pub Vec<usize>);

/// Most pages that a list may name.
const MOST: usize = 10_000;

fn picked(text: &str) -> Result<Picked, String> {
    let wrong = || "write pages like 2 or 1,3-5, counted from 1".to_owned();
    let number = |text: &str| text.trim().parse::<usize>().ok().filter(|n| (1..=MOST).contains(n)).ok_or_else(wrong);
    let mut pages = Vec::new();
    for part in text.split(',') {
        let (first, last) = part.split_once('-').unwrap_or((part, part));
        let (first, last) = (number(first)?, number(last)?);
        if first > last {
            return Err(wrong());
        }
        pages.extend(first - 1..last);
        if pages.len() > MOST {
            return Err(format!("at most {MOST} pages"));
        }
    }
    Ok(Picked(pages))
}

fn size(text: &str) -> Result<(u32, u32), String> {
    let (least, most) = SIDES;
    let parsed = text.split_once('x').and_then(|(w, h)| Some((w.parse().ok()?, h.parse().ok()?)));
    match parsed {
        Some((w, h)) if (least..=most).contains(&w) && (least..=most).contains(&h) => Ok((w, h)),
        _ => Err(format!("write it like 1200x1600; from {least} to {most} each way")),
    }
}

fn rate(text: &str) -> Result<f64, String> {
    let (least, most) = RATES;
    match text.parse::<f64>() {
        Ok(rate) if (least..=most).contains(&rate) => Ok(rate),
        _ => Err(format!("frames a second are a number from {least} to {most}")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pages_are_named_one_by_one_or_from_to() {
        assert_eq!(picked("1,3-5"), Ok(Picked(vec![0, 2, 3, 4])));
        for wrong in ["", "0", "5-3", "a", "1,,2", "1-99999"] {
            assert!(picked(wrong).is_err(), "{wrong}");
        }
    }

    #[test]
    fn sizes_and_rates_are_held_in_bounds() {
        assert_eq!(size("1200x1600"), Ok((1200, 1600)));
        assert!(size("10x1600").is_err() && size("1200").is_err() && size("1200x99999").is_err());
        assert!(rate("12.5").is_ok() && rate("0").is_err() && rate("NaN").is_err() && rate("51").is_err());
    }
}
