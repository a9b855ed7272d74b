//! Presenting through the accessibility tree of the window.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod common;

use egui::{Key, Modifiers, vec2};
use egui_kittest::kittest::Queryable as _;
use standpoint_app::app::{First, Start};
use standpoint_board::patterns::Pattern;
use standpoint_ui::commands::{Action, Command, TeachCommand};
use standpoint_workbench::{arrange::Arrange, selection::Selection};

use common::{Window, app, center, drag, opened};

fn window() -> Window {
    opened(vec2(1024.0, 768.0), Some(0.1), Start::default)
}

fn act(window: &mut Window, action: Action) {
    let ctx = window.ctx.clone();
    window.state_mut().as_mut().unwrap().apply_all(&ctx, [action]);
    window.run_steps(3);
}

fn key(window: &mut Window, key: Key) {
    window.key_press(key);
    window.run_steps(3);
}

/// The accessible description of the picture.
fn said(window: &Window) -> String {
    window.get_by_label("Presentation").value().unwrap()
}

fn presenting(window: &Window) -> bool {
    window.query_by_label("Presentation").is_some()
}

#[test]
fn each_press_reveals_one_more_step() {
    let mut window = window();
    key(&mut window, Key::F5);
    assert!(window.query_by_label("Ball target").is_none(), "nothing of the board's window is left");
    assert!(said(&window).contains("Step 1 of 4"), "{}", said(&window));
    assert!(said(&window).contains("Where would you stand?"));
    for hidden in ["Spot", "Reply 1", "Reply 2"] {
        assert!(window.query_by_label(hidden).is_none(), "{hidden} gives it away");
    }
    key(&mut window, Key::PageDown);
    assert!(said(&window).contains("Step 2 of 4") && said(&window).contains("angle of replies"), "{}", said(&window));
    assert!(window.query_by_label("Reply 1").is_none());
    key(&mut window, Key::Space);
    assert!(said(&window).contains("Step 3 of 4") && said(&window).contains("best replies"), "{}", said(&window));
    assert!(window.query_by_label("Reply 1").is_some());
    assert!(window.query_by_label("Spot").is_none());
    key(&mut window, Key::ArrowRight);
    assert!(said(&window).contains("Step 4 of 4") && said(&window).contains("Stand "), "{}", said(&window));
    assert!(window.query_by_label("Spot").is_some());
    key(&mut window, Key::PageUp);
    assert!(window.query_by_label("Spot").is_none(), "and one step back covers it again");
}

#[test]
fn a_black_screen_says_nothing_and_gives_way_to_any_step() {
    let mut window = window();
    key(&mut window, Key::F5);
    let before = said(&window);
    key(&mut window, Key::Period);
    assert_eq!(said(&window), "The screen is black");
    assert!(window.query_by_label("Next step").is_none());
    key(&mut window, Key::PageDown);
    assert_eq!(said(&window), before, "the first press only brings the picture back");
    key(&mut window, Key::B);
    assert_eq!(said(&window), "The screen is black");
    key(&mut window, Key::B);
    assert_eq!(said(&window), before);
}

#[test]
fn escape_goes_back_to_the_board_exactly_as_it_was() {
    let mut window = window();
    act(&mut window, Action::Arrange(Arrange::AddPattern(Pattern::ApproachAndVolley, false)));
    act(&mut window, Action::Select(Selection { page: 0, shot: 0 }));
    let session = app(&window).session();
    let before = (session.board().clone(), session.selection(), session.history().is_saved(), session.playback());
    act(&mut window, Action::Run(Command::Teach(TeachCommand::Present)));
    for step in [Key::End, Key::Space, Key::Space, Key::ArrowDown, Key::S, Key::I] {
        key(&mut window, step);
    }
    let from = center(&window, "Presentation");
    drag(&mut window, from, vec2(80.0, 40.0));
    let shown = app(&window).presenting().unwrap();
    assert_eq!(shown.session().selection(), Selection { page: 1, shot: 1 });
    assert!(shown.show().ink(shown.session().selection())[0].len() >= 3, "it has been drawn on");
    key(&mut window, Key::P);
    key(&mut window, Key::Escape);
    assert!(!presenting(&window));
    let session = app(&window).session();
    let after = (session.board().clone(), session.selection(), session.history().is_saved(), session.playback());
    assert_eq!(after, before);
    assert!(window.query_by_label("Ball target").is_some());
    act(&mut window, Action::Run(Command::Teach(TeachCommand::Present)));
    let shown = app(&window).presenting().unwrap();
    assert!(shown.show().ink(Selection { page: 1, shot: 1 }).is_empty(), "ink is gone on leaving");
}

