//! Selection and order of findings.

use standpoint_geometry::End;

use super::cells::{Cells, Figures, split};
use super::group::{Key, ShotGroup};
use super::welch::Welch;
use super::{Axis, Insight};
use crate::stats::{Estimate, Moments};

/// Largest p-value of a finding. This and the three below are choices without a source.
pub const CHANCE: f64 = 0.002;
/// Least number of judged shots inside a group, and outside of it.
pub const FEWEST: u64 = 15;
/// Smallest error that is reported, m.
pub const LEAST_ERROR_M: f64 = 0.3;
/// Smallest additional cost that is reported, 0 to 1.
pub const LEAST_COST: f64 = 0.01;
/// Most findings of a player.
const MOST: usize = 8;

/// The findings of both players, those that cost most first.
#[must_use]
pub fn insights(cells: &Cells) -> Vec<Insight> {
    let mut all: Vec<Insight> = [End::Near, End::Far].into_iter().flat_map(|player| of_player(cells, player)).collect();
    all.sort_by(|a, b| b.lost.total_cmp(&a.lost));
    all
}

fn of_player(cells: &Cells, player: End) -> Vec<Insight> {
    let mut left = cells.of_player(player);
    let judged: u64 = left.iter().map(|(_, figures)| figures.cost.count).sum();
    let groups = ShotGroup::all();
    let mut found = Vec::new();
    while found.len() < MOST {
        // Takes the clearest first: the group that has the habit, rather than one that shares some of its shots.
        let held = groups.iter().filter_map(|group| held(&left, group, groups.len()));
        let Some((_, group, told)) = held.max_by(|a, b| a.0.total_cmp(&b.0)) else { break };
        found.push(told.insight(player, group, judged));
        left.retain(|(key, _)| !group.holds_key(key));
    }
    found
}

/// Result of a group.
struct Candidate {
    inside: Figures,
    outside: Figures,
    axis: Axis,
    chance: f64,
}

/// A group that passes both tests, with its clarity.
fn held(cells: &[(Key, Figures)], group: &ShotGroup, groups: usize) -> Option<(f64, ShotGroup, Candidate)> {
    let (inside, outside) = split(cells, group);
    if inside.cost.count < FEWEST || outside.cost.count < FEWEST {
        return None;
    }
    let across = Welch::of(&inside.across, &outside.across)?;
    let along = Welch::of(&inside.along, &outside.along)?;
    let cost = Welch::of(&inside.cost, &outside.cost)?;
    let axis = if across.t.abs() >= along.t.abs() { Axis::Across } else { Axis::Along };
    let (error, moments) = match axis {
        Axis::Across => (across, &inside.across),
        Axis::Along => (along, &inside.along),
    };
    let mean = moments.mean()?;
    // Whether the group is worse than the other shots, and off in the direction of the difference.
    let wrong = mean.abs() >= LEAST_ERROR_M && mean * error.difference > 0.0 && away_from_nothing(moments)?;
    if !wrong || cost.difference < LEAST_COST {
        return None;
    }
    // Both tests must pass; two axes are tested for each group.
    let looked_at = 2.0 * groups as f64;
    let chance = looked_at * error.beyond().max(0.5 * cost.beyond());
    let clear = error.t.abs().min(cost.t);
    (chance <= CHANCE).then_some((clear, *group, Candidate { inside, outside, axis, chance }))
}

/// Whether the interval of a mean excludes zero.
fn away_from_nothing(moments: &Moments) -> Option<bool> {
    moments.interval().map(|interval| !interval.holds(0.0))
}

impl Candidate {
    fn insight(&self, player: End, group: ShotGroup, judged: u64) -> Insight {
        let of = |moments: &Moments| {
            let mean = moments.mean().unwrap_or_default();
            moments.interval().unwrap_or(Estimate { value: mean, low: mean, high: mean })
        };
        let axis = |figures: &Figures| match self.axis {
            Axis::Across => of(&figures.across),
            Axis::Along => of(&figures.along),
        };
        let (cost, cost_elsewhere) = (of(&self.inside.cost), of(&self.outside.cost));
        let shots = self.inside.cost.count;
        Insight {
            player,
            group,
            shots,
            others: self.outside.cost.count,
            axis: self.axis,
            error: axis(&self.inside),
            error_elsewhere: axis(&self.outside),
            cost,
            cost_elsewhere,
            chance: self.chance,
            lost: 100.0 * (cost.value - cost_elsewhere.value) * shots as f64 / judged as f64,
        }
    }
}
