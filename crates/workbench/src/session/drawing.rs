//! Marks of the page being looked at.

use standpoint_board::marks::{MarkId, Marks};

use super::Session;
use crate::{selection::Chosen, sketch::draw::Draw};

impl Session {
    /// The marks of the page being looked at.
    #[must_use]
    pub fn marks(&self) -> Option<&Marks> {
        self.page().map(|page| &page.marks)
    }

    /// The chosen marks.
    #[must_use]
    pub fn chosen(&self) -> &[MarkId] {
        &self.history().selection().marks
    }

    /// Chooses marks; this alone is no step.
    pub fn choose(&mut self, marks: Vec<MarkId>) {
        if marks != self.chosen() {
            let at = self.selection();
            self.document.history_mut().select(Chosen { at, marks });
        }
    }

    /// Changes marks of the page: part of the open gesture, or else a step of its own. No answer depends on marks.
    pub fn draw(&mut self, draw: &Draw) {
        let history = self.document.history_mut();
        let mut chosen = history.selection().clone();
        let page = chosen.at.page;
        if history.in_gesture() {
            draw.apply(&mut history.doc_mut().board, page, &mut chosen.marks);
            history.select(chosen);
        } else if let Some(series) = draw.series() {
            let mut same = chosen.marks.clone();
            history.apply_joined(series, draw.label(), chosen, |contents| {
                draw.apply(&mut contents.board, page, &mut same);
            });
        } else {
            history.begin(draw.label());
            draw.apply(&mut history.doc_mut().board, page, &mut chosen.marks);
            history.commit(chosen);
        }
    }

    /// The chosen marks as long as the page stays the same.
    pub(super) fn marks_on(&self, page: usize) -> Vec<MarkId> {
        if page == self.selection().page { self.chosen().to_vec() } else { Vec::new() }
    }
}
