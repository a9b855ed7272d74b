//! The moments that cost most, for a report.

use serde::Serialize;

use super::names;
use super::row::rounded;
use crate::audit::findings::Brief;
use crate::audit::{AuditedShot, Origin};
use crate::exact;

/// A costly moment.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MomentReport {
    /// Its origin in the chart.
    pub title: String,
    /// Line of the file.
    pub line: Option<u64>,
    /// Kind of stroke.
    pub stroke: &'static str,
    /// Direction.
    pub direction: &'static str,
    /// Error across, m.
    pub across: f64,
    /// Error along, m.
    pub along: f64,
    /// Avoidable exposure.
    pub avoidable: f64,
}

impl MomentReport {
    /// A moment of a summary.
    pub(super) fn in_brief(brief: &Brief) -> Self {
        let value = |steps: i64| rounded(exact::value(steps.into()));
        let origin = Origin {
            line: None,
            session: brief.session.as_str().into(),
            point: brief.point.as_str().into(),
            point_number: brief.point_number,
            shot_number: brief.shot_number,
        };
        Self {
            title: origin.title(),
            line: None,
            stroke: names::stroke(brief.stroke),
            direction: names::direction(brief.direction),
            across: value(brief.across),
            along: value(brief.along),
            avoidable: value(brief.avoidable),
        }
    }

    /// A moment of an audit.
    pub(super) fn of(shot: &AuditedShot) -> Option<Self> {
        let judged = shot.judged()?;
        let (across, along) = judged.from_goal();
        Some(Self {
            title: shot.title(),
            line: shot.origin.line,
            stroke: names::stroke(shot.stroke),
            direction: names::direction(shot.direction),
            across: rounded(across),
            along: rounded(along),
            avoidable: rounded(judged.avoidable),
        })
    }
}
