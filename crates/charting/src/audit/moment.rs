//! A moment of a match as a page of a board, to teach from.

use std::sync::Arc;

use standpoint_language::{decimal, text, tr};

use super::judge::{AuditedShot, Judged};
use standpoint_board::chart::model::Setup;
use standpoint_board::model::{Board, Page};

impl AuditedShot {
    /// The model's verdict on the place, if it was judged.
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
        // The board shows the actual run.
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
                standpoint_geometry::End::Near => setup.near = card,
                standpoint_geometry::End::Far => setup.far = card,
            }
        }
        setup.settings.ready = judged.ready;
        let mut board = setup.board(vec![Arc::new(self.page()?)]);
        board.coached = end;
        board.title = format!("{}: {}", setup.title, self.title());
        Some(board)
    }

    /// Its origin: `Sunday, point 12, shot 3`.
    #[must_use]
    pub fn title(&self) -> String {
        self.origin.title()
    }

    fn notes(&self, judged: &Judged) -> String {
        let (across, along) = judged.from_goal();
        let metres = |value: f64| decimal(value.abs(), 1);
        let side = match across > 0.0 {
            true => tr!("{} m to the right", metres(across)),
            false => tr!("{} m to the left", metres(across)),
        };
        let depth = if along > 0.0 { text("too deep") } else { text("too far forward") };
        let goal = if judged.reachable {
            text("the spot, which could be reached in time").to_owned()
        } else {
            tr!("the best place in reach; the spot itself was {} m too far", decimal(judged.short_by, 1))
        };
        tr!(
            "Stood {} and {} m {}, measured from {}.\nThat gave away {} points in a hundred. Time to the \
             opponent's contact {} s, needed to the spot {} s.\nModel estimates.",
            side,
            metres(along),
            depth,
            goal,
            decimal(100.0 * judged.avoidable, 0),
            decimal(judged.available, 2),
            decimal(judged.needed, 2)
        )
    }
}
