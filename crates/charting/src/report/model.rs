//! The report as plain data, the source of pages, tables and JSON.

use serde::Serialize;
use standpoint_geometry::End;

use super::findings::{self, FindingReport, TellReport};
use super::moments::MomentReport;
use super::names;
use super::row::rounded;
use crate::audit::findings::{AssumedCounts, session_name};
use crate::audit::{Findings, Group, Section, in_thirty_days};
use standpoint_language::mark;

use crate::fit::{DirectionHabit, Habits};
use crate::stats::{Estimate, Histogram, Line, Moments, share};
use standpoint_board::chart::model::Setup;
use standpoint_board::chart::score::CourtSide;

/// The note that figures are estimates; part of every report.
pub const ESTIMATE: &str = mark(
    "Every figure is an estimate of a model for these two players, not a measurement. Left-right is positive to the \
     player's right, depth is positive when they stood too deep; both are taken from the best place that could be \
     reached in time.",
);
/// Least number of telling shots for naming a habit.
pub const TELLING: u64 = 12;

/// A report. All units are SI; shares and exposures are from 0 to 1.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReportModel {
    /// The note on estimates.
    pub estimate: &'static str,
    /// Title of the chart.
    pub title: String,
    /// Whether the audit was completed; otherwise the report covers the first rows only.
    pub complete: bool,
    /// The findings, the costliest first.
    pub findings: Vec<FindingReport>,
    /// Rows of the file, the heading not counted.
    pub rows: u64,
    /// Rows that could not be read.
    pub bad_rows: u64,
    /// Shots that could be read.
    pub shots: u64,
    /// Points.
    pub points: u64,
    /// The players, as far as they struck a ball.
    pub players: Vec<PlayerReport>,
    /// Why shots could not be judged.
    pub not_playable: Vec<Reason>,
}

/// Why shots could not be judged.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Reason {
    /// The reason.
    pub reason: String,
    /// How many shots.
    pub shots: u64,
}

/// One player.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PlayerReport {
    /// Name on the card.
    pub name: String,
    /// The end at which they began.
    pub began: &'static str,
    /// Level on the card.
    pub level: &'static str,
    /// Racket hand on the card.
    pub hand: &'static str,
    /// All shots.
    pub all: GroupReport,
    /// Tables by stroke, wing, direction, side and level.
    pub tables: Vec<Table>,
    /// The player's recovery.
    pub recovery: RecoveryReport,
    /// Dependence of the player's place on the opponent's contact.
    pub ready: ReadyReport,
    /// Session by session.
    pub sessions: Vec<Named>,
    /// Day by day, in the order of the calendar; sessions without a date are left out.
    pub days: Vec<Named>,
    /// Changes of the means in thirty days, from three days or more.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub in_thirty_days: Option<InThirtyDays>,
    /// Consecutive shots, in blocks.
    pub blocks: Vec<BlockReport>,
    /// Errors across from the best place that could be reached, m.
    pub across: Histogram,
    /// Errors along, m.
    pub along: Histogram,
    /// Avoidable exposure.
    pub avoidable: Histogram,
    /// How often each fact was filled in, among judged shots.
    pub assumed: AssumedCounts,
    /// Directions of each wing.
    pub habits: Vec<HabitReport>,
    /// Habits beyond luck, the clearest first, for opponents of this player.
    pub tells: Vec<TellReport>,
    /// The moments that cost most.
    pub costliest: Vec<MomentReport>,
}

/// Changes of means in thirty days, by a straight line through the means of the days.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct InThirtyDays {
    /// Error across, m.
    pub across: Option<Estimate>,
    /// Error along, m.
    pub along: Option<Estimate>,
    /// Avoidable exposure.
    pub avoidable: Option<Estimate>,
}

/// Groups of one kind.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Table {
    /// "stroke", "wing", "direction", "side" or "level".
    pub by: &'static str,
    /// The groups.
    pub groups: Vec<Named>,
}

/// A group with its name.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Named {
    /// Name of the group.
    pub name: String,
    /// Its figures.
    #[serde(flatten)]
    pub group: GroupReport,
}

