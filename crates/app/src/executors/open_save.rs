//! Opening and saving: handles the results of [`crate::background_io`].

use std::path::{Path, PathBuf};

use egui::Context;
use standpoint_board::{
    Board,
    recovery_copy::{Kind, Left, Work},
    store::{Stamp, saved_words},
};
use standpoint_language::{text, text_in, tr};
use standpoint_ui::commands::choices::{ConflictChoice, LeftChoice};

use crate::{
    app::App,
    background_io::{Done, ENDING, NotWritten, Stamped, with_ending},
    dialogs::{
        Dialog,
        conflict::Conflict,
        left,
        library::Shelf,
        opening::Opening,
        path::{PathEntry, Purpose},
        problems::Problems,
    },
};

impl App {
    /// Handles finished file work.
    pub(crate) fn files_done(&mut self, ctx: &Context) {
        for done in self.files.done() {
            match done {
                Done::Picked(Purpose::Open, path) => self.read_board(ctx, path),
                Done::Picked(Purpose::Save, path) => self.save_to(ctx, path),
                Done::Picked(Purpose::OwnFolder, path) => self.set_own_folder(ctx, path),
                Done::Picked(Purpose::Export(_), path) => self.export_to(ctx, path),
                Done::Previewed(of, made) => {
                    if let Dialog::Export(exporting) = &mut self.dialog {
                        exporting.take(ctx, &of, made);
                    }
                }
                Done::Exported(made) => self.exported(made),
                Done::Picked(Purpose::Chart(paper), path) => {
                    self.chart_act(ctx, standpoint_workbench::chart::Act::File(paper, path));
                }
                Done::Chart(done) => self.chart_done(ctx, done),
                Done::Library(library) => {
                    if let Dialog::Library(shelf) = &mut self.dialog {
                        shelf.library = Some(library);
                    }
                }
                Done::Dismissed => self.after_saving = None,
                Done::NoDialog(purpose) => self.type_path(purpose),
                // Somebody has turned back meanwhile.
                Done::Read(path, _) if !self.reads(&path) => {}
                Done::Read(path, Ok((board, stamp))) => {
                    self.dialog = Dialog::None;
                    self.settings.remember(&path);
                    match self.crash_recovery.claim(&path) {
                        Some(holder) => {
                            let since_s = (crate::crash_recovery::now() - holder.since).max(0.0);
                            let stamp = Some(stamp);
                            self.dialog = Dialog::Conflict(Conflict::Open { path, since_s, board, stamp });
                        }
                        None => self.opened(*board, path, Some(stamp)),
                    }
                }
                Done::Read(path, Err(lines)) => {
                    self.settings.recent.retain(|p| *p != path);
                    let title = tr!("{} cannot be opened", path.display());
                    self.dialog = Dialog::Problems(Problems { title, lines, save_as: false });
                }
                Done::Written(path, board, Ok(saved)) => {
                    self.message = Some(saved_words(&path, saved.parted));
                    self.written(path, &board, Some(saved.stamp));
                    if let Some(after) = self.after_saving.take() {
                        self.proceed(ctx, after);
                    }
                }
                Done::Written(path, board, Err(why)) => self.not_written(path, &board, why),
            }
        }
        if self.left_to_offer && !self.dialog.is_open() {
            self.left_to_offer = false;
            self.offer_left();
        }
    }

    /// Begins to read a board. Until it is there, the one in view takes no input.
    pub(crate) fn read_board(&mut self, ctx: &Context, path: PathBuf) {
        self.dialog = Dialog::Opening(Opening { path: path.clone(), since: ctx.input(|i| i.time) });
        self.files.read(ctx, path);
    }

    /// Whether this board is being waited for.
    fn reads(&self, path: &Path) -> bool {
        matches!(&self.dialog, Dialog::Opening(opening) if opening.path == path)
    }

    /// A board has been opened from its file.
    pub(crate) fn opened(&mut self, board: Board, path: PathBuf, stamp: Stamped) {
        self.replace(board, Some(path));
        self.stamp = stamp;
    }

    fn written(&mut self, path: PathBuf, board: &Board, stamp: Stamped) {
        self.settings.remember(&path);
        if self.session.path() != Some(&path) && self.crash_recovery.claim(&path).is_some() {
            self.message = Some(tr!("Saved to {}, which another window has open too", path.display()));
        }
        self.session.written(path, board);
        self.stamp = stamp;
    }

    fn not_written(&mut self, path: PathBuf, board: &Board, why: NotWritten) {
        let title = tr!("{} cannot be saved", path.display());
        let after = self.after_saving.take();
        self.dialog = match why {
            NotWritten::Changed { said, there } => {
                self.after_saving = after;
                Dialog::Conflict(Conflict::Changed { path, said, there })
            }
            NotWritten::Failed(lines) => Dialog::Problems(Problems { title, lines, save_as: true }),
            NotWritten::Unconfirmed(stamp, lines) => {
                let title = tr!("{} may not last", path.display());
                self.written(path, board, stamp);
                Dialog::Problems(Problems { title, lines, save_as: true })
            }
        };
    }

