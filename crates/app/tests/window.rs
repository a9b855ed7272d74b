//! The window through its accessibility tree, without a graphics card.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod common;

use egui::{Key, Modifiers, vec2};
use egui_kittest::kittest::Queryable as _;
use glam::DVec2;
use standpoint_app::app::{App, Start};
use standpoint_board::Units;
use standpoint_ui::commands::{Action, BoardCommand, Command};

use common::{Window, app, center, drag, opened, past_the_hints, window_of};

/// The window with the demo board, after layout has settled.
fn window() -> Window {
    window_of(1440.0, 900.0)
}

fn spot(window: &Window) -> DVec2 {
    app(window).session().play().unwrap().spot.place
}

fn target(window: &Window) -> DVec2 {
    app(window).session().shot().unwrap().shot.target
}

#[test]
fn dragging_the_target_moves_the_spot_to_the_other_side() {
    let mut window = window();
    let before = spot(&window);
    assert!(before.x > 0.0, "after a cross-court forehand the hitter stands on the forehand side: {before}");
    let from = center(&window, "Ball target");
    drag(&mut window, from, vec2(110.0, 0.0));
    let after = spot(&window);
    assert!(target(&window).x > 0.0);
    assert!(after.x < before.x - 0.3, "the spot went from {before} to {after}");
}

#[test]
fn a_drag_is_one_step_of_undo() {
    let mut window = window();
    let before = target(&window);
    let from = center(&window, "Ball target");
    drag(&mut window, from, vec2(60.0, 10.0));
    assert_ne!(target(&window), before);
    window.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    window.run_steps(2);
    assert_eq!(target(&window), before);
    window.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
    window.run_steps(2);
    assert_ne!(target(&window), before);
}

#[test]
fn escape_takes_a_drag_back() {
    let mut window = window();
    let before = target(&window);
    let from = center(&window, "Ball target");
    window.hover_at(from);
    window.step();
    window.drag_at(from);
    window.step();
    window.hover_at(from + vec2(50.0, 0.0));
    window.step();
    assert_ne!(target(&window), before);
    window.key_press(Key::Escape);
    window.run_steps(2);
    assert_eq!(target(&window), before);
}

#[test]
fn arrow_keys_move_what_has_the_focus() {
    let mut window = window();
    let before = target(&window);
    window.get_by_label("Ball target").focus();
    window.run_steps(2);
    for _ in 0..3 {
        window.key_press(Key::ArrowRight);
        window.run_steps(2);
    }
    let after = target(&window);
    assert!((after - before - DVec2::new(0.3, 0.0)).length() < 1e-9, "{before} became {after}");
    window.key_press_modifiers(Modifiers::SHIFT, Key::ArrowDown);
    window.run_steps(2);
    assert!((target(&window) - after - DVec2::new(0.0, -0.5)).length() < 1e-9);
    window.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    window.run_steps(2);
    assert_eq!(target(&window), before, "a series of keys is one step");
}

#[test]
fn every_handle_can_be_dragged_and_hit_by_a_finger() {
    for label in ["Ball target", "Hitter’s contact", "Opponent’s contact", "Hitter", "Opponent"] {
        let mut window = window();
        let before = app(&window).session().board().clone();
        let rect = window.get_all_by_label(label).find(|n| n.rect().width() < 60.0).unwrap().rect();
        assert!(rect.width() >= 44.0 && rect.height() >= 44.0, "{label}: {rect}");
        drag(&mut window, rect.center(), vec2(-24.0, 18.0));
        assert_ne!(*app(&window).session().board(), before, "{label} did not move");
    }
}

#[test]
fn the_opponents_contact_can_be_moved_and_let_go() {
    let mut window = window();
    let from = center(&window, "Opponent’s contact");
    drag(&mut window, from, vec2(2.0, -40.0));
    assert!(app(&window).session().receipt_moved());
    window.get_by_label("Opponent’s contact").focus();
    window.run_steps(2);
    window.key_press(Key::Delete);
    window.run_steps(2);
    assert!(!app(&window).session().receipt_moved());
}

