//! The chart room in the window, through its accessibility tree.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod common;

use std::path::Path;

use egui::{Key, Modifiers, accesskit::Role};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use glam::dvec2;
use standpoint_board::chart::Setup;
use standpoint_charting::{
    audit::Compare,
    import::{Column, Mapping, write_chart},
    invented::{self, Habit},
};
use standpoint_geometry::{End, Stroke, Wing};

use common::{
    Window, app, click_at,
    room::{audited, drop_file, keys, noted, notes, opened, point_of, press, room, until},
    window_of,
};

#[test]
fn a_rally_is_noted_with_the_keys_alone() {
    let mut window = opened(1440.0, 900.0);
    // The near player hits from the right corner, deep to the left, where it is met; the hitter stands in the middle.
    keys(&mut window, &[Key::Num3, Key::F, Key::Num7, Key::Num7, Key::Num2]);
    let point = notes(&window).points()[0].clone();
    let shot = point.shots[0];
    assert_eq!((shot.hitter, shot.wing, shot.stroke), (End::Near, Some(Wing::Forehand), None));
    assert!(shot.contact.x > 2.0 && shot.contact.y < -11.9, "{}", shot.contact);
    assert!(shot.landing.unwrap().x < -2.0 && shot.landing.unwrap().y > 8.0);
    assert!(shot.stood.unwrap().x.abs() < 0.1 && shot.stood.unwrap().y < -11.9);
    // The next shot, a slice, begins where the first was met; an arrow moves the cursor half a metre; it is not met.
    keys(&mut window, &[Key::S, Key::ArrowLeft, Key::Enter, Key::N]);
    let now = notes(&window);
    let second = now.points()[0].shots[1];
    assert_eq!((second.contact, second.stroke, second.met), (shot.met.unwrap(), Some(Stroke::Slice), None));
    assert!(now.open_point().is_none());
    // Every note can be undone, by the key of the pad and by that of the window.
    keys(&mut window, &[Key::Backspace]);
    assert_eq!(notes(&window).shots(), 1);
    press(&mut window, Modifiers::COMMAND, Key::Z);
    press(&mut window, Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
    press(&mut window, Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
    assert_eq!(notes(&window).shots(), 2);
    assert!(app(&window).session().history().is_saved(), "the board has not been touched");
}

#[test]
fn clicks_note_places_and_wrong_ones_are_refused_in_words() {
    for (width, height) in [(1440.0, 900.0), (800.0, 900.0)] {
        let mut window = opened(width, height);
        click(&mut window, 2.0, -12.0);
        click(&mut window, 2.0, -6.0);
        assert!(window.query_by_label_contains("Not noted: the landing is beyond the net").is_some());
        for (x, y) in [(-3.0, 9.0), (-3.5, 12.5), (0.5, -12.5)] {
            click(&mut window, x, y);
        }
        let shot = notes(&window).points()[0].shots[0];
        assert!(shot.stood.unwrap().distance(dvec2(0.5, -12.5)) < 0.05, "{shot:?}");
        assert!(window.query_by_label("Where does it land?").is_some());
    }
}

/// A table of invented points with its own column names.
fn table(folder: &Path) -> std::path::PathBuf {
    let chart = invented::chart(&Setup::default(), 7, 3, [Habit::EXPERT, Habit::MIDDLE]);
    let mut mapping = Mapping::default();
    for (column, heading) in [(Column::ContactX, "hit across"), (Column::ContactY, "hit along")] {
        mapping.columns.insert(column, heading.to_owned());
    }
    let mut bytes = Vec::new();
    write_chart(&chart, &mapping, &mut bytes).unwrap();
    bytes.extend_from_slice(b"one cell\n");
    let path = folder.join("sunday.csv");
    std::fs::write(&path, bytes).unwrap();
    path
}

/// Chooses a heading for a column in the import dialog.
fn map(window: &mut Window, column: &str, heading: &str) {
    let combo = egui::accesskit::Role::ComboBox;
    window.get_all_by_label(column).find(|n| n.accesskit_node().role() == combo).unwrap().click();
    window.run_steps(3);
    let button = egui::accesskit::Role::Button;
    window.get_all_by_label(heading).find(|n| n.accesskit_node().role() == button).unwrap().click();
    window.run_steps(3);
}

#[test]
fn a_dropped_table_is_mapped_read_audited_and_a_moment_opens_as_a_board() {
    let folder = tempfile::tempdir().unwrap();
    let path = table(folder.path());
    let mut window = window_of(1440.0, 900.0);
    drop_file(&mut window, &path);
    until(&mut window, |window| window.query_by_label("Read the file").is_some());
    assert!(window.query_by_label_contains("Choose a column for contact x, contact y").is_some());
    click_at(&mut window, egui::pos2(1430.0, 450.0));
    assert!(window.query_by_label("Read the file").is_some(), "a click beside it throws nothing away");
    map(&mut window, "contact x *", "hit across");
    map(&mut window, "contact y *", "hit along");
    window.get_by_label("Read the file").click();
    until(&mut window, |window| window.query_by_label_contains("1 row could not be read").is_some());
    assert!(window.query_by_label_contains("the row has 1 cells, the heading 37").is_some());
    window.get_by_label("Save the list").click();
    let list = folder.path().join("sunday-bad-rows.csv");
    until(&mut window, |_| list.exists());
    assert!(std::fs::read_to_string(&list).unwrap().starts_with("line,column,reason,remedy\n"));
    let shots = window.get_by_label_contains("Use these ").accesskit_node().label().unwrap();
    window.get_by_label(&shots).click();
    window.run_steps(3);
    assert_eq!(shots, format!("Use these {} shots", notes(&window).shots()));
    let audit = |window: &Window| {
        let button = egui::accesskit::Role::Button;
        window.get_all_by_label("Make the report").find(|n| n.accesskit_node().role() == button).unwrap().click();
    };
    audit(&window);
    until(&mut window, |window| audited(window).is_some());
    assert_eq!(audited(&window).unwrap().shots.len(), notes(&window).shots());
    let judged = window.get_by_label("Places on the court").value().unwrap();
    assert!(judged.ends_with("places judged") && !judged.starts_with("0 "), "{judged}");
    for page in ["Pictures", "Shots", "Moments"] {
        window.get_by_label(page).click();
        window.run_steps(3);
    }
    let first: Vec<_> = window.get_all_by_label("Open as a board").collect();
    first[0].click();
    window.run_steps(6);
    assert!(!room(&window).is_open());
    let board = app(&window).session().board();
    assert!(board.title.contains("point") && board.pages[0].notes.contains("Model estimates"), "{}", board.title);
    assert_eq!(board.pages[0].shots.len(), 1);
}

#[test]
fn a_table_of_the_same_headings_is_read_as_before() {
    let folder = tempfile::tempdir().unwrap();
    let path = table(folder.path());
    let mut window = window_of(1024.0, 768.0);
    drop_file(&mut window, &path);
    until(&mut window, |window| window.query_by_label("Read the file").is_some());
    map(&mut window, "contact x *", "hit across");
    map(&mut window, "contact y *", "hit along");
    window.get_by_label("Read the file").click();
    until(&mut window, |window| window.query_by_label("Save the list").is_some());
    press(&mut window, Modifiers::NONE, Key::Escape);
    drop_file(&mut window, &path);
    until(&mut window, |window| window.query_by_label("As you read a file with these headings before").is_some());
    assert!(window.query_by_label_contains("Choose a column").is_none());
    press(&mut window, Modifiers::NONE, Key::Enter);
    until(&mut window, |window| window.query_by_label("Save the list").is_some());
    press(&mut window, Modifiers::NONE, Key::Enter);
    assert!(window.query_by_label("Save the list").is_none() && notes(&window).shots() > 0);
}

#[test]
fn lists_of_a_dialog_lie_over_it_however_often_it_is_opened() {
    let folder = tempfile::tempdir().unwrap();
    let path = table(folder.path());
    let mut window = window_of(1440.0, 900.0);
    let click = |window: &mut Window, label: &str, role: Role| {
        let node = window.get_all_by_label(label).find(|n| n.accesskit_node().role() == role).unwrap();
        let at = node.rect().center();
        window.hover_at(at);
        window.step();
        // Down and up within one frame, as a fast click or a remote desktop sends it.
        window.drag_at(at);
        window.drop_at(at);
        window.run_steps(4);
    };
    for _ in 0..3 {
        drop_file(&mut window, &path);
        until(&mut window, |window| window.query_by_label("Read the file").is_some());
        click(&mut window, "contact x *", Role::ComboBox);
        click(&mut window, "hit across", Role::Button);
        let chosen = window.query_by_label_contains("Choose a column for contact y").is_some();
        assert!(chosen, "the list is under the dialog");
        press(&mut window, Modifiers::NONE, Key::Escape);
        assert!(window.query_by_label("Read the file").is_none());
    }
}

#[test]
fn a_player_is_measured_and_the_figures_are_used_and_taken_back() {
    let mut window = opened(1440.0, 900.0);
    window.get_by_label("Player tests").click();
    window.run_steps(3);
    let field = window.get_by_label("Sprint times");
    field.focus();
    field.type_text("5 1.10\n10 1.86\n20 3.21\nx");
    window.run_steps(3);
    assert!(window.query_by_label_contains("Line 4: `x` is no distance and time").is_some());
    window.key_press(Key::Backspace);
    window.run_steps(3);
    let before = notes(&window).setup().near.player().movement.v_max;
    window.get_by_label("Use for Mara Quell in the chart").click();
    window.run_steps(3);
    let after = notes(&window).setup().near.player().movement.v_max;
    assert!((6.0..9.0).contains(&after) && (after - before).abs() > 1e-3, "{before} {after}");
    window.get_by_label("Use on the board").click();
    window.run_steps(3);
    let board = app(&window).session();
    assert!((board.board().near.player().movement.v_max - after).abs() < 1e-9);
    assert_eq!(board.history().undo_label(), Some("Measured player"));
    press(&mut window, Modifiers::COMMAND, Key::Z);
    assert!((notes(&window).setup().near.player().movement.v_max - before).abs() < 1e-9);
}

#[test]
fn balls_of_a_target_test_are_clicked_onto_the_court() {
    let mut window = opened(1440.0, 900.0);
    window.get_by_label("Player tests").click();
    window.run_steps(3);
    window.get_by_label("Target test").click();
    window.run_steps(3);
    let middle = window.get_by_label("Court of the target test").rect().center();
    for (x, y) in [(-60.0, -200.0), (-40.0, -230.0), (-75.0, -215.0), (-50.0, -190.0), (-65.0, -240.0), (-55.0, -210.0)]
    {
        let at = middle + egui::vec2(x, y);
        window.hover_at(at);
        window.step();
        window.drag_at(at);
        window.step();
        window.drop_at(at);
        window.run_steps(2);
    }
    assert_eq!(window.get_by_label("Court of the target test").value().as_deref(), Some("6 landings, 0 in the net"));
    assert!(window.query_by_label("Spread up and down").is_some());
    window.get_by_label("Backhand").click();
    window.run_steps(3);
    window.get_by_label("Use for Mara Quell in the chart").click();
    window.run_steps(3);
    let near = notes(&window).setup().near.clone();
    let level = standpoint_board::PlayerCard {
        figures: Setup::of_board(app(&window).session().board()).near.figures,
        ..near.clone()
    };
    assert!((near.player().backhand.spread_up - level.player().backhand.spread_up).abs() > 1e-6);
    assert!((near.player().forehand.spread_up - level.player().forehand.spread_up).abs() < 1e-12);
}

fn click(window: &mut Window, x: f64, y: f64) {
    let at = point_of(window, dvec2(x, y)).unwrap();
    click_at(window, at);
}

#[test]
fn a_noted_shot_is_put_right_with_the_keys_and_taken_out() {
    let mut window = opened(1440.0, 900.0);
    noted(&mut window);
    keys(&mut window, &[Key::PageUp, Key::PageUp]);
    let (at, shot) = notes(&window).picked().map(|(at, shot)| (at, *shot)).unwrap();
    assert_eq!((at.point, at.shot, shot.stroke), (0, 1, Some(Stroke::Slice)));
    // The arrows move the hitter's place; M goes on to the contact, which is also where the first shot was met.
    keys(&mut window, &[Key::ArrowRight, Key::ArrowRight, Key::M, Key::Num8, Key::B, Key::S, Key::D]);
    let shots = notes(&window).points()[0].shots.clone();
    assert!((shots[1].stood.unwrap() - shot.stood.unwrap() - dvec2(1.0, 0.0)).length() < 1e-6);
    assert_eq!((shots[0].met, shots[1].wing), (Some(shots[1].contact), Some(Wing::Backhand)));
    assert_eq!((shots[1].contact.x, shots[1].stroke), (0.0, Some(Stroke::Drop)));
    keys(&mut window, &[Key::N]);
    assert!(window.query_by_label_contains("delete it instead").is_some(), "every shot has a contact");
    keys(&mut window, &[Key::Delete, Key::Escape]);
    assert_eq!((notes(&window).shots(), notes(&window).picked().is_none()), (2, true));
    for _ in 0..8 {
        press(&mut window, Modifiers::COMMAND, Key::Z);
    }
    assert_eq!(notes(&window).points()[0].shots[1], shot, "all of it is taken back");
}

#[test]
fn places_of_a_shot_from_the_list_are_pulled_and_another_is_put_between() {
    let mut window = opened(1440.0, 900.0);
    noted(&mut window);
    window.get_by_label("Point 1").click();
    window.run_steps(3);
    let shot = *notes(&window).picked().unwrap().1;
    let from = point_of(&window, shot.landing.unwrap()).unwrap();
    let to = point_of(&window, dvec2(1.5, 7.0)).unwrap();
    common::drag(&mut window, from, to - from);
    let landing = notes(&window).picked().unwrap().1.landing.unwrap();
    assert!(landing.distance(dvec2(1.5, 7.0)) < 0.1, "{landing}");
    assert_eq!(notes(&window).undo_label(), Some("Move the landing"));
    // A click on one of its places selects another shot on the court.
    let stood = notes(&window).points()[0].shots[1].stood.unwrap();
    click(&mut window, stood.x, stood.y);
    assert_eq!(notes(&window).picked().unwrap().0.shot, 1);
    window.get_by_label("Insert after  I").click();
    window.run_steps(3);
    assert!(window.query_by_label("This is shot 3 of point 1, between others").is_some());
    keys(&mut window, &[Key::Num7, Key::E]);
    assert_eq!(notes(&window).points()[0].shots.len(), 3);
    assert_eq!(notes(&window).points().len(), 2);
}

#[test]
fn title_and_names_are_typed_and_the_spot_is_looked_for_where_one_says() {
    let mut window = opened(1440.0, 900.0);
    let field = window.get_by_label("Far end");
    field.focus();
    window.run_steps(2);
    press(&mut window, Modifiers::COMMAND, Key::A);
    window.get_by_label("Far end").type_text("Lena Brook");
    window.run_steps(3);
    assert_eq!(notes(&window).setup().far.name, "Lena Brook");
    assert_eq!(notes(&window).undo_label(), Some("Name of a player"));
    window.key_press(Key::Escape);
    window.run_steps(3);
    let chart = invented::chart(&Setup::default(), 7, 1, [Habit::EXPERT, Habit::MIDDLE]);
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.chart");
    standpoint_board::chart::file::save(&path, &chart).unwrap();
    drop_file(&mut window, &path);
    window.run_steps(3);
    window.get_by_label("Discard").click();
    until(&mut window, |window| notes(window).shots() == chart.shots());
    window.get_by_label("Positioning report").click();
    window.run_steps(3);
    window.get_by_label("Spot anywhere").click();
    window.run_steps(3);
    let button = egui::accesskit::Role::Button;
    window.get_all_by_label("Make the report").find(|n| n.accesskit_node().role() == button).unwrap().click();
    until(&mut window, |window| audited(window).is_some());
    assert_eq!(audited(&window).unwrap().compare, Compare::Anywhere);
}

#[test]
fn the_head_of_the_room_stays_within_the_window_at_any_width() {
    for width in [512.0, 640.0, 700.0, 760.0, 900.0, 1024.0] {
        let mut window = window_of(width, 600.0);
        press(&mut window, Modifiers::SHIFT, Key::M);
        window.run_steps(4);
        for label in ["Note", "Positioning report", "Player tests", "Back to the board", "File"] {
            let rect = window.get_by_label(label).rect();
            assert!(rect.left() >= 0.0 && rect.right() <= width, "{label} at {width}: {rect}");
        }
    }
}
