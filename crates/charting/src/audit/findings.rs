//! Totals of audited shots, added one at a time so that a file of any length fits.

use std::sync::Arc;

use serde::{Deserialize, Serialize};
use standpoint_geometry::{End, Level, ReadyArea, Stroke, Wing};

use super::direction::{Direction, FromSide};
use super::fill::Assumed;
use super::group::Group;
use super::judge::{AuditedShot, Judged, Outcome};
use super::refusal::RefusalKind;
use super::trend::Trend;
use super::{by_name, keyed};
use crate::exact;
use crate::insight::Cells;
use crate::scouting::Choices;
use crate::stats::{Histogram, Line};

/// Number of costliest moments kept.
pub const COSTLIEST: usize = 10;

/// All totals of an audit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Findings {
    /// Of the player who began at the near end, and of the one who began at the far end.
    pub players: [Section; 2],
    /// Rows of the file, the heading not counted; for a chart, its shots.
    pub rows: u64,
    /// Rows that could not be read.
    pub bad_rows: u64,
    /// Points.
    pub points: u64,
    /// Why shots could not be judged, and how many there were of each.
    pub not_playable: Vec<(RefusalKind, u64)>,
    /// Errors and costs by group: the input of findings.
    pub cells: Cells,
    /// Directions of both players' shots.
    pub choices: Choices,
}

/// Totals of one player.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Section {
    /// All shots.
    pub all: Group,
    /// By kind of stroke.
    #[serde(with = "keyed")]
    pub by_stroke: Vec<(Stroke, Group)>,
    /// By wing.
    #[serde(with = "keyed")]
    pub by_wing: Vec<(Wing, Group)>,
    /// By direction.
    #[serde(with = "keyed")]
    pub by_direction: Vec<(Direction, Group)>,
    /// By side of the court.
    #[serde(with = "keyed")]
    pub by_side: Vec<(FromSide, Group)>,
    /// By level; `None` for figures entered by hand.
    #[serde(with = "keyed::optional")]
    pub by_level: Vec<(Option<Level>, Group)>,
    /// Changes over time.
    pub trend: Trend,
    /// Line of actual over recommended places, both across from the end of a run to the middle: the slope is 1 for a
    /// player who goes to the model's place, and 0 for one who always goes to the middle.
    pub recovery: Line,
    /// Line of the player's place over the opponent's contact, both across, with both in the back of the court.
    pub ready_stood: Line,
    /// Line of the model's spot over the opponent's contact, likewise.
    pub ready_spot: Line,
    /// Errors across, from the best place that could be reached, m.
    pub across: Histogram,
    /// Errors along, m.
    pub along: Histogram,
    /// Avoidable exposure.
    pub avoidable: Histogram,
    /// How often each fact was filled in, among judged shots.
    pub assumed: AssumedCounts,
    /// The costliest moments, the costliest first. Summaries have them in `brief` only.
    #[serde(skip)]
    pub costliest: Vec<AuditedShot>,
    /// The costliest moments in brief.
    pub brief: Vec<Brief>,
}

/// A costly moment in brief. Lengths and shares are in steps of [`crate::exact`].
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Brief {
    /// The day, match or set.
    pub session: String,
    /// Label of the point.
    pub point: String,
    /// The point, counted from 1.
    pub point_number: u64,
    /// The shot of the point, counted from 1.
    pub shot_number: u32,
    /// Kind of stroke.
    #[serde(with = "by_name")]
    pub stroke: Stroke,
    /// Direction.
    #[serde(with = "by_name")]
    pub direction: Direction,
    /// Offset of the player to the right of the best place that could be reached.
    pub across: i64,
    /// Offset of the player behind that place.
    pub along: i64,
    /// Avoidable exposure.
    pub avoidable: i64,
}

/// How often each fact was filled in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct AssumedCounts {
    /// Kind of stroke.
    pub stroke: u64,
    /// Wing.
    pub wing: u64,
    /// Height of the contact.
    pub height: u64,
    /// Landing.
    pub landing: u64,
    /// Speed.
    pub speed: u64,
    /// Where the opponent met the ball.
    pub met: u64,
    /// Where the opponent stood at the contact.
    pub opponent: u64,
    /// When the opponent met the ball.
    pub time: u64,
}

impl Section {
    pub(super) fn new() -> Self {
        Self {
            all: Group::default(),
            by_stroke: Vec::new(),
            by_wing: Vec::new(),
            by_direction: Vec::new(),
            by_side: Vec::new(),
            by_level: Vec::new(),
            trend: Trend::default(),
            recovery: Line::default(),
            ready_stood: Line::default(),
            ready_spot: Line::default(),
            across: Histogram::new(-5.0, 0.25, 40),
            along: Histogram::new(-5.0, 0.25, 40),
            avoidable: Histogram::new(0.0, 0.01, 50),
            assumed: AssumedCounts::default(),
            costliest: Vec::new(),
            brief: Vec::new(),
        }
    }

