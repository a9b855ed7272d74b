//! The window of Standpoint and its command line.
//!
//! * [`session`] holds the board, its history and the live answer; [`edit`] lists the changes of the board,
//!   [`arrange`] those of its order.
//! * [`commands`] is the catalogue of everything that can be asked for by name, and the one place where it is done.
//! * [`canvas`] is the court: a transform, a hand, and what is painted.
//! * [`panels`] and [`dialogs`] read the session and send actions.
//! * [`chart`] is the room for what really happened: charts and their audit.
//! * [`present`] shows the board on a projector; [`rehearse`] lets a player practise alone.
//! * [`how`] says of every figure how it came about.
//! * [`theme`] turns the tokens of `assets` into colours, sizes and icons.
//! * [`weigh`] weighs shots against each other on threads of its own.
//! * [`sheet`] makes sheets, pictures and moving pictures of what is on the board.
//! * [`words`] says figures and places as a coach would.
//!
//! A frame goes one way: what was asked for is applied, the answer follows, then everything is shown and asks again.

#![cfg_attr(not(test), deny(clippy::unwrap_used))]

pub mod app;
pub mod arrange;
pub mod canvas;
pub mod chart;
pub mod cli;
pub mod commands;
pub mod compare_words;
pub mod dialogs;
pub mod edit;
mod exporting;
mod faults;
mod files;
mod filing;
mod hints;
pub mod how;
mod keeper;
mod pace;
pub mod panels;
mod picture;
pub mod present;
mod probe;
pub mod rehearse;
pub mod session;
pub mod settings;
pub mod sheet;
pub mod sketch;
pub mod speech;
mod strokes;
pub mod theme;
pub mod weigh;
mod window;
pub mod words;

use std::process::ExitCode;

use clap::Parser as _;

use crate::app::First;

/// Runs the program as its command line says.
#[must_use]
pub fn run() -> ExitCode {
    let cli = cli::Cli::try_parse().unwrap_or_else(|error| cli::refused(error).exit());
    match cli.command {
        None => window::open(cli.window),
        Some(cli::Command::Open(window)) => window::open(window),
        Some(cli::Command::Present(args)) => window::open_as(args.window(), First::Present),
        Some(cli::Command::Rehearse(args)) => {
            let begin = args.begin();
            window::open_as(args.window(), First::Rehearse(begin))
        }
        Some(cli::Command::Stopped(told)) => faults::tell(told),
        Some(cli::Command::Tool(tool)) => cli::run(&tool),
    }
}
