//! The question about unsaved changes.

use egui::Ui;
use standpoint_language::text;

use super::After;
use crate::{
    commands::{Action, Outbox},
    theme::Theme,
};

/// The answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Choice {
    /// Save them first.
    Save,
    /// Let them go.
    Discard,
}

/// The question.
pub fn ui(ui: &mut Ui, after: &After, theme: &Theme, out: &mut Outbox) {
    ui.label(match after {
        After::New | After::Demo => {
            text("The board has changes that are not in its file. Save them before another board is begun?")
        }
        After::Open | After::OpenPath(_) | After::Teaching(_) => {
            text("The board has changes that are not in its file. Save them before another board is opened?")
        }
        After::Quit => text("The board has changes that are not in its file. Save them before the window is closed?"),
    });
    ui.add_space(theme.m.space.group);
    ui.horizontal(|ui| {
        if super::primary(ui, theme, true, text("Save")) {
            out.push(Action::Guard(Choice::Save));
        }
        if ui.button(text("Let them go")).clicked() {
            out.push(Action::Guard(Choice::Discard));
        }
        if ui.button(text("Go back")).clicked() {
            out.push(Action::CloseDialog);
        }
    });
}
