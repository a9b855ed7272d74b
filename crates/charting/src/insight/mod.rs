//! Findings of an audit: where a player stands wrong and what that costs, ranked, and only where the evidence supports it.
//!
//! Shots are kept in cells by their properties; groups such as "backhands from the left" are sums of cells,
//! so findings need bounded memory and can come from merged parts.
//!
//! A finding holds when the group's mean error differs from that of the player's other shots *and* it gives away more,
//! each by Welch's test, with p-values multiplied by the number of groups tested (Bonferroni). Its shots are
//! then set aside and the others are tested again: one habit is reported once, and not again in every
//! group that shares shots with it.

mod cells;
mod change;
mod group;
mod rank;
mod welch;
mod words;

pub use cells::Cells;
pub use change::{Change, Measure, changes};
pub use group::ShotGroup;
pub use rank::{CHANCE, FEWEST, LEAST_COST, LEAST_ERROR_M, insights};
pub use words::{change, group, pressure, sentence, side, wing};

use standpoint_geometry::End;

use crate::stats::Estimate;

/// Direction of an error.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Axis {
    /// Across: positive is too far to the right.
    Across,
    /// Along: positive is too deep.
    Along,
}

/// A finding.
#[derive(Debug, Clone, PartialEq)]
pub struct Insight {
    /// The player, by where they began.
    pub player: End,
    /// The group of shots.
    pub group: ShotGroup,
    /// Shots of the group that were judged.
    pub shots: u64,
    /// The player's other shots, without those of earlier findings.
    pub others: u64,
    /// Direction of the error.
    pub axis: Axis,
    /// Mean error of the group, m, with its interval at 95 percent.
    pub error: Estimate,
    /// Mean error of the other shots, m.
    pub error_elsewhere: Estimate,
    /// Share of points given away, 0 to 1.
    pub cost: Estimate,
    /// Share of points given away in the other shots.
    pub cost_elsewhere: Estimate,
    /// Probability that luck alone shows as much in any of the tested groups; at most [`CHANCE`].
    pub chance: f64,
    /// Cost beyond that of the other shots, in points for each hundred judged shots of the player: the findings' rank.
    pub lost: f64,
}
