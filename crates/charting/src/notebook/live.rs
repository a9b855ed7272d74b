//! A match noted while it is played: one input for a serve, one or two for a stroke, one for how the point ended.
//!
//! The score tells who serves, from which side and at which end, so a point begins with where its serve lands. Where a ball
//! is struck that nobody noted lies on its way beyond the landing; it can be put right later, as everything.

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

/// How a match is noted while it is played.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Live {
    /// Whether every stroke is followed by where the hitter stood.
    pub positions: bool,
}

/// The serve that is to be noted next.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DueServe {
    /// The end of the server.
    pub end: End,
    /// From which side.
    pub side: CourtSide,
    /// Whether the receiver chooses the side (a deciding point).
    pub chosen: bool,
    /// First or second.
    pub number: ServeNumber,
    /// Where it is struck.
    pub contact: DVec2,
    /// Where it lands to the T, at the body, and wide.
    pub places: [DVec2; 3],
}

/// The score by the version of the notes that it belongs to.
#[derive(Debug, Clone, Default)]
pub(super) struct Counted {
    tally: RefCell<Option<(u64, String, Option<Tally>)>>,
    troubles: RefCell<Option<(u64, Arc<[Trouble]>)>>,
}

impl PartialEq for Counted {
    /// Nothing of it is not in the notes.
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl Notebook {
    /// How the match is noted while it is played, if it is.
    #[must_use]
    pub fn live(&self) -> Option<Live> {
        self.live
    }

    /// Clock and way of noting as they were before steps were taken back.
    pub fn goes_on(&mut self, clock: Option<f64>, live: Option<Live>) {
        (self.clock, self.live) = (clock, live);
    }

    /// From now on a match is noted while it is played, or place by place. A session that nobody said anything of becomes a
    /// match of the best of three tie-break sets.
    pub fn set_live(&mut self, live: Option<Live>) {
        self.live = live;
        let info = self.now.setup.session(&self.now.session).cloned();
        if live.is_some() && info.as_ref().is_none_or(|info| info.format.is_none()) {
            let name = self.now.session.clone();
            let info = info.unwrap_or(SessionInfo { name, ..SessionInfo::default() });
            self.tell_session(SessionInfo { format: Some(info.format.unwrap_or_default()), ..info });
        }
    }

    /// The match as it stands before the point that goes on, or before the next one.
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

    /// Where points do not fit together.
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

    /// The other player serves: the first of a match, or in this point.
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

    /// Notes where the next ball lands: of a serve that is due, or of the stroke that is played.
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

    /// The ball was not returned: an ace or a winner.
    ///
    /// # Errors
    /// Where no ball has been noted that could have been.
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

    /// A ball was missed: in the net the one that comes next, long or wide the one that was noted last.
    ///
    /// # Errors
    /// Where there is no such ball.
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

    /// A let: of a serve that was noted, which is served again; later in a point it is played again as a whole (Rule 23).
    ///
    /// # Errors
    /// Where no ball has been noted.
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

    /// The point that has just ended with an error of which nobody said yet whether it was forced.
    #[must_use]
    pub fn asks_for_error(&self) -> Option<usize> {
        let last = self.points().len().checked_sub(1).filter(|_| self.live.is_some() && self.now.open.is_none())?;
        let facts = facts(&self.points()[last], &self.now.court());
        (facts.winner.is_some() && facts.miss.is_some() && facts.ending.is_none()).then_some(last)
    }

    /// Says whether the error that ended the last point was forced.
    pub fn error_was(&mut self, ending: Ending) {
        if let Some(point) = self.asks_for_error() {
            self.tell(point, Tell::Ending(Some(ending)));
        }
    }
}

impl Notebook {
    /// What is to be noted next while a match is noted live.
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
