//! What an audit shows first: where a player stands wrong and what that costs, ranked, and only where the evidence carries it.
//!
//! Shots are kept in cells by everything that is told of them; groups such as "backhands from the left" are sums of cells,
//! so findings come from any number of shots in bounded memory and from parts put together.
//!
//! A finding holds when the group's mean error differs from that of the player's other shots *and* it gives away more,
//! each by Welch's test, with the chance of luck multiplied by the number of groups looked at (Bonferroni). Its shots are
//! then set aside, and the others are looked at again without them: so one habit is told once, and not again in every
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
pub use words::{change, group, sentence};

use standpoint_geometry::frame::End;

use crate::stats::Estimate;

/// Which way somebody stands wrong.
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
    /// Which shots.
    pub group: ShotGroup,
    /// Shots of the group that were judged.
    pub shots: u64,
    /// The player's others, without those of findings that were told before.
    pub others: u64,
    /// Which way they stand wrong.
    pub axis: Axis,
    /// Mean error of the group, m, with its interval at 95 percent.
    pub error: Estimate,
    /// Mean error of the others, m.
    pub error_elsewhere: Estimate,
    /// Share of points that is given away, of 1.
    pub cost: Estimate,
    /// The same of the others.
    pub cost_elsewhere: Estimate,
    /// The chance that luck alone shows as much in any of the groups looked at; at most [`CHANCE`].
    pub chance: f64,
    /// What it costs beyond the others, in points for each hundred judged shots of the player: the findings' rank.
    pub lost: f64,
}
