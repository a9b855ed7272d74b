//! A match noted live: one input for a serve, one or two for a stroke, one for the ending of the point.
//!
//! The score gives the server, the side and the end, so a point begins with the landing of its serve. A contact that
//! was not noted is put on the ball's way beyond the landing; it can be corrected later.

mod state;

use std::cell::RefCell;
use std::sync::Arc;

use glam::DVec2;
use standpoint_geometry::{End, Stroke};
use standpoint_language::mark;

use super::state::held;
use super::{At, Draft, Notebook, Refusal, ShotPlace, Tell};
use standpoint_board::chart::check::IN_THE_NET;
use standpoint_board::chart::model::SessionInfo;
use standpoint_board::chart::score::{CourtSide, Ending, Miss, ServeCall, ServeNumber, Tally, Trouble, facts};
use standpoint_board::play_area::PlayArea;

/// Mode of live noting.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Live {
    /// Whether the hitter's place is noted after every stroke.
    pub positions: bool,
}

/// The next serve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DueServe {
    /// The end of the server.
    pub end: End,
    /// Side of the serve.
    pub side: CourtSide,
    /// Whether the receiver chooses the side (a deciding point).
    pub chosen: bool,
    /// First or second.
    pub number: ServeNumber,
    /// Contact of the serve.
    pub contact: DVec2,
    /// Landings of the serve: to the T, at the body, and wide.
    pub places: [DVec2; 3],
}

/// Cache of the score, by the version of the notes.
#[derive(Debug, Clone, Default)]
pub(super) struct Counted {
    tally: RefCell<Option<(u64, String, Option<Tally>)>>,
    troubles: RefCell<Option<(u64, Arc<[Trouble]>)>>,
}

