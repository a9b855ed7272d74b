//! A match noted while it is played: one input for a serve, one or two for a stroke, one for how the point ended.
//!
//! The score tells who serves, from which side and at which end, so a point begins with where its serve lands. Where a ball
//! is struck that nobody noted lies on its way beyond the landing; it can be put right later, as everything.

use std::cell::RefCell;
use std::sync::Arc;

use glam::DVec2;
use standpoint_geometry::{Court, End, Stroke};
use standpoint_language::mark;

use super::state::{State, held};
use super::{At, Draft, Notebook, Refusal, ShotPlace, Tell};
use standpoint_board::chart::check::IN_THE_NET;
use standpoint_board::chart::lines::{limits, out_by};
use standpoint_board::chart::model::{Chart, Point, SessionInfo, Setup};
use standpoint_board::chart::score::{
    AfterServe, CourtSide, Ending, Miss, ServeCall, ServeNumber, Tally, Trouble, facts, log, serves,
};
use standpoint_board::play_area::PlayArea;

/// A ball whose centre misses a line by so much still touches it, m.
const TOUCH_M: f64 = 0.05;
/// A serve is struck from so far beside the middle mark, m. This and the places below are choices without a source.
const BESIDE_MARK_M: f64 = 0.8;
/// It lands so far before the service line, m.
const BEFORE_LINE_M: f64 = 0.9;
/// And so far from the line at its side, to the T and wide, m.
const INSIDE_M: f64 = 0.5;
/// A ball that was long or wide landed so far out where nobody noted the place, m.
const OUT_M: f64 = 0.6;
/// A ball in the net lies so far before it, m.
const NET_M: f64 = 0.3;
/// A ball is met so far behind the baseline that comes as far, m.
const BEHIND_M: f64 = 1.0;
/// Short balls are met so far beyond their landing, m, and by this share of its depth farther.
const SHORT_M: f64 = 1.0;
const SHORT_SHARE: f64 = 0.75;
/// No ball is met farther beyond its landing, m.
const MOST_M: f64 = 9.0;

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

impl State {
    fn court(&self) -> Court {
        self.setup.board(Vec::new()).conditions().court
    }

    /// The match as it stands before the point that goes on, or before the next one.
    pub(super) fn tally(&self) -> Option<Tally> {
        let open = self.open.map(|open| open.point);
        let points =
            self.points.iter().enumerate().filter(|(i, point)| Some(*i) != open && point.session == self.session);
        let points: Vec<Point> = points.map(|(_, point)| (**point).clone()).collect();
        let setup = Setup { ..(*self.setup).clone() };
        log::log(&Chart { setup, points }).sessions.pop()?.tally
    }

    /// Whether a ball has been noted that the other player is to play.
    fn is_in_play(&self) -> bool {
        match (self.draft.contact, self.draft.landing, self.open) {
            (Some(_), Some(landing), _) => landing.is_some(),
            (Some(_), None, Some(open)) => open.shot > 0,
            _ => false,
        }
    }

    fn due_serve(&self, tally: Option<&Tally>) -> Option<DueServe> {
        let court = self.court();
        let (before, faults) = self.served(&court);
        let standing = tally.and_then(Tally::standing);
        if tally.is_some() && standing.is_none() {
            return None;
        }
        let first = self.setup.session(&self.session).and_then(|info| info.first_server);
        let by_score = standing.as_ref().map(|standing| standing.server).or(first);
        let end = before.map(|(end, _)| end).or(self.serving).unwrap_or_else(|| {
            // Who began at an end is at the other one after a change, and the other way round.
            by_score.map_or(End::Near, |began| self.ends.began(began))
        });
        let due = standing.as_ref().map_or(Some(CourtSide::Deuce), |standing| standing.side);
        let side = before.map(|(_, side)| side).or(due).unwrap_or(CourtSide::Deuce);
        let right = if side == CourtSide::Deuce { 1.0 } else { -1.0 };
        let half = court.half_width();
        let depth = court.service_line.unwrap_or(court.half_length() / 2.0) - BEFORE_LINE_M;
        let site = PlayArea::of(&self.setup.court);
        let place = |across: f64| held(&site, end.other(), end.turn2(DVec2::new(-right * across, depth)));
        let contact = end.turn2(DVec2::new(right * BESIDE_MARK_M, -court.half_length()));
        Some(DueServe {
            end,
            side,
            chosen: due.is_none() && before.is_none(),
            number: faults,
            contact: held(&site, end, contact),
            places: [place(INSIDE_M), place(half / 2.0), place(half - INSIDE_M)],
        })
    }