    /// Handles the choice about a file that is open elsewhere or has changed.
    pub(crate) fn conflict_answered(&mut self, ctx: &Context, choice: &ConflictChoice) {
        let Dialog::Conflict(conflict) = std::mem::take(&mut self.dialog) else { return };
        match (conflict, choice) {
            (Conflict::Open { board, .. }, ConflictChoice::Copy) => {
                self.replace(*board, None);
                self.session.unsaved();
                self.message = Some(text("This is a copy; save it under a name of its own").to_owned());
            }
            (Conflict::Open { path, board, stamp, .. }, ConflictChoice::Both) => self.opened(*board, path, stamp),
            (Conflict::Changed { .. }, ConflictChoice::SaveAs) => self.save_as(ctx),
            (Conflict::Changed { path, .. }, ConflictChoice::Over) => {
                let board = self.session.document().whole();
                self.files.write(ctx, path, board, None);
            }
            (Conflict::Changed { path, .. }, ConflictChoice::Reopen) => self.read_board(ctx, path),
            _ => {}
        }
    }

    /// Offers work left by crashed windows, if any.
    pub(crate) fn offer_left(&mut self) {
        let (copies, fault) = (self.crash_recovery.left(), self.crash_recovery.fault());
        if !copies.is_empty() {
            self.dialog = Dialog::Left(left::LeftWork { copies, fault });
        } else if let Some(report) = fault {
            let report = report.display();
            self.message =
                Some(tr!("The program stopped because of a fault last time; what happened is in {}", report));
        }
    }

    /// Shows the library; its boards are read on a thread.
    pub(crate) fn show_library(&mut self, ctx: &Context) {
        let own = self.settings.own_boards.clone();
        self.dialog = Dialog::Library(Shelf::new(own.clone()));
        self.files.read_library(ctx, own);
    }

    pub(crate) fn choose_own_folder(&mut self, ctx: &Context) {
        let near = self.settings.own_boards.clone().unwrap_or_else(|| self.suggested_path());
        self.files.ask(ctx, Purpose::OwnFolder, &near);
    }

    pub(crate) fn set_own_folder(&mut self, ctx: &Context, folder: PathBuf) {
        self.settings.own_boards = Some(folder);
        self.show_library(ctx);
    }

    /// Handles the choice about left work.
    pub(crate) fn left_answered(&mut self, ctx: &Context, choice: &LeftChoice) {
        let problem = match choice {
            LeftChoice::Restore(copy) => self.restore(ctx, copy).err(),
            LeftChoice::Discard(copy) => copy.discard().err().map(|e| format!("{e}. {}", e.remedy())),
        };
        if let Some(problem) = problem {
            self.message = Some(problem);
        }
        if let Dialog::Left(left) = &mut self.dialog {
            left.copies = self.crash_recovery.left();
            if left.copies.is_empty() {
                self.dialog = Dialog::None;
            }
        }
    }

    /// Restores left work, but not over other unsaved work.
    fn restore(&mut self, ctx: &Context, copy: &Left) -> Result<(), String> {
        match copy.kind {
            Kind::Board if !self.session.document().is_saved() => {
                return Err(text("Save the board that is open first").to_owned());
            }
            Kind::Chart if !self.notes_are_saved() => return Err(text("Save the notes that are open first").to_owned()),
            _ => {}
        }
        match self.crash_recovery.restore(ctx, copy)? {
            Work::Board(board) => {
                self.put(*board, copy.original.clone());
                self.session.unsaved();
                self.stamp = copy.original.as_deref().and_then(|path| Stamp::at(path).ok());
                if let Some(path) = &copy.original {
                    let _ = self.crash_recovery.claim(path);
                }
            }
            Work::Chart(chart) => self.put_left_notes(*chart, copy.original.clone()),
        }
        self.crash_recovery.restored(copy.kind, self.session.document(), &self.room.alone);
        let said = text("The work is back; save it to keep it").to_owned();
        match copy.kind {
            Kind::Board => self.message = Some(said),
            Kind::Chart => self.room.message = Some(said),
        }
        self.dialog = Dialog::None;
        Ok(())
    }

    fn type_path(&mut self, purpose: Purpose) {
        let path = match (purpose, &self.settings.own_boards) {
            (Purpose::OwnFolder, Some(own)) => own.clone(),
            (Purpose::OwnFolder, None) => {
                let near = self.suggested_path();
                near.parent().map_or_else(|| near.clone(), std::path::Path::to_path_buf)
            }
            (Purpose::Chart(paper), _) => self.chart_path(paper),
            (Purpose::Export(format), _) => self.export_path(format),
            _ => self.suggested_path(),
        };
        let typed = path.to_string_lossy().into_owned();
        self.dialog = Dialog::Path(PathEntry { purpose, typed });
    }

    /// Path of the board, or a suggestion.
    pub(crate) fn suggested_path(&self) -> PathBuf {
        if let Some(path) = self.session.path() {
            return path.to_owned();
        }
        let dirs = directories::UserDirs::new();
        let dir = dirs.and_then(|d| d.document_dir().or(Some(d.home_dir())).map(PathBuf::from)).unwrap_or_default();
        dir.join(format!("{}.{ENDING}", text_in("file", "board")))
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
        let path = with_ending(path);
        // Another name is nobody's yet, as far as this window knows; its dialog has asked.
        let expected = if self.session.path() == Some(&path) { self.stamp } else { None };
        let board = self.session.document().whole();
        self.files.write(ctx, path, board, expected);
    }

    pub(crate) fn close_dialog(&mut self) {
        self.dialog = Dialog::None;
        // Cancelling the dialog also cancels the action after saving.
        if !self.files.busy() {
            self.after_saving = None;
        }
    }
}
