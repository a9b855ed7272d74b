//! Filters of a chart: points and shots with common properties, to compare players and periods.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::RangeInclusive;

use standpoint_geometry::End;

use crate::audit::AuditedShot;
use crate::insight::ShotGroup;
use standpoint_board::chart::date::Date;
use standpoint_board::chart::model::{Chart, Setup};
use standpoint_board::chart::score::{Log, ScoredPoint, ServeNumber, Stakes, at};

/// The stakes of a point.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum AtStake {
    /// The receiver could win the game.
    BreakPoint,
    /// Somebody could win the game.
    GamePoint,
    /// Somebody could win the set.
    SetPoint,
    /// Somebody could win the match.
    MatchPoint,
    /// None of these.
    Nothing,
}

impl AtStake {
    /// All.
    pub const ALL: [Self; 5] = [Self::BreakPoint, Self::GamePoint, Self::SetPoint, Self::MatchPoint, Self::Nothing];

    fn is(self, stakes: Stakes) -> bool {
        let any = |of: [bool; 2]| of[0] || of[1];
        match self {
            Self::BreakPoint => stakes.break_point,
            Self::GamePoint => any(stakes.game),
            Self::SetPoint => any(stakes.set),
            Self::MatchPoint => any(stakes.match_),
            Self::Nothing => !any(stakes.game),
        }
    }
}

/// A filter of points; `None` accepts anything. An unknown property does not match.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct PointFilter {
    /// Sessions, by name.
    pub sessions: Option<BTreeSet<String>>,
    /// Dates of sessions.
    pub dates: Option<RangeInclusive<Date>>,
    /// The server, by where they began.
    pub server: Option<End>,
    /// The serve that brought the ball into play.
    pub serve: Option<ServeNumber>,
    /// Stakes of the point.
    pub at_stake: Option<AtStake>,
    /// Whether the server led in the game, was level, or behind.
    pub lead: Option<Lead>,
    /// Strokes of the point, faults and lets not counted.
    pub strokes: Option<RangeInclusive<usize>>,
}

/// Score of the game for the server.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Lead {
    /// More points than the receiver.
    Ahead,
    /// As many.
    Level,
    /// Fewer.
    Behind,
}

impl Lead {
    /// All.
    pub const ALL: [Self; 3] = [Self::Ahead, Self::Level, Self::Behind];

    fn of(scored: &ScoredPoint) -> Option<Self> {
        let standing = scored.before.as_ref()?;
        let own = standing.points[at(standing.server)];
        Some(match own.cmp(&standing.points[at(standing.server.other())]) {
            std::cmp::Ordering::Greater => Self::Ahead,
            std::cmp::Ordering::Equal => Self::Level,
            std::cmp::Ordering::Less => Self::Behind,
        })
    }
}

impl PointFilter {
    /// Indices of the matching points of a chart.
    #[must_use]
    pub fn points(&self, chart: &Chart, log: &Log) -> BTreeSet<usize> {
        let scored: BTreeMap<usize, &ScoredPoint> =
            log.sessions.iter().flat_map(|session| &session.points).map(|scored| (scored.index, scored)).collect();
        let fits = |index: &usize| {
            let (point, scored) = (&chart.points[*index], scored.get(index));
            let strokes = scored.map_or(point.shots.len(), |scored| scored.facts.strokes);
            self.fits_session(&chart.setup, &point.session)
                && self.strokes.as_ref().is_none_or(|asked| asked.contains(&strokes))
                && (!self.asks_for_score() || scored.is_some_and(|scored| self.fits_point(scored)))
        };
        (0..chart.points.len()).filter(fits).collect()
    }

    fn fits_session(&self, setup: &Setup, name: &str) -> bool {
        let date = || setup.session(name).and_then(|session| session.date);
        self.sessions.as_ref().is_none_or(|sessions| sessions.contains(name))
            && self.dates.as_ref().is_none_or(|dates| date().is_some_and(|date| dates.contains(&date)))
    }

    fn asks_for_score(&self) -> bool {
        self.server.is_some() || self.serve.is_some() || self.at_stake.is_some() || self.lead.is_some()
    }

    fn fits_point(&self, scored: &ScoredPoint) -> bool {
        let stakes = scored.before.as_ref().map(|standing| standing.stakes);
        (self.server.is_none() || scored.server == self.server)
            && (self.serve.is_none() || scored.facts.serve == self.serve)
            && self.at_stake.is_none_or(|at_stake| stakes.is_some_and(|stakes| at_stake.is(stakes)))
            && (self.lead.is_none() || Lead::of(scored) == self.lead)
    }
}

/// The audited shots of a player in some points of the chart and of some kind.
pub fn shots<'a>(
    shots: &'a [AuditedShot],
    player: End,
    points: &'a BTreeSet<usize>,
    group: ShotGroup,
) -> impl Iterator<Item = &'a AuditedShot> {
    let within = |shot: &AuditedShot| {
        usize::try_from(shot.origin.point_number).is_ok_and(|number| number > 0 && points.contains(&(number - 1)))
    };
    shots.iter().filter(move |shot| shot.began == player && group.holds(shot) && within(shot))
}
