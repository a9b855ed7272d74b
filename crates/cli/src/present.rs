//! Opening the window with a presentation or a rehearsal.

use std::path::PathBuf;

use clap::ValueEnum;
use standpoint_board::rehearse::Theme;
use standpoint_workbench::rehearsal::Begin;

use super::Window;

/// What is presented.
#[derive(Debug, clap::Args)]
pub struct PresentArgs {
    /// The board to present; the demo board without it.
    pub file: Option<PathBuf>,
    /// Write a picture of the window here and close it.
    #[arg(long, value_name = "PNG")]
    pub picture: Option<PathBuf>,
    /// Size of the window in points where it cannot fill the screen.
    #[arg(long, value_name = "WIDTHxHEIGHT", value_parser = super::size)]
    pub size: Option<(f32, f32)>,
    /// The language of this window; otherwise the one chosen in it, or that of the desktop.
    #[arg(long, value_name = "de|en", value_parser = super::language)]
    pub language: Option<standpoint_language::Language>,
}

impl PresentArgs {
    /// The window that it takes.
    #[must_use]
    pub fn window(self) -> Window {
        Window { file: self.file, picture: self.picture, size: self.size, language: self.language, ..Window::default() }
    }
}

/// What is rehearsed.
#[derive(Debug, clap::Args)]
pub struct RehearseArgs {
    /// Rehearse the shots of this board; situations are drawn without it.
    pub file: Option<PathBuf>,
    /// Draw situations of this theme.
    #[arg(long, value_enum, value_name = "THEME")]
    pub theme: Option<ThemeArg>,
    /// Draw the situations that belong to this number and those after it; new ones without it.
    #[arg(long, value_name = "N")]
    pub seed: Option<u64>,
    /// Write a picture of the window here and close it.
    #[arg(long, value_name = "PNG")]
    pub picture: Option<PathBuf>,
    /// Size of the window in points.
    #[arg(long, value_name = "WIDTHxHEIGHT", value_parser = super::size)]
    pub size: Option<(f32, f32)>,
    /// The language of this window; otherwise the one chosen in it, or that of the desktop.
    #[arg(long, value_name = "de|en", value_parser = super::language)]
    pub language: Option<standpoint_language::Language>,
}

/// A theme by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum ThemeArg {
    /// A drive from the back, diagonally.
    CrossCourt,
    /// A drive from the back, along its own side.
    Line,
    /// A ball with which the player comes to the net.
    Approach,
    /// A volley.
    Net,
    /// The return of a serve.
    Return,
}

impl ThemeArg {
    /// The theme it names.
    #[must_use]
    pub fn theme(self) -> Theme {
        match self {
            Self::CrossCourt => Theme::CrossCourt,
            Self::Line => Theme::Line,
            Self::Approach => Theme::Approach,
            Self::Net => Theme::Net,
            Self::Return => Theme::Return,
        }
    }
}

impl RehearseArgs {
    /// How the rehearsal begins.
    #[must_use]
    pub fn begin(&self) -> Begin {
        Begin { theme: self.theme.map(ThemeArg::theme), seed: self.seed, board: self.file.is_some() }
    }

    /// The window that it takes.
    #[must_use]
    pub fn window(self) -> Window {
        Window { file: self.file, picture: self.picture, size: self.size, language: self.language, ..Window::default() }
    }
}

#[cfg(test)]
mod tests {
    use clap::Parser as _;

    use super::*;
    use crate::{Cli, Command};

    #[test]
    fn a_board_is_presented_by_name() {
        let cli = Cli::try_parse_from(["standpoint", "present", "a.standpoint"]).unwrap();
        let Some(Command::Present(args)) = cli.command else { panic!("{cli:?}") };
        assert_eq!(args.window().file, Some(PathBuf::from("a.standpoint")));
    }

    #[test]
    fn a_rehearsal_is_asked_for_by_theme_and_seed() {
        let cli = Cli::try_parse_from(["standpoint", "rehearse", "--theme", "net", "--seed", "7"]).unwrap();
        let Some(Command::Rehearse(args)) = cli.command else { panic!("{cli:?}") };
        assert_eq!(args.begin(), Begin { theme: Some(Theme::Net), seed: Some(7), board: false });
        for arg in ThemeArg::value_variants() {
            assert_eq!(arg.to_possible_value().unwrap().get_name(), arg.theme().word());
        }
    }
}
