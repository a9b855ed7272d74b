//! Sheets and pictures in the window, through its accessibility tree.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod common;

use std::{path::Path, time::Duration};

use egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable as _;

use common::{Window, app, window_of};

fn canvas(window: &mut Window, modifiers: Modifiers, key: Key) {
    window.key_press_modifiers(modifiers, key);
    window.run_steps(4);
}

/// Waits until a file exists and is complete.
fn waits_for(window: &mut Window, path: &Path) {
    for _ in 0..3000 {
        window.step();
        if path.exists() {
            window.run_steps(3);
            return;
        }
        std::thread::sleep(Duration::from_millis(10));
    }
    panic!("{} is never made", path.display());
}

/// Asks for a file by its typed path, as on a desktop without file dialogs.
fn saved(window: &mut Window, path: &Path) {
    window.get_by_label("Choose where…").click();
    common::room::fill_path(window, path);
    window.get_by_label("Save").click();
    waits_for(window, path);
}

#[test]
fn a_sheet_is_made_from_the_menu_by_typing_where() {
    // Without a desktop bus, as in CI, there is no file dialog; with one, a dialog would block the test.
    if std::env::var_os("DBUS_SESSION_BUS_ADDRESS").is_some() {
        eprintln!("a desktop bus is there: its file dialog would wait for a person");
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    let mut window = window_of(1440.0, 900.0);
    canvas(&mut window, Modifiers::COMMAND, Key::E);
    window.get_by_label("Sheet to print (PDF)").click();
    window.run_steps(2);
    window.get_by_label("Letter").click();
    window.run_steps(2);
    let path = folder.path().join("sheet.pdf");
    saved(&mut window, &path);
    assert!(std::fs::read(&path).unwrap().starts_with(b"%PDF-"));
    canvas(&mut window, Modifiers::COMMAND, Key::E);
    window.get_by_label("Picture (PNG)").click();
    window.run_steps(2);
    let picture = folder.path().join("picture.png");
    saved(&mut window, &picture);
    assert!(std::fs::read(&picture).unwrap().starts_with(b"\x89PNG"));
}

#[test]
fn the_picture_of_the_court_goes_onto_the_clipboard() {
    let mut window = window_of(1440.0, 900.0);
    canvas(&mut window, Modifiers::COMMAND | Modifiers::SHIFT, Key::E);
    assert!(window.query_by_label("The picture is on the clipboard").is_some());
}

#[test]
fn what_is_typed_about_a_drill_is_on_the_page_and_each_part_is_one_step() {
    let mut window = window_of(2000.0, 1200.0);
    window.get_by_label("Drill, for the sheet").click();
    window.run_steps(12);
    for (label, text) in [("Drill feed", "By hand"), ("Drill targets", "Deep")] {
        window.get_by_label(label).focus();
        window.run_steps(2);
        window.get_by_label(label).type_text(text);
        window.run_steps(3);
    }
    let drill = app(&window).session().page().unwrap().drill.clone();
    assert_eq!((drill.feed.as_str(), drill.targets.as_str()), ("By hand", "Deep"));
    assert_eq!(app(&window).session().history().undo_label(), Some("Targets"));
}
