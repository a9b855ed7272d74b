//! The court is the largest thing in the window, in every room and at every size.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod common;

use egui::{Key, Vec2, vec2};
use egui_kittest::kittest::Queryable as _;
use standpoint_app::app::Start;
use standpoint_board::patterns::Pattern;
use standpoint_ui::commands::Action;
use standpoint_workbench::{arrange::Arrange, settings::Settings};

use common::{Window, app, bare};

/// The doubles court, m: ITF Rules of Tennis, Rule 1.
const LINES: Vec2 = vec2(10.97, 23.77);
/// Smallest share of the window's area that the court inside its lines may cover.
const LEAST: f32 = 0.15;

/// Window sizes, points: 1024x768, 1440x900, 1920x1080, 2560x1440 at a scale of two; each also at a text size of 200 %,
/// which halves the points.
fn windows() -> Vec<(Vec2, &'static str)> {
    let sizes = [
        (vec2(1024.0, 768.0), "1024x768"),
        (vec2(1440.0, 900.0), "1440x900"),
        (vec2(1920.0, 1080.0), "1920x1080"),
        (vec2(1280.0, 720.0), "2560x1440, scale 2"),
    ];
    sizes.into_iter().flat_map(|(size, name)| [(size, name), (size / 2.0, name)]).collect()
}

/// Share of the window's area that the court inside its lines covers. `scale`, points per metre, comes from the
/// accessibility rectangles of the ball target and the hitter's contact.
fn share(window: &Window, scale: f32) -> f32 {
    let area = window.ctx.content_rect().area();
    LINES.x * LINES.y * scale * scale / area
}

/// Scale of the board, points per metre, from the accessibility rectangles of two handles.
fn board_scale(window: &Window) -> f32 {
    let at =
        |label: &str| window.get_all_by_label(label).map(|n| n.rect()).find(|r| r.width() < 60.0).unwrap().center();
    let spec = app(window).session().shot().unwrap();
    let apart = (spec.shot.target - spec.shot.contact.truncate()).length() as f32;
    at("Ball target").distance(at("Hitter’s contact")) / apart
}

/// Asserts that the court is large enough on the board at every window size, after `prepare` has run.
fn assert_large(prepare: impl Fn(&mut Window)) {
    for (size, name) in windows() {
        let mut window = bare(size, None, Start::default);
        prepare(&mut window);
        let share = share(&window, board_scale(&window));
        assert!(share >= LEAST, "{name} ({size} points): {share:.3}");
    }
}

#[test]
fn the_court_covers_enough_of_every_window_on_the_board() {
    assert_large(|_| {});
}

#[test]
fn the_court_covers_enough_of_every_window_with_pages_and_a_rally() {
    assert_large(|window| {
        act(window, Action::Arrange(Arrange::AddPattern(Pattern::ApproachAndVolley, false)));
        window.run_steps(4);
    });
}

#[test]
fn the_court_covers_enough_of_every_window_in_a_presentation_and_a_rehearsal() {
    for (size, name) in windows() {
        for (key, what) in [(Key::F5, "presentation"), (Key::F6, "rehearsal")] {
            let mut window = bare(size, None, Start::default);
            window.key_press(key);
            window.run_steps(4);
            let app = app(&window);
            let scale = match key {
                Key::F5 => app.presenting().map(|room| room.court_scale()),
                _ => app.rehearsing().map(|room| room.court_scale()),
            };
            let share = share(&window, scale.unwrap());
            assert!(share >= LEAST, "{what}, {name} ({size} points): {share:.3}");
        }
    }
}

fn act(window: &mut Window, action: Action) {
    let ctx = window.ctx.clone();
    window.state_mut().as_mut().unwrap().apply_all(&ctx, [action]);
    window.run_steps(3);
}

fn shown(window: &Window, label: &str) -> bool {
    window.query_all_by_label(label).next().is_some()
}

#[test]
fn pages_and_rally_are_folded_until_there_are_two_or_they_are_asked_for() {
    let mut window = bare(vec2(1440.0, 900.0), None, Start::default);
    assert!(!shown(&window, "Time of the rally"), "one shot needs no time line");
    window.key_press_modifiers(egui::Modifiers::SHIFT, Key::P);
    window.run_steps(3);
    assert!(shown(&window, "Time of the rally"));
    window.key_press_modifiers(egui::Modifiers::SHIFT, Key::P);
    window.run_steps(3);
    assert!(!shown(&window, "Time of the rally"));
    act(&mut window, Action::Arrange(Arrange::AddPattern(Pattern::ApproachAndVolley, false)));
    assert!(shown(&window, "Time of the rally"), "a rally has one");
}

#[test]
fn one_key_leaves_the_court_alone_and_escape_or_the_way_back_brings_the_rest() {
    let mut window = bare(vec2(1440.0, 900.0), None, Start::default);
    let before = board_scale(&window);
    let alone = |window: &Window| window.query_by_label("Edit").is_none() && window.query_by_label("Topspin").is_none();
    for back in [Key::Escape, Key::F11, Key::F10] {
        window.key_press(Key::F11);
        window.run_steps(4);
        assert!(alone(&window) && shown(&window, "Ball target"));
        assert!(board_scale(&window) > before);
        window.key_press(back);
        window.run_steps(4);
        assert!(window.query_by_label("Edit").is_some(), "{back:?}");
    }
    window.key_press(Key::F11);
    window.run_steps(4);
    window.get_by_label("Menus and panels").click();
    window.run_steps(4);
    assert!(window.query_by_label("Edit").is_some());
}

#[test]
fn the_court_lies_or_stands_unless_the_coach_has_chosen() {
    let upright = |window: &Window| {
        let at = |label: &str| window.get_all_by_label(label).map(|n| n.rect()).find(|r| r.width() < 60.0).unwrap();
        let way = at("Ball target").center() - at("Hitter’s contact").center();
        way.y.abs() > way.x.abs()
    };
    assert!(!upright(&bare(vec2(1440.0, 900.0), None, Start::default)));
    assert!(upright(&bare(vec2(600.0, 900.0), None, Start::default)));
    let chosen = || Start { settings: Settings { turned: true, turn: 0, ..Settings::default() }, ..Start::default() };
    assert!(upright(&bare(vec2(1440.0, 900.0), None, chosen)));
    let mut window = bare(vec2(1440.0, 900.0), None, Start::default);
    window.key_press(Key::T);
    window.run_steps(4);
    assert!(upright(&window));
    window.key_press(Key::T);
    window.run_steps(4);
    assert!(!upright(&window));
}

#[test]
fn the_view_stays_while_something_is_dragged_to_the_edge_and_makes_room_afterwards() {
    let mut window = bare(vec2(1440.0, 900.0), None, Start::default);
    let at = |window: &Window, label: &str| {
        window.get_all_by_label(label).map(|n| n.rect()).find(|r| r.width() < 60.0).unwrap().center()
    };
    let from = at(&window, "Opponent");
    let fixed = at(&window, "Hitter’s contact");
    window.hover_at(from);
    window.step();
    window.drag_at(from);
    window.step();
    for i in 1..=10 {
        window.hover_at(from + vec2(0.0, -16.0 * i as f32));
        window.step();
        assert_eq!(at(&window, "Hitter’s contact"), fixed, "nothing jumps under the hand");
    }
    window.drop_at(from + vec2(0.0, -160.0));
    window.run_steps(4);
    let canvas = window.get_by_label("Court").rect();
    assert!(canvas.contains(at(&window, "Opponent")));
}