#[test]
fn the_sentence_changes_its_units() {
    let mut window = window();
    let said = |window: &Window| window.get_by_label("Court").value().unwrap();
    assert!(said(&window).contains(" m "), "{}", said(&window));
    window.key_press(Key::U);
    window.run_steps(3);
    assert_eq!(app(&window).session().units(), Units::Feet);
    assert!(said(&window).contains('′'), "{}", said(&window));
    window.key_press(Key::U);
    window.run_steps(3);
    assert_eq!(app(&window).session().units(), Units::Metres);
}

/// Opens the finder, types a command and presses Enter.
fn enter_in_the_finder(window: &mut Window, typed: &str) {
    window.key_press_modifiers(Modifiers::COMMAND, Key::K);
    window.run_steps(3);
    window.get_by_label("Command").type_text(typed);
    window.run_steps(3);
    window.key_press(Key::Enter);
    window.run_steps(3);
}

#[test]
fn the_finder_runs_a_command_by_its_name() {
    let mut window = window();
    let before = target(&window);
    enter_in_the_finder(&mut window, "mirror");
    assert_eq!(target(&window), DVec2::new(-before.x, before.y));
    assert!(window.query_by_label("Command").is_none(), "the finder has closed");
}

#[test]
fn the_finder_says_why_a_command_cannot_be_used_and_stays_open() {
    let mut window = window();
    enter_in_the_finder(&mut window, "copy marks");
    assert!(window.query_by_label("Copy marks: Select a mark on the court first").is_some());
    window.get_by_label("Command").type_text("x");
    window.run_steps(3);
    assert!(window.query_by_label("Copy marks: Select a mark on the court first").is_none(), "it is another question");
}

#[test]
fn a_shot_that_cannot_be_played_says_why() {
    let mut window = window();
    let from = center(&window, "Ball target");
    drag(&mut window, from, vec2(0.0, -80.0));
    let said = window.get_by_label("Court").value().unwrap();
    assert!(said.contains("long by"), "{said}");
    assert!(window.query_by_label("Spot").is_none());
}

#[test]
fn unsaved_changes_are_not_lost_by_a_new_board() {
    let mut window = window();
    let from = center(&window, "Ball target");
    drag(&mut window, from, vec2(60.0, 0.0));
    let moved = target(&window);
    window.key_press_modifiers(Modifiers::COMMAND, Key::N);
    window.run_steps(3);
    window.get_by_label("Cancel").click();
    window.run_steps(3);
    assert_eq!(target(&window), moved);
    window.key_press_modifiers(Modifiers::COMMAND, Key::N);
    window.run_steps(3);
    window.get_by_label("Don't save").click();
    window.run_steps(3);
    assert_ne!(target(&window), moved);
}

#[test]
fn showing_a_board_in_feet_changes_nothing_else_of_it() {
    let mut window = window();
    let before = *app(&window).session().shot().unwrap();
    window.key_press(Key::U);
    window.run_steps(6);
    assert_eq!(*app(&window).session().shot().unwrap(), before);
    assert_eq!(app(&window).session().history().undo_label(), None);
    assert!(app(&window).session().history().is_saved(), "units are a view of the board");
}

#[test]
fn what_is_painted_is_announced() {
    for (width, height) in [(1440.0, 900.0), (1024.0, 768.0), (800.0, 900.0)] {
        let window = window_of(width, height);
        for label in ["Court", "Spot", "Reply 1", "Reply 2", "Opponent's angle", "Net crossing"] {
            let node = window.get_by_label(label);
            assert!(node.value().is_some_and(|v| !v.is_empty()), "{label} says nothing");
            assert!(!node.rect().is_negative());
        }
    }
}

#[test]
fn a_serve_shows_where_the_receiver_waits() {
    let board = concat!(env!("CARGO_MANIFEST_DIR"), "/../../assets/boards/return-of-serve.standpoint");
    let mut window = opened(vec2(1440.0, 900.0), None, || Start { file: Some(board.into()), ..Start::default() });
    // The file is read off the frame thread.
    for _ in 0..1500 {
        if app(&window).session().path().is_some() {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(5));
        window.step();
    }
    window.run_steps(3);
    let answer = app(&window).session().answer().unwrap();
    let receiver = answer.returner.as_ref().unwrap().spot.place;
    // Behind the baseline on the receiver's side, as is common practice (no source).
    assert!(receiver.y * answer.shot.landing.place.y > 0.0 && receiver.y.abs() > 11.885, "{receiver}");
    let node = window.get_by_label("Receiver’s spot");
    assert!(node.value().unwrap().contains("the server wins"));
}

