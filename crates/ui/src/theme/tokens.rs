//! The named design tokens, read from `assets/tokens`.

use serde::Deserialize;

use super::color::Color;

/// Everything in `assets/tokens`.
#[derive(Debug, Clone)]
pub struct Tokens {
    /// Colours around the court.
    pub interface: Pair<InterfaceColors>,
    /// Colours on the court.
    pub courts: Courts,
    /// Sizes.
    pub measures: Measures,
}

/// A token set that could not be read.
#[derive(Debug, thiserror::Error)]
#[error("the design tokens in {file} cannot be read: {problem}")]
pub struct TokenError {
    file: &'static str,
    problem: ron::error::SpannedError,
}

/// The light and the dark variant of something.
#[derive(Debug, Clone, Deserialize)]
pub struct Pair<T> {
    /// For a bright interface.
    pub light: T,
    /// For a dim interface.
    pub dark: T,
}

impl<T> Pair<T> {
    /// The variant for a light or dark interface.
    #[must_use]
    pub fn get(&self, dark: bool) -> &T {
        if dark { &self.dark } else { &self.light }
    }
}

/// Colours of panels, controls and text.
#[derive(Debug, Clone, Deserialize)]
pub struct InterfaceColors {
    /// Ground behind the court's run-off.
    pub canvas: Color,
    /// Ground of panels.
    pub panel: Color,
    /// Ground of windows, menus and cards.
    pub raised: Color,
    /// Ground of things that are filled in.
    pub sunken: Color,
    /// A control under the pointer.
    pub hovered: Color,
    /// A control being pressed.
    pub pressed: Color,
    /// Quiet separating lines.
    pub line: Color,
    /// Edges of controls.
    pub outline: Color,
    /// Text.
    pub ink: Color,
    /// Secondary text.
    pub soft: Color,
    /// Accent: buttons, focus, selection.
    pub accent: Color,
    /// Text on the accent.
    pub on_accent: Color,
    /// Ground of a chosen item.
    pub chosen: Color,
    /// Text of a warning.
    pub warn: Color,
    /// Text of an error.
    pub bad: Color,
    /// Shadow of windows and menus.
    pub shadow: Color,
    /// The black screen of a presentation.
    pub unlit: Color,
}

/// Colours on the court.
#[derive(Debug, Clone, Deserialize, PartialEq)]
pub struct CourtColors {
    /// The run-off.
    pub surround: Color,
    /// Inside the lines.
    pub court: Color,
    /// The lines.
    pub line: Color,
    /// A casing that keeps the lines apart from the shading.
    pub line_edge: Color,
    /// Net and posts.
    pub net: Color,
    /// Tape, strap and sticks.
    pub tape: Color,
    /// Text on the surface.
    pub ink: Color,
    /// Halo of that text.
    pub halo: Color,
    /// What belongs to the hitter.
    pub hitter: Color,
    /// Edge and text of what belongs to the hitter.
    pub hitter_ink: Color,
    /// What belongs to the opponent.
    pub opponent: Color,
    /// Edge and text of what belongs to the opponent.
    pub opponent_ink: Color,
    /// The ball.
    pub ball: Color,
    /// What to watch out for.
    pub alert: Color,
    /// Edge of what to watch out for.
    pub alert_ink: Color,
    /// Level lines of the exposure.
    pub contour: Color,
    /// Ground of the reply wedge.
    pub wedge: Color,
    /// The shade of the best place.
    pub glow: Color,
    /// The shade of the most exposed places.
    pub gloom: Color,
    /// The place to stand.
    pub spot: Color,
    /// Its sign.
    pub spot_ink: Color,
}

/// The court looks.
#[derive(Debug, Clone, Deserialize)]
pub struct Courts {
    /// Clay.
    pub clay: Pair<CourtColors>,
    /// Hard court.
    pub hard: Pair<CourtColors>,
    /// Grass.
    pub grass: Pair<CourtColors>,
    /// Black on white, for print.
    pub paper: Pair<CourtColors>,
    /// Strong contrast for a bright room or a weak projector.
    pub bright: Pair<CourtColors>,
}

impl Courts {
    /// All court colours in both variants, with a name for messages.
    #[must_use]
    pub fn all(&self) -> Vec<(String, &CourtColors)> {
        [
            ("clay", &self.clay),
            ("hard", &self.hard),
            ("grass", &self.grass),
            ("paper", &self.paper),
            ("bright", &self.bright),
        ]
        .into_iter()
        .flat_map(|(name, pair)| [(format!("{name}, light"), &pair.light), (format!("{name}, dark"), &pair.dark)])
        .collect()
    }
}

/// Sizes in points, durations in seconds.
#[derive(Debug, Clone, Deserialize)]
pub struct Measures {
    /// Distances between things.
    pub space: Space,
    /// Corner radii.
    pub radius: Radius,
    /// Text sizes.
    pub text: TextSizes,
    /// Line widths.
    pub stroke: Strokes,
    /// Least size of something to touch.
    pub touch: f32,
    /// Height of a control in a panel.
    pub control: f32,
    /// The side panel.
    pub panel: PanelSizes,
    /// Line patterns: dash, gap, dash, gap.
    pub pattern: Patterns,
    /// How long a hint stays.
    pub hint_seconds: f64,
}

