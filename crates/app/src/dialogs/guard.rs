//! The question about unsaved changes.

use egui::Ui;
use standpoint_language::text;
use standpoint_ui::{
    commands::{Action, Outbox, choices::Unsaved},
    theme::Theme,
};

use super::After;

/// The question.
pub fn ui(ui: &mut Ui, after: &After, theme: &Theme, out: &mut Outbox) {
    ui.label(match after {
        After::New | After::Stage(_) | After::Demo => {
            text("The board has changes that are not in its file. Save them before another board is begun?")
        }
        After::Open | After::OpenPath(_) | After::Teaching(_) => {
            text("The board has changes that are not in its file. Save them before another board is opened?")
        }
        After::Quit => text("The board has changes that are not in its file. Save them before the window is closed?"),
    });
    ui.add_space(theme.m.space.group);
    ui.horizontal(|ui| {
        if standpoint_ui::widgets::primary::primary(ui, theme, true, text("Save")) {
            out.push(Action::Guard(Unsaved::Save));
        }
        if ui.button(text("Don't save")).clicked() {
            out.push(Action::Guard(Unsaved::Discard));
        }
        if ui.button(text("Cancel")).clicked() {
            out.push(Action::CloseDialog);
        }
    });
}