#[test]
fn a_board_that_was_saved_stays_saved() {
    let mut window = window();
    assert!(app(&window).session().history().is_saved());
    key(&mut window, Key::F5);
    for step in [Key::I, Key::Space, Key::Space, Key::Space] {
        key(&mut window, step);
    }
    let from = center(&window, "Presentation");
    drag(&mut window, from, vec2(50.0, 0.0));
    key(&mut window, Key::Escape);
    let session = app(&window).session();
    assert!(session.history().is_saved());
    assert!(session.history().undo_label().is_none());
}

#[test]
fn a_click_goes_on_and_the_other_button_goes_back() {
    let mut window = window();
    key(&mut window, Key::F5);
    window.get_by_label("Presentation").click();
    window.run_steps(3);
    assert!(said(&window).contains("Step 2 of 4"), "{}", said(&window));
    window.get_by_label("Presentation").click_secondary();
    window.run_steps(3);
    assert!(said(&window).contains("Step 1 of 4"), "{}", said(&window));
    window.get_by_label("Next step").click();
    window.run_steps(3);
    assert!(said(&window).contains("Step 2 of 4"), "{}", said(&window));
}

#[test]
fn the_keys_are_shown_at_the_first_presentation_only_and_on_request() {
    let mut window = window();
    let shown = |window: &Window| window.query_by_label("H shows or hides this").is_some();
    key(&mut window, Key::F5);
    assert!(shown(&window));
    window.run_steps(170);
    assert!(!shown(&window), "they go away by themselves");
    key(&mut window, Key::H);
    assert!(shown(&window));
    key(&mut window, Key::H);
    assert!(!shown(&window));
    key(&mut window, Key::H);
    key(&mut window, Key::Space);
    assert!(!shown(&window), "whoever goes on has read them");
    key(&mut window, Key::Escape);
    key(&mut window, Key::F5);
    assert!(!shown(&window));
}

#[test]
fn the_notes_tell_the_coach_what_the_players_do_not_see() {
    let mut window = window();
    key(&mut window, Key::F5);
    assert!(window.query_by_label_contains("Split as Ivo strikes").is_none());
    key(&mut window, Key::N);
    assert!(window.query_by_label_contains("Split as Ivo strikes").is_some());
    assert!(window.query_by_label("Next: the opponent's angle").is_some());
    key(&mut window, Key::Space);
    assert!(window.query_by_label("Next: the two best replies").is_some());
    key(&mut window, Key::N);
    assert!(window.query_by_label_contains("Split as Ivo strikes").is_none());
}

#[test]
fn pages_turn_with_shift_and_stop_at_the_end() {
    let mut window = window();
    act(&mut window, Action::Arrange(Arrange::AddPattern(Pattern::ServePlusOne, false)));
    act(&mut window, Action::Select(Selection::default()));
    key(&mut window, Key::F5);
    assert!(said(&window).contains("Page 1 of 2"), "{}", said(&window));
    for _ in 0..2 {
        window.key_press_modifiers(Modifiers::SHIFT, Key::PageDown);
        window.run_steps(3);
        assert!(said(&window).contains("Page 2 of 2"), "{}", said(&window));
    }
}

#[test]
fn the_command_line_starts_straight_in_it() {
    let window = opened(vec2(1024.0, 768.0), None, || Start { first: First::Present, ..Start::default() });
    assert!(presenting(&window));
}

#[test]
fn a_presentation_that_stands_still_is_not_painted_again() {
    let mut window = window();
    key(&mut window, Key::F5);
    key(&mut window, Key::H);
    window.run_steps(10);
    let steps = window.run();
    assert!(steps <= 4, "{steps} frames until it rests");
}
