//! Changes of the order of shots and pages. Each is one step of undo and returns the selection after it.

use std::sync::Arc;

use standpoint_board::{Board, Drill, Page, ShotSpec, marks::Marks, patterns::Pattern};
use standpoint_geometry::ReceiptChoice;
use standpoint_language::{mark, tr};

use crate::selection::Selection;

/// A change of the order or the number of shots or pages.
#[derive(Debug, Clone, PartialEq)]
pub enum Arrange {
    /// A new shot before the one being looked at.
    AddShotBefore,
    /// A new shot after the one being looked at.
    AddShotAfter,
    /// A copy of the shot as the same player's next one.
    DuplicateShot,
    /// Removes the shot being looked at from the rally.
    DeleteShot,
    /// Lets the shot follow the one before, or start by itself where it is.
    Follow(bool),
    /// A new page after the one being looked at.
    AddPage,
    /// A ready pattern as a page, mirrored or not.
    AddPattern(Pattern, bool),
    /// This page after the one being looked at.
    Insert(Arc<Page>),
    /// The page once more.
    DuplicatePage,
    /// Removes the page being looked at.
    DeletePage,
    /// Moves a page to another place in the order.
    MovePage {
        /// Its place now.
        from: usize,
        /// Its place afterwards.
        to: usize,
    },
}

impl Arrange {
    /// What the step is called in the menus, in English; translated where it is shown.
    #[must_use]
    pub fn label(&self) -> &'static str {
        match self {
            Self::AddShotBefore | Self::AddShotAfter => mark("Add a shot"),
            Self::DuplicateShot => mark("Duplicate the shot"),
            Self::DeleteShot => mark("Delete the shot"),
            Self::Follow(true) => mark("Continue from previous shot"),
            Self::Follow(false) => mark("Let the shot start by itself"),
            Self::AddPage | Self::Insert(_) => mark("Add a page"),
            Self::AddPattern(..) => mark("Add a pattern page"),
            Self::DuplicatePage => mark("Duplicate the page"),
            Self::DeletePage => mark("Delete the page"),
            Self::MovePage { .. } => mark("Move the page"),
        }
    }

    /// Makes the change; `shots` are the shots of the page with their real contacts and places, as far as known.
    ///
    /// Returns what is selected afterwards.
    pub fn apply(&self, board: &mut Board, at: Selection, shots: &[ShotSpec]) -> Selection {
        match self {
            Self::AddShotBefore | Self::AddShotAfter | Self::DuplicateShot | Self::DeleteShot | Self::Follow(_) => {
                let shot = board.page_mut(at.page).map_or(at.shot, |page| self.apply_to_page(page, at.shot, shots));
                Selection { shot, ..at }
            }
            _ => self.apply_to_pages(board, at),
        }
    }

    fn apply_to_page(&self, page: &mut Page, at: usize, shots: &[ShotSpec]) -> usize {
        let Some(here) = shots.get(at).or_else(|| page.shots.get(at)).copied() else { return at };
        match self {
            Self::AddShotAfter => {
                page.insert_shot(at + 1, answering(&here));
                at + 1
            }
            Self::AddShotBefore => {
                if at > 0 {
                    // The new shot is this player's; the shots after it change sides.
                    page.insert_shot(at, ShotSpec { receipt: ReceiptChoice::Best, recover_to: None, ..here });
                    return at;
                }
                // The new first shot is struck where its striker waited; the former one follows it.
                let mut new = answering(&here);
                start(&mut new, &here);
                page.shots[0].follows = true;
                page.insert_shot(at, new);
                at
            }
            Self::DuplicateShot => {
                // The copy comes after the other player's answer to the shot.
                page.insert_shot(at + 1, answering(&here));
                page.insert_shot(at + 2, ShotSpec { follows: true, receipt: ReceiptChoice::Best, ..here });
                at + 2
            }
            Self::DeleteShot => {
                page.remove_shot(at, shots.get(at + 1));
                at.min(page.shots.len().saturating_sub(1))
            }
            Self::Follow(on) if at > 0 => {
                page.shots[at] = ShotSpec { follows: *on, ..here };
                at
            }
            _ => at,
        }
    }

    fn apply_to_pages(&self, board: &mut Board, at: Selection) -> Selection {
        let after = (at.page + 1).min(board.pages.len());
        let insert = |board: &mut Board, page: Page| Selection { page: board.insert_page(after, page), shot: 0 };
        match self {
            Self::AddPage => {
                let page = empty_page(board, at);
                insert(board, page)
            }
            Self::Insert(page) => insert(board, Page::clone(page)),
            Self::AddPattern(pattern, mirrored) => {
                let page = pattern.page(board, *mirrored);
                insert(board, page)
            }
            Self::DuplicatePage => board.duplicate_page(at.page).map_or(at, |page| Selection { page, ..at }),
            Self::DeletePage if board.remove_page(at.page) => {
                Selection { page: at.page.min(board.pages.len() - 1), shot: 0 }
            }
            Self::MovePage { from, to } if *from < board.pages.len() => {
                let to = (*to).min(board.pages.len() - 1);
                board.move_page(*from, to);
                Selection { page: to, shot: if *from == at.page { at.shot } else { 0 } }
            }
            _ => at,
        }
    }
}

