//! The command line.
//!
//! Answers go to the standard output, everything else to the standard error. `docs/command-line.md` describes it for
//! those who use it.

#![cfg_attr(not(test), deny(clippy::unwrap_used))]

mod aim;
pub mod args;
mod audit;
mod check;
mod compare;
mod exact;
mod fault;
mod json;
mod load;
mod moments;
mod names;
mod output;
pub mod plain;
pub mod present;
mod presets;
mod round;
mod scout;
mod sheet;
pub mod signals;
mod simulate;
mod solve;
pub mod stopped;
mod sweep;
mod table;
mod worth;

use std::{
    io::{self, BufWriter, ErrorKind, IsTerminal as _, Write},
    path::{Path, PathBuf},
    process::ExitCode,
};

use clap::{
    Parser, Subcommand,
    error::{ContextKind, ContextValue, ErrorKind as Refusal},
};
use standpoint_language::Language;

use self::{
    fault::{Fault, Stop},
    plain::Plain,
};

/// Connects the texts of this crate and of those below it to [`standpoint_language::speak`]; until then they are English.
pub fn speak_up() {
    static ONCE: std::sync::Once = std::sync::Once::new();
    ONCE.call_once(|| {
        standpoint_language::set_translator!(standpoint_language::Catalogue);
        standpoint_export::speak_up();
    });
}

/// All went well.
pub const EXIT_OK: u8 = 0;
/// Something is wrong with the input or the board.
pub const EXIT_INPUT: u8 = 1;
/// The command line makes no sense (given by the argument parser).
pub const EXIT_USAGE: u8 = 2;
/// There is no display to open a window on.
pub const EXIT_NO_DISPLAY: u8 = 3;
/// Stopped from outside before the end, as by Ctrl-C; the number that shells use for it.
pub const EXIT_STOPPED: u8 = 130;

/// A tactics board for tennis that shows where to stand.
#[derive(Debug, Parser)]
#[command(
    name = "standpoint",
    version,
    about,
    after_help = "Exit codes: 0 all went well, 1 something is wrong with the input or the board, 2 the command line \
                  makes no sense, 3 there is no display, 70 the \
                  program had to stop because of a fault of its own, 130 stopped by Ctrl-C.",
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
    /// Show a board on the whole screen, step by step, for a projector.
    Present(present::PresentArgs),
    /// Rehearse: find the place, or the shot, for one situation after another.
    Rehearse(present::RehearseArgs),
    /// Say that the program had to stop; it starts this itself.
    #[command(hide = true)]
    Stopped(crate::stopped::StoppedArgs),
    /// Everything that needs no window.
    #[command(flatten)]
    Tool(Tool),
}

/// What can be done without a window.
#[derive(Debug, Subcommand)]
pub enum Tool {
    /// Say where to stand after a shot, and why.
    Solve(solve::SolveArgs),
    /// Say whether boards are sound, with every problem and its remedy.
    Check(check::CheckArgs),
    /// Compare shots from the same contact.
    Compare(compare::CompareArgs),
    /// Say where to aim: what every target is worth.
    Aim(aim::AimArgs),
    /// Say when to change direction: two shots while one cause is varied.
    Sweep(sweep::SweepArgs),
    /// Say what a ball is worth to the one who strikes it, from everywhere.
    Worth(worth::WorthArgs),
    /// Play points between the players of a board, and count.
    Simulate(simulate::SimulateArgs),
    /// Say how far charted players stood from where the model would have them.
    Audit(audit::AuditArgs),
    /// List the points of a chart as chapters of its video.
    Moments(moments::MomentsArgs),
    /// Say how an opponent plays, on one page.
    Scout(scout::ScoutArgs),
    /// Make sheets to print, pictures and animations of boards.
    Sheet(sheet::SheetArgs),
    /// List the levels of play with their figures.
    Presets(presets::PresetsArgs),
}

impl Tool {
    /// The name of the command, and the board when its answer is asked for in JSON.
    fn wants_json(&self) -> Option<(&'static str, &Path)> {
        match self {
            Self::Solve(args) => args.json.then_some(("solve", args.which.file.as_path())),
            Self::Compare(args) => args.form.json.then_some(("compare", args.which.file.as_path())),
            Self::Aim(args) => args.form.json.then_some(("aim", args.which.file.as_path())),
            Self::Sweep(args) => args.form.json.then_some(("sweep", args.which.file.as_path())),
            Self::Worth(args) => args.form.json.then_some(("worth", args.file.as_path())),
            Self::Simulate(args) => args.json.then_some(("simulate", args.file.as_path())),
            Self::Audit(args) => args.wants_json().then_some(("audit", args.first())),
            Self::Check(_) | Self::Moments(_) | Self::Presets(_) | Self::Scout(_) | Self::Sheet(_) => None,
        }
    }

    /// Whether the answer is a table or a file whose texts stay as they are.
    fn writes_data(&self) -> bool {
        match self {
            Self::Compare(args) => args.form.csv,
            Self::Aim(args) => args.form.csv,
            Self::Sweep(args) => args.form.csv,
            Self::Worth(args) => args.form.csv,
            Self::Audit(args) => args.form.csv,
            Self::Presets(args) => args.form.csv,
            Self::Moments(_) => true,
            Self::Solve(_) | Self::Simulate(_) | Self::Check(_) | Self::Scout(_) | Self::Sheet(_) => false,
        }
    }

