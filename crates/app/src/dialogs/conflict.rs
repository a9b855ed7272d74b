//! A file that is open in another window, or that somebody else has changed or taken away.

use std::path::{Path, PathBuf};

use egui::{Label, Ui};
use standpoint_board::Board;
use standpoint_language::{text, tr};

use crate::{
    commands::{Action, Outbox},
    files::Stamped,
    theme::Theme,
};

/// What stands in the way.
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
        /// What the file was like then.
        stamp: Stamped,
    },
    /// The file is not as it was when it was opened; nothing has been saved.
    Changed {
        /// The file.
        path: PathBuf,
        /// What is wrong, in words.
        said: String,
        /// Whether there is a file to be opened.
        there: bool,
    },
}

/// What is to be done.
#[derive(Debug, Clone, PartialEq)]
pub enum Choice {
    /// Work on a copy that has no file yet.
    Copy,
    /// Open the file here too.
    Both,
    /// Save under another name.
    SaveAs,
    /// Save over what is there.
    Over,
    /// Open what is there, and give up what is here.
    Reopen,
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
        ui.add(Label::new(self.said()).wrap());
        ui.add_space(theme.m.space.group);
        let choices: &[(&str, Choice)] = match self {
            Self::Open { .. } => &[(text("Open a copy"), Choice::Copy), (text("Open it here too"), Choice::Both)],
            Self::Changed { there: true, .. } => &[
                (text("Save under another name"), Choice::SaveAs),
                (text("Save over it"), Choice::Over),
                (text("Open what is there"), Choice::Reopen),
            ],
            Self::Changed { there: false, .. } => {
                &[(text("Save under another name"), Choice::SaveAs), (text("Save it there anew"), Choice::Over)]
            }
        };
        ui.horizontal_wrapped(|ui| {
            for (i, (label, choice)) in choices.iter().enumerate() {
                let first = i == 0;
                let chosen = if first { super::primary(ui, theme, true, *label) } else { ui.button(*label).clicked() };
                if chosen {
                    out.push(Action::Conflict(choice.clone()));
                }
            }
            if ui.button(text("Go back")).clicked() {
                out.push(Action::CloseDialog);
            }
        });
    }

    fn said(&self) -> String {
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
