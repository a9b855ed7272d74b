//! The open document with its live answer.

mod drawing;
mod rally;

use std::path::{Path, PathBuf};

use standpoint_board::{
    Board, History, Page, ShotSpec, Units,
    playback::{Playback, Timeline},
    rally::{Ended, Rally, Resolved},
};
use standpoint_charting::notebook::Notebook;
use standpoint_geometry::{
    Answer, Court, End, Play, ReceiptChoice, Reply, Situation, SolveError, Solver, SurfaceKind,
    worth::{Basis, Matchup},
};
use standpoint_language::{text, tr};

use crate::{
    arrange::Arrange,
    document::{Contents, Document},
    edit::{Colours, Edit, Gesture, Ground},
    selection::{Chosen, Selection},
    solved,
};

pub use rally::Elsewhere;

/// Longest step of time between two frames of a playing rally, s.
pub const LONGEST_FRAME_S: f64 = 0.25;
/// Exposures that differ by less than this count as equal: half a point in a hundred.
pub const TIE: f64 = 0.005;

/// The open document with everything computed from it.
pub struct Session {
    document: Document,
    solver: Solver,
    rally: Rally,
    /// The question whose answer is shown.
    asked: Option<Situation>,
    /// Why the rally ends before the shot being looked at.
    ended: Option<Ended>,
    what_if: Option<Elsewhere>,
    timeline: Timeline,
    playback: Playback,
    /// Whether later shots of the rally are still to be computed.
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
            document: Document::new(board, path),
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

    /// Replaces the document; the solver keeps its buffers.
    pub fn replace(&mut self, board: Board, path: Option<PathBuf>) {
        self.document = Document::new(board, path);
        self.playback = Playback::default();
        self.refresh();
    }

    /// The board.
    #[must_use]
    pub fn board(&self) -> &Board {
        self.document.board()
    }

    /// The board with its notes and their history.
    #[must_use]
    pub fn document(&self) -> &Document {
        &self.document
    }

    /// The history, for what can be undone.
    #[must_use]
    pub fn history(&self) -> &History<Contents, Chosen> {
        self.document.history()
    }

    /// The shot being looked at.
    #[must_use]
    pub fn selection(&self) -> Selection {
        self.history().selection().at
    }

    /// The file of the board, if it has one.
    #[must_use]
    pub fn path(&self) -> Option<&Path> {
        self.document.path()
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

    /// The opponent's best replies in the order of their numbers: the stronger first. Equal replies, as usual at the spot,
    /// go from left to right as the hitter sees them, so that numbers do not change during a drag.
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

    /// Whether the answer is based on the nearest level, not on a game solved for these players, court and ball.
    #[must_use]
    pub fn is_estimate(&self) -> bool {
        self.answer().is_some_and(|answer| answer.basis == Basis::Level)
    }

    /// The players, court and ball to solve the game for; `None` while they are not valid.
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

    /// The kind of ground, which decides the colour.
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

    /// Whether the opponent's contact was placed by hand.
    #[must_use]
    pub fn receipt_moved(&self) -> bool {
        self.shot().is_some_and(|spec| spec.receipt != ReceiptChoice::Best)
    }

    /// Makes a change: part of the open gesture, or else joined with changes of the same kind directly before it.
    ///
    /// A following shot whose contact or hitter is moved becomes a shot that starts by itself.
    pub fn edit(&mut self, edit: &Edit) {
        if edit.is_view() {
            let at = self.selection();
            self.document.history_mut().amend_throughout(|contents| edit.apply(&mut contents.board, at));
            return self.refresh();
        }
        self.leave_moment();
        let at = self.selection();
        let real = self.resolved().map(|resolved| resolved.spec).filter(|spec| spec.follows && edit.needs_places());
        let change = |board: &mut Board| {
            if let Some((spec, real)) = board.shot_mut(at.page, at.shot).zip(real) {
                *spec = ShotSpec { follows: !edit.detaches(), ..real };
            }
            edit.apply(board, at);
        };
        let history = self.document.history_mut();
        if history.in_gesture() {
            change(&mut history.doc_mut().board);
        } else {
            let chosen = history.selection().clone();
            history.apply_joined(edit.series(), edit.label(), chosen, |contents| change(&mut contents.board));
        }
        self.refresh();
    }

    /// Rearranges shots or pages: one step, after which the new or moved thing is selected.
    pub fn arrange(&mut self, arrange: &Arrange) {
        self.leave_moment();
        let at = self.selection();
        let shots: Vec<ShotSpec> = self.rally().iter().map(|resolved| resolved.spec).collect();
        let history = self.document.history_mut();
        history.begin(arrange.label());
        let selection = arrange.apply(&mut history.doc_mut().board, at, &shots);
        history.commit(selection.into());
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
            self.document.history_mut().select(Chosen { at: selection, marks });
            self.refresh();
        }
    }

    /// Begins or ends a gesture.
    pub fn gesture(&mut self, gesture: Gesture) {
        let history = self.document.history_mut();
        match gesture {
            Gesture::Begin(label) => history.begin(label),
            Gesture::Commit => {
                history.commit(history.selection().clone());
            }
            Gesture::Cancel => history.cancel(),
            Gesture::Seal => history.seal(),
        }
        self.refresh();
    }

    /// Changes the notes that are kept with the board.
    pub fn note<R>(&mut self, change: impl FnOnce(&mut Notebook) -> R) -> R {
        self.document.note(change)
    }

    /// Gives notes that nobody has begun the players of the board as it is now.
    pub fn refresh_blank_notes(&mut self) {
        self.document.refresh_blank_notes();
    }

    /// Takes the last change back, of the board or of its notes, and says which.
    pub fn undo(&mut self) -> Option<String> {
        self.leave_moment();
        let undone = self.document.undo();
        self.refresh();
        undone.map(|(label, of_notes)| match of_notes {
            true => tr!("Undone in the notes: {}", text(label)),
            false => tr!("Undone: {}", text(label)),
        })
    }

    /// Makes the change again that was taken back and says which.
    pub fn redo(&mut self) -> Option<String> {
        self.leave_moment();
        let redone = self.document.redo();
        self.refresh();
        redone.map(|(label, of_notes)| match of_notes {
            true => tr!("Redone in the notes: {}", text(label)),
            false => tr!("Redone: {}", text(label)),
        })
    }

    /// Marks the document as unsaved, such as after recovery.
    pub fn unsaved(&mut self) {
        self.document.history_mut().mark_unsaved();
    }

    /// The file holds `written` now, which may not be what stands here any more.
    pub fn written(&mut self, path: PathBuf, written: &Board) {
        self.document.written(path, written);
    }
}
