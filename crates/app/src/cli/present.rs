//! Opening the window with a presentation.

use std::path::PathBuf;

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
}

impl PresentArgs {
    /// The window that it takes.
    #[must_use]
    pub fn window(self) -> Window {
        Window { file: self.file, picture: self.picture, size: self.size, ..Window::default() }
    }
}

#[cfg(test)]
mod tests {
    use clap::Parser as _;

    use super::*;
    use crate::cli::{Cli, Command};

    #[test]
    fn a_board_is_presented_by_name() {
        let cli = Cli::try_parse_from(["standpoint", "present", "a.standpoint"]).unwrap();
        let Some(Command::Present(args)) = cli.command else { panic!("{cli:?}") };
        assert_eq!(args.window().file, Some(PathBuf::from("a.standpoint")));
    }
}
