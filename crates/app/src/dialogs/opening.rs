//! A board is being read: nothing else takes place until it is there.

use std::path::PathBuf;

use egui::{Spinner, Ui};
use standpoint_language::{text, tr};
use standpoint_ui::{
    commands::{Action, Outbox},
    theme::Theme,
};

/// A file that is there sooner than this is not announced, s.
pub const SOON_S: f64 = 0.2;

/// The board that is being read.
#[derive(Debug, Clone, PartialEq)]
pub struct Opening {
    /// Its file.
    pub path: PathBuf,
    /// When it began, s on the clock of the frames.
    pub since: f64,
}

impl Opening {
    /// What is being read, with a way out.
    pub fn ui(&self, ui: &mut Ui, theme: &Theme, out: &mut Outbox) {
        ui.horizontal(|ui| {
            ui.add(Spinner::new());
            ui.label(tr!("Reading {}…", self.path.display()));
        });
        ui.add_space(theme.m.space.group);
        if ui.button(text("Cancel")).clicked() {
            out.push(Action::CloseDialog);
        }
    }
}
