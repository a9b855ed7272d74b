//! Colours and sizes of paper, read from `assets/tokens/paper.ron`.

use std::sync::OnceLock;

use serde::Deserialize;

use crate::SheetError;

/// Everything about the look of paper.
#[derive(Debug, Clone, Deserialize)]
pub struct Tokens {
    /// Text and lines that matter.
    pub ink: String,
    /// Secondary text.
    pub soft: String,
    /// Rules between rows.
    pub rule: String,
    /// Ground of table heads.
    pub ground: String,
    /// Distance of the text from the edges of the paper, mm.
    pub margin: Margin,
    /// Text sizes.
    pub text: TextSizes,
    /// Distances.
    pub space: Space,
    /// Line widths.
    pub stroke: Strokes,
    /// Sizes where the text is set closer.
    pub dense: Dense,
}

/// Sizes and distances that replace the usual ones where the text is set closer.
#[derive(Debug, Clone, Deserialize)]
pub struct Dense {
    /// Text sizes.
    pub text: TextSizes,
    /// Distances.
    pub space: Space,
}

/// Distance of the text from the edges of the paper, mm.
#[derive(Debug, Clone, Deserialize)]
pub struct Margin {
    /// Left and right.
    pub side: f64,
    /// Top.
    pub top: f64,
    /// Bottom; the footer stands in it.
    pub bottom: f64,
}

/// Text sizes.
#[derive(Debug, Clone, Deserialize)]
pub struct TextSizes {
    /// Of the title of a part.
    pub title: f32,
    /// Of a heading.
    pub heading: f32,
    /// Of a heading within a section.
    pub subheading: f32,
    /// Of running text.
    pub body: f32,
    /// Of captions and the footer.
    pub small: f32,
    /// Of key figures.
    pub figure: f32,
}

/// Distances; `line` is the height of a line as a multiple of the text size.
#[derive(Debug, Clone, Deserialize)]
pub struct Space {
    /// Height of a line as a multiple of the text size.
    pub line: f32,
    /// Within an item.
    pub small: f32,
    /// Between items.
    pub item: f32,
    /// Between groups.
    pub group: f32,
    /// Between sections.
    pub section: f32,
}

/// Line widths.
#[derive(Debug, Clone, Deserialize)]
pub struct Strokes {
    /// Rules.
    pub hair: f32,
    /// Rules that matter.
    pub thin: f32,
}

impl Tokens {
    /// The tokens built into the program.
    ///
    /// # Errors
    /// When they are not valid; a test prevents that.
    pub fn load() -> Result<&'static Self, SheetError> {
        Self::both().map(|(usual, _)| usual)
    }

    /// The tokens for text that is set closer.
    ///
    /// # Errors
    /// As [`Self::load`].
    pub fn dense() -> Result<&'static Self, SheetError> {
        Self::both().map(|(_, dense)| dense)
    }

    fn both() -> Result<&'static (Self, Self), SheetError> {
        static TOKENS: OnceLock<(Tokens, Tokens)> = OnceLock::new();
        if let Some(tokens) = TOKENS.get() {
            return Ok(tokens);
        }
        let usual: Self = ron::from_str(include_str!("../../../assets/tokens/paper.ron"))?;
        let Dense { text, space } = usual.dense.clone();
        let dense = Self { text, space, ..usual.clone() };
        Ok(TOKENS.get_or_init(|| (usual, dense)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_tokens_of_paper_can_be_read() {
        let tokens = Tokens::load().unwrap();
        assert!(tokens.text.body > 7.0 && tokens.space.line > 1.0);
        let dense = Tokens::dense().unwrap();
        assert!(dense.text.body > tokens.text.small && dense.space.line > 1.0);
        assert!(dense.text.small >= tokens.text.small, "captions are as small as text gets");
    }

    #[test]
    fn text_on_paper_is_legible_in_black_and_white() {
        // At least 4.5 to 1. Source: Web Content Accessibility Guidelines 2.2, success criterion 1.4.3 and the
        // definition of relative luminance.
        let tokens = Tokens::load().unwrap();
        let luminance = |hex: &str| {
            let channel = |i: usize| {
                let v = f64::from(u8::from_str_radix(&hex[i..i + 2], 16).unwrap()) / 255.0;
                if v <= 0.040_45 { v / 12.92 } else { ((v + 0.055) / 1.055).powf(2.4) }
            };
            0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5)
        };
        for ground in ["#FFFFFF", tokens.ground.as_str()] {
            for ink in [&tokens.ink, &tokens.soft] {
                let ratio = (luminance(ground) + 0.05) / (luminance(ink) + 0.05);
                assert!(ratio >= 4.5, "{ink} on {ground}: {ratio:.2}");
            }
        }
    }
}
