//! Where the notes of a match are saved: with the board, in a separate file, after a crash, with other windows open.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod common;

use egui::{Key, Modifiers};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use standpoint_board::{
    chart::Setup,
    recovery_copy::{About, Kind, RecoveryCopy},
};
use standpoint_charting::invented::{self, Habit};
use standpoint_workbench::chart::NotesLocation;

use common::{
    app,
    room::{audited, drop_file, keys, noted, notes, opened, press, room, type_path, until},
};

#[test]
fn notes_moved_to_the_board_are_saved_and_opened_with_it_and_move_back() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("sunday.standpoint");
    standpoint_board::store::save_board(&path, &standpoint_board::Board::demo()).unwrap();
    let start = {
        let path = path.clone();
        move || standpoint_app::app::Start { file: Some(path.clone()), ..Default::default() }
    };
    let mut window = common::opened(egui::vec2(1440.0, 900.0), None, start.clone());
    until(&mut window, |window| app(window).session().path().is_some());
    press(&mut window, Modifiers::SHIFT, Key::M);
    noted(&mut window);
    assert_eq!(room(&window).kept(), NotesLocation::Alone);
    window.get_by_label("Where these notes are kept").click();
    window.run_steps(3);
    window.get_by_label("Move these notes to the board").click();
    window.run_steps(3);
    assert_eq!((room(&window).kept(), notes(&window).shots()), (NotesLocation::Board, 3));
    assert!(window.query_by_label("with sunday.standpoint, changed").is_some());
    press(&mut window, Modifiers::COMMAND, Key::S);
    until(&mut window, |window| window.query_by_label("with sunday.standpoint").is_some());
    let board = standpoint_board::store::load_board(&path).unwrap();
    assert_eq!(board.chart.unwrap().shots(), 3);

    // Saving to a chart file makes a copy; the notes stay with the board. Skipped on a desktop: its dialog blocks.
    if std::env::var_os("DBUS_SESSION_BUS_ADDRESS").is_none() {
        let copy = dir.path().join("copy.chart");
        window.get_by_label("File").click();
        window.run_steps(4);
        window.get_by_label("Save chart…").click();
        window.run_steps(3);
        type_path(&mut window, &copy);
        until(&mut window, |_| copy.exists());
        assert_eq!(standpoint_board::chart::file::load(&copy).unwrap().shots(), 3);
    }
    assert_eq!((room(&window).kept(), room(&window).alone.notes.shots()), (NotesLocation::Board, 0));

    let mut again = common::opened(egui::vec2(1440.0, 900.0), None, start);
    until(&mut again, |window| app(window).session().path().is_some());
    press(&mut again, Modifiers::SHIFT, Key::M);
    assert_eq!((room(&again).kept(), notes(&again).shots()), (NotesLocation::Board, 3));
    again.get_by_label("Where these notes are kept").click();
    again.run_steps(3);
    again.get_by_label("Move these notes to a file of their own").click();
    again.run_steps(3);
    assert_eq!((room(&again).kept(), notes(&again).shots()), (NotesLocation::Alone, 3));
    press(&mut again, Modifiers::SHIFT, Key::M);
    assert!(again.query_by_label("sunday.standpoint, changed").is_some(), "its file still has them");
    press(&mut again, Modifiers::COMMAND, Key::S);
    until(&mut again, |window| window.query_by_label("sunday.standpoint").is_some());
    assert_eq!(standpoint_board::store::load_board(&path).unwrap().chart, None);
}

#[test]
fn notes_left_by_a_crash_are_offered_and_come_back_unsaved() {
    let dir = tempfile::tempdir().unwrap();
    let mut chart = invented::chart(&Setup::default(), 7, 2, [Habit::EXPERT, Habit::MIDDLE]);
    chart.setup.title = "Left notes".to_owned();
    chart.tidy();
    let copy = RecoveryCopy::open(&dir.path().join("unsaved"), Kind::Chart).unwrap();
    copy.write(&chart.clone().into(), &About::default()).unwrap();
    drop(copy);
    let data = dir.path().to_owned();
    let start = move || standpoint_app::app::Start { data_dir: Some(data.clone()), ..Default::default() };
    let mut window = common::opened(egui::vec2(1440.0, 900.0), None, start);
    assert!(window.query_by_label_contains("notes of a match, not saved to a file yet").is_some());
    window.get_by_label("Restore").click();
    window.run_steps(4);
    assert_eq!(notes(&window).chart(), chart);
    assert!(room(&window).is_open() && !notes(&window).is_saved(), "they are in no file yet");
    assert!(app(&window).session().history().is_saved());
}

