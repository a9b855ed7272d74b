//! Rehearsing through the accessibility tree of the window.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod common;

use std::path::PathBuf;

use egui::{Key, Modifiers, vec2};
use egui_kittest::kittest::Queryable as _;
use standpoint_app::{
    app::{First, Start},
    rehearse::course::{Course, Stand},
};
use standpoint_board::rehearse::{Question, Theme, log::FILE};
use standpoint_workbench::rehearsal::Begin;

use common::{Window, app, center, click_at, opened};

fn window_with(begin: Begin, data_dir: Option<PathBuf>) -> Window {
    opened(vec2(1440.0, 900.0), Some(0.1), move || Start {
        first: First::Rehearse(begin),
        data_dir: data_dir.clone(),
        ..Start::default()
    })
}

fn window(theme: Theme) -> Window {
    window_with(Begin { theme: Some(theme), seed: Some(1), board: false }, None)
}

fn course(window: &Window) -> &Course {
    app(window).rehearsing().unwrap().course()
}

fn key(window: &mut Window, key: Key) {
    window.key_press(key);
    window.run_steps(3);
}

fn pick(window: &mut Window, list: &str, entry: &str) {
    window.get_by_label_contains(list).click();
    window.run_steps(3);
    window.get_by_label(entry).click();
    window.run_steps(4);
}

fn said(window: &Window) -> String {
    window.get_by_label("Rehearsal").value().unwrap()
}

#[test]
fn a_place_is_moved_with_the_arrows_and_answered_with_enter() {
    let mut window = window(Theme::CrossCourt);
    assert_eq!(course(&window).question(), Question::Place);
    assert!(said(&window).contains("Where do you stand?"), "{}", said(&window));
    assert!(window.query_by_label("Spot").is_none(), "nothing gives the spot away");
    let before = course(&window).place();
    for _ in 0..4 {
        key(&mut window, Key::ArrowUp);
    }
    window.key_press_modifiers(Modifiers::SHIFT, Key::ArrowUp);
    window.run_steps(3);
    assert!((course(&window).place().distance(before) - 2.0).abs() < 1e-6, "{} from {before}", course(&window).place());
    assert!(window.get_by_label("Your place").value().is_some());
    key(&mut window, Key::Enter);
    let Stand::Answered(outcome) = *course(&window).stand() else { panic!("it is answered") };
    assert!(said(&window).contains(&format!("{} points of 100", outcome.score)), "{}", said(&window));
    let way = course(&window).correction().unwrap();
    for (metres, ahead, back) in [(way.x, " m right", " m left"), (way.y, " m forward", " m back")] {
        // A correction of less than about a shoe's length is not mentioned.
        if metres.abs() > 0.2 {
            assert!(said(&window).contains(if metres > 0.0 { ahead } else { back }), "{way}: {}", said(&window));
        }
    }
    assert!(window.query_by_label("Spot").is_some(), "now it shows the spot");
    assert!(window.query_by_label("What if").is_some(), "and what the place has opened");
    assert_eq!(course(&window).log().history().attempts.len(), 1);
    key(&mut window, Key::Enter);
    assert!(said(&window).contains("Where do you stand?") || said(&window).contains("Which shot"), "{}", said(&window));
}

#[test]
fn a_click_places_and_the_button_answers() {
    let mut window = window(Theme::Line);
    pick(&mut window, "Questions:", "Where to stand");
    let before = course(&window).place();
    let at = center(&window, "Your place") + vec2(-40.0, 30.0);
    click_at(&mut window, at);
    assert!(course(&window).place().distance(before) > 0.5);
    window.get_by_label("Answer").click();
    window.run_steps(3);
    assert!(matches!(course(&window).stand(), Stand::Answered(_)));
    assert!(window.query_by_label("Next").is_some());
}

#[test]
fn a_shot_is_chosen_by_letter_and_scored() {
    let mut window = window(Theme::CrossCourt);
    pick(&mut window, "Questions:", "Which shot");
    assert_eq!(course(&window).question(), Question::Shot);
    key(&mut window, Key::Enter);
    assert_eq!(
        (course(&window).chosen(), course(&window).stand()),
        (None, &Stand::Asking),
        "nothing is chosen for one"
    );
    key(&mut window, Key::B);
    assert_eq!(course(&window).chosen(), Some(1));
    assert!(window.get_by_label("Shot B").value().unwrap().contains("your choice"));
    assert!(!window.get_by_label("Shot A").value().unwrap().contains("won"), "nothing is given away");
    key(&mut window, Key::Enter);
    assert!(
        said(&window).contains("points of 100") && said(&window).contains("Points won in 100"),
        "{}",
        said(&window)
    );
    assert!(window.get_by_label("Shot A").value().unwrap().contains("in 100 won"));
    assert!(window.get_by_label("Shot B").value().unwrap().contains("your choice"), "it stays to be seen");
}