#[test]
fn nothing_is_repainted_while_nothing_happens() {
    let mut window = window();
    // The hints of the first start advance on a timer; without them the window stops repainting.
    past_the_hints(&mut window);
    let steps = window.run();
    assert!(steps <= 4, "{steps} frames until it rests");
}

#[test]
fn numbers_of_the_replies_keep_still_while_the_target_moves() {
    let mut window = window();
    window.get_by_label("Ball target").focus();
    window.run_steps(2);
    let mut left = Vec::new();
    for _ in 0..6 {
        window.key_press(Key::ArrowRight);
        window.run_steps(2);
        let best: Vec<f64> = app(&window).session().best().iter().map(|reply| reply.landing.x).collect();
        left.push(best[0] < best[1]);
    }
    assert!(left.iter().all(|l| *l == left[0]), "{left:?}");
}

#[test]
fn a_board_is_saved_and_opened_again() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("mine.standpoint");
    let mut window = window();
    let from = center(&window, "Ball target");
    drag(&mut window, from, vec2(60.0, 10.0));
    let moved = target(&window);
    let ctx = window.ctx.clone();
    window.state_mut().as_mut().unwrap().apply_all(&ctx, [Action::SavePath(path.clone())]);
    wait(&mut window, |app| app.session().history().is_saved());
    let app_mut = window.state_mut().as_mut().unwrap();
    app_mut.apply_all(&ctx, [Action::Run(Command::Board(BoardCommand::DemoBoard))]);
    app_mut.apply_all(&ctx, [Action::OpenPath(path.clone())]);
    wait(&mut window, |app| app.session().path() == Some(&path));
    assert!((target(&window) - moved).length() < 1e-3, "files keep tenths of a millimetre");
}

#[test]
fn a_file_that_is_no_board_says_why() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("wrong.standpoint");
    std::fs::write(&path, "(standpoint_board: 1, title: 3)").unwrap();
    let mut window = window();
    let ctx = window.ctx.clone();
    window.state_mut().as_mut().unwrap().apply_all(&ctx, [Action::OpenPath(path)]);
    for _ in 0..200 {
        window.step();
        if window.query_by_label_contains("cannot be opened").is_some() {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(5));
    }
    assert!(window.query_by_label_contains("cannot be opened").is_some());
    assert!(window.query_all_by_label_contains("line 1").next().is_some(), "every problem has its line");
}

/// Waits for work done off the frame thread.
fn wait(window: &mut Window, until: impl Fn(&App) -> bool) {
    for _ in 0..200 {
        window.step();
        if until(app(window)) {
            window.run_steps(2);
            return;
        }
        std::thread::sleep(std::time::Duration::from_millis(5));
    }
    panic!("it was never done");
}

#[test]
fn both_keys_of_other_programs_redo() {
    let mut window = window();
    let before = target(&window);
    let from = center(&window, "Ball target");
    drag(&mut window, from, vec2(60.0, 10.0));
    let moved = target(&window);
    for redo in [(Modifiers::COMMAND | Modifiers::SHIFT, Key::Z), (Modifiers::COMMAND, Key::Y)] {
        window.key_press_modifiers(Modifiers::COMMAND, Key::Z);
        window.run_steps(2);
        assert_eq!(target(&window), before);
        window.key_press_modifiers(redo.0, redo.1);
        window.run_steps(2);
        assert_eq!(target(&window), moved, "{redo:?}");
    }
}

#[test]
fn letters_run_no_commands_while_a_list_is_open() {
    let mut window = window();
    let comparing = |window: &Window| window.query_by_label("Points won in 100").is_some();
    let combo = egui::accesskit::Role::ComboBox;
    window.get_by_role_and_label(combo, "Stroke").click();
    window.run_steps(3);
    window.key_press(Key::W);
    window.run_steps(3);
    assert!(!comparing(&window), "W went through the list");
    window.key_press(Key::Escape);
    window.run_steps(3);
    window.key_press(Key::W);
    window.run_steps(3);
    assert!(comparing(&window));
}

