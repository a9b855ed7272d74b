//! Blank notebooks: they have players and conditions, but no chart to keep.

use std::sync::Arc;

use standpoint_board::chart::model::{Chart, Setup};

use super::Notebook;
use super::state::State;

impl Notebook {
    /// A blank notebook, with default players and conditions.
    #[must_use]
    pub fn blank(setup: Setup) -> Self {
        let mut notes = Self::new(Chart::new(setup));
        notes.now.blank = Some(Arc::clone(&notes.now.setup));
        notes
    }

    /// Whether nothing has been noted or chosen.
    #[must_use]
    pub fn is_blank(&self) -> bool {
        self.now.points.is_empty() && self.now.blank.as_ref() == Some(&self.now.setup)
    }

    /// Empties the notebook as one step; afterwards it counts as blank.
    pub fn empty(&mut self, label: &'static str, setup: Setup) {
        let blank = Self::blank(setup).now;
        self.change(label, |state| *state = State { version: state.version, ..blank });
    }
}
