//! Checks of marks, and of the total size of a board.

use std::collections::HashSet;

use glam::DVec2;

use super::{Check, SLACK};
use crate::file::fields::Named;
use crate::file::tree::VALUE_LIMIT;
use crate::marks::{Appears, Form, Mark, Marks};
use crate::model::Board;
use crate::problem::ProblemKind;

/// Marks on a page.
pub const MARK_LIMIT: usize = 10_000;
/// Points of a line drawn by hand: some minutes of continuous drawing.
pub const POINT_LIMIT: usize = 10_000;
/// Characters of a text on the court.
pub const WORDS_LIMIT: usize = 2_000;
/// Letters of a person's mark.
pub const LETTER_LIMIT: usize = 2;

/// Upper bounds on the values of each part in a file; a value is a number, a text, a name or a bracketed group.
mod values {
    /// The board without its pages.
    pub const BOARD: usize = 120;
    /// A page without what it lists.
    pub const PAGE: usize = 7;
    /// A shot.
    pub const SHOT: usize = 32;
    /// A mark without the points of a pen.
    pub const MARK: usize = 14;
    /// When a mark appears in a presentation.
    pub const APPEARS: usize = 3;
    /// A point of a pen.
    pub const POINT: usize = 3;
}

impl Check {
    pub(super) fn marks(&mut self, page: &str, marks: &Marks) {
        self.few(&format!("{page}.marks"), standpoint_language::mark("marks"), marks.list.len(), MARK_LIMIT);
        let mut ids = HashSet::new();
        for (i, mark) in marks.list.iter().enumerate() {
            let role = format!("{page}.marks[{i}]");
            self.number(&format!("{role}.id"), f64::from(mark.id), (1.0, f64::from(u32::MAX)), "");
            if mark.id > 0 && !ids.insert(mark.id) {
                self.add(&format!("{role}.id"), ProblemKind::SameId { id: mark.id });
            }
            self.mark(&format!("{role}.form"), mark);
        }
        for (i, layer) in marks.hidden.iter().enumerate() {
            if marks.hidden[..i].contains(layer) {
                self.add(&format!("{page}.hidden_layers[{i}]"), ProblemKind::NameTwice { name: layer.name() });
            }
        }
    }

    fn mark(&mut self, role: &str, mark: &Mark) {
        let part = |name: &str| format!("{role}.{name}");
        match &mark.form {
            Form::Pen { points, .. } => {
                let role = part("points");
                if points.len() < 2 {
                    self.add(&role, ProblemKind::TooFewPoints { found: points.len() });
                }
                self.few(&role, standpoint_language::mark("points"), points.len(), POINT_LIMIT);
                let limits = self.area.mark_limits() + SLACK;
                for (i, point) in points.iter().enumerate() {
                    // Building the role of each point would dominate the cost.
                    if !(point.x.abs() <= limits.x && point.y.abs() <= limits.y) {
                        self.mark_place(&format!("{role}[{i}]"), *point);
                    }
                }
            }
            Form::Arrow { from, to, bend, .. } => {
                self.mark_place(&part("from"), *from);
                self.mark_place(&part("to"), *to);
                self.number(&part("bend"), *bend, (-50.0, 50.0), "m");
            }
            Form::Text { at, text, size } => {
                self.mark_place(&part("at"), *at);
                self.text(&part("text"), text, WORDS_LIMIT, &['\n', '\r', '\t']);
                self.number(&part("size"), *size, (0.05, 5.0), "m");
            }
            Form::Cone { at } | Form::Basket { at } => self.mark_place(&part("at"), *at),
            Form::Person { at, letter } => {
                self.mark_place(&part("at"), *at);
                self.text(&part("letter"), letter, LETTER_LIMIT, &[]);
            }
            Form::Zone { from, to, .. } => {
                self.mark_place(&part("from"), *from);
                self.mark_place(&part("to"), *to);
            }
        }
    }

    fn mark_place(&mut self, role: &str, place: DVec2) {
        let limits = self.area.mark_limits();
        for (axis, found, limit) in [("x", place.x, limits.x), ("y", place.y, limits.y)] {
            let role = format!("{role}.{axis}");
            if !found.is_finite() {
                self.add(&role, ProblemKind::NotFinite { found });
            } else if found.abs() > limit + SLACK {
                self.add_resting(&role, ProblemKind::TooFarOff { found, limit }, "court".to_owned());
            }
        }
    }

    /// Whether the file of this board could be read back.
    pub(super) fn amount(&mut self, board: &Board) {
        let of_page = |page: &crate::model::Page| {
            let timed = page.marks.list.iter().filter(|mark| mark.appears != Appears::AT_ONCE).count();
            let points = page.marks.list.iter().map(|mark| match &mark.form {
                Form::Pen { points, .. } => points.len(),
                _ => 0,
            });
            values::PAGE
                + page.cues.len()
                + page.marks.hidden.len()
                + page.shots.len() * values::SHOT
                + page.marks.list.len() * values::MARK
                + timed * values::APPEARS
                + points.sum::<usize>() * values::POINT
        };
        let values = values::BOARD + board.pages.iter().map(|page| of_page(page)).sum::<usize>();
        if values > VALUE_LIMIT {
            self.add("", ProblemKind::TooManyValues { limit: VALUE_LIMIT });
        }
    }
}
