//! Where notes are kept: with the board or in a file of their own, and how they come from one to the other.

use std::{path::PathBuf, sync::Arc};

use egui::Context;
use standpoint_board::{
    Board,
    chart::{Chart, Setup},
    store::Stamp,
};
use standpoint_charting::audit::AuditedShot;
use standpoint_language::{mark, text};
use standpoint_ui::commands::choices::Pick;
use standpoint_workbench::{arrange::Arrange, chart::NotesLocation};

use crate::{app::App, background_io::Stamped, dialogs::After};

/// What new notes are called.
const NEW: &str = mark("New chart");

impl App {
    /// Opens the room; notes that nobody has begun have the players of the board.
    pub(super) fn enter_room(&mut self) {
        for kept in NotesLocation::ALL {
            if self.room.source(kept).is_untouched() {
                let setup = self.new_notes();
                self.room.source_mut(kept).clear(setup);
            }
        }
        self.room.open = true;
        (self.room.message, self.message) = (None, None);
    }

    pub(super) fn board_setup(&self) -> Setup {
        Setup::of_board(self.session.board())
    }

    fn new_notes(&self) -> Setup {
        Setup { title: text(NEW).to_owned(), ..self.board_setup() }
    }

    /// The board with the notes that are kept with it: what is written to its file.
    pub(crate) fn whole_board(&self) -> Board {
        Board { chart: self.room.source(NotesLocation::Board).chart(), ..self.session.board().clone() }
    }

    /// Whether the board is as in its file, the notes that are kept with it included.
    pub(crate) fn board_is_saved(&self) -> bool {
        self.session.history().is_saved() && self.room.source(NotesLocation::Board).notes.is_saved()
    }

    /// Whether the notes that are in a file of their own are as in that file.
    pub(crate) fn notes_are_saved(&self) -> bool {
        self.room.source(NotesLocation::Alone).is_saved_alone()
    }

    /// Another board with its notes in the place of what is there.
    pub(crate) fn put_chart_of_board(&mut self, board: &mut Board) {
        let chart = board.chart.take();
        let setup = Setup { title: text(NEW).to_owned(), ..Setup::of_board(board) };
        self.room.take_chart_of_board(chart, setup);
    }

    /// A chart from a file of its own.
    pub(crate) fn put_notes(&mut self, chart: Chart, file: Option<(PathBuf, Stamped)>) {
        let (path, stamp) = file.unzip();
        self.room.worker.stop();
        self.room.source_mut(NotesLocation::Alone).replace(chart, path);
        self.room.source_mut(NotesLocation::Alone).stamp = stamp.flatten();
        (self.room.kept, self.room.open) = (NotesLocation::Alone, true);
    }

    /// A chart that was left by a crash.
    pub(crate) fn put_left_notes(&mut self, chart: Chart, path: Option<PathBuf>) {
        let file = path.map(|path| {
            let stamp = Stamp::at(&path).ok();
            (path, stamp)
        });
        self.put_notes(chart, file);
        self.room.source_mut(NotesLocation::Alone).notes.unsaved();
    }

    /// Works on the notes that are kept so.
    pub(super) fn keep_notes(&mut self, kept: NotesLocation) {
        if !self.room.open {
            self.enter_room();
        }
        self.room.kept = kept;
    }

    /// Keeps the notes the other way. They come behind those that are there already, if there are any.
    pub(super) fn move_notes(&mut self) {
        let (from, to) = (self.room.kept, self.room.kept.other());
        let moved = self.room.source(from).notes.chart();
        let there = self.room.source(to);
        if there.is_blank() {
            self.room.source_mut(to).notes.set_chart(mark("Move the notes here"), moved);
        } else if same_players(there.notes.setup(), &moved.setup) {
            let points = self.room.source(from).notes.points().to_vec();
            self.room.source_mut(to).notes.add_points(mark("Move the notes here"), &points, &moved.setup.sessions);
        } else {
            let said = text(
                "There are notes of other players or conditions already: save these under a name of their own, or delete \
                 those first",
            );
            self.room.message = Some(said.to_owned());
            return;
        }
        let setup = self.new_notes();
        self.room.source_mut(from).empty(mark("Move the notes away"), setup);
        self.room.kept = to;
        self.room.message = Some(to.moved().to_owned());
    }

    /// Opens a moment of the audit: on a page of the board that has the notes, or else as a board.
    pub(super) fn open_moment(&mut self, ctx: &Context, shot: &AuditedShot) {
        let Some(moment) = shot.board(self.room.notes().setup()) else { return };
        self.room.open = false;
        // Where the board looks for the spot is one setting for all of its pages.
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
