//! Opening and saving: what the window does with the work of [`crate::files`].

use std::path::PathBuf;

use egui::Context;

use crate::{
    app::App,
    dialogs::{
        Dialog,
        path::{PathEntry, Purpose},
        problems::Problems,
    },
    files::{Done, ENDING, with_ending},
};

impl App {
    /// Takes up what has been done off the frame.
    pub(crate) fn files_done(&mut self, ctx: &Context) {
        for done in self.files.done() {
            match done {
                Done::Picked(Purpose::Open, path) => self.files.read(ctx, path),
                Done::Picked(Purpose::Save, path) => self.save_to(ctx, path),
                Done::Dismissed => self.after_saving = None,
                Done::NoDialog(purpose) => self.type_path(purpose),
                Done::Read(path, Ok(board)) => {
                    self.settings.remember(&path);
                    self.replace(*board, Some(path));
                }
                Done::Read(path, Err(lines)) => {
                    self.settings.recent.retain(|p| *p != path);
                    let title = format!("{} cannot be opened", path.display());
                    self.dialog = Dialog::Problems(Problems { title, lines });
                }
                Done::Written(path, board, Ok(())) => {
                    self.settings.remember(&path);
                    self.message = Some(format!("Saved to {}", path.display()));
                    let current = *self.session.board() == *board;
                    self.session.saved_to(path, current);
                    if let Some(after) = self.after_saving.take() {
                        self.proceed(ctx, after);
                    }
                }
                Done::Written(path, _, Err(lines)) => {
                    self.after_saving = None;
                    let title = format!("{} cannot be saved", path.display());
                    self.dialog = Dialog::Problems(Problems { title, lines });
                }
            }
        }
    }

    fn type_path(&mut self, purpose: Purpose) {
        let typed = self.suggested_path().to_string_lossy().into_owned();
        self.dialog = Dialog::Path(PathEntry { purpose, typed });
    }

    /// Where the board is, or might be.
    fn suggested_path(&self) -> PathBuf {
        if let Some(path) = self.session.path() {
            return path.to_owned();
        }
        let dirs = directories::UserDirs::new();
        let dir = dirs.and_then(|d| d.document_dir().or(Some(d.home_dir())).map(PathBuf::from)).unwrap_or_default();
        dir.join(format!("board.{ENDING}"))
    }

    pub(crate) fn ask_open(&mut self, ctx: &Context) {
        let near = self.suggested_path();
        self.files.ask(ctx, Purpose::Open, &near);
    }

    pub(crate) fn save(&mut self, ctx: &Context) {
        match self.session.path().map(PathBuf::from) {
            Some(path) => self.save_to(ctx, path),
            None => self.save_as(ctx),
        }
    }

    pub(crate) fn save_as(&mut self, ctx: &Context) {
        let near = self.suggested_path();
        self.files.ask(ctx, Purpose::Save, &near);
    }

    pub(crate) fn save_to(&mut self, ctx: &Context, path: PathBuf) {
        self.files.write(ctx, with_ending(path), self.session.board().clone());
    }

    pub(crate) fn close_dialog(&mut self) {
        self.dialog = Dialog::None;
        // Nothing is being saved any more once the person has turned back.
        if !self.files.busy() {
            self.after_saving = None;
        }
    }
}
