//! The score of the points of a chart, session by session, with inconsistencies.

use std::fmt;

use standpoint_geometry::{Court, End};
use standpoint_language::{text, tr};

use super::error::ScoreError;
use super::notation;
use super::point::{PointFacts, facts};
use super::tally::{CourtSide, Standing, Tally};
use crate::chart::ends::Ends;
use crate::chart::model::{Chart, Point, SessionInfo};

/// The score of a chart.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Log {
    /// Its sessions, in order.
    pub sessions: Vec<SessionLog>,
    /// Inconsistencies.
    pub troubles: Vec<Trouble>,
}

/// The score of the points that follow each other in one session.
#[derive(Debug, Clone, PartialEq)]
pub struct SessionLog {
    /// Its name.
    pub session: String,
    /// Its points.
    pub points: Vec<ScoredPoint>,
    /// The score after them, if known.
    pub tally: Option<Tally>,
}

/// A point with its score.
#[derive(Debug, Clone, PartialEq)]
pub struct ScoredPoint {
    /// Index of the point in the chart.
    pub index: usize,
    /// What is known of it.
    pub facts: PointFacts,
    /// The score before it, if known.
    pub before: Option<Standing>,
    /// The score before it, written.
    pub score: String,
    /// The ends of the players, by the score where the server confirms it, else as noted.
    pub ends: Ends,
    /// Who served, by where they began.
    pub server: Option<End>,
    /// Who won, by where they began.
    pub winner: Option<End>,
    /// Side of the serve.
    pub side: Option<CourtSide>,
}

/// An inconsistency.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Trouble {
    /// Index of the point in the chart.
    pub index: usize,
    /// The session.
    pub session: String,
    /// Label of the point.
    pub label: String,
    /// Kind of inconsistency.
    pub kind: TroubleKind,
}

/// Kinds of inconsistency.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum TroubleKind {
    /// The winner was not noted, and the shots do not tell.
    #[error("{}", text("it is not known who won the point"))]
    WinnerUnknown,
    /// Stated and noted facts differ.
    #[error("{}", text("what was told of the point and its shots contradict each other"))]
    Contradicted,
    /// The other player is to serve.
    #[error("{}", text("the other player is to serve by the score"))]
    ServerNotInTurn,
    /// The other side is due.
    #[error("{}", text("the serve is due from the other side by the score"))]
    SideNotInTurn,
    /// The players are at the other ends.
    #[error("{}", text("the players are at the other ends by the score"))]
    EndsNotInTurn,
    /// The stated score differs from that of the points before.
    #[error("{}", tr!("the score was told as {}, and the points before make it {}", told, counted))]
    ScoreDiffers {
        /// Score noted.
        told: String,
        /// Score counted.
        counted: String,
    },
    /// It cannot be.
    #[error("{}", _0)]
    Score(#[from] ScoreError),
}

impl TroubleKind {
    /// What to do about it.
    #[must_use]
    pub fn remedy(&self) -> String {
        match self {
            Self::WinnerUnknown => text("Say who won it, or the score before the next point.").to_owned(),
            Self::Contradicted => text("What was told counts. Correct the point or its shots.").to_owned(),
            Self::ServerNotInTurn | Self::SideNotInTurn => {
                text("Look for a point that is missing or counted twice before this one.").to_owned()
            }
            Self::EndsNotInTurn => text("Change the ends of the point, or the score.").to_owned(),
            Self::ScoreDiffers { .. } => {
                text("What was told counts. Look for a point that is missing before this one.").to_owned()
            }
            Self::Score(error) => error.remedy(),
        }
    }
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let label = if self.label.is_empty() { (self.index + 1).to_string() } else { self.label.clone() };
        let place =
            if self.session.is_empty() { tr!("Point {}", label) } else { tr!("{}, point {}", self.session, label) };
        write!(f, "{place}: {}. {}", self.kind, self.kind.remedy())
    }
}

/// Whether a point belongs to a match: there was a serve, or the server or winner was noted.
#[must_use]
pub fn is_match_point(point: &Point) -> bool {
    let told = point.server.is_some() || point.winner.is_some() || point.ending.is_some() || !point.score.is_empty();
    told || point.shots.iter().any(|shot| {
        shot.serve.is_some() || shot.call.is_some() || shot.stroke == Some(standpoint_geometry::Stroke::Serve)
    })
}

/// The score of every point. Practice points without a serve have none and are not reported.
#[must_use]
pub fn log(chart: &Chart) -> Log {
    let court = chart.setup.board(Vec::new()).conditions().court;
    let mut log = Log::default();
    let mut begin = 0;
    while begin < chart.points.len() {
        let session = &chart.points[begin].session;
        let length = chart.points[begin..].iter().take_while(|point| point.session == *session).count();
        let points = &chart.points[begin..begin + length];
        let info = chart.setup.session(session);
        if info.is_some_and(|info| info.format.is_some()) || points.iter().any(is_match_point) {
            let mut counter = Counter { court: &court, info, tally: None, first_server: None, log: &mut log };
            let points = points.iter().enumerate().map(|(i, point)| counter.point(begin + i, point)).collect();
            let tally = counter.tally;
            log.sessions.push(SessionLog { session: session.clone(), points, tally });
        }
        begin += length;
    }
    log
}