#[test]
fn a_moment_of_notes_that_are_with_the_board_is_a_page_of_it() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("sunday.standpoint");
    let mut board = standpoint_board::Board::demo();
    let mut chart = invented::chart(&Setup::of_board(&board), 7, 2, [Habit::EXPERT, Habit::MIDDLE]);
    chart.tidy();
    let shots = chart.shots();
    board.chart = Some(chart.into());
    standpoint_board::store::save_board(&path, &board).unwrap();
    let start = move || standpoint_app::app::Start { file: Some(path.clone()), ..Default::default() };
    let mut window = common::opened(egui::vec2(1440.0, 900.0), None, start);
    until(&mut window, |window| app(window).session().path().is_some());
    press(&mut window, Modifiers::SHIFT, Key::M);
    window.get_by_label("Positioning report").click();
    window.run_steps(3);
    let button = egui::accesskit::Role::Button;
    window.get_all_by_label("Make the report").find(|n| n.accesskit_node().role() == button).unwrap().click();
    until(&mut window, |window| audited(window).is_some());
    window.get_by_label("Moments").click();
    window.run_steps(3);
    window.get_all_by_label("Open as a board").next().unwrap().click();
    window.run_steps(6);
    let session = app(&window).session();
    assert_eq!((session.board().pages.len(), session.selection().page), (2, 1));
    assert!(session.page().unwrap().title.contains("point"), "{}", session.page().unwrap().title);
    assert!(!room(&window).is_open());
    assert_eq!(app(&window).session().document().notes().shots(), shots, "the notes are still with it");
    press(&mut window, Modifiers::COMMAND, Key::Z);
    assert_eq!(app(&window).session().board().pages.len(), 1);
}

#[test]
fn a_board_left_by_a_crash_comes_back_with_its_notes() {
    let dir = tempfile::tempdir().unwrap();
    let mut board = standpoint_board::Board::demo();
    let mut chart = invented::chart(&Setup::of_board(&board), 7, 2, [Habit::EXPERT, Habit::MIDDLE]);
    chart.tidy();
    board.chart = Some(chart.clone().into());
    let copy = RecoveryCopy::open(&dir.path().join("unsaved"), Kind::Board).unwrap();
    copy.write(&board.into(), &About::default()).unwrap();
    drop(copy);
    let data = dir.path().to_owned();
    let start = move || standpoint_app::app::Start { data_dir: Some(data.clone()), ..Default::default() };
    let mut window = common::opened(egui::vec2(1440.0, 900.0), None, start);
    window.get_by_label("Restore").click();
    window.run_steps(4);
    assert_eq!(app(&window).session().document().notes().chart(), chart);
    press(&mut window, Modifiers::SHIFT, Key::M);
    assert!(window.query_by_label("with a board not saved to a file yet, changed").is_some());
}

#[test]
fn a_chart_that_somebody_else_has_saved_meanwhile_is_not_written_over() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("sunday.chart");
    let chart = invented::chart(&Setup::default(), 7, 1, [Habit::EXPERT, Habit::MIDDLE]);
    standpoint_board::chart::file::save(&path, &chart).unwrap();
    let mut window = opened(1440.0, 900.0);
    drop_file(&mut window, &path);
    until(&mut window, |window| notes(window).shots() == chart.shots());
    keys(&mut window, &[Key::PageUp, Key::ArrowRight, Key::Escape]);
    press(&mut window, Modifiers::COMMAND, Key::S);
    until(&mut window, |window| window.query_by_label("sunday.chart").is_some());
    let other = invented::chart(&Setup::default(), 9, 2, [Habit::EXPERT, Habit::MIDDLE]);
    standpoint_board::chart::file::save(&path, &other).unwrap();
    let theirs = std::fs::read(&path).unwrap();
    keys(&mut window, &[Key::PageUp, Key::ArrowRight, Key::Escape]);
    press(&mut window, Modifiers::COMMAND, Key::S);
    until(&mut window, |window| window.query_by_label_contains("has been changed by another window").is_some());
    assert_eq!(std::fs::read(&path).unwrap(), theirs);
    assert!(!notes(&window).is_saved());
}
