//! A file that is open in another window, or that somebody else has changed or removed.

use std::path::{Path, PathBuf};

use egui::{Label, Ui};
use standpoint_board::Board;
use standpoint_language::{text, tr};
use standpoint_ui::{
    commands::{Action, Outbox, choices::ConflictChoice},
    theme::Theme,
};

use crate::background_io::Stamped;

/// The conflict.
#[derive(Debug, Clone, PartialEq)]
pub enum Conflict {
    /// Another window has the file open; the board has been read.
    Open {
        /// The file.
        path: PathBuf,
        /// How long the other window has had it, s.
        since_s: f64,
        /// What was read.
        board: Box<Board>,
        /// State of the file when it was read.
        stamp: Stamped,
    },
    /// The file has changed since it was opened; nothing has been saved.
    Changed {
        /// The file.
        path: PathBuf,
        /// What is wrong, in words.
        said: String,
        /// Whether there is a file to be opened.
        there: bool,
    },
}

impl Conflict {
    /// The title of the window.
    #[must_use]
    pub fn title(&self) -> &'static str {
        match self {
            Self::Open { .. } => text("Open in another window"),
            Self::Changed { there: true, .. } => text("The file has changed"),
            Self::Changed { there: false, .. } => text("The file is gone"),
        }
    }

    /// The question.
    pub fn ui(&self, ui: &mut Ui, theme: &Theme, out: &mut Outbox) {
        ui.add(Label::new(self.describe()).wrap());
        ui.add_space(theme.m.space.group);
        let choices: &[(&str, ConflictChoice)] = match self {
            Self::Open { .. } => {
                &[(text("Open a copy"), ConflictChoice::Copy), (text("Open it here too"), ConflictChoice::Both)]
            }
            Self::Changed { there: true, .. } => &[
                (text("Save under another name"), ConflictChoice::SaveAs),
                (text("Save over it"), ConflictChoice::Over),
                (text("Open what is there"), ConflictChoice::Reopen),
            ],
            Self::Changed { there: false, .. } => &[
                (text("Save under another name"), ConflictChoice::SaveAs),
                (text("Save it there anew"), ConflictChoice::Over),
            ],
        };
        ui.horizontal_wrapped(|ui| {
            for (i, (label, choice)) in choices.iter().enumerate() {
                let first = i == 0;
                let chosen = if first {
                    standpoint_ui::widgets::primary::primary(ui, theme, true, *label)
                } else {
                    ui.button(*label).clicked()
                };
                if chosen {
                    out.push(Action::Conflict(choice.clone()));
                }
            }
            if ui.button(text("Cancel")).clicked() {
                out.push(Action::CloseDialog);
            }
        });
    }

    fn describe(&self) -> String {
        match self {
            Self::Open { path, since_s, .. } => {
                let since = super::left::age(*since_s);
                tr!(
                    "{} was opened {} in another window. Two windows that save one file undo each other’s work.",
                    name(path),
                    since
                )
            }
            Self::Changed { said, .. } => tr!("{}. Nothing has been saved, and the board here is as it was.", said),
        }
    }
}

fn name(path: &Path) -> String {
    path.file_name().map_or_else(|| path.display().to_string(), |n| n.to_string_lossy().into_owned())
}