struct Counter<'a> {
    court: &'a Court,
    info: Option<&'a SessionInfo>,
    tally: Option<Tally>,
    /// Who served first, once that is known.
    first_server: Option<End>,
    log: &'a mut Log,
}

impl Counter<'_> {
    fn trouble(&mut self, index: usize, point: &Point, kind: TroubleKind) {
        let (session, label) = (point.session.clone(), point.label.clone());
        self.log.troubles.push(Trouble { index, session, label, kind });
    }

    fn point(&mut self, index: usize, point: &Point) -> ScoredPoint {
        let facts = facts(point, self.court);
        self.begin(point, &facts);
        self.told_score(index, point);
        if facts.contradicted {
            self.trouble(index, point, TroubleKind::Contradicted);
        }
        let before = self.tally.as_ref().and_then(Tally::standing);
        if self.tally.is_some() && before.is_none() {
            self.trouble(index, point, ScoreError::MatchOver.into());
            self.tally = None;
        }
        let score = self.tally.as_ref().map(notation::write).unwrap_or_default();
        let ends = self.ends(index, point, &facts, before.as_ref());
        let server = facts.server.map(|end| ends.began(end));
        let expected = before.as_ref().map(|standing| standing.server);
        if server.is_some() && expected.is_some() && server != expected {
            self.trouble(index, point, TroubleKind::ServerNotInTurn);
        }
        let due = before.as_ref().and_then(|standing| standing.side);
        if due.is_some() && facts.side.is_some() && facts.side != due {
            self.trouble(index, point, TroubleKind::SideNotInTurn);
        }
        let winner = facts.winner.map(|end| ends.began(end));
        match (winner, &mut self.tally) {
            (Some(winner), Some(tally)) => {
                // The match is over already, which was reported above.
                let _ = tally.point(winner);
            }
            (None, Some(_)) => {
                self.trouble(index, point, TroubleKind::WinnerUnknown);
                self.tally = None;
            }
            (_, None) => {}
        }
        let side = facts.side.or(due);
        ScoredPoint { index, facts, before, score, ends, server: server.or(expected), winner, side }
    }

    /// The first point of a session begins the match.
    fn begin(&mut self, point: &Point, facts: &PointFacts) {
        if self.first_server.is_some() {
            return;
        }
        let told = self.info.and_then(|info| info.first_server);
        let first = told.or(facts.server.map(|end| point.ends.began(end)));
        if let Some(first) = first {
            self.first_server = Some(first);
            let format = self.info.and_then(|info| info.format).unwrap_or_default();
            let mut tally = Tally::new(format, first);
            // A session may begin at either end.
            tally.set_ends(point.ends);
            self.tally = Some(tally);
        }
    }

    /// A noted score counts from there on.
    fn told_score(&mut self, index: usize, point: &Point) {
        if point.score.is_empty() {
            return;
        }
        let format = self.info.and_then(|info| info.format).unwrap_or_default();
        let counted = self.tally.as_ref().map(notation::write);
        if counted.as_deref() == Some(point.score.as_str()) {
            return;
        }
        match notation::read(&point.score, format, self.first_server.unwrap_or_default()) {
            Ok(mut tally) => {
                let same = counted.as_deref() == Some(notation::write(&tally).as_str());
                if let Some(counted) = counted.filter(|_| !same) {
                    let told = point.score.clone();
                    self.trouble(index, point, TroubleKind::ScoreDiffers { told, counted });
                }
                if !same {
                    // The current ends are those noted.
                    tally.set_ends(point.ends);
                    if self.first_server.is_none() {
                        self.turn_to_server(&mut tally, point);
                    }
                    self.tally = Some(tally);
                }
            }
            Err(error) => self.trouble(index, point, error.into()),
        }
    }

    /// Sets the order of service in which the observed server serves.
    fn turn_to_server(&mut self, tally: &mut Tally, point: &Point) {
        let seen = facts(point, self.court).server.map(|end| point.ends.began(end));
        if seen.is_some_and(|seen| seen != tally.server()) {
            tally.first_server = tally.first_server.other();
        }
        self.first_server = seen.map(|_| tally.first_server);
    }

    /// The ends at which the player due to serve is the server; otherwise as noted.
    fn ends(&mut self, index: usize, point: &Point, facts: &PointFacts, before: Option<&Standing>) -> Ends {
        let Some((standing, by_score)) = before.and_then(|standing| Some((standing, standing.ends?))) else {
            if let Some(tally) = &mut self.tally {
                tally.set_ends(point.ends);
            }
            return point.ends;
        };
        if by_score == point.ends {
            return by_score;
        }
        self.trouble(index, point, TroubleKind::EndsNotInTurn);
        let in_turn = |ends: Ends| facts.server.is_some_and(|end| ends.began(end) == standing.server);
        if in_turn(by_score) {
            return by_score;
        }
        if let (true, Some(tally)) = (in_turn(point.ends), &mut self.tally) {
            tally.set_ends(point.ends);
        }
        point.ends
    }
}

/// Sets the ends of every point by its score, where the server confirms it; returns how many changed.
pub fn mend_ends(chart: &mut Chart) -> usize {
    let log = log(chart);
    let mut changed = 0;
    for scored in log.sessions.iter().flat_map(|session| &session.points) {
        let point = &mut chart.points[scored.index];
        changed += usize::from(point.ends != scored.ends);
        point.ends = scored.ends;
    }
    changed
}
