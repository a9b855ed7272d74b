//! Effects of inputs while a match is noted live.

use glam::DVec2;
use standpoint_board::chart::lines::{limits, out_by};
use standpoint_board::chart::model::{Chart, ObservedShot, Point, Setup};
use standpoint_board::chart::score::{AfterServe, CourtSide, Miss, ServeCall, ServeNumber, Tally, log, serves};
use standpoint_board::play_area::PlayArea;
use standpoint_geometry::{Court, End, Stroke};

use super::super::state::{State, held};
use super::{At, Draft, DueServe, Live};

/// Distance from a line up to which a ball's centre still touches it, m.
const TOUCH_M: f64 = 0.05;
/// Distance of a serve's contact from the centre mark, m. This and the places below are choices without a source.
const BESIDE_MARK_M: f64 = 0.8;
/// Distance of a serve's landing before the service line, m.
const BEFORE_LINE_M: f64 = 0.9;
/// Distance of a serve's landing from the line at its side, to the T and wide, m.
const INSIDE_M: f64 = 0.5;
/// Distance out of the court of a long or wide ball whose landing was not noted, m.
const OUT_M: f64 = 0.6;
/// Distance before the net of a ball in the net, m.
const NET_M: f64 = 0.3;
/// Distance behind the baseline at which a ball that comes as far is met, m.
const BEHIND_M: f64 = 1.0;
/// Distance beyond their landing at which short balls are met, m, and its increase as a share of the landing's depth.
const SHORT_M: f64 = 1.0;
const SHORT_SHARE: f64 = 0.75;
/// Largest distance beyond the landing at which a ball is met, m.
const MOST_M: f64 = 9.0;

impl State {
    pub(super) fn court(&self) -> Court {
        self.setup.board(Vec::new()).conditions().court
    }

    /// The state of the match before the current point, or before the next one.
    pub(in crate::notebook) fn tally(&self) -> Option<Tally> {
        let open = self.open.map(|open| open.point);
        let points =
            self.points.iter().enumerate().filter(|(i, point)| Some(*i) != open && point.session == self.session);
        let points: Vec<Point> = points.map(|(_, point)| (**point).clone()).collect();
        let setup = Setup { ..(*self.setup).clone() };
        log::log(&Chart { setup, points }).sessions.pop()?.tally
    }

    /// Whether a ball has been noted that the other player is to play.
    pub(super) fn is_in_play(&self) -> bool {
        match (self.draft.contact, self.draft.landing, self.open) {
            (Some(_), Some(landing), _) => landing.is_some(),
            (Some(_), None, Some(open)) => open.shot > 0,
            _ => false,
        }
    }

    pub(super) fn due_serve(&self, tally: Option<&Tally>) -> Option<DueServe> {
        let court = self.court();
        let (before, faults) = self.served(&court);
        let standing = tally.and_then(Tally::standing);
        if tally.is_some() && standing.is_none() {
            return None;
        }
        let first = self.setup.session(&self.session).and_then(|info| info.first_server);
        let by_score = standing.as_ref().map(|standing| standing.server).or(first);
        let end = before.map(|(end, _)| end).or(self.serving).unwrap_or_else(|| {
            // After a change of ends, a player is at the other end than the one where they began.
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

    /// The end and the side of the serves of the current point, and the number of the serve due.
    fn served(&self, court: &Court) -> (Option<(End, CourtSide)>, ServeNumber) {
        let Some(point) = self.open.and_then(|open| self.points.get(open.point)) else {
            return (None, ServeNumber::First);
        };
        let Some(first) = point.shots.first() else { return (None, ServeNumber::First) };
        let side = if first.hitter.turn2(first.contact).x >= 0.0 { CourtSide::Deuce } else { CourtSide::Ad };
        let faulted = serves(point, court).iter().any(|(_, call)| *call == ServeCall::Fault);
        (Some((first.hitter, side)), if faulted { ServeNumber::Second } else { ServeNumber::First })
    }

    /// The serve that is due, as a draft.
    pub(super) fn serve_of(&self, due: &DueServe, clock: Option<f64>) -> Draft {
        Draft {
            hitter: due.end,
            contact: self.draft.contact.or(Some(due.contact)),
            stroke: Some(Stroke::Serve),
            time: clock,
            ..self.draft
        }
    }

    /// Notes the landing of the current ball, and what follows from it.
    pub(super) fn live_landing(&mut self, live: Live, court: &Court, place: DVec2) {
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

    /// Notes that the current ball went into the net.
    pub(super) fn live_net(&mut self, live: Live, court: &Court) {
        let Some(contact) = self.draft.contact else { return };
        let own = self.draft.hitter.turn2(contact);
        let place = self.draft.hitter.turn2(DVec2::new(0.6 * own.x, -NET_M));
        self.live_landing(live, court, place);
    }

    /// Moves the landing of a ball that is noted again out of the court: long or wide of where it was going.
    pub(super) fn live_out(&mut self, live: Live, court: &Court, miss: Miss) {
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

    /// Takes the last noted ball out, to note it again; returns it.
    pub(super) fn take_last(&mut self) -> Option<ObservedShot> {
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

    /// Ends the point with the current ball.
    pub(super) fn close(&mut self) {
        let stood = self.draft.stood;
        self.shot(stood);
        self.end_point();
        self.follow_score();
    }
}

/// The contact of a ball when nobody saw it, in the hitter's frame: on its way beyond the landing.
fn onward(court: &Court, serve: bool, contact: DVec2, landing: DVec2) -> DVec2 {
    let way = (landing - contact).normalize_or(DVec2::Y);
    let behind = court.half_length() + BEHIND_M;
    let whole = ((behind - landing.y) / way.y.max(0.2)).max(0.5);
    let farthest = if serve { MOST_M } else { (SHORT_M + SHORT_SHARE * landing.y).min(MOST_M) };
    let mut met = landing + way * whole.min(farthest);
    met.y = met.y.max(0.5);
    met
}
