//! Rallies, playback, pages and what-if places through the accessibility tree of the window.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod common;

use egui::{Key, Modifiers, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use standpoint_app::app::Start;
use standpoint_board::patterns::Pattern;
use standpoint_ui::commands::Action;
use standpoint_workbench::{arrange::Arrange, selection::Selection, session::Session};

use common::{Window, app, center, drag, opened};

/// Time that passes from frame to frame, s.
const FRAME: f32 = 0.05;

fn window() -> Window {
    opened(vec2(1440.0, 900.0), Some(FRAME), Start::default)
}

fn session(window: &Window) -> &Session {
    app(window).session()
}

fn act(window: &mut Window, action: Action) {
    let ctx = window.ctx.clone();
    window.state_mut().as_mut().unwrap().apply_all(&ctx, [action]);
    window.run_steps(2);
}

/// The window with a pattern's page, after its rally has been computed.
fn window_with(pattern: Pattern) -> Window {
    let mut window = window();
    act(&mut window, Action::Arrange(Arrange::AddPattern(pattern, false)));
    settle(&mut window);
    window
}

/// Waits until the whole rally is computed.
fn settle(window: &mut Window) {
    for _ in 0..40 {
        window.step();
        if session(window).rally().len() == session(window).page().unwrap().shots.len() {
            break;
        }
    }
    window.run_steps(2);
}

fn key(window: &mut Window, modifiers: Modifiers, key: Key) {
    window.key_press_modifiers(modifiers, key);
    window.run_steps(3);
}

#[test]
fn a_shot_is_added_selected_and_deleted_by_keys() {
    let mut window = window();
    key(&mut window, Modifiers::NONE, Key::N);
    settle(&mut window);
    assert_eq!(session(&window).selection(), Selection { page: 0, shot: 1 });
    assert!(window.get_by_label_contains("Shot 2: Ivo Tander").value().unwrap().contains("in"));
    window.get_by_label_contains("Shot 1:").click();
    window.run_steps(3);
    assert_eq!(session(&window).selection().shot, 0);
    key(&mut window, Modifiers::NONE, Key::Period);
    assert_eq!(session(&window).selection().shot, 1);
    key(&mut window, Modifiers::SHIFT, Key::Delete);
    assert!(window.query_by_label_contains("Shot 2:").is_none());
    key(&mut window, Modifiers::COMMAND, Key::Z);
    assert_eq!(session(&window).selection(), Selection { page: 0, shot: 1 }, "undo selects the shot that is back");
    assert!(window.query_by_label_contains("Shot 2:").is_some());
}

#[test]
fn a_new_target_of_the_first_shot_moves_the_contact_of_the_second() {
    let mut window = window_with(Pattern::CrossCrossLine);
    let before = session(&window).rally()[1].spec.shot.contact;
    let from = center(&window, "Ball target");
    drag(&mut window, from, vec2(30.0, 0.0));
    settle(&mut window);
    let after = session(&window).rally()[1].spec.shot.contact;
    assert!(after.x > before.x + 0.5, "{before} became {after}");
    let asked = |s: &Session| s.page().unwrap().shots[1].shot.target;
    assert_eq!(
        asked(session(&window)),
        Pattern::CrossCrossLine.page(session(&window).board(), false).shots[1].shot.target
    );
}

#[test]
fn a_following_shot_that_is_taken_by_its_contact_starts_by_itself() {
    let mut window = window_with(Pattern::CrossCrossLine);
    key(&mut window, Modifiers::NONE, Key::Period);
    let real = session(&window).shot().unwrap().shot.contact;
    let from = center(&window, "Hitter’s contact");
    drag(&mut window, from, vec2(0.0, 40.0));
    let written = *session(&window).written_shot().unwrap();
    assert!(!written.follows);
    let moved = written.shot.contact - real;
    assert!(moved.length() < 2.0, "it starts from where it was seen, not {moved} from there");
    assert!(window.query_by_label_contains("starts by itself").is_some(), "and the window says so");
    key(&mut window, Modifiers::NONE, Key::G);
    assert!(session(&window).written_shot().unwrap().follows);
    assert_eq!(session(&window).shot().unwrap().shot.contact, real);
}

#[test]
fn playing_goes_by_the_time_that_passes_and_comes_to_an_end() {
    let mut window = window_with(Pattern::TwoLineDrill);
    let time = |window: &Window| session(window).playback().time;
    assert_eq!(time(&window), None);
    window.key_press(Key::Space);
    window.run_steps(1);
    let start = time(&window).unwrap();
    window.run_steps(10);
    let passed = time(&window).unwrap() - start;
    assert!((passed - 10.0 * f64::from(FRAME)).abs() < 0.06, "{passed}");
    assert!(window.query_by_label("Ball target").is_none(), "nothing is taken hold of while it plays");
    window.key_press(Key::Space);
    window.run_steps(3);
    let paused = time(&window);
    window.run_steps(5);
    assert_eq!(time(&window), paused);
    window.key_press(Key::Space);
    window.run_steps(140);
    assert_eq!(time(&window), Some(session(&window).timeline().duration()));
    assert!(!session(&window).playback().playing);
    assert_eq!(session(&window).selection().shot, 3, "the last shot is the one being looked at");
    window.key_press(Key::Escape);
    window.run_steps(3);
    assert_eq!(time(&window), None);
    assert!(window.query_by_label("Ball target").is_some());
}

#[test]
fn nothing_is_repainted_once_a_rally_is_worked_out_and_stands_still() {
    let mut window = window_with(Pattern::TwoLineDrill);
    for _ in 0..3 {
        for label in ["Next", "Good"] {
            if let Some(button) = window.query_by_label(label) {
                button.click();
            }
            window.run_steps(2);
        }
    }
    key(&mut window, Modifiers::NONE, Key::K);
    let steps = window.run();
    assert!(steps <= 4, "{steps} frames until it rests");
}

#[test]
fn a_page_is_deleted_and_comes_back() {
    let mut window = window_with(Pattern::ServePlusOne);
    key(&mut window, Modifiers::NONE, Key::Period);
    let before = session(&window).board().clone();
    key(&mut window, Modifiers::COMMAND | Modifiers::SHIFT, Key::Backspace);
    assert_eq!(session(&window).board().pages.len(), 1);
    assert!(window.query_by_label("Page 2: Serve plus one").is_none());
    key(&mut window, Modifiers::COMMAND, Key::Z);
    assert_eq!(*session(&window).board(), before);
    assert_eq!(session(&window).selection(), Selection { page: 1, shot: 1 });
    assert!(window.query_by_label("Page 2: Serve plus one").is_some());
}

#[test]
fn a_pattern_becomes_a_page_in_one_step() {
    let mut window = window();
    key(&mut window, Modifiers::NONE, Key::I);
    window.get_by_label("Approach and volley").click();
    window.run_steps(3);
    assert_eq!(session(&window).page().unwrap().title, "Approach and volley");
    assert_eq!(window.get_by_label("Page 2: Approach and volley").value().unwrap(), "3 shots");
    key(&mut window, Modifiers::COMMAND, Key::Z);
    assert_eq!(session(&window).board().pages.len(), 1);
}

#[test]
fn pages_are_turned_and_moved_by_keys() {
    let mut window = window_with(Pattern::ServePlusOne);
    key(&mut window, Modifiers::COMMAND | Modifiers::SHIFT, Key::PageUp);
    assert_eq!(session(&window).selection().page, 0);
    assert_eq!(session(&window).page().unwrap().title, "Serve plus one");
    key(&mut window, Modifiers::NONE, Key::PageDown);
    assert_eq!(session(&window).page().unwrap().title, "From the deuce corner");
}

#[test]
fn the_menu_of_a_page_speaks_of_that_page() {
    let mut window = window_with(Pattern::ServePlusOne);
    assert_eq!(session(&window).selection().page, 1);
    window.get_by_label("Page 1: From the deuce corner").click_secondary();
    window.run_steps(4);
    let can = |window: &Window, label: &str| !window.get_by_label_contains(label).accesskit_node().is_disabled();
    assert!(!can(&window, "Move the page up") && can(&window, "Move the page down"));
    window.get_by_label_contains("Move the page down").click();
    window.run_steps(4);
    let titles: Vec<&str> = session(&window).board().pages.iter().map(|page| page.title.as_str()).collect();
    assert_eq!(titles, ["Serve plus one", "From the deuce corner"]);
}

#[test]
fn more_points_are_lost_from_the_middle_than_from_the_spot() {
    let mut window = window();
    key(&mut window, Modifiers::NONE, Key::H);
    let elsewhere = session(&window).what_if().unwrap();
    assert!(elsewhere.chosen.place.exposure > elsewhere.spot.place.exposure + 0.01);
    assert!(window.get_by_label("What if").value().unwrap().contains("the opponent wins"));
    let from = center(&window, "Recovery place");
    drag(&mut window, from, vec2(-160.0, 0.0));
    let farther = session(&window).what_if().unwrap();
    assert!(farther.chosen.uncovered > 0.05, "{}", farther.chosen.uncovered);
    key(&mut window, Modifiers::SHIFT, Key::H);
    assert!(session(&window).what_if().is_none());
    key(&mut window, Modifiers::COMMAND, Key::Z);
    assert!(session(&window).what_if().is_some(), "letting go of the place is a step of its own");
}

#[test]
fn the_sentence_speaks_to_the_player_who_is_coached() {
    let mut window = window_with(Pattern::CrossCrossLine);
    let said = |window: &Window| window.get_by_label("Court").value().unwrap();
    assert!(["Stand ", "Get as far as "].iter().any(|s| said(&window).starts_with(s)), "{}", said(&window));
    key(&mut window, Modifiers::NONE, Key::Period);
    let of_other = ["Ivo Tander should stand ", "Ivo Tander gets as far as "];
    assert!(of_other.iter().any(|s| said(&window).starts_with(s)), "{}", said(&window));
    key(&mut window, Modifiers::COMMAND | Modifiers::SHIFT, Key::O);
    assert!(["Stand ", "Get as far as "].iter().any(|s| said(&window).starts_with(s)), "{}", said(&window));
}

#[test]
fn another_shot_is_another_answer_even_when_it_is_known_already() {
    let mut window = window_with(Pattern::CrossCrossLine);
    let before = session(&window).generation();
    key(&mut window, Modifiers::NONE, Key::Period);
    assert_ne!(session(&window).generation(), before, "the shading of the other shot would stay");
}

#[test]
fn the_words_of_a_page_are_typed_beside_it() {
    // Wide enough for the text beside the list.
    let mut window = opened(vec2(1920.0, 1080.0), Some(FRAME), Start::default);
    window.get_by_label("Page title").focus();
    window.run_steps(2);
    window.get_by_label("Page title").type_text("!");
    window.run_steps(2);
    assert!(session(&window).page().unwrap().title.contains('!'));
    key(&mut window, Modifiers::COMMAND, Key::Z);
    assert!(!session(&window).page().unwrap().title.contains('!'));
}

#[test]
fn two_hundred_pages_cost_only_those_in_sight() {
    let mut window = window();
    let ctx = window.ctx.clone();
    let app = window.state_mut().as_mut().unwrap();
    app.apply_all(&ctx, (0..200).map(|_| Action::Arrange(Arrange::DuplicatePage)));
    window.run_steps(4);
    assert_eq!(session(&window).board().pages.len(), 201);
    let shown = window.query_all_by_label_contains(": From the deuce corner").count();
    assert!((3..30).contains(&shown), "{shown} rows are made");
    assert!(window.query_by_label_contains("Page 201:").is_some(), "the page turned to is in sight");
}

#[test]
fn the_model_plays_the_point_on_and_undo_takes_it_back() {
    let mut window = window();
    let shots = |window: &Window| session(window).page().unwrap().shots.clone();
    let before = shots(&window);
    key(&mut window, Modifiers::SHIFT, Key::G);
    settle(&mut window);
    let likeliest = shots(&window);
    assert!(likeliest.len() > before.len() && likeliest[..before.len()] == before[..]);
    assert!(likeliest.windows(2).all(|pair| pair[0].hitter_end != pair[1].hitter_end));
    // Both players have a win chance at every moment, reported along the rally.
    let chances = session(&window).chances();
    assert!(chances.len() >= 2 * before.len() && chances.iter().all(|(_, p)| (0.0..=1.0).contains(p)));
    assert!(chances.is_sorted_by(|a, b| a.0 <= b.0));
    assert_eq!(session(&window).history().undo_label(), Some("Play on"));
    key(&mut window, Modifiers::COMMAND, Key::Z);
    assert_eq!(shots(&window), before);
    let mut ways = vec![likeliest];
    for _ in 0..4 {
        key(&mut window, Modifiers::SHIFT, Key::J);
        ways.push(shots(&window));
    }
    assert!(ways.windows(2).any(|pair| pair[0] != pair[1]), "another way at each press");
    assert!(ways.iter().all(|way| way[0] == before[0]), "from the same shot");
}
