//! The notes of a match, and where they are kept: with the board, in its file, or in a file of their own.

use std::path::PathBuf;

use standpoint_board::{
    chart::{Chart, Setup},
    store::Stamp,
};
use standpoint_charting::notebook::Notebook;
use standpoint_language::text;

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

    /// Name of the location.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::Alone => text("In a file of their own"),
            Self::Board => text("With the board"),
        }
    }

    /// The location as a phrase that stands alone.
    #[must_use]
    pub fn phrase(self) -> &'static str {
        match self {
            Self::Alone => text("Notes in a file of their own"),
            Self::Board => text("Notes with the board"),
        }
    }

    /// Hint that explains it.
    #[must_use]
    pub fn hint(self) -> &'static str {
        match self {
            Self::Alone => text("Notes in a chart file, whatever board is open"),
            Self::Board => text("Notes in the board's file: they are opened and saved with it"),
        }
    }

    /// Message after the notes have been moved there.
    #[must_use]
    pub fn moved(self) -> &'static str {
        match self {
            Self::Alone => text("The notes are in a file of their own from now on; save to keep them there"),
            Self::Board => text("The notes are with the board from now on; save to keep them there"),
        }
    }

    /// Label of the command that moves notes there.
    #[must_use]
    pub fn moving(self) -> &'static str {
        match self {
            Self::Alone => text("Move these notes to a file of their own"),
            Self::Board => text("Move these notes to the board"),
        }
    }
}

/// Notes in a file of their own, with what belongs to them.
pub struct ChartSource {
    /// The notes.
    pub notes: Notebook,
    /// Their file.
    pub path: Option<PathBuf>,
    /// What that file was like when it was last read or written.
    pub stamp: Option<Stamp>,
}

impl ChartSource {
    /// Notes that nobody has begun.
    #[must_use]
    pub fn blank(setup: Setup) -> Self {
        Self { notes: Notebook::blank(setup), path: None, stamp: None }
    }

    /// Replaces the notes.
    pub fn replace(&mut self, chart: Chart, path: Option<PathBuf>) {
        *self = Self { notes: Notebook::new(chart), path, stamp: None };
    }

    /// Empties the notes as one step; afterwards they have no file.
    pub fn empty(&mut self, label: &'static str, setup: Setup) {
        self.notes.empty(label, setup);
        (self.path, self.stamp) = (None, None);
    }

    /// Whether everything is saved, or there is nothing to save.
    #[must_use]
    pub fn is_saved(&self) -> bool {
        self.notes.is_saved() || (self.notes.is_blank() && self.path.is_none())
    }

    /// Whether the notes were never changed, so that their players may be replaced without asking.
    #[must_use]
    pub fn is_untouched(&self) -> bool {
        self.notes.is_blank() && self.notes.undo_label().is_none() && self.notes.redo_label().is_none()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn notes_that_were_begun_and_taken_back_are_blank_but_not_untouched() {
        let mut source = ChartSource::blank(Setup::default());
        assert!(source.is_untouched());
        source.notes.set_title("Sunday".to_owned());
        assert!(!source.notes.is_blank() && !source.is_saved());
        source.notes.undo();
        assert!(source.notes.is_blank() && !source.is_untouched());
        let before = source.notes.version();
        source.replace(Chart::new(Setup::default()), None);
        assert_ne!(source.notes.version(), before, "versions tell notes apart that took each other's place");
    }
}
