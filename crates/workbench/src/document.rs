//! The open document: a board and the notes of a match that are kept with it, in one file and under one history.

use std::{
    cell::RefCell,
    path::{Path, PathBuf},
    sync::Arc,
};

use standpoint_board::{
    Board, History,
    chart::{Chart, Setup},
};
use standpoint_charting::notebook::{Notebook, Recorded};
use standpoint_language::{mark, text};

use crate::selection::Chosen;

/// What new notes are called.
const NEW: &str = mark("New chart");

/// What a step of the history keeps.
#[derive(Debug, Clone)]
pub struct Contents {
    /// The board; its chart is in `notes`, which shares points between steps.
    pub(crate) board: Board,
    pub(crate) notes: Notebook,
}

impl PartialEq for Contents {
    fn eq(&self, other: &Self) -> bool {
        self.board == other.board && self.notes.is_as(&other.notes)
    }
}

/// A board with its notes, their history, and the file that has both.
pub struct Document {
    history: History<Contents, Chosen>,
    path: Option<PathBuf>,
    /// The chart of the notes as last asked for, and their version.
    chart: RefCell<Option<(u64, Arc<Chart>)>>,
}

impl Document {
    /// A document that counts as saved.
    #[must_use]
    pub fn new(mut board: Board, path: Option<PathBuf>) -> Self {
        let notes = match board.chart.take() {
            Some(chart) => Notebook::new(Arc::unwrap_or_clone(chart)),
            None => Notebook::blank(new_notes(&board)),
        };
        let history = History::new(Contents { board, notes }, Chosen::default());
        Self { history, path, chart: RefCell::default() }
    }

    /// The board without its chart, which [`Self::notes`] has.
    #[must_use]
    pub fn board(&self) -> &Board {
        &self.history.doc().board
    }

    /// The notes that are kept with the board.
    #[must_use]
    pub fn notes(&self) -> &Notebook {
        &self.history.doc().notes
    }

    /// The board with its chart: what its file holds.
    #[must_use]
    pub fn whole(&self) -> Board {
        Board { chart: self.chart(), ..self.board().clone() }
    }

    /// The chart to be kept; none while nobody has noted or chosen anything.
    fn chart(&self) -> Option<Arc<Chart>> {
        let notes = self.notes();
        if notes.is_blank() {
            return None;
        }
        let mut known = self.chart.borrow_mut();
        match &*known {
            Some((of, chart)) if *of == notes.version() => Some(Arc::clone(chart)),
            _ => Some(Arc::clone(&known.insert((notes.version(), Arc::new(notes.chart()))).1)),
        }
    }

    /// The file, if there is one.
    #[must_use]
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// The history, for what can be undone.
    #[must_use]
    pub fn history(&self) -> &History<Contents, Chosen> {
        &self.history
    }

    pub(crate) fn history_mut(&mut self) -> &mut History<Contents, Chosen> {
        &mut self.history
    }

    /// Changes the notes: a step of the document where it is one.
    pub fn note<R>(&mut self, change: impl FnOnce(&mut Notebook) -> R) -> R {
        let mut notes = self.notes().clone();
        let (result, recorded) = notes.record(change);
        let chosen = self.history.selection().clone();
        match recorded {
            Recorded::Step { label, series: Some(series) } => {
                self.history.apply_joined(series, label, chosen, |contents| contents.notes = notes);
            }
            Recorded::Step { label, series: None } => {
                self.history.apply(label, chosen, |contents| contents.notes = notes);
            }
            Recorded::Sealed => {
                self.history.seal();
                self.history.amend(|contents| contents.notes = notes);
            }
            Recorded::Nothing => self.history.amend(|contents| contents.notes = notes),
        }
        result
    }

    /// Gives notes that nobody has begun the players and the conditions of the board as it is now. No step.
    pub fn refresh_blank_notes(&mut self) {
        if self.notes().is_blank() {
            let notes = Notebook::blank(new_notes(self.board()));
            self.history.amend(|contents| contents.notes = notes);
        }
    }

    /// Takes the last step back; its label, and whether it was one of the notes.
    pub fn undo(&mut self) -> Option<(&'static str, bool)> {
        self.travel(History::undo)
    }

    /// Makes the step again that was taken back last; its label, and whether it is one of the notes.
    pub fn redo(&mut self) -> Option<(&'static str, bool)> {
        self.travel(History::redo)
    }

    fn travel(
        &mut self,
        go: impl FnOnce(&mut History<Contents, Chosen>) -> Option<&'static str>,
    ) -> Option<(&'static str, bool)> {
        let (version, clock, live) = (self.notes().version(), self.notes().clock(), self.notes().live());
        let label = go(&mut self.history)?;
        // The clock and the way of noting go on, whatever is taken back.
        self.history.amend(|contents| contents.notes.goes_on(clock, live));
        Some((label, self.notes().version() != version))
    }

