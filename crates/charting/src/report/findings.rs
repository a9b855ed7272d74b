//! The first part of a report: findings and habits supported by the evidence, each with its sentence.

use serde::ser::SerializeStruct as _;
use serde::{Serialize, Serializer};
use standpoint_geometry::End;

use super::names;
use super::row::rounded;
use crate::audit::Findings;
use crate::insight::{self, Axis, Insight};
use crate::scouting::{self, Smoothing, Tell};
use crate::stats::Estimate;

/// Most findings and habits shown first.
pub const FIRST: usize = 3;

/// A finding for programs; [`Self::sentence`] is for people, in their language.
#[derive(Debug, Clone, PartialEq)]
pub struct FindingReport(pub Insight);

impl FindingReport {
    /// As a sentence.
    #[must_use]
    pub fn sentence(&self) -> String {
        insight::sentence(&self.0)
    }

    /// The end at which the player began, as named in reports.
    #[must_use]
    pub fn began(&self) -> &'static str {
        names::end(self.0.player)
    }
}

/// A habit of an opponent, likewise for programs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TellReport(pub Tell);

impl TellReport {
    /// As a sentence.
    #[must_use]
    pub fn sentence(&self) -> String {
        scouting::sentence(&self.0)
    }
}

/// The findings of both players, those that cost most first.
pub(super) fn findings(of: &Findings) -> Vec<FindingReport> {
    insight::insights(&of.cells).into_iter().map(FindingReport).collect()
}

/// The habits of a player, the clearest first, without the model's expectation: an audit holds only replies that were
/// played.
pub(super) fn tells(of: &Findings, player: End) -> Vec<TellReport> {
    scouting::tells(&of.choices, player, &Smoothing::default()).into_iter().map(TellReport).collect()
}

fn tidy(of: Estimate) -> Estimate {
    Estimate { value: rounded(of.value), low: rounded(of.low), high: rounded(of.high) }
}

impl Serialize for FindingReport {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let of = &self.0;
        let mut out = serializer.serialize_struct("Finding", 12)?;
        out.serialize_field("sentence", &self.sentence())?;
        out.serialize_field("player", self.began())?;
        out.serialize_field("group", &insight::group(&of.group))?;
        out.serialize_field("shots", &of.shots)?;
        out.serialize_field("others", &of.others)?;
        out.serialize_field("axis", if of.axis == Axis::Across { "across" } else { "along" })?;
        out.serialize_field("error", &tidy(of.error))?;
        out.serialize_field("error_elsewhere", &tidy(of.error_elsewhere))?;
        out.serialize_field("cost", &tidy(of.cost))?;
        out.serialize_field("cost_elsewhere", &tidy(of.cost_elsewhere))?;
        out.serialize_field("chance", &of.chance)?;
        out.serialize_field("lost", &rounded(of.lost))?;
        out.end()
    }
}

impl Serialize for TellReport {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let of = &self.0;
        let mut out = serializer.serialize_struct("Tell", 8)?;
        out.serialize_field("sentence", &self.sentence())?;
        out.serialize_field("counted", &of.counted)?;
        out.serialize_field("shots", &of.shots)?;
        out.serialize_field("share", &tidy(of.share))?;
        out.serialize_field("strength", &of.strength)?;
        out.serialize_field("elsewhere", &rounded(of.elsewhere))?;
        out.serialize_field("others", &of.others)?;
        out.serialize_field("chance", &of.chance)?;
        out.end()
    }
}
