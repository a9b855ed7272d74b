//! One audited shot as a row of a table.

use std::borrow::Cow;

use glam::DVec2;
use serde::Serialize;

use super::names;
use crate::audit::{AuditedShot, Outcome, message};
use crate::import::BadRow;

/// The outcome of a row that could not be read.
pub const BAD_ROW: &str = "bad_row";

/// One audited shot, or a row that could not be read. Places are in the frame of the hitter, who faces `+y`; all units
/// are SI.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct ShotRow<'a> {
    /// Line of the file it was read from.
    pub line: Option<u64>,
    /// The day, match or set.
    pub session: Cow<'a, str>,
    /// Label of the point.
    pub point: Cow<'a, str>,
    /// The point, counted from 1.
    pub point_number: Option<u64>,
    /// The shot of the point, counted from 1.
    pub shot: Option<u32>,
    /// The end at which the hitter began.
    pub player: &'static str,
    /// Level of the hitter.
    pub level: &'static str,
    /// Kind of stroke.
    pub stroke: &'static str,
    /// Wing.
    pub wing: &'static str,
    /// Direction.
    pub direction: &'static str,
    /// Side of the court it was struck from.
    pub side: &'static str,
    /// Contact.
    pub contact_x: Option<f64>,
    /// Contact.
    pub contact_y: Option<f64>,
    /// Landing.
    pub landing_x: Option<f64>,
    /// Landing.
    pub landing_y: Option<f64>,
    /// Outcome.
    pub outcome: &'static str,
    /// Where the hitter stood.
    pub stood_x: Option<f64>,
    /// Where the hitter stood.
    pub stood_y: Option<f64>,
    /// The model's spot.
    pub spot_x: Option<f64>,
    /// The model's spot.
    pub spot_y: Option<f64>,
    /// The best place that could be reached.
    pub goal_x: Option<f64>,
    /// The best place that could be reached.
    pub goal_y: Option<f64>,
    /// Where the opponent met the ball.
    pub met_x: Option<f64>,
    /// Where the opponent met the ball.
    pub met_y: Option<f64>,
    /// Offset of the hitter to the right of the best place that could be reached.
    pub across: Option<f64>,
    /// Offset of the hitter behind that place.
    pub along: Option<f64>,
    /// Offset of the hitter to the right of the spot.
    pub across_spot: Option<f64>,
    /// Offset of the hitter behind the spot.
    pub along_spot: Option<f64>,
    /// Exposure where the hitter stood.
    pub exposure: Option<f64>,
    /// Exposure beyond that at the spot.
    pub extra: Option<f64>,
    /// Exposure beyond that at the best reachable place.
    pub avoidable: Option<f64>,
    /// Time to the opponent's contact.
    pub available_s: Option<f64>,
    /// Time needed for a run to the spot.
    pub needed_s: Option<f64>,
    /// Distance by which the spot was out of reach.
    pub short_by: Option<f64>,
    /// Whether the spot could be reached in time.
    pub reachable: Option<bool>,
    /// Whether the hitter stood in the middle instead of the recommended place.
    pub to_the_middle: Option<bool>,
    /// What was filled in.
    pub assumed: String,
    /// Why the shot could not be judged, or the faults of the row.
    pub reason: Cow<'a, str>,
}

/// Rounds to a tenth of a millimetre or of a thousandth, without a negative zero.
pub(super) fn rounded(value: f64) -> f64 {
    (value * 1e4).round() / 1e4 + 0.0
}

/// The row of a shot.
#[must_use]
pub fn shot_row(shot: &AuditedShot) -> ShotRow<'_> {
    let judged = shot.judged();
    let place = |of: fn(&crate::audit::Judged) -> DVec2| {
        let place = judged.map(of);
        (place.map(|place| rounded(place.x)), place.map(|place| rounded(place.y)))
    };
    let number = |of: fn(&crate::audit::Judged) -> f64| judged.map(|judged| rounded(of(judged)));
    let (stood, spot) = (place(|judged| judged.stood), place(|judged| judged.spot));
    let (goal, met) = (place(|judged| judged.goal), place(|judged| judged.met));
    ShotRow {
        line: shot.origin.line,
        session: (&*shot.origin.session).into(),
        point: (&*shot.origin.point).into(),
        point_number: Some(shot.origin.point_number),
        shot: Some(shot.origin.shot_number),
        player: names::end(shot.began),
        level: names::level(shot.level),
        stroke: names::stroke(shot.stroke),
        wing: names::wing(shot.wing),
        direction: names::direction(shot.direction),
        side: names::side(shot.side),
        contact_x: Some(rounded(shot.contact.x)),
        contact_y: Some(rounded(shot.contact.y)),
        landing_x: Some(rounded(shot.landing.x)),
        landing_y: Some(rounded(shot.landing.y)),
        outcome: names::outcome(&shot.outcome),
        stood_x: stood.0,
        stood_y: stood.1,
        spot_x: spot.0,
        spot_y: spot.1,
        goal_x: goal.0,
        goal_y: goal.1,
        met_x: met.0,
        met_y: met.1,
        across: number(|judged| judged.from_goal().0),
        along: number(|judged| judged.from_goal().1),
        across_spot: number(|judged| judged.from_spot().0),
        along_spot: number(|judged| judged.from_spot().1),
        exposure: number(|judged| judged.exposure),
        extra: number(|judged| judged.extra),
        avoidable: number(|judged| judged.avoidable),
        available_s: number(|judged| judged.available),
        needed_s: number(|judged| judged.needed),
        short_by: number(|judged| judged.short_by),
        reachable: judged.map(|judged| judged.reachable),
        to_the_middle: judged.and_then(|judged| judged.to_the_middle),
        assumed: names::assumed(&shot.assumed),
        reason: match &shot.outcome {
            Outcome::NotPlayable(error) => message(error).into(),
            _ => "".into(),
        },
    }
}

/// The row of an unreadable row: its line, and all its faults.
#[must_use]
pub fn bad_row(row: &BadRow) -> ShotRow<'static> {
    let faults: Vec<String> = row.faults.iter().map(ToString::to_string).collect();
    ShotRow { line: Some(row.line), outcome: BAD_ROW, reason: faults.join(" ").into(), ..ShotRow::default() }
}
