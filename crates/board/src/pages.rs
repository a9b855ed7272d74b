//! Operations on pages: insert, duplicate, move, remove, mirror and turn.

use std::sync::Arc;

use glam::{DVec2, DVec3};
use standpoint_geometry::{ReceiptChoice, Shot};

use crate::model::{Board, Page, ShotSpec};

impl Board {
    /// Inserts a page before the one with this index, or at the end, and returns its index.
    pub fn insert_page(&mut self, index: usize, page: Page) -> usize {
        let index = index.min(self.pages.len());
        self.pages.insert(index, Arc::new(page));
        index
    }

    /// Duplicates a page and returns the index of the copy, after the page. Both share everything until one is changed.
    pub fn duplicate_page(&mut self, index: usize) -> Option<usize> {
        let page = Arc::clone(self.pages.get(index)?);
        self.pages.insert(index + 1, page);
        Some(index + 1)
    }

    /// Moves a page so that it has the index `to` afterwards. Returns whether anything has changed.
    pub fn move_page(&mut self, from: usize, to: usize) -> bool {
        if from >= self.pages.len() || to >= self.pages.len() || from == to {
            return false;
        }
        let page = self.pages.remove(from);
        self.pages.insert(to, page);
        true
    }

    /// Removes a page, but not the last one. Returns whether it was removed.
    pub fn remove_page(&mut self, index: usize) -> bool {
        let can = self.pages.len() > 1 && index < self.pages.len();
        if can {
            self.pages.remove(index);
        }
        can
    }

    /// Turns one page by half a turn: the two players swap roles. The players keep their ends.
    pub fn turn_page(&mut self, index: usize) {
        if let Some(page) = self.page_mut(index) {
            *page = page.turned();
        }
    }

    /// Mirrors the whole board, players too: right-handers become left-handers. Every answer is
    /// the mirror image of what it was.
    pub fn mirror(&mut self) {
        self.pages.iter_mut().for_each(|page| *page = Arc::new(page.mirrored()));
        self.near.mirror();
        self.far.mirror();
    }

    /// Turns the board by half a turn: the players change ends with everything. Every answer stays the same.
    pub fn swap_ends(&mut self) {
        self.pages.iter_mut().for_each(|page| *page = Arc::new(page.turned()));
        std::mem::swap(&mut self.near, &mut self.far);
        self.coached = self.coached.other();
    }
}

impl Page {
    /// The page mirrored left to right: shots, places and marks.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        let mut page = self.clone();
        page.shots.iter_mut().for_each(|shot| *shot = shot.mirrored());
        page.marks.list.iter_mut().for_each(|mark| mark.form = mark.form.mirrored());
        page
    }

    /// The page turned by half a turn about the middle of the net: shots, places and marks.
    #[must_use]
    pub fn turned(&self) -> Self {
        let mut page = self.clone();
        page.shots.iter_mut().for_each(|shot| *shot = shot.turned());
        page.marks.list.iter_mut().for_each(|mark| mark.form = mark.form.turned());
        page
    }
}

impl ShotSpec {
    /// The shot struck from the other end: turned by half a turn about the middle of the net.
    #[must_use]
    pub fn turned(&self) -> Self {
        Self { hitter_end: self.hitter_end.other(), ..self.mapped(|place| -place) }
    }

    /// The shot mirrored left to right; sidespin curves the ball to the other side.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        let mut spec = self.mapped(|place| DVec2::new(-place.x, place.y));
        spec.shot.sidespin = -spec.shot.sidespin;
        spec
    }

    /// The shot with all its places mapped; heights stay.
    #[must_use]
    pub fn mapped(&self, rule: impl Fn(DVec2) -> DVec2) -> Self {
        // Adding 0 turns -0 into 0, so that mirroring a place on the middle line changes nothing.
        let rule = |place| rule(place) + DVec2::ZERO;
        let contact: DVec3 = rule(self.shot.contact.truncate()).extend(self.shot.contact.z);
        Self {
            shot: Shot { contact, target: rule(self.shot.target), ..self.shot },
            receipt: match self.receipt {
                ReceiptChoice::Best => ReceiptChoice::Best,
                ReceiptChoice::Near(place) => ReceiptChoice::Near(rule(place)),
            },
            hitter_place: self.hitter_place.map(rule),
            opponent_place: rule(self.opponent_place),
            recover_to: self.recover_to.map(rule),
            ..*self
        }
    }
}

#[cfg(test)]
mod tests;
