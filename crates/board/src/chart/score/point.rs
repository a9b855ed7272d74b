//! Facts of a point from its shots and from what was noted.
//!
//! Ends are those of the court here, as in the point: the near one has negative `y`.

use glam::DVec2;
use standpoint_geometry::{Court, End, Stroke};

use super::ending::{Ending, Miss};
use super::serve::{AfterServe, ServeCall, ServeCount, ServeNumber};
use super::tally::CourtSide;
use crate::chart::lines::out_by;
use crate::chart::model::{ObservedShot, Point};

/// Distance from a line up to which a ball's centre still touches it, m.
const TOUCH_M: f64 = 0.05;
/// Least distance of a serve's contact from the centre mark that decides the side, m.
const BESIDE_M: f64 = 0.2;

/// What is known of a point.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct PointFacts {
    /// The end of the server.
    pub server: Option<End>,
    /// From which side was served.
    pub side: Option<CourtSide>,
    /// The serve that brought the ball into play, or was lost as a double fault.
    pub serve: Option<ServeNumber>,
    /// The end of the winner.
    pub winner: Option<End>,
    /// How it ended.
    pub ending: Option<Ending>,
    /// Where the last ball went that was missed.
    pub miss: Option<Miss>,
    /// Noted strokes, without faults and lets.
    pub strokes: usize,
    /// Whether noted facts and places contradict each other; noted facts count.
    pub contradicted: bool,
}

/// Number and call of each serve of a point, one for each of its first shots; shorter than the point.
#[must_use]
pub fn serves(point: &Point, court: &Court) -> Vec<(ServeNumber, ServeCall)> {
    let mut count = ServeCount::default();
    let mut found = Vec::new();
    for (i, shot) in point.shots.iter().enumerate() {
        if !is_serve(shot) || point.shots[0].hitter != shot.hitter {
            break;
        }
        if let Some(number) = shot.serve {
            count.skip_to(number);
        }
        let Some(number) = count.due() else { break };
        let served_again = point.shots.get(i + 1).is_some_and(|next| is_serve(next) && next.hitter == shot.hitter);
        let call = shot.call.unwrap_or_else(|| match (fault_of(shot, court), served_again) {
            (Some(_), _) if !is_returned(point, i) => ServeCall::Fault,
            (_, true) => ServeCall::Let,
            _ => ServeCall::In,
        });
        found.push((number, call));
        match count.serve(call) {
            Ok(AfterServe::InPlay(_) | AfterServe::DoubleFault) | Err(_) => break,
            Ok(_) => {}
        }
    }
    found
}

/// Whether a shot was a serve, by any noted fact.
fn is_serve(shot: &ObservedShot) -> bool {
    shot.stroke == Some(Stroke::Serve) || shot.serve.is_some() || shot.call.is_some()
}

/// Whether the other player struck next.
fn is_returned(point: &Point, i: usize) -> bool {
    point.shots.get(i + 1).is_some_and(|next| next.hitter != point.shots[i].hitter)
}

fn fault_of(shot: &ObservedShot, court: &Court) -> Option<Miss> {
    missed(shot, Stroke::Serve, court)
}

/// The fault of a shot by its landing, if it was missed.
fn missed(shot: &ObservedShot, stroke: Stroke, court: &Court) -> Option<Miss> {
    let own = |place: DVec2| shot.hitter.turn2(place);
    let (by, miss) = out_by(court, stroke, own(shot.contact), own(shot.landing?))?;
    (by > TOUCH_M || miss == Miss::Net).then_some(miss)
}

/// The side a serve was struck from: by its contact, or by its landing where the contact is close to the middle.
fn side_of(shot: &ObservedShot) -> Option<CourtSide> {
    let x = shot.hitter.turn2(shot.contact).x;
    let tells = if x.abs() >= BESIDE_M { x } else { -shot.hitter.turn2(shot.landing?).x };
    Some(if tells > 0.0 { CourtSide::Deuce } else { CourtSide::Ad })
}

/// Facts of a point: those noted, otherwise those of its shots.
#[must_use]
pub fn facts(point: &Point, court: &Court) -> PointFacts {
    let serves = serves(point, court);
    let first = point.shots.first().filter(|_| !serves.is_empty());
    let seen = ended(point, court, &serves);
    let told = with_stated(point, &seen);
    let winner = told.winner.or(seen.winner);
    let differ = |told: Option<End>, seen: Option<End>| told.zip(seen).is_some_and(|(told, seen)| told != seen);
    PointFacts {
        server: point.server.or(first.map(|shot| shot.hitter)),
        side: point.side.or(first.and_then(side_of)),
        serve: serves.last().map(|(number, _)| *number),
        winner: point.winner.or(winner),
        ending: point.ending.or(seen.ending.filter(|_| !differ(point.winner, seen.winner))),
        miss: point.miss.or(seen.miss.filter(|_| !differ(point.winner, seen.winner))),
        strokes: point.shots.len() - serves.iter().filter(|(_, call)| *call != ServeCall::In).count(),
        contradicted: differ(point.winner, winner) || differ(point.server, first.map(|shot| shot.hitter)),
    }
}

/// Facts from the last shot.
#[derive(Debug, Clone, Copy, Default)]
struct Seen {
    winner: Option<End>,
    ending: Option<Ending>,
    miss: Option<Miss>,
    /// The end that struck last, or did not reach the ball any more: the error would be theirs.
    erred: Option<End>,
    struck: Option<End>,
}

fn ended(point: &Point, court: &Court, serves: &[(ServeNumber, ServeCall)]) -> Seen {
    let Some(last) = point.shots.last() else { return Seen::default() };
    let (hitter, other) = (last.hitter, last.hitter.other());
    let struck = Some(hitter);
    let served = serves.len() == point.shots.len();
    if let (true, Some((number, call))) = (served, serves.last()) {
        let miss = fault_of(last, court);
        match (call, number) {
            (ServeCall::Fault, ServeNumber::Second) => {
                let ending = Some(Ending::DoubleFault);
                return Seen { winner: Some(other), ending, miss, erred: struck, struck };
            }
            // The point is not over.
            (ServeCall::Fault | ServeCall::Let, _) => return Seen { miss, erred: struck, struck, ..Seen::default() },
            (ServeCall::In, _) => {}
        }
    }
    let stroke = if served { Stroke::Serve } else { last.stroke.unwrap_or(Stroke::Flat) };
    let called_in = last.call == Some(ServeCall::In);
    if let Some(miss) = missed(last, stroke, court).filter(|_| !called_in) {
        return Seen { winner: Some(other), ending: None, miss: Some(miss), erred: struck, struck };
    }
    // The opponent met the ball and may have missed it: only an observer knows.
    if last.met.is_some() || last.landing.is_none() {
        return Seen { erred: Some(other), struck, ..Seen::default() };
    }
    let ending = Some(if served { Ending::Ace } else { Ending::Winner });
    Seen { winner: struck, ending, miss: None, erred: Some(other), struck }
}

/// The winner by the noted ending.
fn with_stated(point: &Point, seen: &Seen) -> Seen {
    let winner = point.ending.and_then(|ending| match ending {
        Ending::Ace | Ending::Winner => seen.struck,
        Ending::ForcedError | Ending::UnforcedError => seen.erred.map(End::other),
        Ending::DoubleFault => point.server.or(seen.struck).map(End::other),
    });
    Seen { winner, ..*seen }
}
