//! Shared parts of noting and correcting: input, buttons with keys, and text fields.

use egui::{Button, Key, TextEdit, Ui};
use standpoint_board::{Units, check::LINE_LIMIT};
use standpoint_charting::notebook::Notebook;
use standpoint_geometry::{Stroke, Wing};
use standpoint_ui::{theme::Theme, widgets::row};
use standpoint_workbench::{chart::Act, words};

use super::keys;

/// Input of the panel.
pub struct NoteView<'a> {
    /// The notes.
    pub notes: &'a Notebook,
    /// Units.
    pub units: Units,
    /// How it looks.
    pub theme: &'a Theme,
    /// The clock of the match.
    pub clock: super::clock::Clock,
}

/// A button that shows its key.
pub(super) fn keyed(label: &str, key: Key) -> Button<'static> {
    Button::new(format!("{}  {}", capital(label), key.name()))
}

pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    let first: String = letters.next().map(|c| c.to_uppercase().collect()).unwrap_or_default();
    format!("{first}{}", letters.as_str())
}

/// The buttons of wings and strokes.
pub(super) fn strokes(ui: &mut Ui, (stroke, wing): (Option<Stroke>, Option<Wing>), out: &mut Vec<Act>) {
    ui.horizontal_wrapped(|ui| {
        for (key, of) in keys::WINGS {
            if ui.add(keyed(words::wing(of), key).selected(wing == Some(of))).clicked() {
                out.push(Act::Wing(of));
            }
        }
    });
    ui.horizontal_wrapped(|ui| {
        for (key, of) in keys::STROKES {
            if ui.add(keyed(words::stroke(of), key).selected(stroke == Some(of))).clicked() {
                out.push(Act::Stroke(of));
            }
        }
    });
}

/// A text field of the chart; returns newly typed text.
pub(super) fn field(ui: &mut Ui, theme: &Theme, label: &str, text: &str, hint: &str) -> Option<String> {
    let mut typed = text.to_owned();
    let response = row::row(ui, theme, label, |ui| {
        let edit = TextEdit::singleline(&mut typed)
            .align(egui::Align2::LEFT_CENTER)
            .char_limit(LINE_LIMIT)
            .hint_text(hint)
            .desired_width(f32::INFINITY);
        ui.add(edit)
    });
    response.changed().then_some(typed)
}