    /// The end and the side of the serves of the point that goes on, and which serve is due.
    fn served(&self, court: &Court) -> (Option<(End, CourtSide)>, ServeNumber) {
        let Some(point) = self.open.and_then(|open| self.points.get(open.point)) else {
            return (None, ServeNumber::First);
        };
        let Some(first) = point.shots.first() else { return (None, ServeNumber::First) };
        let side = if first.hitter.turn2(first.contact).x >= 0.0 { CourtSide::Deuce } else { CourtSide::Ad };
        let faulted = serves(point, court).iter().any(|(_, call)| *call == ServeCall::Fault);
        (Some((first.hitter, side)), if faulted { ServeNumber::Second } else { ServeNumber::First })
    }

    /// The serve that is due, as begun.
    fn serve_of(&self, due: &DueServe, clock: Option<f64>) -> Draft {
        Draft {
            hitter: due.end,
            contact: self.draft.contact.or(Some(due.contact)),
            stroke: Some(Stroke::Serve),
            time: clock,
            ..self.draft
        }
    }

    /// Notes where the ball that is begun lands, and what follows from it.
    fn live_landing(&mut self, live: Live, court: &Court, place: DVec2) {
        let site = PlayArea::of(&self.setup.court);
        let hitter = self.draft.hitter;
        let in_the_net = place.y * hitter.sign() <= 0.0;
        let landing = held(&site, if in_the_net { hitter } else { hitter.other() }, place);
        self.draft.landing = Some(Some(landing));
        let Some(contact) = self.draft.contact else { return };
        let stroke = self.draft.stroke.unwrap_or(Stroke::Flat);
        let out = out_by(court, stroke, hitter.turn2(contact), hitter.turn2(landing));
        match self.after_serve() {
            Some(AfterServe::Second | AfterServe::Again(_)) => self.end_serve(),
            Some(_) => self.close(),
            None if out.is_some_and(|(by, miss)| by > TOUCH_M || miss == Miss::Net) => self.close(),
            None => {
                let met = onward(court, stroke == Stroke::Serve, hitter.turn2(contact), hitter.turn2(landing));
                self.draft.met = Some(held(&site, hitter.other(), hitter.turn2(met)));
                if !live.positions {
                    self.shot(None);
                }
            }
        }
    }

    /// The ball that is begun goes into the net.
    fn live_net(&mut self, live: Live, court: &Court) {
        let Some(contact) = self.draft.contact else { return };
        let own = self.draft.hitter.turn2(contact);
        let place = self.draft.hitter.turn2(DVec2::new(0.6 * own.x, -NET_M));
        self.live_landing(live, court, place);
    }

    /// The ball that is begun again went long, or wide, from where it was going.
    fn live_out(&mut self, live: Live, court: &Court, miss: Miss) {
        let (Some(contact), Some(landing)) = (self.draft.contact, self.draft.landing.flatten()) else { return };
        let hitter = self.draft.hitter;
        let (own, mut to) = (hitter.turn2(contact), hitter.turn2(landing));
        let (left, right, deep) = limits(court, self.draft.stroke.unwrap_or(Stroke::Flat), own);
        match miss {
            Miss::Net => {}
            Miss::Long => to.y = deep + OUT_M,
            Miss::Wide if to.x - left < right - to.x => to.x = left - OUT_M,
            Miss::Wide => to.x = right + OUT_M,
        }
        (self.draft.met, self.draft.met_time) = (None, None);
        self.live_landing(live, court, hitter.turn2(to));
    }

    /// The ball that was noted last is begun again; what it was.
    fn take_last(&mut self) -> Option<standpoint_board::chart::model::ObservedShot> {
        if self.draft.landing.is_some() {
            return self.draft.shot(None);
        }
        let open = self.open.filter(|open| open.shot > 0)?;
        let at = At { shot: open.shot - 1, ..open };
        let shot = *self.get(at)?;
        self.with_point(at.point, |point| {
            point.shots.remove(at.shot);
        });
        let alone = self.points.get(at.point).is_some_and(|point| point.shots.is_empty());
        self.open = Some(at);
        if alone {
            self.remove_point(at.point);
        }
        self.draft = Draft::again(&shot);
        Some(shot)
    }

    /// The ball that is begun is the last of the point.
    fn close(&mut self) {
        let stood = self.draft.stood;
        self.shot(stood);
        self.end_point();
        self.follow_score();
    }
}

/// Where a ball is met that nobody saw being met, in the hitter's frame: on its way beyond the landing.
fn onward(court: &Court, serve: bool, contact: DVec2, landing: DVec2) -> DVec2 {
    let way = (landing - contact).normalize_or(DVec2::Y);
    let behind = court.half_length() + BEHIND_M;
    let whole = ((behind - landing.y) / way.y.max(0.2)).max(0.5);
    let farthest = if serve { MOST_M } else { (SHORT_M + SHORT_SHARE * landing.y).min(MOST_M) };
    let mut met = landing + way * whole.min(farthest);
    met.y = met.y.max(0.5);
    met
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
