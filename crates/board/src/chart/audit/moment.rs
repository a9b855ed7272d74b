//! A moment of a match as a page of a board, to teach from.

use std::sync::Arc;

use super::judge::{AuditedShot, Judged};
use crate::chart::model::Setup;
use crate::model::{Board, Page};

impl AuditedShot {
    /// What the model says of the place, if it was judged.
    #[must_use]
    pub fn judged(&self) -> Option<&Judged> {
        match &self.outcome {
            super::Outcome::Judged(judged) => Some(judged),
            _ => None,
        }
    }

    /// The moment as a page; `None` if the place was not judged.
    ///
    /// Each player is at the end where they began. The page belongs on a board of the same players and conditions, such
    /// as [`Self::board`] makes.
    #[must_use]
    pub fn page(&self) -> Option<Page> {
        let judged = self.judged()?;
        let mut spec = judged.spec;
        // The board shows the run that was really made.
        spec.recover_to = Some(self.began.turn2(judged.stood));
        Some(Page { title: self.title(), notes: self.notes(judged), shots: vec![spec], ..Page::blank() })
    }

    /// A board with this moment on it; `None` if the place was not judged.
    #[must_use]
    pub fn board(&self, setup: &Setup) -> Option<Board> {
        let judged = self.judged()?;
        let mut setup = setup.clone();
        let end = self.began;
        for (at, who) in [(end, judged.struck_by), (end.other(), judged.against)] {
            let card = who.card(setup.card(at));
            match at {
                standpoint_geometry::frame::End::Near => setup.near = card,
                standpoint_geometry::frame::End::Far => setup.far = card,
            }
        }
        setup.settings.ready = judged.ready;
        let mut board = setup.board(vec![Arc::new(self.page()?)]);
        board.coached = end;
        board.title = format!("{}: {}", setup.title, self.title());
        Some(board)
    }

    /// Where it was charted: `Sunday, point 12, shot 3`.
    #[must_use]
    pub fn title(&self) -> String {
        let origin = &self.origin;
        let session = if origin.session.is_empty() { String::new() } else { format!("{}, ", origin.session) };
        let point = if origin.point.is_empty() { origin.point_number.to_string() } else { origin.point.to_string() };
        format!("{session}point {point}, shot {}", origin.shot_number)
    }

    fn notes(&self, judged: &Judged) -> String {
        let (across, along) = judged.from_goal();
        let side = if across > 0.0 { "right" } else { "left" };
        let depth = if along > 0.0 { "too deep" } else { "too far forward" };
        let goal = if judged.reachable {
            "the spot, which could be reached in time".to_owned()
        } else {
            format!("the best place in reach; the spot itself was {:.1} m too far", judged.short_by)
        };
        format!(
            "Stood {:.1} m to the {side} and {:.1} m {depth}, measured from {goal}.\n\
             That cost {:.0} points in a hundred more than it had to. Time to the opponent's contact {:.2} s, needed to \
             the spot {:.2} s.\nModel estimates.",
            across.abs(),
            along.abs(),
            100.0 * judged.avoidable,
            judged.available,
            judged.needed
        )
    }
}