/// Distances between things.
#[derive(Debug, Clone, Deserialize)]
pub struct Space {
    /// Barely apart.
    pub hair: f32,
    /// Within an item.
    pub small: f32,
    /// Between items.
    pub item: f32,
    /// Between groups.
    pub group: f32,
    /// Between sections.
    pub section: f32,
    /// To the edge of a panel.
    pub edge: f32,
}

/// Corner radii.
#[derive(Debug, Clone, Deserialize)]
pub struct Radius {
    /// Controls.
    pub small: f32,
    /// Tags, menus.
    pub medium: f32,
    /// Windows.
    pub large: f32,
}

/// Text sizes.
#[derive(Debug, Clone, Deserialize)]
pub struct TextSizes {
    /// Captions.
    pub small: f32,
    /// Running text.
    pub body: f32,
    /// Section titles.
    pub title: f32,
    /// Figures that stand alone.
    pub figure: f32,
    /// The sentence over the court.
    pub headline: f32,
    /// Labels on the court.
    pub court: f32,
}

/// Line widths.
#[derive(Debug, Clone, Deserialize)]
pub struct Strokes {
    /// Separators.
    pub hair: f32,
    /// Secondary lines.
    pub thin: f32,
    /// Lines that matter.
    pub medium: f32,
    /// The shot and the strongest reply.
    pub bold: f32,
    /// The recovery run.
    pub broad: f32,
}

/// Sizes of the side panel.
#[derive(Debug, Clone, Deserialize)]
pub struct PanelSizes {
    /// Usual width.
    pub width: f32,
    /// Least width.
    pub least: f32,
    /// Greatest width.
    pub most: f32,
    /// A window narrower than this has the panel below the court, unless it is low as well.
    pub below_width: f32,
}

impl PanelSizes {
    /// Whether the panel is beside the court in this size: in a low window the court above a panel would be tiny.
    #[must_use]
    pub fn beside(&self, room: egui::Vec2) -> bool {
        let low = room.x >= 1.25 * room.y && room.x >= 2.0 * self.least;
        room.x >= self.below_width || low
    }
}

/// A line pattern: dash, gap, dash, gap.
pub type Pattern = (f32, f32, f32, f32);

/// The line patterns.
#[derive(Debug, Clone, Deserialize)]
pub struct Patterns {
    /// Even dashes.
    pub dashed: Pattern,
    /// Dots.
    pub dotted: Pattern,
    /// Dash and dot.
    pub dash_dot: Pattern,
    /// Long dashes.
    pub long: Pattern,
}

impl Tokens {
    /// Reads the tokens that are built into the program.
    ///
    /// # Errors
    ///
    /// When a token file is not valid; a test prevents that.
    pub fn load() -> Result<Self, TokenError> {
        Ok(Self {
            interface: read("interface.ron", include_str!("../../../../assets/tokens/interface.ron"))?,
            courts: read("courts.ron", include_str!("../../../../assets/tokens/courts.ron"))?,
            measures: read("measures.ron", include_str!("../../../../assets/tokens/measures.ron"))?,
        })
    }
}

fn read<T: for<'de> Deserialize<'de>>(file: &'static str, text: &str) -> Result<T, TokenError> {
    ron::from_str(text).map_err(|problem| TokenError { file, problem })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::theme::color::contrast;

    const LEAST: f32 = 4.5;

    #[test]
    fn text_of_the_interface_is_legible() {
        let tokens = Tokens::load().unwrap();
        for dark in [false, true] {
            let c = tokens.interface.get(dark);
            let grounds = [
                ("panel", c.panel),
                ("raised", c.raised),
                ("sunken", c.sunken),
                ("hovered", c.hovered),
                ("chosen", c.chosen),
            ];
            let inks = [("ink", c.ink), ("soft", c.soft), ("accent", c.accent), ("warn", c.warn), ("bad", c.bad)];
            for (ground_name, ground) in grounds {
                for (ink_name, ink) in inks {
                    let ratio = contrast(*ink, *ground);
                    assert!(ratio >= LEAST, "{ink_name} on {ground_name} (dark: {dark}): {ratio:.2}");
                }
            }
            assert!(contrast(*c.on_accent, *c.accent) >= LEAST);
            assert!(contrast(*c.ink, *c.pressed) >= LEAST);
            assert!(contrast(*c.outline, *c.panel) >= 3.0, "edges of controls (dark: {dark})");
        }
    }

    #[test]
    fn text_on_every_court_is_legible() {
        let tokens = Tokens::load().unwrap();
        for (name, c) in tokens.courts.all() {
            for (what, ink, ground) in [
                ("label on its halo", c.ink, c.halo),
                ("hitter tag", c.hitter_ink, c.hitter),
                ("opponent tag", c.opponent_ink, c.opponent),
            ] {
                let ratio = contrast(*ink, *ground);
                assert!(ratio >= LEAST, "{what}, {name}: {ratio:.2}");
            }
            assert!(contrast(*c.line, *c.court) >= 2.4, "lines, {name}: {:.2}", contrast(*c.line, *c.court));
        }
    }
}
