//! The board being worked on, its history and the live answer.

use std::path::{Path, PathBuf};

use standpoint_board::{Board, History, ShotSpec, Units};
use standpoint_geometry::{
    answer::{Answer, Play, Reply},
    court::Court,
    frame::End,
    situation::{ReceiptChoice, Situation},
    solver::{SolveError, Solver},
    surface::SurfaceKind,
};

use crate::{
    edit::{Colours, Edit, Gesture},
    theme::Ground,
};

/// Replies whose exposure differs by less than this cost the same: half a point in a hundred.
pub const TIE: f64 = 0.005;

/// The shot that is being looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Selection {
    /// Page of the board.
    pub page: usize,
    /// Shot of the rally.
    pub shot: usize,
}

/// The board being worked on.
pub struct Session {
    history: History<Board, Selection>,
    path: Option<PathBuf>,
    solver: Solver,
    asked: Option<Situation>,
    answer: Option<Result<Answer, SolveError>>,
    generation: u64,
}

impl Session {
    /// A session on a board that may come from a file.
    #[must_use]
    pub fn new(board: Board, path: Option<PathBuf>) -> Self {
        let mut session = Self {
            history: History::new(board, Selection::default()),
            path,
            solver: Solver::new(),
            asked: None,
            answer: None,
            generation: 0,
        };
        session.refresh();
        session
    }

    /// Puts another board in place of this one; the solver keeps its buffers.
    pub fn replace(&mut self, board: Board, path: Option<PathBuf>) {
        self.history = History::new(board, Selection::default());
        self.path = path;
        self.refresh();
    }

    /// The board.
    #[must_use]
    pub fn board(&self) -> &Board {
        self.history.doc()
    }

    /// The history, for what can be undone.
    #[must_use]
    pub fn history(&self) -> &History<Board, Selection> {
        &self.history
    }

    /// What is being looked at.
    #[must_use]
    pub fn selection(&self) -> Selection {
        *self.history.selection()
    }

    /// The file of the board, if it has one.
    #[must_use]
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// The shot being looked at.
    #[must_use]
    pub fn shot(&self) -> Option<&ShotSpec> {
        let at = self.selection();
        self.board().shot(at.page, at.shot)
    }

    /// The question last put to the solver.
    #[must_use]
    pub fn situation(&self) -> Option<&Situation> {
        self.asked.as_ref()
    }

    /// The answer to it.
    #[must_use]
    pub fn answer(&self) -> Option<&Answer> {
        self.answer.as_ref()?.as_ref().ok()
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

    /// Why there is no answer.
    #[must_use]
    pub fn refusal(&self) -> Option<&SolveError> {
        self.answer.as_ref()?.as_ref().err()
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
    pub fn edit(&mut self, edit: &Edit) {
        let at = self.selection();
        if self.history.in_gesture() {
            edit.apply(self.history.doc_mut(), at);
        } else {
            self.history.apply_joined(edit.series(), edit.label(), at, |board| edit.apply(board, at));
        }
        self.refresh();
    }

    /// Begins or ends a gesture.
    pub fn gesture(&mut self, gesture: Gesture) {
        match gesture {
            Gesture::Begin(label) => self.history.begin(label),
            Gesture::Commit => {
                self.history.commit(self.selection());
            }
            Gesture::Cancel => self.history.cancel(),
            Gesture::Seal => self.history.seal(),
        }
        self.refresh();
    }

    /// Takes the last change back and says which.
    pub fn undo(&mut self) -> Option<String> {
        let label = self.history.undo();
        self.refresh();
        label.map(|label| format!("Undone: {label}"))
    }

    /// Makes the change again that was taken back and says which.
    pub fn redo(&mut self) -> Option<String> {
        let label = self.history.redo();
        self.refresh();
        label.map(|label| format!("Done again: {label}"))
    }

    /// The board is in this file now; `current` says whether it has not changed since.
    pub fn saved_to(&mut self, path: PathBuf, current: bool) {
        self.path = Some(path);
        if current {
            self.history.mark_saved();
        }
    }

    /// Puts the question to the solver when it is a new one.
    fn refresh(&mut self) {
        let at = self.selection();
        let situation = self.board().situation(at.page, at.shot);
        if situation == self.asked && self.answer.is_some() {
            return;
        }
        self.answer = situation.as_ref().map(|situation| self.solver.solve(situation));
        self.asked = situation;
        self.generation += 1;
    }
}
