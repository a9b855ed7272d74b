//! What is wrong with a file, every problem with its line, place and remedy.

use egui::{Label, RichText, ScrollArea, Ui};
use standpoint_language::text;
use standpoint_ui::{
    commands::{Action, BoardCommand, Command, Outbox},
    theme::{Theme, focus::Following as _},
};

/// The problems.
#[derive(Debug, Clone, PartialEq)]
pub struct Problems {
    /// What did not work.
    pub title: String,
    /// Why, one line each.
    pub lines: Vec<String>,
    /// Whether to offer saving elsewhere.
    pub save_as: bool,
}

impl Problems {
    /// The list.
    pub fn ui(&self, ui: &mut Ui, theme: &Theme, out: &mut Outbox) {
        ScrollArea::vertical().max_height(360.0).auto_shrink([false, true]).show_following(ui, |ui| {
            for line in &self.lines {
                ui.horizontal_top(|ui| {
                    ui.label(RichText::new("•").color(*theme.ui.bad));
                    ui.add(Label::new(line).wrap());
                });
            }
        });
        ui.add_space(theme.m.space.group);
        ui.horizontal(|ui| {
            if self.save_as && standpoint_ui::widgets::primary::primary(ui, theme, true, text("Save elsewhere…")) {
                out.push(Action::CloseDialog);
                out.push(Action::Run(Command::Board(BoardCommand::SaveAs)));
            }
            if ui.button(text("Copy the list")).clicked() {
                ui.ctx().copy_text(format!("{}\n{}", self.title, self.lines.join("\n")));
            }
            if ui.button(text("Close")).clicked() {
                out.push(Action::CloseDialog);
            }
        });
    }
}
