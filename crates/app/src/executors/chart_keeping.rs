//! Location of notes, with the board or in a file of their own, and moving them between both.

use std::{path::PathBuf, sync::Arc};

use egui::Context;
use standpoint_board::{
    chart::{Chart, Setup},
    store::Stamp,
};
use standpoint_charting::{audit::AuditedShot, notebook::Notebook};
use standpoint_language::{mark, text};
use standpoint_ui::commands::choices::Pick;
use standpoint_workbench::{
    arrange::Arrange,
    chart::{ChartSource, NotesLocation},
    document::new_notes,
};

use crate::{app::App, background_io::Stamped, dialogs::After};

impl App {
    /// Opens the room; notes that nobody has begun have the players of the board.
    pub(super) fn enter_room(&mut self) {
        self.session.refresh_blank_notes();
        if self.room.alone.is_untouched() {
            self.room.alone = ChartSource::blank(new_notes(self.session.board()));
        }
        self.room.open = true;
        (self.room.message, self.message) = (None, None);
    }

    pub(super) fn board_setup(&self) -> Setup {
        Setup::of_board(self.session.board())
    }

    /// The notes that are worked on.
    pub(super) fn notes(&self) -> &Notebook {
        self.room.notes(self.session.document())
    }

    /// Changes the notes that are worked on.
    pub(super) fn change_notes<R>(&mut self, change: impl FnOnce(&mut Notebook) -> R) -> R {
        self.change_notes_in(self.room.kept, change)
    }

    fn change_notes_in<R>(&mut self, kept: NotesLocation, change: impl FnOnce(&mut Notebook) -> R) -> R {
        match kept {
            NotesLocation::Alone => change(&mut self.room.alone.notes),
            NotesLocation::Board => self.session.note(change),
        }
    }

    /// Whether the notes that are in a file of their own are as in that file.
    pub(crate) fn notes_are_saved(&self) -> bool {
        self.room.alone.is_saved()
    }

    /// A chart from a file of its own.
    pub(crate) fn put_notes(&mut self, chart: Chart, file: Option<(PathBuf, Stamped)>) {
        let (path, stamp) = file.unzip();
        self.room.worker.stop();
        self.room.alone.replace(chart, path);
        self.room.alone.stamp = stamp.flatten();
        (self.room.kept, self.room.open) = (NotesLocation::Alone, true);
    }

    /// A chart that was left by a crash.
    pub(crate) fn put_left_notes(&mut self, chart: Chart, path: Option<PathBuf>) {
        let file = path.map(|path| {
            let stamp = Stamp::at(&path).ok();
            (path, stamp)
        });
        self.put_notes(chart, file);
        self.room.alone.notes.unsaved();
    }

    /// Switches to the notes of a location.
    pub(super) fn keep_notes(&mut self, kept: NotesLocation) {
        if !self.room.open {
            self.enter_room();
        }
        self.room.kept = kept;
    }

    /// Moves the notes to the other location, after those that are there already.
    pub(super) fn move_notes(&mut self) {
        let (from, to) = (self.room.kept, self.room.kept.other());
        let moved = self.notes().chart();
        let there = self.room.notes_in(to, self.session.document());
        let label = mark("Move the notes here");
        if there.is_blank() {
            self.change_notes_in(to, |notes| notes.set_chart(label, moved));
        } else if same_players(there.setup(), &moved.setup) {
            let points = self.notes().points().to_vec();
            self.change_notes_in(to, |notes| notes.add_points(label, &points, &moved.setup.sessions));
        } else {
            let said = text(
                "There are notes of other players or conditions already: save these under a name of their own, or delete \
                 those first",
            );
            self.room.message = Some(said.to_owned());
            return;
        }
        let (label, setup) = (mark("Move the notes away"), new_notes(self.session.board()));
        match from {
            NotesLocation::Alone => self.room.alone.empty(label, setup),
            NotesLocation::Board => self.session.note(|notes| notes.empty(label, setup)),
        }
        self.room.kept = to;
        self.room.message = Some(to.moved().to_owned());
    }

    /// Opens a moment of the audit: as a page of the board that has the notes, or else as a board.
    pub(super) fn open_moment(&mut self, ctx: &Context, shot: &AuditedShot) {
        let Some(moment) = shot.board(self.notes().setup()) else { return };
        self.room.open = false;
        // The area of the spot is one setting for all pages of a board.
        let ready = self.session.board().settings.ready;
        let mut of_moment = Setup::of_board(&moment);
        let as_audited = std::mem::replace(&mut of_moment.settings.ready, ready) == ready;
        let same = same_players(&of_moment, &self.board_setup());
        match moment.pages.first() {
            Some(page) if self.room.kept == NotesLocation::Board && same => {
                self.session.arrange(&Arrange::Insert(Arc::clone(page)));
                self.message = Some(
                    if as_audited {
                        text("The moment is a page of this board")
                    } else {
                        text(
                            "The moment is a page of this board, which looks elsewhere for the spot than the report \
                             did",
                        )
                    }
                    .to_owned(),
                );
            }
            _ => self.guarded(ctx, After::Teaching(Pick { board: Arc::new(moment) })),
        }
    }
}

/// Whether two charts are about the same players under the same conditions.
fn same_players(a: &Setup, b: &Setup) -> bool {
    let named =
        |setup: &Setup| Setup { title: String::new(), notes: String::new(), sessions: Vec::new(), ..setup.clone() };
    named(a) == named(b)
}
