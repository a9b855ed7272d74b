//! Changes of the marks of a page, and how each is applied.

use glam::DVec2;
use standpoint_board::{
    Board,
    marks::{Appears, Form, Ink, Layer, Mark, MarkId, Marks, Pattern},
};
use standpoint_language::mark;

/// Offset of a copy from the original, m.
pub const COPY_OFFSET: DVec2 = DVec2::new(0.6, -0.6);

/// A change of the marks of the page being looked at. Places are in the world frame.
#[derive(Debug, Clone, PartialEq)]
pub enum Draw {
    /// A new mark on top; it is chosen.
    Add(Ink, Form),
    /// Changes the form of a mark.
    Put(MarkId, Form),
    /// Moves marks.
    Shift(Vec<MarkId>, DVec2),
    /// Copies marks; the copies are chosen.
    Copy(Vec<MarkId>, DVec2),
    /// Puts marks on the page, with their layers in sight; they are chosen. Those that would lie on the very marks that
    /// they are copies of are put beside them.
    Paste(Vec<Mark>),
    /// Takes marks away.
    Remove(Vec<MarkId>),
    /// Changes the ink of marks.
    Ink(Vec<MarkId>, Ink),
    /// Changes from when on marks are there in a presentation.
    Appear(Vec<MarkId>, Appears),
    /// Switches between solid and dashed lines.
    SwapPattern(Vec<MarkId>),
    /// Shows or hides a layer.
    Show(Layer, bool),
    /// Shows every layer.
    ShowAll,
}

impl Draw {
    /// Label of the step in menus.
    #[must_use]
    pub fn label(&self) -> &'static str {
        match self {
            Self::Add(_, form) => match form {
                Form::Pen { .. } => mark("Draw a line"),
                Form::Arrow { .. } => mark("Draw an arrow"),
                Form::Text { .. } => mark("Write text"),
                Form::Cone { .. } => mark("Place a cone"),
                Form::Basket { .. } => mark("Place a ball basket"),
                Form::Person { .. } => mark("Place a player"),
                Form::Zone { .. } => mark("Draw a zone"),
            },
            Self::Put(..) => mark("Change a mark"),
            Self::Shift(..) => mark("Move marks"),
            Self::Copy(..) => mark("Duplicate marks"),
            Self::Paste(_) => mark("Paste marks"),
            Self::Remove(_) => mark("Delete marks"),
            Self::Ink(..) => mark("Change the colour"),
            Self::Appear(..) => mark("Change when marks appear"),
            Self::SwapPattern(_) => mark("Change the pattern"),
            Self::Show(_, true) => mark("Show a layer"),
            Self::Show(_, false) => mark("Hide a layer"),
            Self::ShowAll => mark("Show all layers"),
        }
    }

    /// Key of the series that repeated changes of this kind join, for those that do.
    #[must_use]
    pub fn series(&self) -> Option<u64> {
        use std::hash::{DefaultHasher, Hash as _, Hasher as _};
        let Self::Shift(ids, _) = self else { return None };
        let mut hasher = DefaultHasher::new();
        ("marks move", ids).hash(&mut hasher);
        Some(hasher.finish())
    }

    /// Makes the change and sets the marks chosen after it. Places are clamped to where marks may lie.
    pub fn apply(&self, board: &mut Board, page: usize, chosen: &mut Vec<MarkId>) {
        let area = board.play_area();
        let keep = |p: DVec2| area.clamp_mark(p);
        let Some(page) = board.page_mut(page) else { return };
        let marks = &mut page.marks;
        match self {
            Self::Add(ink, form) => *chosen = vec![marks.add(layer_of(form), *ink, kept(form, keep))],
            Self::Put(id, form) => {
                if let Some(mark) = marks.get_mut(*id) {
                    mark.form = kept(form, keep);
                }
            }
            Self::Shift(ids, by) => {
                let by = allowed(marks, ids, *by, keep);
                marks.shift(ids, by);
            }
            Self::Copy(ids, by) => {
                let by = allowed(marks, ids, *by, keep);
                *chosen = marks.copy(ids, by);
            }
            Self::Paste(pasted) => *chosen = paste(marks, pasted, page.shots.len(), keep),
            Self::Remove(ids) => {
                marks.remove(ids);
                chosen.retain(|id| !ids.contains(id));
            }
            Self::Ink(ids, ink) => {
                for mark in marks.list.iter_mut().filter(|m| ids.contains(&m.id)) {
                    mark.ink = *ink;
                }
            }
            Self::Appear(ids, appears) => {
                for mark in marks.list.iter_mut().filter(|m| ids.contains(&m.id)) {
                    mark.appears = *appears;
                }
            }
            Self::SwapPattern(ids) => swap_patterns(marks, ids),
            Self::ShowAll => marks.hidden.clear(),
            Self::Show(layer, shown) => {
                marks.show(*layer, *shown);
                // Hidden marks are not chosen.
                chosen.retain(|id| marks.get(*id).is_some_and(|m| marks.shows(m.layer)));
            }
        }
    }
}

