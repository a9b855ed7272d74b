//! The look: tokens, typeface, style, and the current theme.

pub mod color;
pub mod focus;
pub mod fonts;
pub mod icons;
pub mod ramp;
pub mod style;
pub mod tokens;
#[cfg(test)]
mod vision;

use std::sync::Arc;

use icons::{IconError, Icons};
use ramp::Ramp;
use standpoint_workbench::{
    edit::{Colours, Ground},
    settings::ThemeChoice,
};
use tokens::{CourtColors, InterfaceColors, Measures, TokenError, Tokens};

/// A part of the look that could not be read.
#[derive(Debug, thiserror::Error)]
pub enum LookError {
    /// A token file.
    #[error(transparent)]
    Tokens(#[from] TokenError),
    /// The icon file.
    #[error(transparent)]
    Icons(#[from] IconError),
}

/// The tokens and icons, and the styles made of them.
pub struct Look {
    tokens: Tokens,
    icons: Arc<Icons>,
}

impl Look {
    /// Reads tokens and icons.
    ///
    /// # Errors
    ///
    /// When a built-in file is not valid; tests prevent that.
    pub fn load() -> Result<Self, LookError> {
        Ok(Self { tokens: Tokens::load()?, icons: Arc::new(Icons::load()?) })
    }

    /// Installs typeface and styles. Called once, before the first frame.
    pub fn install(&self, ctx: &egui::Context) {
        ctx.set_fonts(fonts::definitions());
        for (theme, dark) in [(egui::Theme::Light, false), (egui::Theme::Dark, true)] {
            ctx.set_style_of(theme, style::build(dark, self.tokens.interface.get(dark), &self.tokens.measures));
        }
    }

    /// The sizes.
    #[must_use]
    pub fn measures(&self) -> &Measures {
        &self.tokens.measures
    }

    /// The theme for these colours on this ground.
    #[must_use]
    pub fn theme(&self, dark: bool, colours: Colours, ground: Ground) -> Theme {
        let courts = &self.tokens.courts;
        let pair = match (colours, ground) {
            (Colours::Paper, _) => &courts.paper,
            (Colours::Bright, _) => &courts.bright,
            (Colours::Surface, Ground::Clay) => &courts.clay,
            (Colours::Surface, Ground::Grass) => &courts.grass,
            (Colours::Surface, Ground::Hard) => &courts.hard,
        };
        let court = pair.get(dark).clone();
        Theme {
            dark,
            ui: self.tokens.interface.get(dark).clone(),
            ramp: Ramp::new(&court),
            court,
            m: self.tokens.measures.clone(),
            icons: Arc::clone(&self.icons),
        }
    }
}

/// The theme in force.
#[derive(Clone)]
pub struct Theme {
    /// Whether the interface is dark.
    pub dark: bool,
    /// Colours around the court.
    pub ui: InterfaceColors,
    /// Colours on the court.
    pub court: CourtColors,
    /// Shades of the exposure.
    pub ramp: Ramp,
    /// Sizes.
    pub m: Measures,
    /// Icons.
    pub icons: Arc<Icons>,
}

/// What the toolkit should follow.
#[must_use]
pub fn preference(choice: ThemeChoice) -> egui::ThemePreference {
    match choice {
        ThemeChoice::System => egui::ThemePreference::System,
        ThemeChoice::Light => egui::ThemePreference::Light,
        ThemeChoice::Dark => egui::ThemePreference::Dark,
    }
}
