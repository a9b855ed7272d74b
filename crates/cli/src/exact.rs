//! The game of the players, solved before it is used by an answer.

use std::{sync::atomic::AtomicBool, thread};

use clap::Args;
use standpoint_geometry::worth::Matchup;
use standpoint_workbench::{
    settings,
    solved::{self, Shelf},
};

use super::complain;

/// Whether the rally is solved first.
#[derive(Debug, Default, Clone, Copy, Args)]
pub struct Exact {
    /// Answer at once from the nearest level, without solving the rally for these players, court and ball.
    #[arg(long)]
    pub quick: bool,
}

impl Exact {
    /// Takes the solved rally from the disk or solves it, unless it has to be quick.
    pub fn ensure(self, matchup: &Matchup) {
        if !self.quick {
            ensure(matchup, " (--quick answers at once from the nearest level)");
        }
    }
}

/// Takes the solved rally from the disk or solves it, and prints that on standard error; `besides` is added to the message.
pub fn ensure(matchup: &Matchup, besides: &str) {
    let begin = || {
        let homeless = settings::homeless();
        let kept = if homeless.is_none() { " and is kept for the next time" } else { "" };
        complain(&format!(
            "standpoint: solving the rally for these players, court and ball, which takes some seconds{kept}{besides}."
        ));
        if let Some(said) = homeless {
            complain(&format!("standpoint: {said}."));
        }
    };
    solved::ensure(matchup, &Shelf::usual(), threads(), &AtomicBool::new(false), begin);
}

/// The threads that were asked for, at most as many as there are cores, which is said; 0 takes all.
pub fn threads_of(asked: usize) -> usize {
    let cores = threads();
    if asked > cores {
        complain(&format!(
            "standpoint: --threads {asked} is more than the {cores} of this machine, so {cores} compute."
        ));
    }
    asked.min(cores)
}

/// As many threads as there are cores.
pub fn threads() -> usize {
    thread::available_parallelism().map_or(1, usize::from)
}