/// Puts marks on a page and says their numbers.
fn paste(marks: &mut Marks, pasted: &[Mark], shots: usize, keep: impl Fn(DVec2) -> DVec2 + Copy) -> Vec<MarkId> {
    let taken = |by: DVec2| {
        let form = |one: &Mark| kept(&one.form.moved(by), keep);
        pasted.iter().any(|one| marks.list.iter().any(|there| there.form == form(one)))
    };
    // Beside the copies of copies too, as long as there is room.
    let by = (0..50).map(|n| COPY_OFFSET * f64::from(n)).find(|by| !taken(*by)).unwrap_or(COPY_OFFSET);
    pasted
        .iter()
        .map(|one| {
            marks.show(one.layer, true);
            let here = Mark { appears: one.appears.within(shots), ..one.clone() };
            marks.add_copy(&here, kept(&one.form.moved(by), keep))
        })
        .collect()
}

fn swap_patterns(marks: &mut Marks, ids: &[MarkId]) {
    for mark in marks.list.iter_mut().filter(|m| ids.contains(&m.id)) {
        if let Form::Pen { pattern, .. } | Form::Arrow { pattern, .. } = &mut mark.form {
            *pattern = if *pattern == Pattern::Solid { Pattern::Dashed } else { Pattern::Solid };
        }
    }
}

/// The layer a new mark goes to.
#[must_use]
pub fn layer_of(form: &Form) -> Layer {
    match form {
        Form::Pen { .. } | Form::Arrow { .. } => Layer::Sketch,
        Form::Text { .. } => Layer::Notes,
        Form::Cone { .. } | Form::Basket { .. } | Form::Person { .. } | Form::Zone { .. } => Layer::Drill,
    }
}

/// The anchor of a mark during a move: its place, beginning or first corner.
#[must_use]
pub fn anchor(form: &Form) -> DVec2 {
    match form {
        Form::Pen { points, .. } => points.first().copied().unwrap_or_default(),
        Form::Arrow { from, .. } | Form::Zone { from, .. } => *from,
        Form::Text { at, .. } | Form::Cone { at } | Form::Basket { at } | Form::Person { at, .. } => *at,
    }
}

/// The form with every place clamped to where marks may lie.
pub fn kept(form: &Form, keep: impl Fn(DVec2) -> DVec2) -> Form {
    match form.mapped(keep) {
        Form::Arrow { from, to, bend, pattern } => Form::Arrow { from, to, bend: bend.clamp(-20.0, 20.0), pattern },
        other => other,
    }
}

/// The displacement, shortened so that all marks stay where they may lie.
fn allowed(marks: &Marks, ids: &[MarkId], by: DVec2, keep: impl Fn(DVec2) -> DVec2) -> DVec2 {
    let places = marks.list.iter().filter(|m| ids.contains(&m.id)).flat_map(|m| m.form.outline());
    places.fold(by, |by, place| {
        let may = keep(place + by) - place;
        // Each axis separately, never farther than asked for.
        DVec2::new(lesser(by.x, may.x), lesser(by.y, may.y))
    })
}

fn lesser(a: f64, b: f64) -> f64 {
    if b.abs() < a.abs() { b } else { a }
}

/// The first letter that no person on the page has.
#[must_use]
pub fn next_letter(marks: &Marks) -> String {
    let taken = |c: char| {
        marks.list.iter().any(|m| matches!(&m.form, Form::Person { letter, .. } if letter.eq_ignore_ascii_case(c.encode_utf8(&mut [0; 4]))))
    };
    ('A'..='Z').find(|c| !taken(*c)).unwrap_or('A').to_string()
}

#[cfg(test)]
mod tests {
    use glam::dvec2;
    use standpoint_board::marks::Step;

    use super::*;

    fn cone(at: DVec2) -> Draw {
        Draw::Add(Ink::Plain, Form::Cone { at })
    }

    fn marks(board: &Board) -> &Marks {
        &board.page(0).unwrap().marks
    }