    /// Whether board and notes are as in the file.
    #[must_use]
    pub fn is_saved(&self) -> bool {
        self.history.is_saved()
    }

    /// Cache key; changes with the board and with its notes.
    #[must_use]
    pub fn revision(&self) -> u64 {
        self.history.revision()
    }

    /// The file holds `written` now, which may not be what stands here any more.
    pub fn written(&mut self, path: PathBuf, written: &Board) {
        self.path = Some(path);
        let same_chart = match (self.chart(), &written.chart) {
            (Some(now), Some(written)) => Arc::ptr_eq(&now, written) || now == *written,
            (now, written) => now.is_none() && written.is_none(),
        };
        let same_board = *self.board() == Board { chart: None, ..written.clone() };
        if same_chart && same_board {
            self.history.mark_saved();
        }
    }
}

/// Players and conditions of notes that are to be begun beside a board.
#[must_use]
pub fn new_notes(board: &Board) -> Setup {
    Setup { title: text(NEW).to_owned(), ..Setup::of_board(board) }
}

#[cfg(test)]
mod tests {
    use glam::dvec2;
    use standpoint_charting::invented::{self, Habit};

    use super::*;
    use crate::{edit::Edit, session::Session};

    fn typed(document: &mut Document, title: &str) {
        document.note(|notes| notes.set_title(title.to_owned()));
    }

    #[test]
    fn notes_are_kept_once_somebody_has_noted_or_chosen_something() {
        let mut document = Document::new(Board::demo(), None);
        assert!(document.whole().chart.is_none() && document.is_saved());
        typed(&mut document, "Sunday");
        assert_eq!(document.whole().chart.unwrap().setup.title, "Sunday");
        assert!(!document.is_saved());
        assert_eq!(document.undo(), Some(("Title of the chart", true)));
        assert!(document.whole().chart.is_none() && document.is_saved());
    }

    #[test]
    fn a_chart_comes_from_the_file_and_goes_back_as_it_was() {
        let chart = invented::chart(&Setup::default(), 3, 2, [Habit::EXPERT, Habit::MIDDLE]);
        let board = Board { chart: Some(Arc::new(chart)), ..Board::demo() };
        let document = Document::new(board.clone(), None);
        assert_eq!(document.whole(), board);
        assert!(Arc::ptr_eq(&document.whole().chart.unwrap(), &document.whole().chart.unwrap()), "it is made once");
    }

    #[test]
    fn board_and_notes_are_taken_back_in_the_order_in_which_they_were_changed() {
        let mut session = Session::new(Board::demo(), None);
        let target = session.board().shot(0, 0).unwrap().shot.target;
        session.edit(&Edit::Target(dvec2(1.0, 9.0)));
        session.note(|notes| notes.set_title("Sunday".to_owned()));
        session.note(|notes| notes.set_title("Sunday 3".to_owned()));
        session.edit(&Edit::Speed(31.0));
        assert_eq!(session.history().steps(), (3, 0), "typing is one step");
        let revision = session.document().revision();
        assert_eq!(session.undo().unwrap(), "Undone: Speed");
        assert_eq!(session.undo().unwrap(), "Undone in the notes: Title of the chart");
        assert!(session.document().notes().is_blank() && session.document().revision() > revision);
        session.undo();
        assert_eq!(session.board().shot(0, 0).unwrap().shot.target, target);
        assert!(session.document().is_saved());
        (0..3).for_each(|_| drop(session.redo()));
        assert_eq!(session.document().notes().setup().title, "Sunday 3");
        assert!((session.board().shot(0, 0).unwrap().shot.speed - 31.0).abs() < 1e-9);
    }

    #[test]
    fn what_was_written_counts_as_saved_only_while_it_stands() {
        let mut document = Document::new(Board::demo(), None);
        typed(&mut document, "Sunday");
        let written = document.whole();
        typed(&mut document, "Monday");
        document.written("a.standpoint".into(), &written);
        assert!(!document.is_saved());
        let written = document.whole();
        document.written("a.standpoint".into(), &written);
        assert!(document.is_saved());
    }

    #[test]
    fn taking_a_shot_up_is_no_step_and_stays_when_the_next_one_is_taken_back() {
        let chart = invented::chart(&Setup::default(), 3, 2, [Habit::EXPERT, Habit::MIDDLE]);
        let mut document = Document::new(Board { chart: Some(Arc::new(chart)), ..Board::demo() }, None);
        let shots = document.notes().shots();
        document.note(|notes| notes.pick_beside(true));
        assert!(document.is_saved() && document.history().undo_label().is_none());
        document.note(Notebook::pick_remove);
        assert_eq!(document.notes().shots(), shots - 1);
        document.undo();
        assert!(document.notes().picked().is_some() && document.notes().shots() == shots);
    }
}
