//! The question about unsaved notes.

use egui::Ui;
use standpoint_language::text;
use standpoint_ui::{
    commands::{Action, Outbox},
    theme::Theme,
};
use standpoint_workbench::chart::{
    Act,
    leave::{NotesChoice, Then},
};

/// The question.
pub fn ui(ui: &mut Ui, then: &Then, theme: &Theme, out: &mut Outbox) {
    ui.label(match then {
        Then::Quit => text("The chart has shots that are not saved."),
        Then::Open(_) => text("The chart has shots that are not saved; another one is to take its place."),
    });
    ui.add_space(theme.m.space.group);
    ui.horizontal(|ui| {
        if standpoint_ui::widgets::primary::primary(ui, theme, true, text("Save chart…")) {
            out.push(Action::Chart(Act::Left(NotesChoice::Save)));
        }
        if ui.button(text("Discard")).clicked() {
            out.push(Action::Chart(Act::Left(NotesChoice::Discard)));
        }
        if ui.button(text("Cancel")).clicked() {
            out.push(Action::CloseDialog);
        }
    });
}
