//! The data of a scouting sheet of one player: serve, return and rally, with counts.

use std::collections::BTreeMap;

use standpoint_geometry::{Court, End, Stroke, Way, Wing};

use super::case::Case;
use super::counts::Choices;
use super::habit::{Habit, Smoothing};
use super::tell::{FEWEST, Tell, tells};
use crate::audit::{AuditedShot, Outcome, Pressure};
use crate::chance::drawn_at_least;
use standpoint_board::chart::ends::Ends;
use standpoint_board::chart::lines::out_by;
use standpoint_board::chart::model::{Chart, Point};
use standpoint_board::chart::score::{CourtSide, Ending, ServeCall, ServeNumber, at, facts, is_match_point, serves};

/// Largest chance of luck behind a statement. A choice without a source.
const CHANCE: f64 = 0.05;

/// A count out of a total.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Count {
    /// The count.
    pub part: u64,
    /// The total.
    pub whole: u64,
}

impl Count {
    fn add(&mut self, so: bool) {
        self.whole += 1;
        self.part += u64::from(so);
    }

    /// The share, where the total is large enough.
    #[must_use]
    pub fn share(self) -> Option<f64> {
        (self.whole >= FEWEST).then(|| self.part as f64 / self.whole as f64)
    }
}

/// Serves from one side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ServeProfile {
    /// The side.
    pub side: CourtSide,
    /// First or second.
    pub number: ServeNumber,
    /// Directions; [`Way::Across`] is wide and [`Way::Line`] to the T.
    pub habit: Habit,
    /// Those that were in.
    pub made: Count,
    /// Points won of those that were in.
    pub won: Count,
}

/// Returns of one serve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReturnProfile {
    /// Of first or second serves.
    pub number: ServeNumber,
    /// Serves in the box that came back into the court.
    pub made: Count,
    /// Of those, landed beyond the middle between service line and baseline.
    pub deep: Count,
    /// Points won of serves that were in.
    pub won: Count,
}

/// Strokes of one wing after serve and return.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WingProfile {
    /// The wing.
    pub wing: Wing,
    /// Directions with time.
    pub at_ease: Habit,
    /// Directions under pressure.
    pub hurried: Habit,
    /// Missed balls.
    pub missed: Count,
}

/// A player as an opponent.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    /// The player, by where they began.
    pub player: End,
    /// Points that were charted.
    pub points: u64,
    /// Shots of the player.
    pub shots: u64,
    /// Serves by side and number.
    pub serves: Vec<ServeProfile>,
    /// Returns by the serve they answered.
    pub returns: Vec<ReturnProfile>,
    /// Both wings.
    pub wings: [WingProfile; 2],
    /// Habits supported by the evidence.
    pub tells: Vec<Tell>,
    /// The wing that misses more often beyond luck.
    pub weaker: Option<Wing>,
    /// Points lost by an unforced error, out of all lost points of known ending.
    pub unforced: Count,
}

/// The profile of a player of a chart, from its points and from its audited shots.
#[must_use]
pub fn profile(chart: &Chart, shots: &[AuditedShot], player: End) -> Profile {
    let choices = Choices::of(shots);
    let smoothing = Smoothing::default();
    let court = chart.setup.board(Vec::new()).conditions().court;
    let mut tally = Tallies::default();
    for point in &chart.points {
        tally.point(point, &court, player);
    }
    let habit = |case: Case| choices.habit(player, case, &smoothing);
    let sides = CourtSide::ALL.into_iter().flat_map(|side| [(side, ServeNumber::First), (side, ServeNumber::Second)]);
    let serves = sides
        .map(|(side, number)| ServeProfile {
            side,
            number,
            habit: habit(Case::Serve { side: Some(side), number: Some(number) }),
            made: tally.made.get(&(side, number)).copied().unwrap_or_default(),
            won: tally.won.get(&(side, number)).copied().unwrap_or_default(),
        })
        .collect();
    let returns = [ServeNumber::First, ServeNumber::Second].map(|number| ReturnProfile {
        number,
        made: tally.returned.get(&number).copied().unwrap_or_default(),
        deep: tally.deep.get(&number).copied().unwrap_or_default(),
        won: tally.return_won.get(&number).copied().unwrap_or_default(),
    });
    let wings = [Wing::Forehand, Wing::Backhand].map(|wing| {
        let case = |pressure| Case::Rally { wing: Some(wing), side: None, pressure: Some(pressure) };
        let mut missed = Count::default();
        let own = |shot: &&AuditedShot| shot.began == player && shot.wing == wing && shot.stroke != Stroke::Serve;
        shots.iter().filter(own).for_each(|shot| missed.add(matches!(shot.outcome, Outcome::Missed(_))));
        WingProfile { wing, at_ease: habit(case(Pressure::AtEase)), hurried: habit(case(Pressure::Hurried)), missed }
    });
    Profile {
        player,
        points: tally.points,
        shots: shots.iter().filter(|shot| shot.began == player).count() as u64,
        serves,
        returns: returns.to_vec(),
        weaker: weaker(&wings),
        wings,
        tells: tells(&choices, player, &smoothing),
        unforced: tally.unforced,
    }
}

