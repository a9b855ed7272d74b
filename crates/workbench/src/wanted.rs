//! Description of an export: sheet, picture or moving picture, and its options.

use std::path::Path;

use standpoint_board::playback::Pace;
use standpoint_language::text;
use standpoint_sheet::{Paper, raster::SIDES};

use crate::{
    edit::Colours,
    settings::{Layers, Sight},
};

/// What is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Format {
    /// A sheet to print.
    #[default]
    Pdf,
    /// A picture in vectors.
    Svg,
    /// A picture in pixels.
    Png,
    /// The rally as a moving picture.
    Gif,
    /// The rally as a moving picture in full colour.
    Apng,
}

impl Format {
    /// All formats, in the order in which they are offered.
    pub const ALL: [Self; 5] = [Self::Pdf, Self::Svg, Self::Png, Self::Gif, Self::Apng];

    /// The ending of its files.
    #[must_use]
    pub fn ending(self) -> &'static str {
        match self {
            Self::Pdf => "pdf",
            Self::Svg => "svg",
            Self::Png => "png",
            Self::Gif => "gif",
            Self::Apng => "apng",
        }
    }

    /// The format of a file by its ending.
    #[must_use]
    pub fn of(path: &Path) -> Option<Self> {
        let ending = path.extension()?.to_str()?.to_ascii_lowercase();
        Self::ALL.into_iter().find(|format| format.ending() == ending)
    }

    /// What it is called.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::Pdf => text("Sheet to print (PDF)"),
            Self::Svg => text("Picture in vectors (SVG)"),
            Self::Png => text("Picture (PNG)"),
            Self::Gif => text("Animation (GIF)"),
            Self::Apng => text("Animation in full colour (APNG)"),
        }
    }

    /// Whether it moves.
    #[must_use]
    pub fn moves(self) -> bool {
        matches!(self, Self::Gif | Self::Apng)
    }
}

/// How it is to look.
#[derive(Debug, Clone, PartialEq)]
pub struct Look {
    /// Paper of a sheet.
    pub paper: Paper,
    /// Colours of the court.
    pub colours: Colours,
    /// Quarter turns of the court, clockwise; 0 has the near side down.
    pub turn: u8,
    /// From where a picture shows the court in perspective; from above without it.
    pub sight: Option<Sight>,
    /// What is shown on the court.
    pub layers: Layers,
    /// Size of a picture, pixels; `None` follows the court.
    pub size: Option<(u32, u32)>,
    /// Frames a second of a moving picture.
    pub rate: f64,
    /// Pace of the rally.
    pub pace: Pace,
    /// The shot of each page that is drawn, counted from 0; the last one where there are fewer.
    pub shot: usize,
}

/// Least and most frames a second; a GIF counts hundredths of a second.
pub const RATES: (f64, f64) = (1.0, 50.0);

impl Default for Look {
    fn default() -> Self {
        Self {
            paper: Paper::A4,
            colours: Colours::Paper,
            turn: 0,
            sight: None,
            layers: Layers::default(),
            size: None,
            rate: 15.0,
            pace: Pace::True,
            shot: 0,
        }
    }
}

/// What is asked for.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Export {
    /// What it is.
    pub format: Format,
    /// Whether all pages are exported instead of the one being looked at.
    pub whole: bool,
    /// Pages of the board.
    pub pages: usize,
    /// Options; turn, layers and shot come from the window.
    pub look: Look,
    /// Size of a picture as typed; empty follows the court.
    pub size: String,
}

impl Export {
    /// The typed size, if valid.
    #[must_use]
    pub fn sized(&self) -> Option<(u32, u32)> {
        let (width, height) = self.size.trim().split_once(['x', '×'])?;
        let side = |text: &str| text.trim().parse().ok().filter(|side| (SIDES.0..=SIDES.1).contains(side));
        Some((side(width)?, side(height)?))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_size_is_two_numbers_in_bounds_or_nothing() {
        let sized = |text: &str| Export { size: text.to_owned(), ..Export::default() }.sized();
        assert_eq!([sized("1200x1600"), sized(" 640 × 480 ")], [Some((1200, 1600)), Some((640, 480))]);
        assert_eq!([sized(""), sized("12x"), sized("1x1"), sized("999999x9")], [None; 4]);
    }
}
