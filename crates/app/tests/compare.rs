//! Comparing shots in the window, through its accessibility tree.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod common;

use std::time::Duration;

use egui::{Key, Modifiers};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use glam::DVec2;
use standpoint_geometry::ReadyArea;

use common::{Window, app, past_the_hints, window_of};

fn target(window: &Window) -> DVec2 {
    app(window).session().shot().unwrap().shot.target
}

/// Presses a key and waits until the answer has been computed.
fn press(window: &mut Window, modifiers: Modifiers, key: Key) {
    window.key_press_modifiers(modifiers, key);
    settle(window);
}

fn settle(window: &mut Window) {
    window.run_steps(4);
    for _ in 0..4000 {
        window.step();
        if app(window).comparison().is_settled() {
            window.run_steps(3);
            return;
        }
        std::thread::sleep(Duration::from_millis(5));
    }
    panic!("the weighing never came to an end");
}

/// The window with the list of compared shots.
fn comparing(width: f32, height: f32) -> Window {
    let mut window = window_of(width, height);
    press(&mut window, Modifiers::NONE, Key::W);
    window
}

fn meter(window: &Window, label: &str) -> String {
    let is_meter = |role| role == egui::accesskit::Role::Meter;
    window.get_all_by_label(label).find(|n| is_meter(n.accesskit_node().role())).unwrap().value().unwrap()
}

#[test]
fn the_list_weighs_every_usual_shot() {
    for (width, height) in [(1440.0, 900.0), (1024.0, 768.0), (800.0, 900.0)] {
        let window = comparing(width, height);
        for label in ["As drawn", "Cross-court", "Down the line", "Middle", "Short angle", "Lob"] {
            let value = meter(&window, label);
            assert!(value.starts_with("wins ") && value.ends_with(" in 100"), "{label}: {value}");
        }
        assert!(window.query_by_label_contains("Down the line against cross-court").is_some());
    }
}

#[test]
fn a_shot_can_be_used_and_undone_in_one_step() {
    let mut window = comparing(1440.0, 900.0);
    let before = target(&window);
    let name = |window: &Window| {
        let button = egui::accesskit::Role::Button;
        window.get_all_by_label("Down the line").find(|n| n.accesskit_node().role() == button).unwrap().click();
    };
    name(&window);
    settle(&mut window);
    window.get_by_label("Use this shot").click();
    settle(&mut window);
    let after = target(&window);
    assert!(after.x * before.x < 0.0, "from {before} to {after}");
    assert_eq!(app(&window).session().history().undo_label(), Some("Use this shot"));
    press(&mut window, Modifiers::COMMAND, Key::Z);
    assert_eq!(target(&window), before);
}

#[test]
fn two_shots_ahead_are_told_shown_and_made_a_rally_in_one_step() {
    let mut window = comparing(1440.0, 900.0);
    let shots = |window: &Window| app(window).session().page().unwrap().shots.len();
    assert_eq!(shots(&window), 1);
    let (of, reply) = app(&window).comparison().shown_plan().expect("the likeliest reply to the best shot");
    let sentence = standpoint_workbench::compare::plan::sentence(&of.replies[reply], &of.situation);
    let reached = of.replies[reply].next.is_some();
    assert!(window.query_by_label(&sentence).is_some(), "{sentence}");
    window.get_by_label("Make a rally of it").click();
    settle(&mut window);
    assert_eq!(shots(&window), if reached { 3 } else { 2 });
    assert_eq!(app(&window).session().history().undo_label(), Some("Play on"));
    press(&mut window, Modifiers::COMMAND, Key::Z);
    assert_eq!(shots(&window), 1);
}

#[test]
fn a_target_of_ones_own_is_weighed_and_moved() {
    let mut window = comparing(1440.0, 900.0);
    press(&mut window, Modifiers::NONE, Key::E);
    let first = meter(&window, "Target 1");
    let on_court = egui::accesskit::Role::GraphicsObject;
    window.get_all_by_label("Target 1").find(|n| n.accesskit_node().role() == on_court).unwrap().focus();
    window.run_steps(2);
    let seen = |window: &Window| app(window).comparison().state().targets[0].seen;
    let before = seen(&window);
    for _ in 0..6 {
        press(&mut window, Modifiers::SHIFT, Key::ArrowRight);
    }
    assert!((seen(&window).x - before.x - 3.0).abs() < 1e-6, "{before} became {}", seen(&window));
    assert_ne!(meter(&window, "Target 1"), first);
    assert!(app(&window).session().history().is_saved(), "a target to compare is no change of the board");
    press(&mut window, Modifiers::NONE, Key::Delete);
    assert!(app(&window).comparison().state().targets.is_empty());
}

#[test]
fn the_aim_map_comes_in_and_its_best_place_can_be_aimed_at() {
    let mut window = comparing(1440.0, 900.0);
    press(&mut window, Modifiers::ALT, Key::Num2);
    let chart = app(&window).comparison().chart().unwrap().clone();
    assert_eq!(app(&window).comparison().scheduler().map().unwrap().passes(), (3, 3));
    window.get_by_label("Aim there").click();
    settle(&mut window);
    assert!(target(&window).distance(chart.best) < 1e-3);
    assert_eq!(**app(&window).comparison().chart().unwrap(), *chart, "the map of this contact is still the same");
}

#[test]
fn the_court_follows_the_hand_while_the_map_is_worked_out() {
    let mut window = comparing(1440.0, 900.0);
    window.key_press_modifiers(Modifiers::ALT, Key::Num2);
    window.run_steps(2);
    window.get_by_label("Hitter’s contact").focus();
    window.run_steps(2);
    for _ in 0..5 {
        let generation = app(&window).session().generation();
        window.key_press(Key::ArrowLeft);
        window.run_steps(2);
        assert!(app(&window).session().generation() > generation, "the answer waits for nothing");
    }
    settle(&mut window);
    assert!(app(&window).comparison().scheduler().map_is_fresh());
}

#[test]
fn a_cause_is_followed_in_a_picture_with_words() {
    let mut window = comparing(1440.0, 900.0);
    press(&mut window, Modifiers::ALT, Key::Num3);
    let said = window.get_by_label("Both shots while the cause varies").value().unwrap();
    assert!(said.contains("own the line") && said.ends_with('.'), "{said}");
}

#[test]
fn an_approach_goes_to_the_net() {
    let mut window = comparing(1440.0, 900.0);
    press(&mut window, Modifiers::ALT, Key::Num4);
    press(&mut window, Modifiers::NONE, Key::V);
    assert_eq!(app(&window).session().situation().unwrap().settings.ready, ReadyArea::Net);
    for label in ["Approach Down the line", "Approach Cross-court"] {
        assert!(meter(&window, label).contains("in 100"));
    }
    press(&mut window, Modifiers::NONE, Key::V);
    assert_eq!(app(&window).session().situation().unwrap().settings.ready, ReadyArea::Anywhere);
}

#[test]
fn nothing_is_repainted_once_everything_is_weighed() {
    let mut window = comparing(1440.0, 900.0);
    past_the_hints(&mut window);
    let steps = window.run();
    assert!(steps <= 6, "{steps} frames until it rests");
}
