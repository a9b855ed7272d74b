//! The command line.

use std::path::PathBuf;

use clap::{Parser, Subcommand};

/// All went well.
pub const EXIT_OK: u8 = 0;
/// Something is wrong with the input or the board.
pub const EXIT_INPUT: u8 = 1;
/// The command line makes no sense (given by the argument parser).
pub const EXIT_USAGE: u8 = 2;
/// There is no display to open a window on.
pub const EXIT_NO_DISPLAY: u8 = 3;

/// A tactics board for tennis that shows where to stand.
#[derive(Debug, Parser)]
#[command(
    version,
    about,
    after_help = "Exit codes: 0 all went well, 1 something is wrong with the input or the board, 2 the command line \
                  makes no sense, 3 there is no display.",
    args_conflicts_with_subcommands = true
)]
pub struct Cli {
    /// What to do; without it the window opens.
    #[command(subcommand)]
    pub command: Option<Command>,
    /// The window.
    #[command(flatten)]
    pub window: Window,
}

/// What can be done.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Open the window, as without any command.
    Open(Window),
}

/// How the window opens.
#[derive(Debug, Default, clap::Args)]
pub struct Window {
    /// The board to open; the demo board without it.
    pub file: Option<PathBuf>,
    /// Write a picture of the window here and close it.
    #[arg(long, value_name = "PNG")]
    pub picture: Option<PathBuf>,
    /// Drag the target for so many frames, print how long a frame takes, and close the window.
    #[arg(long, value_name = "COUNT", hide = true)]
    pub frames: Option<usize>,
    /// Size of the window in points.
    #[arg(long, value_name = "WIDTHxHEIGHT", value_parser = size)]
    pub size: Option<(f32, f32)>,
}

fn size(text: &str) -> Result<(f32, f32), String> {
    let parsed = text.split_once('x').and_then(|(w, h)| Some((w.parse().ok()?, h.parse().ok()?)));
    match parsed {
        Some((w, h)) if (400.0..=16_000.0).contains(&w) && (300.0..=16_000.0).contains(&h) => Ok((w, h)),
        _ => Err("write it like 1440x900; at least 400x300".to_owned()),
    }
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory as _;

    use super::*;

    #[test]
    fn the_command_line_is_sound() {
        Cli::command().debug_assert();
    }

    #[test]
    fn a_file_alone_opens_the_window() {
        let cli = Cli::try_parse_from(["standpoint", "a.standpoint"]).unwrap();
        assert_eq!(cli.window.file, Some(PathBuf::from("a.standpoint")));
        assert!(cli.command.is_none());
    }

    #[test]
    fn a_size_is_two_numbers() {
        assert_eq!(size("1440x900"), Ok((1440.0, 900.0)));
        assert!(size("1440").is_err());
        assert!(size("10x10").is_err());
    }
}
