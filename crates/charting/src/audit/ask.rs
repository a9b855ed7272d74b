//! One shot with its neighbours in the point: the input of the audit.

use std::sync::Arc;

use standpoint_geometry::{End, Stroke};
use standpoint_language::tr;

use crate::import::Row;
use standpoint_board::chart::ends::Ends;
use standpoint_board::chart::model::{Chart, ObservedShot};
use standpoint_board::chart::score::{CourtSide, ServeNumber, facts, serves};

/// What is known of the serve of a point.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Served {
    /// The end of the server.
    pub server: Option<End>,
    /// Side of the serve.
    pub side: Option<CourtSide>,
    /// The serve that brought the ball into play.
    pub number: Option<ServeNumber>,
}

/// Origin of a shot in the chart.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Origin {
    /// Line of the file it was read from.
    pub line: Option<u64>,
    /// The day, match or set.
    pub session: Arc<str>,
    /// Label of the point.
    pub point: Arc<str>,
    /// The point, counted from 1.
    pub point_number: u64,
    /// The shot of the point, counted from 1.
    pub shot_number: u32,
}

impl Origin {
    /// The shot in words: session, point and number.
    #[must_use]
    pub fn title(&self) -> String {
        let point = if self.point.is_empty() { self.point_number.to_string() } else { self.point.to_string() };
        if self.session.is_empty() {
            tr!("point {}, shot {}", point, self.shot_number)
        } else {
            tr!("{}, point {}, shot {}", self.session, point, self.shot_number)
        }
    }
}

/// A shot to be audited.
#[derive(Debug, Clone, PartialEq)]
pub struct Ask {
    /// Its origin.
    pub origin: Origin,
    /// Ends of the players.
    pub ends: Ends,
    /// The shot.
    pub shot: ObservedShot,
    /// The shot before it in the point.
    pub before: Option<ObservedShot>,
    /// The shot after it in the point.
    pub after: Option<ObservedShot>,
    /// What is known of the serve of the point; for a serve, its number.
    pub served: Served,
}

/// Joins rows into points one after the other and gives each shot its neighbours.
#[derive(Debug, Clone, Default)]
pub struct Joiner {
    pending: Option<(Ask, Option<Arc<str>>)>,
    points: u64,
}

impl Joiner {
    /// Takes the next row and returns the shot before it, which is now complete.
    pub fn row(&mut self, row: Row) -> Option<Ask> {
        let follows = match &self.pending {
            Some((ask, point)) => {
                point.is_some() && *point == row.point && ask.origin.session == row.session && ask.ends == row.ends
            }
            None => false,
        };
        let mut before = None;
        let mut shot_number = 1;
        let mut served = Served::default();
        let mut done = self.pending.take().map(|(ask, _)| ask);
        if follows && let Some(ask) = &mut done {
            ask.after = Some(row.shot);
            before = Some(ask.shot);
            shot_number = ask.origin.shot_number + 1;
            served = ask.served;
        } else {
            self.points += 1;
        }
        let served = served_by(&row, served, shot_number == 1);
        let origin = Origin {
            line: Some(row.line),
            session: row.session,
            point: row.point.clone().unwrap_or_default(),
            point_number: self.points,
            shot_number,
        };
        let ask = Ask { origin, ends: row.ends, shot: row.shot, before, after: None, served };
        self.pending = Some((ask, row.point));
        done
    }

    /// Returns the last shot: at the end, and before an unreadable row, because later rows may not follow the shot
    /// before.
    pub fn finish(&mut self) -> Option<Ask> {
        self.pending.take().map(|(ask, _)| ask)
    }
}

/// Adds the serve facts of a row: rows come one after the other, and facts of later ones are not known yet.
fn served_by(row: &Row, known: Served, first: bool) -> Served {
    let shot = &row.shot;
    let serve = shot.stroke == Some(Stroke::Serve) && (first || known.number.is_some());
    let counted = || if known.number.is_some() { ServeNumber::Second } else { ServeNumber::First };
    let number = if serve { Some(shot.serve.unwrap_or_else(counted)) } else { known.number };
    let server = row.told.server.or(known.server).or(serve.then_some(shot.hitter));
    Served { server, side: row.told.side.or(known.side), number }
}

/// A shot without its times, where these were taken by hand.
fn timed(shot: &ObservedShot, by_hand: bool) -> ObservedShot {
    if by_hand { ObservedShot { time: None, met_time: None, ..*shot } } else { *shot }
}

/// The shots of a chart.
pub fn asks(chart: &Chart) -> impl Iterator<Item = Ask> + '_ {
    let court = chart.setup.board(Vec::new()).conditions().court;
    chart.points.iter().enumerate().flat_map(move |(i, point)| {
        let (session, label): (Arc<str>, Arc<str>) = (point.session.as_str().into(), point.label.as_str().into());
        let (facts, serves) = (facts(point, &court), serves(point, &court));
        let by_hand = chart.setup.session(&point.session).is_some_and(|session| session.times_by_hand);
        point.shots.iter().enumerate().map(move |(j, shot)| Ask {
            origin: Origin {
                line: None,
                session: Arc::clone(&session),
                point: Arc::clone(&label),
                point_number: i as u64 + 1,
                shot_number: j as u32 + 1,
            },
            ends: point.ends,
            shot: timed(shot, by_hand),
            before: j.checked_sub(1).map(|j| timed(&point.shots[j], by_hand)),
            after: point.shots.get(j + 1).map(|shot| timed(shot, by_hand)),
            served: Served {
                server: facts.server,
                side: facts.side,
                number: serves.get(j).map(|(number, _)| *number).or(facts.serve),
            },
        })
    })
}