/// The other player's plain answer to a shot: the same stroke, back to where it came from and well inside the lines.
fn answering(before: &ShotSpec) -> ShotSpec {
    let mut spec = *before;
    spec.hitter_end = before.hitter_end.other();
    spec.shot.target = -before.shot.target;
    spec.shot.sidespin = 0.0;
    if matches!(before.shot.stroke, standpoint_geometry::Stroke::Serve) {
        // A return is a drive into the depth of the court.
        spec.shot.stroke = standpoint_geometry::Stroke::Topspin;
        spec.shot.speed *= 0.55;
        spec.shot.target *= glam::DVec2::new(0.8, 1.6);
    }
    spec.shot.contact = (-before.shot.contact.truncate()).extend(before.shot.contact.z);
    spec.receipt = ReceiptChoice::Best;
    spec.hitter_place = None;
    spec.opponent_place = -before.opponent_place;
    spec.recover_to = None;
    spec.follows = true;
    spec
}

/// Makes a shot the first of the rally before `next`: it is struck where the opponent waited for it.
fn start(new: &mut ShotSpec, next: &ShotSpec) {
    let ground = next.opponent_place;
    let ahead = next.hitter_end.sign() * 0.2;
    new.shot.contact = (ground + glam::DVec2::new(0.4 * new.hitter_end.sign(), ahead)).extend(next.shot.contact.z);
    new.opponent_place = glam::DVec2::new(0.0, next.shot.contact.y);
    new.follows = false;
}

/// A page with one shot, set up like the one being looked at.
fn empty_page(board: &Board, at: Selection) -> Page {
    let first = board.shot(at.page, 0).copied().unwrap_or_else(ShotSpec::cross_court);
    let first = ShotSpec { follows: false, recover_to: None, receipt: ReceiptChoice::Best, ..first };
    Page {
        title: tr!("Page {}", board.pages.len() + 1),
        notes: String::new(),
        cues: Vec::new(),
        shots: vec![first],
        drill: Drill::default(),
        marks: Marks::default(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::Session;

    #[test]
    fn every_rearrangement_of_shots_leaves_sides_that_alternate_and_one_step() {
        for change in [Arrange::AddShotBefore, Arrange::AddShotAfter, Arrange::DuplicateShot, Arrange::DeleteShot] {
            for shot in 0..5 {
                let mut session = Session::new(Board::demo(), None);
                session.arrange(&Arrange::AddPattern(Pattern::CrossCrossLine, false));
                session.select(Selection { page: 1, shot });
                while session.fill() {}
                let before = session.board().clone();
                session.arrange(&change);
                let page = session.page().unwrap();
                assert!(page.shots.windows(2).all(|w| w[0].hitter_end != w[1].hitter_end), "{change:?} at {shot}");
                assert!(!page.shots[0].follows);
                session.undo();
                assert_eq!(*session.board(), before);
                assert_eq!(session.selection(), Selection { page: 1, shot });
            }
        }
    }

    #[test]
    fn a_shot_added_to_the_demo_is_played_on() {
        let mut session = Session::new(Board::demo(), None);
        for change in [Arrange::AddShotAfter, Arrange::AddShotAfter, Arrange::AddShotBefore] {
            session.arrange(&change);
            assert!(session.play().is_some(), "{change:?}: {:?} {:?}", session.refusal(), session.ended());
        }
        session.select(Selection::default());
        session.arrange(&Arrange::AddShotBefore);
        assert!(session.play().is_some(), "{:?}", session.refusal());
    }

    #[test]
    fn pages_move_and_the_moved_one_stays_selected() {
        let mut session = Session::new(Board::demo(), None);
        for pattern in Pattern::ALL {
            session.arrange(&Arrange::AddPattern(pattern, false));
        }
        let titles = |s: &Session| s.board().pages.iter().map(|p| p.title.clone()).collect::<Vec<_>>();
        let before = titles(&session);
        session.arrange(&Arrange::MovePage { from: 5, to: 1 });
        assert_eq!(session.selection().page, 1);
        assert_eq!(titles(&session)[1], before[5]);
        session.arrange(&Arrange::DeletePage);
        assert_eq!(session.board().pages.len(), 5);
        session.undo();
        session.undo();
        assert_eq!(titles(&session), before);
        assert_eq!(session.selection().page, 5);
    }

    #[test]
    fn the_last_page_and_the_last_shot_stay() {
        let mut session = Session::new(Board::demo(), None);
        session.arrange(&Arrange::DeletePage);
        session.arrange(&Arrange::DeleteShot);
        assert_eq!(*session.board(), Board::demo());
        assert!(session.history().is_saved());
    }
}