    #[test]
    fn what_is_added_or_copied_is_chosen_and_what_goes_is_not() {
        let (mut board, mut chosen) = (Board::blank(), Vec::new());
        cone(dvec2(1.0, -3.0)).apply(&mut board, 0, &mut chosen);
        let first = chosen.clone();
        Draw::Copy(first.clone(), COPY_OFFSET).apply(&mut board, 0, &mut chosen);
        assert_ne!(chosen, first);
        let copy = marks(&board).get(chosen[0]).unwrap();
        assert_eq!(copy.form, Form::Cone { at: dvec2(1.6, -3.6) });
        Draw::Remove(chosen.clone()).apply(&mut board, 0, &mut chosen);
        assert!(chosen.is_empty() && marks(&board).list.len() == 1);
    }

    #[test]
    fn pasted_marks_are_chosen_in_sight_and_beside_what_they_are_copies_of() {
        let (mut board, mut chosen) = (Board::blank(), Vec::new());
        cone(dvec2(1.0, -3.0)).apply(&mut board, 0, &mut chosen);
        let copied = marks(&board).list.clone();
        Draw::Show(Layer::Drill, false).apply(&mut board, 0, &mut chosen);
        for times in 1..3 {
            Draw::Paste(copied.clone()).apply(&mut board, 0, &mut chosen);
            let pasted = marks(&board).get(chosen[0]).unwrap();
            assert_eq!(pasted.form, Form::Cone { at: dvec2(1.0, -3.0) + COPY_OFFSET * f64::from(times) });
            assert!(marks(&board).shows(Layer::Drill));
        }
        board.pages.push(Board::blank().pages[0].clone());
        Draw::Paste(copied.clone()).apply(&mut board, 1, &mut chosen);
        assert_eq!(board.page(1).unwrap().marks.list[0].form, copied[0].form, "on another page in the same place");
    }

    #[test]
    fn copies_and_pasted_marks_appear_when_the_original_does() {
        let (mut board, mut chosen) = (Board::blank(), Vec::new());
        cone(dvec2(1.0, -3.0)).apply(&mut board, 0, &mut chosen);
        let late = Appears { shot: 0, step: Step::Answer };
        Draw::Appear(chosen.clone(), late).apply(&mut board, 0, &mut chosen);
        let copied = marks(&board).list.clone();
        Draw::Copy(chosen.clone(), COPY_OFFSET).apply(&mut board, 0, &mut chosen);
        let of_third = Mark { appears: Appears { shot: 2, ..late }, ..copied[0].clone() };
        Draw::Paste(vec![copied[0].clone(), of_third]).apply(&mut board, 0, &mut chosen);
        assert_eq!(marks(&board).list.len(), 4);
        assert!(marks(&board).list.iter().all(|mark| mark.appears == late), "the page has one shot");
    }

    #[test]
    fn marks_carried_to_the_fence_keep_their_distances() {
        let (mut board, mut chosen) = (Board::blank(), Vec::new());
        cone(dvec2(1.0, -3.0)).apply(&mut board, 0, &mut chosen);
        let mut both = chosen.clone();
        cone(dvec2(3.0, -3.0)).apply(&mut board, 0, &mut chosen);
        both.extend(&chosen);
        Draw::Shift(both.clone(), dvec2(1000.0, 1.0)).apply(&mut board, 0, &mut chosen);
        let at: Vec<DVec2> =
            both.iter().map(|id| marks(&board).get(*id).unwrap().form.standing_at().unwrap()).collect();
        assert!((at[1] - at[0] - dvec2(2.0, 0.0)).length() < 1e-9);
        assert!((at[1].x - board.play_area().mark_limits().x).abs() < 1e-9 && (at[0].y + 2.0).abs() < 1e-9);
    }

    #[test]
    fn what_is_hidden_is_not_chosen() {
        let (mut board, mut chosen) = (Board::blank(), Vec::new());
        cone(DVec2::ZERO).apply(&mut board, 0, &mut chosen);
        Draw::Show(Layer::Drill, false).apply(&mut board, 0, &mut chosen);
        assert!(chosen.is_empty());
    }

    #[test]
    fn persons_get_the_letters_that_are_free() {
        let (mut board, mut chosen) = (Board::blank(), Vec::new());
        assert_eq!(next_letter(marks(&board)), "A");
        for letter in ["A", "c"] {
            let form = Form::Person { at: DVec2::ZERO, letter: letter.to_owned() };
            Draw::Add(Ink::Plain, form).apply(&mut board, 0, &mut chosen);
        }
        assert_eq!(next_letter(marks(&board)), "B");
    }
}
