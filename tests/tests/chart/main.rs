//! Checks of charts across crates: files, imports, and planted habits that must be found again.

#![allow(clippy::unwrap_used, reason = "a check that cannot make its own data has failed")]

mod file;
mod filters;
mod fits;
mod golden;
mod habits;
mod import;
mod moments;
mod notebook;
mod opponent;
mod planted;
mod players;
mod score;
mod season;
mod stream;
mod summaries;
mod values;
mod video;

use std::sync::atomic::AtomicBool;

use standpoint_board::{
    PlayerCard,
    chart::{Chart, Setup},
};
use standpoint_charting::audit::{CollectedShots, Compare, Crew, Findings, Watch};
use standpoint_geometry::Level;

/// A full hard court at an invented club, with two invented players.
fn larkfield(level: Level) -> Setup {
    Setup {
        title: "Larkfield Tennis Club, Sunday practice".to_owned(),
        near: PlayerCard::of_level("Mara Quell", level),
        far: PlayerCard::of_level("Ivo Tander", level),
        ..Setup::default()
    }
}

/// The audit of a chart: findings and shots.
fn audited(chart: &Chart) -> (Findings, CollectedShots) {
    let crew = Crew::new(&chart.setup, Compare::default(), 0).unwrap();
    let mut kept = CollectedShots::default();
    let mut watch = Watch { progress: &mut |_| (), stop: &AtomicBool::new(false) };
    let findings = crew.audit_chart(chart, &mut kept, &mut watch).unwrap();
    (findings, kept)
}
