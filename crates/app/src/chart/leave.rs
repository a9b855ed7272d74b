//! Notes that are not saved, when they are about to be given up.

use std::path::PathBuf;

use egui::Ui;
use standpoint_language::text;

use super::Act;
use crate::{
    commands::{Action, Outbox},
    theme::Theme,
};

/// What was to be done.
#[derive(Debug, Clone, PartialEq)]
pub enum Then {
    /// The window closes.
    Quit,
    /// Another chart is opened.
    Open(PathBuf),
}

/// What becomes of the notes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Choice {
    /// They are saved first.
    Save,
    /// They are given up.
    Discard,
}

/// The question.
pub fn ui(ui: &mut Ui, then: &Then, theme: &Theme, out: &mut Outbox) {
    ui.label(match then {
        Then::Quit => text("The chart has shots that are not saved."),
        Then::Open(_) => text("The chart has shots that are not saved; another one is to take its place."),
    });
    ui.add_space(theme.m.space.group);
    ui.horizontal(|ui| {
        if crate::dialogs::primary(ui, theme, true, text("Save chart…")) {
            out.push(Action::Chart(Act::Left(Choice::Save)));
        }
        if ui.button(text("Discard")).clicked() {
            out.push(Action::Chart(Act::Left(Choice::Discard)));
        }
        if ui.button(text("Go back")).clicked() {
            out.push(Action::CloseDialog);
        }
    });
}