impl PartialEq for Counted {
    /// Always equal: the cache holds nothing beyond the notes.
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl Notebook {
    /// Mode of live noting; `None` when a match is noted place by place.
    #[must_use]
    pub fn live(&self) -> Option<Live> {
        self.live
    }

    /// Restores clock and mode after steps were undone.
    pub fn goes_on(&mut self, clock: Option<f64>, live: Option<Live>) {
        (self.clock, self.live) = (clock, live);
    }

    /// Switches between live noting and noting place by place. A session of unknown format becomes a match of the best
    /// of three tie-break sets.
    pub fn set_live(&mut self, live: Option<Live>) {
        self.live = live;
        let info = self.now.setup.session(&self.now.session).cloned();
        if live.is_some() && info.as_ref().is_none_or(|info| info.format.is_none()) {
            let name = self.now.session.clone();
            let info = info.unwrap_or(SessionInfo { name, ..SessionInfo::default() });
            self.tell_session(SessionInfo { format: Some(info.format.unwrap_or_default()), ..info });
        }
    }

    /// The state of the match before the current point, or before the next one.
    #[must_use]
    pub fn tally(&self) -> Option<Tally> {
        let mut known = self.counted.tally.borrow_mut();
        match &*known {
            Some((version, session, tally)) if *version == self.now.version && *session == self.now.session => {
                tally.clone()
            }
            _ => {
                let tally = self.now.tally();
                *known = Some((self.now.version, self.now.session.clone(), tally.clone()));
                tally
            }
        }
    }

    /// Inconsistencies between points.
    #[must_use]
    pub fn troubles(&self) -> Arc<[Trouble]> {
        let mut known = self.counted.troubles.borrow_mut();
        match &*known {
            Some((version, troubles)) if *version == self.now.version => Arc::clone(troubles),
            _ => Arc::clone(&known.insert((self.now.version, self.log().troubles.into())).1),
        }
    }

    /// The serve that is due, while a match is noted live and the ball is not in play.
    #[must_use]
    pub fn due_serve(&self) -> Option<DueServe> {
        self.live?;
        if self.now.draft.contact.is_some() {
            return None;
        }
        self.now.due_serve(self.tally().as_ref())
    }

    /// Makes the other player serve: first in the match, or in this point.
    pub fn swap_server(&mut self) {
        let Some(due) = self.due_serve() else { return };
        let server = due.end.other();
        let began = self.now.ends.began(server);
        let info = self.now.setup.session(&self.now.session).cloned().unwrap_or_default();
        let begins = !self.points().iter().any(|point| point.session == self.now.session);
        if begins {
            let name = self.now.session.clone();
            return self.tell_session(SessionInfo { name, first_server: Some(began), ..info });
        }
        self.change(mark("Server"), |state| state.serving = Some(server));
    }

    /// Notes the landing of the next ball: of a serve that is due, or of the current stroke.
    pub(super) fn live_place(&mut self, live: Live, place: DVec2) -> Result<(), Refusal> {
        let clock = self.clock;
        let court = self.now.court();
        if let Some(due) = self.due_serve() {
            let own = due.end.turn2(place);
            if own.y < -IN_THE_NET {
                let contact = held(&PlayArea::of(&self.now.setup.court), due.end, place);
                self.change(mark("Contact"), |state| {
                    state.draft = Draft { contact: Some(contact), ..state.serve_of(&due, clock) };
                });
                return Ok(());
            }
            self.change(mark("Serve"), |state| {
                state.draft = state.serve_of(&due, clock);
                state.live_landing(live, &court, place);
            });
            return Ok(());
        }
        if self.now.draft.contact.is_none() {
            return Err(Refusal::MatchOver);
        }
        let hitter = self.now.draft.hitter;
        if place.y * hitter.sign() < -IN_THE_NET {
            return Err(super::draft::LANDING);
        }
        self.change(mark("Landing"), |state| {
            state.draft.time = state.draft.time.or(clock);
            state.live_landing(live, &court, place);
        });
        Ok(())
    }

    /// Notes that the ball was not returned: an ace or a winner.
    ///
    /// # Errors
    /// When no ball has been noted that could have been returned.
    pub fn not_returned(&mut self) -> Result<(), Refusal> {
        if !self.now.is_in_play() {
            return Err(Refusal::NoBall);
        }
        self.change(mark("Winner of the point"), |state| {
            state.take_last();
            (state.draft.met, state.draft.met_time) = (None, None);
            state.close();
        });
        Ok(())
    }

    /// Notes that a ball was missed: in the net the next one, long or wide the last one noted.
    ///
    /// # Errors
    /// When there is no such ball.
    pub fn missed(&mut self, miss: Miss) -> Result<(), Refusal> {
        let (court, clock) = (self.now.court(), self.clock);
        let live = self.live.unwrap_or_default();
        match (miss, self.due_serve()) {
            (Miss::Net, Some(due)) => {
                self.change(mark("Serve"), |state| {
                    state.draft = state.serve_of(&due, clock);
                    state.live_net(live, &court);
                });
            }
            (Miss::Net, None) if self.now.is_in_play() || self.now.draft.contact.is_some() => {
                self.change(mark("Where it was missed"), |state| {
                    if state.draft.landing.is_some() {
                        state.shot(None);
                    }
                    state.draft.time = state.draft.time.or(clock);
                    state.live_net(live, &court);
                });
            }
            (Miss::Long | Miss::Wide, _) if self.now.is_in_play() => {
                self.change(mark("Where it was missed"), |state| {
                    state.take_last();
                    state.live_out(live, &court, miss);
                });
            }
            _ => return Err(Refusal::NoBall),
        }
        Ok(())
    }

    /// Notes a let: of a noted serve, which is served again; later in a point the whole point is replayed (Rule 23).
    ///
    /// # Errors
    /// When no ball has been noted.
    pub fn play_let(&mut self) -> Result<(), Refusal> {
        if !self.now.is_in_play() {
            return Err(Refusal::NoBall);
        }
        self.change(mark("Call of the serve"), |state| {
            let served = state.take_last().is_some_and(|shot| shot.stroke == Some(Stroke::Serve));
            if served {
                (state.draft.met, state.draft.met_time, state.draft.call) = (None, None, Some(ServeCall::Let));
                state.end_serve();
            } else if let Some(open) = state.open {
                state.remove_point(open.point);
            } else {
                state.end_point();
            }
        });
        Ok(())
    }

    /// The last point, if it ended with an error not yet noted as forced or unforced.
    #[must_use]
    pub fn asks_for_error(&self) -> Option<usize> {
        let last = self.points().len().checked_sub(1).filter(|_| self.live.is_some() && self.now.open.is_none())?;
        let facts = facts(&self.points()[last], &self.now.court());
        (facts.winner.is_some() && facts.miss.is_some() && facts.ending.is_none()).then_some(last)
    }

    /// Notes whether the error that ended the last point was forced.
    pub fn error_was(&mut self, ending: Ending) {
        if let Some(point) = self.asks_for_error() {
            self.tell(point, Tell::Ending(Some(ending)));
        }
    }
}

impl Notebook {
    /// The next input while a match is noted live.
    #[must_use]
    pub fn live_step(&self) -> Option<ShotPlace> {
        self.live?;
        Some(match self.now.draft.step() {
            ShotPlace::Contact => ShotPlace::Landing,
            step => step,
        })
    }
}

#[cfg(test)]
#[path = "live_tests.rs"]
mod tests;
