//! Naming a file by typing its path, where the desktop has no dialog for it.

use std::path::PathBuf;

use egui::{Key, RichText, TextEdit, Ui};
use standpoint_language::text;
use standpoint_ui::{
    commands::{Action, Outbox},
    theme::Theme,
};
use standpoint_workbench::chart::ChartFile;

/// What the path is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// To open a board.
    Open,
    /// To save the board.
    Save,
    /// To list the boards of a folder.
    OwnFolder,
    /// To make a sheet or picture.
    Export(standpoint_workbench::wanted::Format),
    /// A file of the chart room.
    Chart(standpoint_workbench::chart::ChartFile),
}

/// The path as typed so far.
#[derive(Debug, Clone, PartialEq)]
pub struct PathEntry {
    /// What it is for.
    pub purpose: Purpose,
    /// As typed.
    pub typed: String,
}

impl PathEntry {
    /// The title of the window.
    #[must_use]
    pub fn title(&self) -> &'static str {
        match self.purpose {
            Purpose::Open => text("Open a board"),
            Purpose::Save => text("Save the board"),
            Purpose::OwnFolder => text("Folder of your own boards"),
            Purpose::Export(_) => text("Save the export"),
            Purpose::Chart(paper) => paper.title(),
        }
    }

    /// The field.
    pub fn ui(&mut self, ui: &mut Ui, theme: &Theme, out: &mut Outbox) {
        let note = match self.purpose {
            Purpose::OwnFolder | Purpose::Chart(ChartFile::Season | ChartFile::Roster) => {
                text("This desktop offers no file dialog, so type the path of the folder.")
            }
            _ => text("This desktop offers no file dialog, so type the path of the file."),
        };
        ui.label(RichText::new(note).color(*theme.ui.soft));
        ui.add_space(theme.m.space.small);
        let field = ui
            .add(TextEdit::singleline(&mut self.typed).align(egui::Align2::LEFT_CENTER).desired_width(f32::INFINITY))
            .accessible_name(text("Path"));
        let entered = field.lost_focus() && ui.input(|i| i.key_pressed(Key::Enter));
        if !entered && ui.memory(|m| m.focused().is_none()) {
            field.request_focus();
        }
        ui.add_space(theme.m.space.group);
        ui.horizontal(|ui| {
            let verb = match self.purpose {
                Purpose::Open => text("Open"),
                Purpose::Save => text("Save"),
                Purpose::OwnFolder => text("List its boards"),
                Purpose::Export(_) => text("Save"),
                Purpose::Chart(paper) => paper.verb(),
            };
            let ready = !self.typed.trim().is_empty();
            let pressed = standpoint_ui::widgets::primary::primary(ui, theme, ready, verb);
            if ready && (pressed || entered) {
                out.push(Action::CloseDialog);
                out.push(self.action());
            }
            if ui.button(text("Cancel")).clicked() {
                out.push(Action::CloseDialog);
            }
        });
    }

    fn action(&self) -> Action {
        let path = PathBuf::from(self.typed.trim());
        match self.purpose {
            Purpose::Open => Action::OpenPath(path),
            Purpose::Save => Action::SavePath(path),
            Purpose::OwnFolder => Action::OwnFolder(path),
            Purpose::Export(_) => Action::ExportPath(path),
            Purpose::Chart(paper) => Action::Chart(standpoint_workbench::chart::Act::File(paper, path)),
        }
    }
}