#[test]
fn when_the_time_is_over_what_stands_is_the_answer() {
    let mut window = window(Theme::CrossCourt);
    pick(&mut window, "Time:", "4 seconds");
    assert!(window.query_by_label("Time left").is_some());
    window.run_steps(25);
    assert_eq!(*course(&window).stand(), Stand::Asking);
    window.run_steps(25);
    let Stand::Answered(outcome) = *course(&window).stand() else { panic!("the time is over") };
    assert!(outcome.late && said(&window).starts_with("Time is up"), "{}", said(&window));
    window.run_steps(60);
    assert!(matches!(course(&window).stand(), Stand::Answered(_)), "the answer is looked at without hurry");
}

#[test]
fn escape_leaves_the_board_as_it_was() {
    let mut window = opened(vec2(1440.0, 900.0), Some(0.1), Start::default);
    let before = app(&window).session().board().clone();
    key(&mut window, Key::F6);
    key(&mut window, Key::ArrowUp);
    key(&mut window, Key::Enter);
    key(&mut window, Key::Escape);
    assert!(app(&window).rehearsing().is_none());
    let session = app(&window).session();
    assert_eq!(*session.board(), before);
    assert!(session.history().is_saved() && session.history().undo_label().is_none());
    assert!(window.query_by_label("Ball target").is_some());
}

#[test]
fn the_shots_of_the_board_are_rehearsed() {
    let mut window = window_with(Begin { board: true, ..Begin::default() }, None);
    // The title is hidden, since it would reveal the answer to any question; the clock chooses the question.
    assert!(window.query_by_label_contains("A shot of the board").is_some());
    assert!(window.query_by_label_contains("From the deuce corner").is_none());
    let shot = course(&window).question() == Question::Shot;
    key(&mut window, if shot { Key::A } else { Key::ArrowUp });
    key(&mut window, Key::Enter);
    assert!(window.query_by_label_contains("From the deuce corner").is_some());
}

#[test]
fn answers_are_kept_and_the_progress_page_tells_of_them() {
    let dir = tempfile::tempdir().unwrap();
    let begin = Begin { theme: Some(Theme::Net), seed: Some(3), board: false };
    let mut window = window_with(begin, Some(dir.path().to_owned()));
    window.get_by_label("Progress").click();
    window.run_steps(3);
    assert!(window.query_by_label_contains("Nothing has been answered yet").is_some());
    key(&mut window, Key::Escape);
    // A letter key chooses a shot if the question asks for a shot.
    key(&mut window, Key::A);
    key(&mut window, Key::Enter);
    window.get_by_label("Progress").click();
    window.run_steps(3);
    assert!(window.get_by_label("Plot of the points by week").value().unwrap().contains("in 1 answer"));
    drop(window);
    let text = std::fs::read_to_string(dir.path().join("rehearsal").join(FILE)).unwrap();
    assert!(text.contains("standpoint_rehearsal: 1") && text.contains("\"Net\""), "{text}");
    let window = window_with(begin, Some(dir.path().to_owned()));
    assert_eq!(course(&window).log().history().attempts.len(), 1);
}

#[test]
fn a_damaged_history_is_kept_aside_and_the_window_says_so() {
    let dir = tempfile::tempdir().unwrap();
    let folder = dir.path().join("rehearsal");
    std::fs::create_dir_all(&folder).unwrap();
    std::fs::write(folder.join(FILE), "(standpoint_rehearsal: 1, attempts: [(at: 17").unwrap();
    let window = window_with(Begin::default(), Some(dir.path().to_owned()));
    assert!(window.query_by_label_contains("It is kept aside as").is_some());
    let aside = folder.join("history.damaged-1.rehearsal");
    assert_eq!(std::fs::read_to_string(aside).unwrap(), "(standpoint_rehearsal: 1, attempts: [(at: 17");
}

#[test]
fn the_usual_cautions_stand_on_the_screen() {
    let window = window(Theme::Approach);
    assert!(window.query_by_label_contains("warm up, clear loose balls").is_some());
}

#[test]
fn the_hands_are_changed_and_the_situation_mirrors() {
    let mut window = window(Theme::CrossCourt);
    assert!(!course(&window).trainee().left_handed);
    window.get_by_label("Left-handed").click();
    window.run_steps(3);
    assert!(course(&window).trainee().left_handed);
    let board = course(&window).session().board();
    assert_eq!(board.near.hand, standpoint_geometry::Hand::Left);
}

#[test]
fn a_question_without_a_limit_is_not_painted_again() {
    let mut window = window(Theme::CrossCourt);
    window.run_steps(5);
    let steps = window.run();
    assert!(steps <= 4, "{steps} frames until it rests");
}