#[test]
fn a_winner_that_seldom_goes_in_is_no_promise() {
    let mut window = window();
    let ctx = window.ctx.clone();
    let faster = Action::Edit(standpoint_workbench::edit::Edit::Speed(195.0 / 3.6));
    window.state_mut().as_mut().unwrap().apply_all(&ctx, [faster]);
    window.run_steps(3);
    assert!(window.query_by_label_contains("A winner, but only").is_some());
}

#[test]
fn the_words_of_a_page_are_written_in_a_narrow_window_too() {
    let mut window = window_of(1024.0, 768.0);
    assert!(window.query_by_label("Page title").is_none());
    window.key_press(Key::F4);
    window.run_steps(3);
    window.get_by_label("Page title").focus();
    window.run_steps(2);
    window.get_by_label("Page title").type_text("Monday: ");
    window.run_steps(3);
    window.get_by_label("Done").click();
    window.run_steps(3);
    let title = app(&window).session().page().unwrap().title.clone();
    assert!(title.contains("Monday") && window.query_by_label("Page title").is_none(), "{title}");
}

#[test]
fn the_units_are_remembered() {
    let dir = tempfile::tempdir().unwrap();
    let folder = dir.path().to_owned();
    let start = move || Start { settings_dir: Some(folder.clone()), ..Start::default() };
    let mut first = opened(vec2(1440.0, 900.0), None, start.clone());
    assert_eq!(app(&first).session().units(), Units::Metres);
    let ctx = first.ctx.clone();
    first.state_mut().as_mut().unwrap().apply_all(&ctx, [Action::Run(Command::Board(BoardCommand::Feet))]);
    first.run_steps(3);
    drop(first);
    let mut again = opened(vec2(1440.0, 900.0), None, start);
    assert_eq!(app(&again).session().units(), Units::Feet);
    let ctx = again.ctx.clone();
    again.state_mut().as_mut().unwrap().apply_all(&ctx, [Action::Run(Command::Board(BoardCommand::NewBoard))]);
    again.run_steps(3);
    assert_eq!(app(&again).session().units(), Units::Feet);
}

/// Scrolls with the wheel to the bottom.
fn wheel_down(window: &mut Window) {
    for _ in 0..30 {
        window.event(egui::Event::MouseWheel {
            unit: egui::MouseWheelUnit::Point,
            delta: vec2(0.0, -60.0),
            phase: egui::TouchPhase::Move,
            source: egui::MouseWheelSource::Wheel,
            modifiers: Modifiers::NONE,
        });
        window.run_steps(2);
    }
    window.run_steps(30);
}

#[test]
fn a_long_menu_scrolls_to_its_last_command_in_a_low_window() {
    let mut window = window_of(1024.0, 600.0);
    window.get_by_label("Draw").click();
    window.run_steps(4);
    let last = |window: &Window| window.get_by_label_contains("Solid or dashed").rect();
    assert!(last(&window).bottom() > 600.0, "it has more commands than the window is high");
    let over = window.get_by_label_contains("Next colour").rect().center();
    window.hover_at(over);
    window.run_steps(2);
    wheel_down(&mut window);
    assert!(last(&window).bottom() < 600.0, "{:?}", last(&window));
}

#[test]
fn a_dialog_keeps_its_buttons_in_reach_in_a_low_window_and_has_a_way_out() {
    let mut window = window_of(640.0, 360.0);
    common::run(&mut window, "Export…");
    window.run_steps(8);
    let at = window.get_by_label_contains("Sheet to print").rect().center();
    window.hover_at(at);
    window.run_steps(2);
    wheel_down(&mut window);
    let button = window.get_by_label("Choose where…").rect();
    assert!(button.bottom() < 360.0, "{button}");
    window.get_by_label("Close the dialog").click();
    window.run_steps(4);
    assert!(window.query_by_label("Choose where…").is_none());
}
