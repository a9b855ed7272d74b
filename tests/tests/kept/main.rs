//! Inputs kept from fuzzing pass the same checks as during fuzzing.

#![allow(clippy::unwrap_used, reason = "a check that cannot read its own data has failed")]

#[path = "../../../fuzz/src/board.rs"]
mod board;
#[path = "../../../fuzz/src/chart.rs"]
mod chart;
#[path = "../../../fuzz/src/roster.rs"]
mod roster;
#[path = "../../../fuzz/src/season.rs"]
mod season;
#[path = "../../../fuzz/src/table.rs"]
mod table;

use std::{
    fs,
    panic::{AssertUnwindSafe, catch_unwind},
    path::Path,
};

/// Feeds every kept file of a target to its check; a file that fails is named.
fn feed(target: &str, check: impl Fn(&[u8])) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../fuzz/corpus").join(target);
    let files: Vec<_> = fs::read_dir(&folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    assert!(files.len() > 5, "{} files in {}", files.len(), folder.display());
    for file in files {
        let bytes = fs::read(&file).unwrap();
        if catch_unwind(AssertUnwindSafe(|| check(&bytes))).is_err() {
            panic!("{} does not pass", file.display());
        }
    }
}

#[test]
fn kept_boards_are_read_or_refused_with_a_place() {
    feed("board", board::check);
}

#[test]
fn kept_charts_are_read_or_refused_with_a_place() {
    feed("chart", chart::check);
}

#[test]
fn kept_players_of_a_roster_are_read_or_refused_with_a_place() {
    feed("roster", roster::check);
}

#[test]
fn kept_seasons_are_matches_or_told_and_can_be_kept() {
    feed("season", season::check);
}

#[test]
fn kept_tables_are_read_to_the_last_row() {
    feed("table", table::check);
}