/// Figures of a group of shots.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct GroupReport {
    /// Shots.
    pub shots: u64,
    /// Shots whose place was judged; judged shots and the counts down to `not_playable` add up to the shots.
    pub judged: u64,
    /// Shots that the model's opponent would not have reached.
    pub winners: u64,
    /// Shots that the model's opponent would hardly have put back.
    pub no_reply: u64,
    /// Missed.
    pub missed: u64,
    /// Shots after which nobody noted where the hitter stood.
    pub not_seen: u64,
    /// Shots for which the model finds no flight.
    pub not_playable: u64,
    /// Share of judged shots whose spot could be reached in time.
    pub reachable: Option<Estimate>,
    /// Error across, m.
    pub across: Figure,
    /// Error along, m.
    pub along: Figure,
    /// Error across from the spot, in reach or not, m.
    pub across_spot: Figure,
    /// Error along from the spot, m.
    pub along_spot: Figure,
    /// Exposure beyond that at the spot.
    pub extra: Figure,
    /// Exposure beyond that at the best place that could be reached.
    pub avoidable: Figure,
    /// Time to the opponent's contact, s.
    pub available_s: Figure,
    /// Time a run to the spot takes, s.
    pub needed_s: Figure,
    /// Share of telling shots after which the player stood in the middle.
    pub to_the_middle: Option<Estimate>,
    /// Shots that distinguish a run to the middle from one to the spot.
    pub telling: u64,
}

/// A mean with its interval at 95 percent and the spread from shot to shot.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Figure {
    /// Mean.
    pub mean: Option<f64>,
    /// Lower end of its interval.
    pub low: Option<f64>,
    /// Upper end of its interval.
    pub high: Option<f64>,
    /// Standard deviation from shot to shot.
    pub deviation: Option<f64>,
}

/// The recovery of a player.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct RecoveryReport {
    /// Share of the way from the middle to the best place in reach that the player goes, 0 to 1.
    pub share: Option<Estimate>,
    /// Constant offset to the right of that line, m.
    pub aside: Option<f64>,
    /// Telling shots.
    pub telling: u64,
    /// Habit named by these figures.
    pub habit: RecoveryHabit,
}

/// Habit of recovery.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum RecoveryHabit {
    /// Too few shots.
    TooFew,
    /// To the middle, whatever the ball.
    Middle,
    /// To the model's place.
    Spot,
    /// Between the two, or varying.
    Between,
}

/// Dependence of the player's place on the opponent's contact, both in the back of the court: metres to the other side
/// of the middle line for each metre that the opponent is wide of it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ReadyReport {
    /// Of the player.
    pub player: Option<Estimate>,
    /// Of the model's spots for the same shots.
    pub model: Option<Estimate>,
    /// Shots.
    pub shots: u64,
}

/// Consecutive shots.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct BlockReport {
    /// The first judged shot of the block, counted from 1.
    pub first: u64,
    /// Judged shots.
    pub shots: u64,
    /// Mean error across, m.
    pub across: Option<f64>,
    /// Mean error along, m.
    pub along: Option<f64>,
    /// Mean avoidable exposure.
    pub avoidable: Option<f64>,
}

/// Directions of one wing.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HabitReport {
    /// The wing, or the serve with its side.
    pub stroke: &'static str,
    /// Shots.
    pub shots: u64,
    /// Each direction.
    pub directions: Vec<DirectionHabit>,
}

impl ReportModel {
    /// The report of an audit; `habits` may be empty.
    #[must_use]
    pub fn new(setup: &Setup, findings: &Findings, habits: &Habits) -> Self {
        let ends = [End::Near, End::Far].into_iter().filter(|end| findings.section(*end).all.shots > 0);
        Self {
            estimate: ESTIMATE,
            title: setup.title.clone(),
            complete: true,
            findings: findings::findings(findings),
            rows: findings.rows,
            bad_rows: findings.bad_rows,
            shots: findings.shots(),
            points: findings.points,
            players: ends
                .map(|end| PlayerReport {
                    tells: findings::tells(findings, end),
                    ..player(setup, end, findings.section(end), habits)
                })
                .collect(),
            not_playable: findings
                .not_playable
                .iter()
                .map(|(reason, shots)| Reason { reason: reason.words().to_owned(), shots: *shots })
                .collect(),
        }
    }
}