    fn add(&mut self, shot: &AuditedShot) {
        self.all.add(shot);
        among(&mut self.by_stroke, shot.stroke).add(shot);
        among(&mut self.by_wing, shot.wing).add(shot);
        among(&mut self.by_direction, shot.direction).add(shot);
        among(&mut self.by_side, shot.side).add(shot);
        among(&mut self.by_level, shot.level).add(shot);
        self.trend.session(&shot.origin.session, |group| group.add(shot));
        if let Outcome::Judged(judged) = &shot.outcome {
            self.add_judged(shot, judged);
        }
    }

    fn add_judged(&mut self, shot: &AuditedShot, judged: &Judged) {
        let (across, along) = judged.from_goal();
        self.recovery.add(judged.goal.x - judged.middle.x, judged.stood.x - judged.middle.x);
        if judged.ready != ReadyArea::Net && judged.met.y > BACK_M {
            self.ready_stood.add(judged.met.x, judged.stood.x);
            self.ready_spot.add(judged.met.x, judged.spot.x);
        }
        self.across.add(across);
        self.along.add(along);
        self.avoidable.add(judged.avoidable);
        self.trend.add(across, along, judged.avoidable);
        self.assumed.add(shot.assumed);
        if judged.avoidable > 0.0 {
            let cost = |shot: &AuditedShot| shot.judged().map_or(0, |judged| exact::steps(judged.avoidable));
            let at = self.costliest.partition_point(|kept| cost(kept) >= exact::steps(judged.avoidable));
            if at < COSTLIEST {
                self.costliest.insert(at, shot.clone());
                self.costliest.truncate(COSTLIEST);
                self.add_brief(Brief::of(shot, judged));
            }
        }
    }
}

impl Brief {
    fn of(shot: &AuditedShot, judged: &Judged) -> Self {
        let (across, along) = judged.from_goal();
        let steps = |value: f64| exact::steps(value) as i64;
        Self {
            session: shot.origin.session.to_string(),
            point: shot.origin.point.to_string(),
            point_number: shot.origin.point_number,
            shot_number: shot.origin.shot_number,
            stroke: shot.stroke,
            direction: shot.direction,
            across: steps(across),
            along: steps(along),
            avoidable: steps(judged.avoidable),
        }
    }
}

/// Distance from the net beyond which an opponent who meets the ball plays from the back of the court, m.
const BACK_M: f64 = 8.0;

impl AssumedCounts {
    fn add(&mut self, assumed: Assumed) {
        let counts = [
            (&mut self.stroke, assumed.stroke),
            (&mut self.wing, assumed.wing),
            (&mut self.height, assumed.height),
            (&mut self.landing, assumed.landing),
            (&mut self.speed, assumed.speed),
            (&mut self.met, assumed.met),
            (&mut self.opponent, assumed.opponent),
            (&mut self.time, assumed.time),
        ];
        for (count, was) in counts {
            *count += u64::from(was);
        }
    }
}

pub(super) fn among<K: PartialEq>(groups: &mut Vec<(K, Group)>, key: K) -> &mut Group {
    let at = groups.iter().position(|(known, _)| *known == key).unwrap_or_else(|| {
        groups.push((key, Group::default()));
        groups.len() - 1
    });
    &mut groups[at].1
}

impl Default for Findings {
    fn default() -> Self {
        Self {
            players: [Section::new(), Section::new()],
            rows: 0,
            bad_rows: 0,
            points: 0,
            not_playable: Vec::new(),
            cells: Cells::default(),
            choices: Choices::default(),
        }
    }
}

impl Findings {
    /// Adds a shot.
    pub fn add(&mut self, shot: &AuditedShot) {
        self.points = self.points.max(shot.origin.point_number);
        self.section_mut(shot.began).add(shot);
        self.cells.add(shot);
        self.choices.add(shot);
        if let Outcome::NotPlayable(error) = &shot.outcome {
            self.add_reason(RefusalKind::of(error), 1);
        }
    }

    /// The totals of the player who began at an end.
    #[must_use]
    pub fn section(&self, began: End) -> &Section {
        match began {
            End::Near => &self.players[0],
            End::Far => &self.players[1],
        }
    }

    fn section_mut(&mut self, began: End) -> &mut Section {
        match began {
            End::Near => &mut self.players[0],
            End::Far => &mut self.players[1],
        }
    }

    /// Shots that could be read; shots and bad rows add up to the rows.
    #[must_use]
    pub fn shots(&self) -> u64 {
        self.players.iter().map(|section| section.all.shots).sum()
    }

    /// The costliest moments of both players, the costliest first.
    #[must_use]
    pub fn costliest(&self) -> Vec<&AuditedShot> {
        let mut all: Vec<_> = self.players.iter().flat_map(|section| &section.costliest).collect();
        let cost = |shot: &AuditedShot| shot.judged().map_or(0.0, |judged| judged.avoidable);
        all.sort_by(|a, b| cost(b).total_cmp(&cost(a)));
        all.truncate(COSTLIEST);
        all
    }
}

/// Display name of a session; unnamed ones are called `all`.
#[must_use]
pub fn session_name(session: &Arc<str>) -> &str {
    if session.is_empty() { "all" } else { session }
}