/// The wing that misses more often than the other beyond luck, by Fisher's exact test on each side.
fn weaker(wings: &[WingProfile; 2]) -> Option<Wing> {
    let [forehand, backhand] = wings.map(|wing| wing.missed);
    if forehand.whole < FEWEST || backhand.whole < FEWEST {
        return None;
    }
    let (missed, all) = (forehand.part + backhand.part, forehand.whole + backhand.whole);
    let more = |of: Count| 2.0 * drawn_at_least(of.part, of.whole, missed, all) <= CHANCE;
    match (more(forehand), more(backhand)) {
        (true, false) => Some(Wing::Forehand),
        (false, true) => Some(Wing::Backhand),
        _ => None,
    }
}

#[derive(Default)]
struct Tallies {
    points: u64,
    made: BTreeMap<(CourtSide, ServeNumber), Count>,
    won: BTreeMap<(CourtSide, ServeNumber), Count>,
    returned: BTreeMap<ServeNumber, Count>,
    deep: BTreeMap<ServeNumber, Count>,
    return_won: BTreeMap<ServeNumber, Count>,
    unforced: Count,
}

impl Tallies {
    fn point(&mut self, point: &Point, court: &Court, player: End) {
        self.points += 1;
        if !is_match_point(point) {
            return;
        }
        let known = facts(point, court);
        let own = |end: End| Ends::began(point.ends, end) == player;
        let won = known.winner.map(own);
        if won == Some(false)
            && let Some(ending) = known.ending
        {
            self.unforced.add(ending == Ending::UnforcedError);
        }
        let Some(server) = known.server else { return };
        let calls = serves(point, court);
        let Some(&(number, last)) = calls.last() else { return };
        if own(server) {
            let side = known.side;
            for (number, call) in &calls {
                if *call != ServeCall::Let
                    && let Some(side) = side
                {
                    self.made.entry((side, *number)).or_default().add(*call == ServeCall::In);
                }
            }
            if last == ServeCall::In
                && let (Some(side), Some(won)) = (side, won)
            {
                self.won.entry((side, number)).or_default().add(won);
            }
        } else if last == ServeCall::In {
            if let Some(won) = won {
                self.return_won.entry(number).or_default().add(won);
            }
            self.returned(point, court, calls.len(), number);
        }
    }

    /// Counts the return, if there was one: it came back where it landed in the court, or was met from the air.
    fn returned(&mut self, point: &Point, court: &Court, serves: usize, number: ServeNumber) {
        let shot = point.shots.get(serves);
        let own = |shot: &standpoint_board::chart::ObservedShot| {
            let turn = |place| shot.hitter.turn2(place);
            let landing = shot.landing.map(turn);
            let stroke = shot.stroke.unwrap_or(Stroke::Flat);
            let is_in = landing.is_none_or(|landing| out_by(court, stroke, turn(shot.contact), landing).is_none());
            (is_in, landing)
        };
        let Some((is_in, landing)) = shot.map(own) else {
            return self.returned.entry(number).or_default().add(false);
        };
        self.returned.entry(number).or_default().add(is_in);
        if let (true, Some(landing), Some(service)) = (is_in, landing, court.service_line) {
            let middle = 0.5 * (service + court.half_length());
            self.deep.entry(number).or_default().add(landing.y > middle);
        }
    }
}

impl Profile {
    /// The share of serves that go one way, where there are enough serves.
    #[must_use]
    pub fn serve_share(&self, side: CourtSide, number: ServeNumber, way: Way) -> Option<f64> {
        let of = self.serves.iter().find(|of| of.side == side && of.number == number)?;
        (of.habit.shots >= FEWEST).then(|| of.habit.shares[way as usize].share.value)
    }

    /// Points won on a serve, from both sides together.
    #[must_use]
    pub fn won_on(&self, number: ServeNumber) -> Count {
        let of = self.serves.iter().filter(|of| of.number == number);
        of.fold(Count::default(), |sum, of| Count { part: sum.part + of.won.part, whole: sum.whole + of.won.whole })
    }

    /// The position of a player in a pair, for reports.
    #[must_use]
    pub fn index(&self) -> usize {
        at(self.player)
    }
}

#[cfg(test)]
#[path = "profile_tests.rs"]
mod tests;