fn player(setup: &Setup, end: End, section: &Section, habits: &Habits) -> PlayerReport {
    let card = setup.card(end);
    let mut first = 1;
    let blocks = section.trend.blocks.iter().map(|block| {
        let mean = |moments: &Moments| moments.mean().map(rounded);
        let report = BlockReport {
            first,
            shots: block.across.count,
            across: mean(&block.across),
            along: mean(&block.along),
            avoidable: mean(&block.avoidable),
        };
        first += block.across.count;
        report
    });
    let blocks = blocks.collect();
    let days = section.trend.by_date(setup);
    PlayerReport {
        name: card.name.clone(),
        began: names::end(end),
        level: names::level(card.level()),
        hand: names::hand(card.hand),
        all: group(&section.all),
        tables: vec![
            table("stroke", &section.by_stroke, |stroke| names::stroke(*stroke)),
            table("wing", &section.by_wing, |wing| names::wing(*wing)),
            table("direction", &section.by_direction, |direction| names::direction(*direction)),
            table("side", &section.by_side, |side| names::side(*side)),
            table("level", &section.by_level, |level| names::level(*level)),
        ],
        recovery: recovery(&section.recovery, section.all.telling),
        ready: ReadyReport {
            player: other_side(&section.ready_stood),
            model: other_side(&section.ready_spot),
            shots: section.ready_stood.count(),
        },
        sessions: section
            .trend
            .sessions
            .iter()
            .map(|(session, of)| Named { name: session_name(session).to_owned(), group: group(of) })
            .collect(),
        in_thirty_days: (days.len() >= 3).then(|| InThirtyDays {
            across: in_thirty_days(&days, |day| &day.across),
            along: in_thirty_days(&days, |day| &day.along),
            avoidable: in_thirty_days(&days, |day| &day.avoidable),
        }),
        days: days.iter().map(|(date, of)| Named { name: date.to_string(), group: group(of) }).collect(),
        blocks,
        across: section.across.clone(),
        along: section.along.clone(),
        avoidable: section.avoidable.clone(),
        assumed: section.assumed,
        habits: habits
            .of(end)
            .into_iter()
            .map(|habits| HabitReport {
                stroke: match habits.serves {
                    None => names::wing(habits.wing),
                    Some(CourtSide::Deuce) => "serve_deuce",
                    Some(CourtSide::Ad) => "serve_ad",
                },
                shots: habits.shots,
                directions: habits.directions,
            })
            .collect(),
        tells: Vec::new(),
        costliest: if section.costliest.is_empty() {
            section.brief.iter().map(MomentReport::in_brief).collect()
        } else {
            section.costliest.iter().filter_map(MomentReport::of).collect()
        },
    }
}

fn table<K>(by: &'static str, groups: &[(K, Group)], name: impl Fn(&K) -> &'static str) -> Table {
    let mut groups: Vec<Named> =
        groups.iter().map(|(key, of)| Named { name: name(key).to_owned(), group: group(of) }).collect();
    groups.sort_by_key(|named| std::cmp::Reverse(named.group.shots));
    Table { by, groups }
}

fn group(group: &Group) -> GroupReport {
    GroupReport {
        shots: group.shots,
        judged: group.judged(),
        winners: group.winners,
        no_reply: group.no_reply,
        missed: group.missed.iter().sum(),
        not_seen: group.not_seen,
        not_playable: group.not_playable,
        reachable: share(group.reachable, group.judged()).map(tidy),
        across: figure(&group.across),
        along: figure(&group.along),
        across_spot: figure(&group.across_spot),
        along_spot: figure(&group.along_spot),
        extra: figure(&group.extra),
        avoidable: figure(&group.avoidable),
        available_s: figure(&group.available),
        needed_s: figure(&group.needed),
        to_the_middle: share(group.to_the_middle, group.telling).map(tidy),
        telling: group.telling,
    }
}

fn figure(moments: &Moments) -> Figure {
    let interval = moments.interval();
    Figure {
        mean: moments.mean().map(rounded),
        low: interval.map(|interval| rounded(interval.low)),
        high: interval.map(|interval| rounded(interval.high)),
        deviation: moments.deviation().map(rounded),
    }
}

fn tidy(estimate: Estimate) -> Estimate {
    Estimate { value: rounded(estimate.value), low: rounded(estimate.low), high: rounded(estimate.high) }
}

/// The slope to the other side is the negative of the slope in a common frame.
fn other_side(line: &Line) -> Option<Estimate> {
    let slope = line.slope()?;
    Some(tidy(Estimate { value: -slope.value, low: -slope.high, high: -slope.low }))
}

fn recovery(line: &Line, telling: u64) -> RecoveryReport {
    let share = line.slope().map(tidy);
    let habit = match share {
        Some(share) if telling >= TELLING && share.high < 0.5 => RecoveryHabit::Middle,
        Some(share) if telling >= TELLING && share.low > 0.5 => RecoveryHabit::Spot,
        Some(_) if telling >= TELLING => RecoveryHabit::Between,
        _ => RecoveryHabit::TooFew,
    };
    RecoveryReport { share, aside: line.level().map(rounded), telling, habit }
}
