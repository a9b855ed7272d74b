//! "Against this opponent" in the window: chosen by name, switched off and on, and taken from a report.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod common;

use std::path::Path;

use egui::{Key, Modifiers, accesskit::Role};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use standpoint_board::{
    Board,
    chart::Setup,
    roster::{Entry, EntryKind, MatchHabits, Roster},
};
use standpoint_charting::{
    import::{Mapping, write_chart},
    invented::{self, Habit},
};
use standpoint_geometry::ReplyHabits;

use common::{
    Window, app,
    room::{button, drop_file, press, type_path, until},
    window_of,
};

/// The demo's opponent in a roster, seen to go down the line in every case of a rally.
fn roster(folder: &Path) {
    let card = Board::demo().far;
    let mut counts = ReplyHabits::default();
    for case in ReplyHabits::cases() {
        counts.set(case, [2, 2, 24]);
    }
    let entry = Entry { date: None, kind: EntryKind::Match, text: "Saturday".to_owned(), file: String::new() };
    let of = MatchHabits { title: "Saturday".to_owned(), date: "2026-05-09".parse().ok(), counts };
    Roster::keep_matches(folder, &card, entry, vec![of]).unwrap();
}

fn spot(window: &Window) -> glam::DVec2 {
    app(window).session().play().unwrap().spot.place
}

#[test]
fn an_opponent_of_the_roster_moves_the_spot_until_it_is_switched_off() {
    let folder = tempfile::tempdir().unwrap();
    roster(folder.path());
    // High enough to show the players below the answer.
    let mut window = window_of(1440.0, 2300.0);
    let plain = spot(&window);
    let far = Board::demo().far.name;
    common::run(&mut window, "Roster…");
    button(&mut window, "Another folder…");
    type_path(&mut window, folder.path());
    until(&mut window, |window| window.query_by_label("Far end").is_some());
    button(&mut window, "Far end");
    let known = app(&window).session().board().far.habits.clone().unwrap();
    assert_eq!((known.of.as_str(), known.matches, known.used), (far.as_str(), 1, true));
    assert_ne!(spot(&window), plain);
    let said = format!("{far} goes down the line ");
    assert!(window.query_all_by_label_contains(&said).count() > 0, "the board says why");
    assert!(window.query_all_by_label_contains("(24 of 28 seen): ").count() > 0);
    window.get_by_label("Players").click();
    window.run_steps(3);
    let origin = format!("{far}: 336 strokes and 112 serves in one match, the last on 2026-05-09");
    assert!(window.query_by_label(&origin).is_some());
    let switch = common::center(&window, "Against this opponent");
    common::click_at(&mut window, switch);
    assert!(!app(&window).session().board().far.habits.as_ref().unwrap().used);
    assert_eq!(spot(&window), plain, "switched off, the answer is as before");
    assert_eq!(window.query_all_by_label_contains(&said).count(), 0);
    press(&mut window, Modifiers::COMMAND, Key::Z);
    assert!(app(&window).session().board().far.habits.as_ref().unwrap().used);
    press(&mut window, Modifiers::COMMAND, Key::Z);
    assert!(app(&window).session().board().far.habits.is_none());
}

#[test]
fn a_report_gives_its_player_to_the_board_as_opponent() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sunday.csv");
    let chart = invented::chart(&Setup::of_board(&Board::demo()), 5, 20, [Habit::EXPERT, Habit::MIDDLE]);
    let mut bytes = Vec::new();
    write_chart(&chart, &Mapping::default(), &mut bytes).unwrap();
    std::fs::write(&path, bytes).unwrap();
    let mut window = window_of(1440.0, 900.0);
    drop_file(&mut window, &path);
    until(&mut window, |window| window.query_by_label("Read the file").is_some());
    button(&mut window, "Read the file");
    until(&mut window, |window| window.query_by_label_contains("Use these ").is_some());
    let use_them = window.get_by_label_contains("Use these ").accesskit_node().label().unwrap();
    button(&mut window, &use_them);
    button(&mut window, "Make the report");
    until(&mut window, |window| window.query_by_label("Summary").is_some());
    let far = Board::demo().far.name;
    let tab = window.get_all_by_label(&far).find(|n| n.accesskit_node().role() == Role::Button).unwrap();
    tab.click();
    window.run_steps(3);
    button(&mut window, &format!("Play against {far} on the board"));
    let known = app(&window).session().board().far.habits.clone().unwrap();
    assert_eq!((known.of.as_str(), known.used), (far.as_str(), true));
    assert!(known.counts.shots() > 20);
}