    fn answer(&self, out: &mut dyn Write) -> Result<u8, Stop> {
        match self {
            Self::Solve(args) => solve::run(args, out)?,
            Self::Check(args) => return Ok(if check::run(args, out)? { EXIT_OK } else { EXIT_INPUT }),
            Self::Sheet(args) => return Ok(if sheet::run(args, out)? { EXIT_OK } else { EXIT_INPUT }),
            Self::Compare(args) => compare::run(args, out)?,
            Self::Aim(args) => aim::run(args, out)?,
            Self::Sweep(args) => sweep::run(args, out)?,
            Self::Worth(args) => worth::run(args, out)?,
            Self::Simulate(args) => simulate::run(args, out)?,
            Self::Audit(args) => return audit::run(args, out),
            Self::Moments(args) => return moments::run(args, out),
            Self::Scout(args) => return scout::run(args, out),
            Self::Presets(args) => presets::run(args, out)?,
        }
        Ok(EXIT_OK)
    }
}

/// A refusal of the command line, with a remedy where options stand before the command that they belong to. What was
/// typed is told by its beginning, and never obeyed by the terminal.
#[must_use]
pub fn refused(mut error: clap::Error) -> clap::Error {
    if let Some(ContextValue::String(typed)) = error.get(ContextKind::InvalidValue) {
        let told = plain::plain(&standpoint_board::file::shortened(typed)).into_owned();
        error.insert(ContextKind::InvalidValue, ContextValue::String(told));
    }
    if error.kind() == Refusal::ArgumentConflict && error.get(ContextKind::InvalidSubcommand).is_some() {
        let tip = "options stand behind the command that they belong to: `standpoint present --language de FILE`";
        error.insert(ContextKind::Suggested, ContextValue::StyledStrs(vec![tip.into()]));
    }
    error
}

/// Runs a command without a window.
#[must_use]
pub fn run(tool: &Tool) -> ExitCode {
    let stdout = io::stdout();
    let plain = !tool.writes_data() || stdout.is_terminal();
    let mut out = BufWriter::new(Plain::new(stdout.lock(), plain));
    let done = tool.answer(&mut out).and_then(|code| Ok(out.flush().map(|()| code)?));
    let told = match done {
        Ok(code) => return ExitCode::from(code),
        Err(Stop::Fault(fault)) => tell(tool, &fault, &mut out),
        Err(stop) => Err(stop),
    };
    match told {
        // The reader has closed the pipe, as `head` does.
        Err(Stop::Output(error)) if error.kind() == ErrorKind::BrokenPipe => {
            // What is left in the buffer would only fail again.
            let _ = out.into_parts();
            ExitCode::SUCCESS
        }
        Err(Stop::Output(error)) => {
            complain(&format!("standpoint: the answer cannot be written: {error} — Make room, or write it elsewhere."));
            ExitCode::from(EXIT_INPUT)
        }
        Ok(()) | Err(Stop::Fault(_)) => ExitCode::from(EXIT_INPUT),
    }
}

/// Tells why there is no answer: in words, and to programs that wait for JSON in JSON.
fn tell(tool: &Tool, fault: &Fault, out: &mut dyn Write) -> Result<(), Stop> {
    fault.lines.iter().for_each(|line| complain(line));
    if let Some((command, file)) = tool.wants_json() {
        json::print_fault(out, command, file, fault)?;
        out.flush()?;
    }
    Ok(())
}

/// Writes a line to standard error, ignoring a closed stream.
pub fn complain(line: &str) {
    let _ = writeln!(io::stderr(), "{}", plain::plain(line));
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
    /// Print where the handles are on screen whenever they have moved, and all commands with their keys, for what drives
    /// the window from outside.
    #[arg(long, hide = true)]
    pub say_handles: bool,
    /// Print when the first frame has been painted, in seconds since 1970.
    #[arg(long, hide = true)]
    pub say_painted: bool,
    /// Come to a fault after so many seconds, to see what becomes of the work.
    #[arg(long, value_name = "SECONDS", hide = true)]
    pub fault_after: Option<f64>,
    /// Run a command by its English name as soon as the board is there; may be given several times.
    #[arg(long = "do", value_name = "COMMAND", value_parser = command)]
    pub commands: Vec<standpoint_ui::commands::Command>,
    /// Size of the window in points.
    #[arg(long, value_name = "WIDTHxHEIGHT", value_parser = size)]
    pub size: Option<(f32, f32)>,
    /// The language of this window; otherwise the one chosen in it, or that of the desktop.
    #[arg(long, value_name = "de|en", value_parser = language)]
    pub language: Option<Language>,
}

/// The command of an English name.
fn command(name: &str) -> Result<standpoint_ui::commands::Command, String> {
    let found = standpoint_ui::commands::catalogue::CATALOGUE
        .iter()
        .find(|spec| spec.english_label().eq_ignore_ascii_case(name));
    found.map(|spec| spec.command).ok_or_else(|| "no command is called so; the menus and F1 list them".to_owned())
}

/// The language of a code.
pub(crate) fn language(code: &str) -> Result<Language, String> {
    match code {
        "de" => Ok(Language::German),
        "en" => Ok(Language::English),
        _ => Err("write de for German or en for English".to_owned()),
    }
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
    fn the_program_says_its_own_name() {
        assert_eq!(Cli::command().render_version(), format!("standpoint {}\n", env!("CARGO_PKG_VERSION")));
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
