//! The rally of the page being looked at: computed as far as needed, laid out in time, and played.

use std::time::{Duration, Instant};

use standpoint_board::{
    ShotSpec,
    playback::{Control, Moment, Playback, Timeline},
    rally::{Ended, Resolved},
};
use standpoint_geometry::{Continuation, End, PlayedOn, ReceiptChoice, WhatIf};

use super::Session;
use crate::{edit::Edit, selection::Selection};

/// Result of recovering to a place chosen by hand.
#[derive(Debug, Clone, PartialEq)]
pub struct Elsewhere {
    /// At the spot, for comparison.
    pub spot: WhatIf,
    /// At the place chosen.
    pub chosen: WhatIf,
}

/// Time for computing later shots in an otherwise idle frame.
const IDLE_BUDGET: Duration = Duration::from_millis(8);

impl Session {
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

    /// Why the rally ends before the shot being looked at.
    #[must_use]
    pub fn ended(&self) -> Option<Ended> {
        self.ended
    }

    /// Whether an earlier shot ends the rally before a later shot of the page.
    #[must_use]
    pub fn rally_ends_early(&self) -> bool {
        self.page().is_some_and(|page| self.rally.ended(page).is_some())
    }

    /// Result of recovering to the place chosen by hand, if there is one.
    #[must_use]
    pub fn what_if(&self) -> Option<&Elsewhere> {
        self.what_if.as_ref()
    }

    /// Plays the rally; the shot in flight is the one being looked at.
    pub fn control(&mut self, control: Control) {
        if self.playback.time.is_none() && matches!(control, Control::Next | Control::Previous) {
            // Stepping begins at the shot being looked at.
            let start = self.timeline.stretches.get(self.selection().shot).map(|stretch| stretch.start);
            self.playback.time = start;
        }
        self.playback = self.playback.after(control, &self.timeline);
        self.follow_ball();
    }

    /// Advances the rally by `dt` seconds; returns whether it is still playing.
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

    pub(super) fn leave_moment(&mut self) {
        self.playback = self.playback.after(Control::Stop, &self.timeline);
    }

    /// Computes the shot being looked at where the board has changed.
    pub(super) fn refresh(&mut self) {
        let at = self.selection();
        let board = self.document.board();
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

    /// The model plays the point on from the shot being looked at, the likeliest way or another one at each call: the change
    /// that puts its shots there, and how it ended.
    #[must_use]
    pub fn play_on(&mut self, another: bool) -> Option<(Edit, PlayedOn)> {
        self.ways += u64::from(another);
        let way = if another { Continuation::Drawn(self.ways) } else { Continuation::Likeliest };
        let situation = *self.situation()?;
        let spec = *self.shot()?;
        let played = self.solver.play_on(&situation, way).ok()?;
        let mut before = spec;
        let then = played.shots.iter().map(|shot| {
            let spec = ShotSpec {
                hitter_end: before.hitter_end.other(),
                shot: *shot,
                receipt: ReceiptChoice::Best,
                hitter_place: None,
                opponent_place: before.shot.contact.truncate(),
                follows: true,
                recover_to: None,
                recover_in: None,
            };
            before = spec;
            spec
        });
        let then = then.collect();
        Some((Edit::PlayOn { shot: situation.shot, then }, played))
    }

    /// The chance of the near player to win the point along the rally, as far as it is known: at each contact, and once the
    /// ball is in. Times in s since the rally began.
    #[must_use]
    pub fn chances(&self) -> Vec<(f64, f64)> {
        let mut chances = Vec::new();
        for (resolved, stretch) in self.rally().iter().zip(&self.timeline().stretches) {
            let Ok(answer) = &resolved.result else { break };
            let lost = answer.play().map_or(0.0, |play| play.recovery.reached.exposure);
            let near = |win: f64| if resolved.spec.hitter_end == End::Near { win } else { 1.0 - win };
            let landing = answer.shot.landing.time.min(stretch.end - stretch.start);
            chances.push((stretch.start, near(answer.shot.chance_in * (1.0 - lost))));
            chances.push((stretch.start + landing, near(1.0 - lost)));
        }
        chances
    }

    /// Computes everything anew after the game behind the answers has changed.
    pub fn renew(&mut self) {
        self.rally.clear();
        self.asked = None;
        self.refresh();
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
        let board = self.document.board();
        self.timeline = Timeline::new(board, self.rally.all_known());
        let shots = board.page(self.selection().page).map_or(0, |page| page.shots.len());
        self.unfinished = self.rally.all_known().len() < shots
            && board.page(self.selection().page).is_some_and(|page| self.rally.ended(page).is_none());
    }

    /// Computes later shots of the rally for a few milliseconds; returns whether there are more.
    pub fn fill(&mut self) -> bool {
        if !self.unfinished {
            return false;
        }
        let (began, mut longest) = (Instant::now(), Duration::ZERO);
        let board = self.document.board();
        if let Some(page) = board.page(self.document.history().selection().at.page) {
            // Begins another shot only if it is likely to finish in time.
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
