//! The board being worked on, its history and the live answer.

mod drawing;
mod rally;

use std::path::{Path, PathBuf};

use standpoint_board::{
    Board, History, Page, ShotSpec, Units,
    playback::{Playback, Timeline},
    rally::{Ended, Rally, Resolved},
};
use standpoint_geometry::{
    answer::{Answer, Play, Reply},
    court::Court,
    frame::End,
    situation::{ReceiptChoice, Situation},
    solver::{SolveError, Solver},
    surface::SurfaceKind,
    worth::{Basis, Matchup},
};
use standpoint_language::{text, tr};

use crate::{
    arrange::Arrange,
    edit::{Colours, Edit, Gesture, Ground},
    selection::{Chosen, Selection},
    solved,
};

pub use rally::Elsewhere;

/// The longest time that passes in a rally between two frames, s.
pub const LONGEST_FRAME_S: f64 = 0.25;
/// Replies whose exposure differs by less than this cost the same: half a point in a hundred.
pub const TIE: f64 = 0.005;

/// The board being worked on.
pub struct Session {
    history: History<Board, Chosen>,
    path: Option<PathBuf>,
    solver: Solver,
    rally: Rally,
    /// The question whose answer is shown.
    asked: Option<Situation>,
    /// Why the shot being looked at never comes about.
    ended: Option<Ended>,
    what_if: Option<Elsewhere>,
    timeline: Timeline,
    playback: Playback,
    /// Whether later shots of the rally are still to be worked out.
    unfinished: bool,
    generation: u64,
    /// How many other ways a point has been played on.
    ways: u64,
}

impl Session {
    /// A session on a board that may come from a file.
    #[must_use]
    pub fn new(board: Board, path: Option<PathBuf>) -> Self {
        let mut session = Self {
            history: History::new(board, Chosen::default()),
            path,
            solver: Solver::new(),
            rally: Rally::new(),
            asked: None,
            ended: None,
            what_if: None,
            timeline: Timeline::default(),
            playback: Playback::default(),
            unfinished: false,
            generation: 0,
            ways: 0,
        };
        session.refresh();
        session
    }

    /// Puts another board in place of this one; the solver keeps its buffers.
    pub fn replace(&mut self, board: Board, path: Option<PathBuf>) {
        self.history = History::new(board, Chosen::default());
        self.path = path;
        self.playback = Playback::default();
        self.refresh();
    }

    /// The board.
    #[must_use]
    pub fn board(&self) -> &Board {
        self.history.doc()
    }

    /// The history, for what can be undone.
    #[must_use]
    pub fn history(&self) -> &History<Board, Chosen> {
        &self.history
    }

    /// What is being looked at.
    #[must_use]
    pub fn selection(&self) -> Selection {
        self.history.selection().at
    }

    /// The file of the board, if it has one.
    #[must_use]
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// The page being looked at.
    #[must_use]
    pub fn page(&self) -> Option<&Page> {
        self.board().page(self.selection().page)
    }

    /// The shot being looked at, with the contact and the places that the shots before it lead to.
    #[must_use]
    pub fn shot(&self) -> Option<&ShotSpec> {
        self.resolved().map(|resolved| &resolved.spec).or_else(|| self.written_shot())
    }

    /// The shot being looked at as it stands on the board.
    #[must_use]
    pub fn written_shot(&self) -> Option<&ShotSpec> {
        let at = self.selection();
        self.board().shot(at.page, at.shot)
    }

    /// Whether the player who hits the shot being looked at is the one who is coached.
    #[must_use]
    pub fn coached_hits(&self) -> bool {
        self.hitter_end() == self.board().coached
    }

    fn resolved(&self) -> Option<&Resolved> {
        self.rally.known(self.selection().shot).filter(|_| self.ended.is_none())
    }

    /// The question last put to the solver.
    #[must_use]
    pub fn situation(&self) -> Option<&Situation> {
        self.resolved().map(|resolved| &resolved.situation)
    }

    /// The answer to it.
    #[must_use]
    pub fn answer(&self) -> Option<&Answer> {
        self.resolved()?.result.as_ref().ok()
    }

    /// What follows the shot, when the opponent meets it.
    #[must_use]
    pub fn play(&self) -> Option<&Play> {
        self.answer()?.play()
    }

    /// The opponent's best replies in the order they are numbered: the stronger first, but at the spot they usually
    /// cost the same, and then from left to right as the hitter sees them, so that the numbers keep still in a drag.
    #[must_use]
    pub fn best(&self) -> Vec<&Reply> {
        let mut best: Vec<&Reply> = self.play().map(|play| play.best.iter().collect()).unwrap_or_default();
        let tie = best.windows(2).all(|w| (w[0].exposure - w[1].exposure).abs() < TIE);
        if tie {
            let end = self.hitter_end();
            best.sort_by(|a, b| end.turn2(a.landing).x.total_cmp(&end.turn2(b.landing).x));
        }
        best
    }

