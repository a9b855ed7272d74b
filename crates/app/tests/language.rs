//! The window in German. A separate test binary, because the language is set per process; its tests run one at a time.

#![allow(clippy::unwrap_used, reason = "a test that finds nothing has failed")]

mod common;

use std::{
    collections::HashSet,
    sync::{Mutex, MutexGuard, PoisonError},
};

use egui::{Key, Modifiers, accesskit::Role, vec2};
use egui_kittest::kittest::{AccessKitNode, NodeT as _, Queryable as _};
use standpoint_app::dialogs::finder::found;
use standpoint_language::{Language, speak, spoken};
use standpoint_ui::commands::catalogue::CATALOGUE;

use common::{Window, app, center, drag, window_of};

static TURN: Mutex<()> = Mutex::new(());

/// Holds the lock of the language; resets it to English on drop, even after a failed test.
struct Turn(#[expect(dead_code, reason = "held")] MutexGuard<'static, ()>);

impl Drop for Turn {
    fn drop(&mut self) {
        speak(Language::English);
    }
}

fn turn() -> Turn {
    let turn = Turn(TURN.lock().unwrap_or_else(PoisonError::into_inner));
    speak(Language::English);
    turn
}

fn choose(window: &mut Window, menu: &str, entry: &str) {
    window.get_by_label(menu).click();
    window.run_steps(3);
    // A command without keys has a blank after its name.
    window.get_by(|node| node.label().is_some_and(|label| label.trim_end() == entry)).click();
    window.run_steps(4);
}

/// All labels and values on the screen.
fn said(window: &Window) -> Vec<String> {
    window
        .root()
        .children_recursive()
        .flat_map(|node| {
            let node = node.accesskit_node();
            [node.label(), node.value()].into_iter().flatten().collect::<Vec<_>>()
        })
        .collect()
}

fn german_window() -> Window {
    let mut window = window_of(1440.0, 900.0);
    choose(&mut window, "Appearance", "Deutsch");
    assert_eq!(spoken(), Language::German);
    window
}

#[test]
fn the_window_speaks_german_by_a_command_and_english_again() {
    let _turn = turn();
    let mut window = german_window();
    for menu in ["Tafel", "Bearbeiten", "Zeichnen", "Ballwechsel", "Ansicht", "Darstellung", "Hilfe"] {
        assert!(window.query_by_label(menu).is_some(), "{menu}");
    }
    let sentence = |window: &Window, begin: &str| said(window).into_iter().find(|text| text.starts_with(begin));
    let place = sentence(&window, "Position: ").unwrap();
    assert!(place.contains("Grundlinie"), "{place}");
    let comma = |text: &str| text.as_bytes().windows(3).any(|w| w[0].is_ascii_digit() && w[1] == b',' && w[2] != b' ');
    assert!(comma(&place), "{place}");
    choose(&mut window, "Darstellung", "English");
    assert!(sentence(&window, "Stand ").is_some_and(|text| !comma(&text)));
    assert!(window.query_by_label("Board").is_some());
}

#[test]
fn what_is_undone_is_named_in_the_language_that_is_spoken() {
    let _turn = turn();
    let mut window = window_of(1440.0, 900.0);
    let target = center(&window, "Ball target");
    choose(&mut window, "Appearance", "Deutsch");
    drag(&mut window, target, vec2(-30.0, 20.0));
    window.get_by_label("Bearbeiten").click();
    window.run_steps(3);
    assert!(window.query_by_label_contains("Rückgängig: Ziel verschieben").is_some());
    window.key_press(Key::Escape);
    window.run_steps(2);
    window.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    window.run_steps(3);
    assert!(said(&window).iter().any(|text| text == "Zurückgenommen: Ziel verschieben"));
    // The name of an undo step is translated when it is shown, into the language then in use.
    choose(&mut window, "Darstellung", "English");
    window.get_by_label("Edit").click();
    window.run_steps(3);
    assert!(window.query_by_label_contains("Redo: Move the target").is_some());
}

#[test]
fn a_number_is_shown_and_typed_with_a_comma() {
    let _turn = turn();
    let mut window = german_window();
    let height = |window: &Window| app(window).session().shot().unwrap().shot.contact.z;
    assert!((height(&window) - 0.9).abs() < 1e-9);
    let shown = |node: &AccessKitNode<'_>| node.role() == Role::SpinButton && node.value().as_deref() == Some("0,90 m");
    window.get_by(shown).click();
    window.run_steps(2);
    window.key_press_modifiers(Modifiers::COMMAND, Key::A);
    window.event(egui::Event::Text("1,25".to_owned()));
    window.run_steps(2);
    window.key_press(Key::Enter);
    window.run_steps(3);
    assert!((height(&window) - 1.25).abs() < 1e-9, "{}", height(&window));
}

#[test]
fn commands_have_german_names_and_are_found_by_those_and_the_english_ones() {
    let _turn = turn();
    speak(Language::German);
    // Words that are the same in both languages.
    let same = ["Deutsch", "English", "Hand", "Text", "Zone"];
    let mut labels = HashSet::new();
    for spec in CATALOGUE.iter() {
        let (label, hint) = spec.english();
        assert!(spec.label() != label || same.contains(&label), "{label}");
        assert!(spec.hint() != hint, "{hint}");
        assert!(labels.insert(spec.label().to_lowercase()), "{} twice", spec.label());
    }
    for typed in ["spiegeln", "mirror", "Links und"] {
        let first = found(typed).first().map(|spec| spec.label());
        assert_eq!(first, Some("Diese Seite spiegeln"), "{typed}");
    }
}

#[test]
fn whatever_is_painted_has_a_name_in_german_too() {
    let _turn = turn();
    let mut window = german_window();
    let named = [
        Role::Button,
        Role::CheckBox,
        Role::ComboBox,
        Role::GraphicsSymbol,
        Role::Image,
        Role::ListItem,
        Role::Meter,
        Role::RadioButton,
        Role::Slider,
        Role::TextInput,
    ];
    for comparing in [false, true] {
        if comparing {
            window.key_press(Key::W);
            window.run_steps(6);
        }
        let nodes = window.root().children_recursive();
        let things: Vec<_> = nodes.filter(|node| named.contains(&node.accesskit_node().role())).collect();
        assert!(things.len() > 60, "{}", things.len());
        for thing in things {
            let node = thing.accesskit_node();
            let name = node.label().or_else(|| node.value()).unwrap_or_default();
            assert!(!name.trim().is_empty(), "{:?} at {:?} has no name", node.role(), thing.rect());
        }
    }
}

#[test]
fn a_shot_of_the_rally_has_room_for_all_that_may_become_of_it() {
    let _turn = turn();
    let mut window = german_window();
    let chip = window.get_by(|node| node.label().is_some_and(|label| label.starts_with("Schlag 1: "))).rect();
    // The longest text of a rally, at the text size of the chip.
    let font = egui::FontId::new(13.0, standpoint_ui::theme::fonts::strong());
    let longest = ["100 % im Feld, Gewinnschlag", "100 % im Feld, keine Antwort", "100 % im Feld, 8,8 m fehlen"]
        .map(|said| {
            window.ctx.fonts_mut(|f| f.layout_no_wrap(said.to_owned(), font.clone(), egui::Color32::default())).size().x
        })
        .into_iter()
        .fold(0.0, f32::max);
    assert!(chip.width() >= longest + 38.0, "{} for {longest}", chip.width());
    choose(&mut window, "Darstellung", "English");
    let english = window.get_by(|node| node.label().is_some_and(|label| label.starts_with("Shot 1: "))).rect();
    assert!(english.width() < chip.width(), "no wider than it has to be");
}
