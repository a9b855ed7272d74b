//! The notes of a match, and where they are kept: with the board, in its file, or in a file of their own.

use std::{cell::RefCell, path::PathBuf, sync::Arc};

use standpoint_board::{
    chart::{Chart, Setup},
    store::Stamp,
};
use standpoint_charting::notebook::Notebook;
use standpoint_language::text;

use super::worker::Audited;

/// Where notes are kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum NotesLocation {
    /// In a file of their own.
    #[default]
    Alone,
    /// With the board, in its file.
    Board,
}

impl NotesLocation {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Alone, Self::Board];

    /// The other one.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Alone => Self::Board,
            Self::Board => Self::Alone,
        }
    }

    /// What notes that are kept so are called.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::Alone => text("In a file of their own"),
            Self::Board => text("With the board"),
        }
    }

    /// The same as a sentence of its own.
    #[must_use]
    pub fn phrase(self) -> &'static str {
        match self {
            Self::Alone => text("Notes in a file of their own"),
            Self::Board => text("Notes with the board"),
        }
    }

    /// What it means.
    #[must_use]
    pub fn hint(self) -> &'static str {
        match self {
            Self::Alone => text("Notes in a chart file, whatever board is open"),
            Self::Board => text("Notes in the board's file: they are opened and saved with it"),
        }
    }

    /// What is said when they have been moved there.
    #[must_use]
    pub fn moved(self) -> &'static str {
        match self {
            Self::Alone => text("The notes are in a file of their own from now on; save to keep them there"),
            Self::Board => text("The notes are with the board from now on; save to keep them there"),
        }
    }

    /// The command that moves notes there.
    #[must_use]
    pub fn moving(self) -> &'static str {
        match self {
            Self::Alone => text("Move these notes to a file of their own"),
            Self::Board => text("Move these notes to the board"),
        }
    }
}

/// Notes, with what belongs to them.
pub struct ChartSource {
    /// The notes.
    pub notes: Notebook,
    /// Their file; those with the board are in the board's.
    pub path: Option<PathBuf>,
    /// What that file was like when it was last read or written.
    pub stamp: Option<Stamp>,
    /// The last audit of them.
    pub audited: Option<Arc<Audited>>,
    /// Players and conditions as long as nobody has chosen them: notes that have only these are no notes yet.
    blank: Option<Arc<Setup>>,
    /// Tells apart notes that were put in each other's place.
    generation: u64,
    /// The chart as last asked for, and its version.
    chart: RefCell<Option<(u64, Arc<Chart>)>>,
}

impl ChartSource {
    /// Notes that are to be begun.
    pub fn blank(setup: Setup) -> Self {
        let notes = Notebook::new(Chart::new(setup));
        let blank = Some(Arc::clone(notes.setup()));
        Self { notes, path: None, stamp: None, audited: None, blank, generation: 0, chart: RefCell::default() }
    }

    /// Other notes in the place of these.
    pub fn replace(&mut self, chart: Chart, path: Option<PathBuf>) {
        let generation = self.generation + 1;
        *self = Self { path, generation, blank: None, ..Self::blank(Setup::default()) };
        self.notes = Notebook::new(chart);
    }

    /// No notes in the place of these.
    pub fn clear(&mut self, setup: Setup) {
        *self = Self { generation: self.generation + 1, ..Self::blank(setup) };
    }

    /// Takes the notes away, as one step; they have no file from then on.
    pub fn empty(&mut self, label: &'static str, setup: Setup) {
        self.notes.set_chart(label, Chart::new(setup));
        self.blank = Some(Arc::clone(self.notes.setup()));
        (self.path, self.stamp) = (None, None);
    }

    /// Whether all that is here is saved, or there is nothing that could be.
    pub fn is_saved_alone(&self) -> bool {
        self.notes.is_saved() || (self.is_blank() && self.path.is_none())
    }

    /// Whether there is nothing here that anybody has noted or chosen.
    #[must_use]
    pub fn is_blank(&self) -> bool {
        self.notes.points().is_empty() && self.blank.as_ref() == Some(self.notes.setup())
    }

    /// Whether nothing has ever been done to them, so that other players may take their place unasked.
    pub fn is_untouched(&self) -> bool {
        self.is_blank() && self.notes.undo_label().is_none() && self.notes.redo_label().is_none()
    }

    /// The notes, for tests and for what is built around the window.
    #[must_use]
    pub fn notes(&self) -> &Notebook {
        &self.notes
    }

    /// Their file, where they have one of their own.
    #[must_use]
    pub fn path(&self) -> Option<&std::path::Path> {
        self.path.as_deref()
    }

    /// The chart to be kept; none while nobody has noted or chosen anything.
    #[must_use]
    pub fn chart(&self) -> Option<Arc<Chart>> {
        if self.is_blank() {
            return None;
        }
        let mut known = self.chart.borrow_mut();
        let version = self.notes.version();
        match &*known {
            Some((of, chart)) if *of == version => Some(Arc::clone(chart)),
            _ => Some(Arc::clone(&known.insert((version, Arc::new(self.notes.chart()))).1)),
        }
    }

    /// What was written is this chart; whether it is what stands here now.
    pub fn written(&mut self, chart: Option<&Arc<Chart>>) {
        let now = self.chart();
        let same = match (chart, &now) {
            (Some(written), Some(now)) => Arc::ptr_eq(written, now) || written == now,
            (written, now) => written.is_none() && now.is_none(),
        };
        if same {
            self.notes.saved(self.notes.version());
        }
    }

    /// Cache key; changes with the notes.
    #[must_use]
    pub fn revision(&self) -> u64 {
        (self.generation << 40) ^ self.notes.version()
    }
}

#[cfg(test)]
mod tests {
    use standpoint_charting::invented::{self, Habit};

    use super::*;

    #[test]
    fn notes_are_kept_once_somebody_has_noted_or_chosen_something() {
        let mut source = ChartSource::blank(Setup::default());
        assert!(source.chart().is_none() && source.is_untouched());
        source.notes.set_title("Sunday".to_owned());
        assert_eq!(source.chart().unwrap().setup.title, "Sunday");
        source.notes.undo();
        assert!(source.chart().is_none() && source.is_blank() && !source.is_untouched());
        let before = source.revision();
        source.replace(invented::chart(&Setup::default(), 3, 2, [Habit::EXPERT, Habit::MIDDLE]), None);
        assert_ne!(source.revision(), before);
        assert!(Arc::ptr_eq(&source.chart().unwrap(), &source.chart().unwrap()), "it is made once");
    }

    #[test]
    fn notes_count_as_saved_when_what_was_written_is_what_they_are() {
        let mut source = ChartSource::blank(Setup::default());
        source.notes.set_title("Sunday".to_owned());
        let written = source.chart();
        source.notes.set_title("Monday".to_owned());
        source.written(written.as_ref());
        assert!(!source.notes.is_saved());
        let written = source.chart();
        source.written(written.as_ref());
        assert!(source.notes.is_saved());
    }
}