    /// Whether the answer rests on the nearest level, not on a game solved for these players, court and ball.
    #[must_use]
    pub fn is_estimate(&self) -> bool {
        self.answer().is_some_and(|answer| answer.basis == Basis::Level)
    }

    /// The players, court and ball whose game answers are to rest on; `None` while they cannot be computed with.
    #[must_use]
    pub fn matchup(&self) -> Option<Matchup> {
        self.situation()?.validate().is_empty().then(|| solved::of_board(self.board()))
    }

    /// Why there is no answer.
    #[must_use]
    pub fn refusal(&self) -> Option<&SolveError> {
        self.resolved()?.result.as_ref().err()
    }

    /// Grows with every new answer.
    #[must_use]
    pub fn generation(&self) -> u64 {
        self.generation
    }

    /// The end of the hitter of the shot being looked at.
    #[must_use]
    pub fn hitter_end(&self) -> End {
        self.shot().map_or(End::Near, |spec| spec.hitter_end)
    }

    /// Units a person reads.
    #[must_use]
    pub fn units(&self) -> Units {
        self.board().units
    }

    /// The court.
    #[must_use]
    pub fn court(&self) -> Court {
        self.board().court.court()
    }

    /// The ground, as far as its colour goes.
    #[must_use]
    pub fn ground(&self) -> Ground {
        match self.board().surface.kind {
            SurfaceKind::Clay => Ground::Clay,
            SurfaceKind::Grass => Ground::Grass,
            SurfaceKind::Hard | SurfaceKind::Custom => Ground::Hard,
        }
    }

    /// The colours of the court.
    #[must_use]
    pub fn colours(&self) -> Colours {
        Colours::named(&self.board().theme)
    }

    /// Whether the opponent's contact was put somewhere by hand.
    #[must_use]
    pub fn receipt_moved(&self) -> bool {
        self.shot().is_some_and(|spec| spec.receipt != ReceiptChoice::Best)
    }

    /// Makes a change: part of the open gesture, or else joined with changes of the same kind just before.
    ///
    /// A shot that follows and is taken hold of by its contact or its hitter starts by itself from then on.
    pub fn edit(&mut self, edit: &Edit) {
        self.leave_moment();
        let at = self.selection();
        let real = self.resolved().map(|resolved| resolved.spec).filter(|spec| spec.follows && edit.needs_places());
        let change = |board: &mut Board| {
            if let Some((spec, real)) = board.shot_mut(at.page, at.shot).zip(real) {
                *spec = ShotSpec { follows: !edit.detaches(), ..real };
            }
            edit.apply(board, at);
        };
        if self.history.in_gesture() {
            change(self.history.doc_mut());
        } else {
            let chosen = self.history.selection().clone();
            self.history.apply_joined(edit.series(), edit.label(), chosen, change);
        }
        self.refresh();
    }

    /// Rearranges shots or pages: one step, after which the new or moved thing is selected.
    pub fn arrange(&mut self, arrange: &Arrange) {
        self.leave_moment();
        let at = self.selection();
        let shots: Vec<ShotSpec> = self.rally().iter().map(|resolved| resolved.spec).collect();
        self.history.begin(arrange.label());
        let selection = arrange.apply(self.history.doc_mut(), at, &shots);
        self.history.commit(selection.into());
        self.refresh();
    }

    /// Looks at another shot or page; what does not exist is not selected.
    pub fn select(&mut self, selection: Selection) {
        self.leave_moment();
        self.look_at(selection);
    }

    fn look_at(&mut self, selection: Selection) {
        if selection != self.selection() && self.board().shot(selection.page, selection.shot).is_some() {
            let marks = self.marks_on(selection.page);
            self.history.select(Chosen { at: selection, marks });
            self.refresh();
        }
    }

    /// Begins or ends a gesture.
    pub fn gesture(&mut self, gesture: Gesture) {
        match gesture {
            Gesture::Begin(label) => self.history.begin(label),
            Gesture::Commit => {
                self.history.commit(self.history.selection().clone());
            }
            Gesture::Cancel => self.history.cancel(),
            Gesture::Seal => self.history.seal(),
        }
        self.refresh();
    }

    /// Takes the last change back and says which.
    pub fn undo(&mut self) -> Option<String> {
        self.leave_moment();
        let label = self.history.undo();
        self.refresh();
        label.map(|label| tr!("Undone: {}", text(label)))
    }

    /// Makes the change again that was taken back and says which.
    pub fn redo(&mut self) -> Option<String> {
        self.leave_moment();
        let label = self.history.redo();
        self.refresh();
        label.map(|label| tr!("Done again: {}", text(label)))
    }

    /// The board as it stands is in no file, whatever it came from.
    pub fn unsaved(&mut self) {
        self.history.mark_unsaved();
    }

    /// The board is in this file now; `current` says whether it has not changed since.
    pub fn saved_to(&mut self, path: PathBuf, current: bool) {
        self.path = Some(path);
        if current {
            self.history.mark_saved();
        }
    }
}
