//! The window of Standpoint, with its rooms: the board, the presentation and the rehearsal.
//!
//! * [`app`] holds the window's state and the order of a frame.
//! * [`executors`] carry out actions: the one place where commands, changes and files are handled.
//! * [`panels`] and [`dialogs`] read the session and send actions.
//! * [`present`] shows the board on a projector; [`rehearse`] lets a player practise alone.
//!
//! A frame goes one way: actions are applied, the answer follows, then everything is shown and sends new actions.

#![cfg_attr(not(test), deny(clippy::unwrap_used))]

pub mod app;
mod background_io;
mod crash_recovery;
pub mod dialogs;
pub mod executors;
mod faults;
mod frame_timing;
mod hints;
mod icon;
pub mod panels;
mod picture;
pub mod present;
pub mod rehearse;
mod signals;
mod test_hooks;
mod window;

use std::process::ExitCode;

pub use faults::EXIT_FAULT;

use clap::Parser as _;
use standpoint_cli::{Cli, Command};

use crate::app::First;

/// Runs the program as its command line says.
#[must_use]
pub fn run() -> ExitCode {
    speak_up();
    let cli = Cli::try_parse().unwrap_or_else(|error| standpoint_cli::refused(error).exit());
    match cli.command {
        None => window::open(cli.window),
        Some(Command::Open(window)) => window::open(window),
        Some(Command::Present(args)) => window::open_as(args.window(), First::Present),
        Some(Command::Rehearse(args)) => {
            let begin = args.begin();
            window::open_as(args.window(), First::Rehearse(begin))
        }
        Some(Command::Stopped(told)) => faults::tell(told),
        Some(Command::Tool(tool)) => standpoint_cli::run(&tool),
    }
}

/// Connects the texts of this crate and of those below it to [`standpoint_language::speak`]; until then they are English.
pub fn speak_up() {
    static ONCE: std::sync::Once = std::sync::Once::new();
    ONCE.call_once(|| {
        standpoint_language::set_translator!(standpoint_language::Catalogue);
        standpoint_chart_room::speak_up();
        standpoint_cli::speak_up();
    });
}
