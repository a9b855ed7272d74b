//! The whole window without a mouse: the Tab key reaches every control in reading order, every control has a name and
//! a role, and no control traps the focus.
//!
//! Source: Web Content Accessibility Guidelines 2.2, success criteria 2.1.1 (keyboard), 2.1.2 (no trap), 2.4.3 (order),
//! 4.1.2 (name, role, value).

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod common;

use egui::{Key, Modifiers, Rect};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use standpoint_ui::commands::{
    Action, BoardCommand, ChartCommand, Command, CompareCommand, HelpCommand, LibraryCommand, PageCommand, TeachCommand,
};

use common::{Window, app, window_of};

/// An upper limit on the Tab stops of a view.
const MANY: usize = 400;

/// A stop of the Tab key.
#[derive(Debug, Clone, PartialEq)]
struct Stop {
    role: String,
    label: String,
    rect: Rect,
}

fn focused(window: &Window) -> Option<Stop> {
    let node = window.root().children_recursive().find(|node| node.accesskit_node().is_focused())?;
    let inner = node.accesskit_node();
    let said = [inner.label(), inner.value(), inner.placeholder().map(str::to_owned)];
    let label = said.into_iter().flatten().find(|said| !said.trim().is_empty()).unwrap_or_default();
    Some(Stop { role: format!("{:?}", inner.role()), label, rect: node.rect() })
}

/// The stops of one round of Tab, from the current focus.
fn round(window: &mut Window) -> Vec<Stop> {
    let mut stops: Vec<Stop> = Vec::new();
    for _ in 0..MANY {
        window.key_press(Key::Tab);
        window.run_steps(2);
        let Some(stop) = focused(window) else { continue };
        if stops.first().is_some_and(|first| first.label == stop.label && first.role == stop.role && stops.len() > 3) {
            return stops;
        }
        stops.push(stop);
    }
    let last: Vec<_> = stops.iter().rev().take(5).collect();
    panic!("the Tab key does not come round in {MANY} steps; it ended with {last:#?}");
}

fn nameless(stops: &[Stop]) -> Vec<&Stop> {
    stops.iter().filter(|stop| stop.label.trim().is_empty()).collect()
}

/// Neighbours in one row that Tab visits from right to left. Marks on the court are exempt: they have their own order.
fn backwards(stops: &[Stop]) -> Vec<(&str, &str)> {
    let level = |a: &Stop, b: &Stop| (a.rect.center().y - b.rect.center().y).abs() < 3.0 && a.rect.height() > 20.0;
    let on_court = |stop: &Stop| stop.role == "Slider" && stop.label.contains("place") || stop.role == "Unknown";
    stops
        .windows(2)
        .filter(|pair| level(&pair[0], &pair[1]) && pair[1].rect.left() < pair[0].rect.left())
        .filter(|pair| !pair.iter().any(on_court))
        .map(|pair| (pair[0].label.as_str(), pair[1].label.as_str()))
        .collect()
}

fn run(window: &mut Window, command: Command) {
    let ctx = window.ctx.clone();
    window.state_mut().as_mut().unwrap().apply_all(&ctx, [Action::Run(command)]);
    window.run_steps(4);
}

#[test]
fn tab_visits_everything_on_the_board_and_everything_has_a_name() {
    // Wide enough for the text of a page beside the list.
    let mut window = window_of(1920.0, 1080.0);
    let stops = round(&mut window);
    assert_eq!(nameless(&stops), Vec::<&Stop>::new());
    assert_eq!(backwards(&stops), Vec::<(&str, &str)>::new());
    let has = |part: &str| stops.iter().any(|stop| stop.label.contains(part));
    for part in ["Board", "Ball target", "Opponent’s contact", "Speed", "Stroke", "At the spot", "Play", "Page title"]
    {
        assert!(has(part), "{part} is not reached: {:?}", stops.iter().map(|s| &s.label).collect::<Vec<_>>());
    }
    assert!(stops.len() > 40, "{} stops", stops.len());
}

#[test]
fn shift_and_tab_goes_back() {
    let mut window = window_of(1440.0, 900.0);
    let mut way = Vec::new();
    for _ in 0..6 {
        window.key_press(Key::Tab);
        window.run_steps(2);
        way.push(focused(&window).map(|stop| stop.label));
    }
    window.key_press_modifiers(Modifiers::SHIFT, Key::Tab);
    window.run_steps(2);
    assert_eq!(focused(&window).map(|stop| stop.label), way[4]);
}

#[test]
fn every_room_and_panel_can_be_walked_through() {
    for command in [
        Command::Compare(CompareCommand::Compare),
        Command::Chart(ChartCommand::Note),
        Command::Chart(ChartCommand::Audit),
        Command::Chart(ChartCommand::Measure),
        Command::Teach(TeachCommand::Rehearse),
    ] {
        let mut window = window_of(1440.0, 900.0);
        run(&mut window, command);
        let stops = round(&mut window);
        assert_eq!(nameless(&stops), Vec::<&Stop>::new(), "{command:?}");
        assert_eq!(backwards(&stops), Vec::<(&str, &str)>::new(), "{command:?}");
    }
}

#[test]
fn a_dialog_keeps_the_focus_inside_and_escape_leaves_it() {
    for command in [
        Command::Help(HelpCommand::Finder),
        Command::Help(HelpCommand::Shortcuts),
        Command::Help(HelpCommand::How),
        Command::Library(LibraryCommand::Library),
        Command::Page(PageCommand::AddPattern),
        Command::Board(BoardCommand::Export),
    ] {
        let mut window = window_of(1440.0, 900.0);
        run(&mut window, command);
        let stops = round_in_dialog(&mut window);
        let unnamed: Vec<&Stop> = nameless(&stops);
        assert_eq!(unnamed, Vec::<&Stop>::new(), "{command:?}");
        assert_eq!(backwards(&stops), Vec::<(&str, &str)>::new(), "{command:?}");
        assert!(!stops.iter().any(|stop| stop.label.contains("Ball target")), "{command:?} lets the focus out");
        window.key_press(Key::Escape);
        window.run_steps(3);
        assert!(window.query_by_label("Ball target").is_some(), "{command:?}");
    }
}

/// The Tab stops of a dialog: few, or none that takes the focus.
fn round_in_dialog(window: &mut Window) -> Vec<Stop> {
    let mut stops = Vec::new();
    for _ in 0..40 {
        window.key_press(Key::Tab);
        window.run_steps(2);
        stops.extend(focused(window));
    }
    stops
}

#[test]
fn what_gets_the_focus_comes_into_sight() {
    // A low window, so that the last figures of the panel lie far below its edge.
    let mut window = window_of(1100.0, 600.0);
    let before = window.get_by_label_contains("To the bounce:").rect();
    assert!(before.top() > 600.0, "{before}");
    for _ in 0..MANY {
        window.key_press(Key::Tab);
        window.run_steps(2);
        if focused(&window).is_some_and(|stop| stop.label.contains("To the bounce:")) {
            break;
        }
    }
    window.run_steps(60);
    let after = window.get_by_label_contains("To the bounce:").rect();
    assert!(after.bottom() < 600.0 && after.top() > 40.0, "{after}");
}

#[test]
fn the_positioning_report_opens_from_the_board_by_its_keys() {
    let mut window = window_of(1440.0, 900.0);
    window.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::A);
    window.run_steps(4);
    assert!(app(&window).room().is_open());
    assert_eq!(app(&window).room().tab, standpoint_workbench::chart::Tab::Audit);
}
