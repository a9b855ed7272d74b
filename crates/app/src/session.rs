//! The board being worked on, its history and the live answer.

mod drawing;

use std::{
    path::{Path, PathBuf},
    time::{Duration, Instant},
};

use standpoint_board::{
    Board, History, Page, ShotSpec, Units,
    marks::MarkId,
    playback::{Control, Moment, Playback, Timeline},
    rally::{Ended, Rally, Resolved},
};
use standpoint_geometry::{
    answer::{Answer, Play, Reply},
    court::Court,
    frame::End,
    situation::{ReceiptChoice, Situation},
    solver::{SolveError, Solver},
    surface::SurfaceKind,
    what_if::WhatIf,
};

use crate::{
    arrange::Arrange,
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

/// What is being looked at, and the marks chosen there.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Chosen {
    /// The shot.
    pub at: Selection,
    /// The marks of its page.
    pub marks: Vec<MarkId>,
}

impl From<Selection> for Chosen {
    fn from(at: Selection) -> Self {
        Self { at, marks: Vec::new() }
    }
}

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
}

/// What comes of recovering to a place of the coach's own choice.
#[derive(Debug, Clone, PartialEq)]
pub struct Elsewhere {
    /// At the spot, for comparison.
    pub spot: WhatIf,
    /// At the place chosen.
    pub chosen: WhatIf,
}

/// Time that working out later shots may take in a frame in which nothing else happens.
const IDLE_BUDGET: Duration = Duration::from_millis(8);

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

    /// The shots of the page's rally that are known so far, in order.
    #[must_use]
    pub fn rally(&self) -> &[Resolved] {
        self.rally.all_known()
    }

    /// The rally in time, as far as it is known.
    #[must_use]
    pub fn timeline(&self) -> &Timeline {
        &self.timeline
    }

    /// The player of rallies.
    #[must_use]
    pub fn playback(&self) -> Playback {
        self.playback
    }

    /// The moment of the rally that is shown, while it is played or stepped through.
    #[must_use]
    pub fn moment(&self) -> Option<Moment> {
        self.timeline.at(self.playback.time?)
    }

    /// Why the shot being looked at never comes about.
    #[must_use]
    pub fn ended(&self) -> Option<Ended> {
        self.ended
    }

    /// Whether a later shot of the page never comes about because an earlier one ends the rally.
    #[must_use]
    pub fn rally_ends_early(&self) -> bool {
        self.page().is_some_and(|page| self.rally.ended(page).is_some())
    }

    /// What comes of recovering to the place chosen by hand, if one is.
    #[must_use]
    pub fn what_if(&self) -> Option<&Elsewhere> {
        self.what_if.as_ref()
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

    /// Plays the rally; the shot in flight is the one being looked at.
    pub fn control(&mut self, control: Control) {
        if self.playback.time.is_none() && matches!(control, Control::Next | Control::Previous) {
            // Stepping begins at the shot being looked at.
            let start = self.timeline.stretches.get(self.selection().shot).map(|stretch| stretch.start);
            self.playback.time = start;
        }
        self.playback = self.playback.told(control, &self.timeline);
        self.follow_ball();
    }

    /// Lets `dt` seconds pass; whether the rally is still playing.
    pub fn pass(&mut self, dt: f64) -> bool {
        if self.playback.playing {
            self.playback = self.playback.passed(dt, &self.timeline);
            self.follow_ball();
        }
        self.playback.playing
    }

    fn follow_ball(&mut self) {
        if let Some(moment) = self.moment() {
            self.look_at(Selection { shot: moment.shot, ..self.selection() });
        }
    }

    fn leave_moment(&mut self) {
        self.playback = self.playback.told(Control::Stop, &self.timeline);
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
        label.map(|label| format!("Undone: {label}"))
    }

    /// Makes the change again that was taken back and says which.
    pub fn redo(&mut self) -> Option<String> {
        self.leave_moment();
        let label = self.history.redo();
        self.refresh();
        label.map(|label| format!("Done again: {label}"))
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

    /// Works out the shot being looked at where the board has changed.
    fn refresh(&mut self) {
        let at = self.selection();
        let board = self.history.doc();
        let Some(page) = board.page(at.page) else { return };
        self.rally.trim(board, page);
        self.ended = self.rally.resolve(board, page, at.shot, &mut self.solver).err();
        let asked = self.situation().copied();
        if asked != self.asked {
            self.asked = asked;
            self.generation += 1;
        }
        self.look_elsewhere();
        self.lay_out();
    }

    /// Judges the place to recover to that was chosen by hand.
    fn look_elsewhere(&mut self) {
        let asked = self.resolved().and_then(|resolved| {
            let play = resolved.play()?;
            Some((resolved.situation, [play.spot.place, resolved.spec.recover_to?]))
        });
        self.what_if = asked.and_then(|(situation, places)| {
            let mut judged = self.solver.what_if(&situation, &places).ok()?.into_iter();
            Some(Elsewhere { spot: judged.next()?, chosen: judged.next()? })
        });
    }

    /// Lays the rally out in time, as far as it is known.
    fn lay_out(&mut self) {
        let board = self.history.doc();
        self.timeline = Timeline::new(board, self.rally.all_known());
        let shots = board.page(self.selection().page).map_or(0, |page| page.shots.len());
        self.unfinished =
            self.rally.all_known().len() < shots && board.page(self.selection().page).is_some_and(|page| self.rally.ended(page).is_none());
    }

    /// Works out later shots of the rally for a few milliseconds; whether there are more to come.
    pub fn fill(&mut self) -> bool {
        if !self.unfinished {
            return false;
        }
        let (began, mut longest) = (Instant::now(), Duration::ZERO);
        let board = self.history.doc();
        if let Some(page) = board.page(self.history.selection().at.page) {
            // Another shot is begun only when it will be done in time too.
            while began.elapsed() + longest < IDLE_BUDGET {
                let one = Instant::now();
                if !self.rally.advance(board, page, &mut self.solver) {
                    break;
                }
                longest = longest.max(one.elapsed());
            }
        }
        self.lay_out();
        self.unfinished
    }
}
