//! Comparison of two periods of a player, or of two players: differences beyond luck.

use standpoint_geometry::End;

use super::cells::{Cells, Figures, split};
use super::group::{Key, ShotGroup};
use super::rank::{CHANCE, FEWEST, LEAST_COST, LEAST_ERROR_M};
use super::welch::Welch;
use crate::stats::{Estimate, Moments};

/// What is compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Measure {
    /// Mean error across, m.
    Across,
    /// How much too deep, m.
    Along,
    /// Share of points given away.
    Cost,
}

impl Measure {
    /// All.
    pub const ALL: [Self; 3] = [Self::Across, Self::Along, Self::Cost];

    fn of(self, figures: &Figures) -> &Moments {
        match self {
            Self::Across => &figures.across,
            Self::Along => &figures.along,
            Self::Cost => &figures.cost,
        }
    }

    /// Smallest difference that is reported.
    fn least(self) -> f64 {
        match self {
            Self::Across | Self::Along => LEAST_ERROR_M,
            Self::Cost => LEAST_COST,
        }
    }
}

/// A difference between two players or periods.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Change {
    /// The group of shots.
    pub group: ShotGroup,
    /// The compared figure.
    pub measure: Measure,
    /// Judged shots of the first and of the second player or period.
    pub shots: (u64, u64),
    /// The first mean, with its interval at 95 percent.
    pub first: Estimate,
    /// The second mean.
    pub second: Estimate,
    /// The second mean less the first.
    pub difference: Estimate,
    /// The chance that luck alone shows as much in any tested group; at most [`CHANCE`].
    pub chance: f64,
}

/// The differences between the shots of two players, or of one in two periods, the clearest first. Reported shots are
/// set aside, as for findings, so that a general change is reported once and not for each group.
#[must_use]
pub fn changes(first: (&Cells, End), second: (&Cells, End)) -> Vec<Change> {
    let (mut before, mut after) = (first.0.of_player(first.1), second.0.of_player(second.1));
    let mut groups = ShotGroup::all();
    groups.insert(0, ShotGroup::default());
    let looked_at = (groups.len() * Measure::ALL.len()) as f64;
    let mut found = Vec::new();
    loop {
        let compared = groups.iter().flat_map(|group| compared(&before, &after, *group, looked_at));
        let Some(clearest) = compared.max_by(|a, b| a.0.total_cmp(&b.0)) else { return found };
        found.push(clearest.1);
        for cells in [&mut before, &mut after] {
            cells.retain(|(key, _)| !clearest.1.group.holds_key(key));
        }
    }
}

/// The difference in a group, with its clarity.
fn compared(
    before: &[(Key, Figures)],
    after: &[(Key, Figures)],
    group: ShotGroup,
    looked_at: f64,
) -> Vec<(f64, Change)> {
    let (a, b) = (split(before, &group).0, split(after, &group).0);
    let shots = (a.cost.count, b.cost.count);
    if shots.0.min(shots.1) < FEWEST {
        return Vec::new();
    }
    let one = |measure: Measure| {
        let (a, b) = (measure.of(&a), measure.of(&b));
        let welch = Welch::of(b, a)?;
        let chance = looked_at * welch.beyond();
        let (first, second) = (a.interval()?, b.interval()?);
        let change = Change { group, measure, shots, first, second, difference: welch.interval(), chance };
        (chance <= CHANCE && welch.difference.abs() >= measure.least()).then_some((welch.t.abs(), change))
    };
    Measure::ALL.into_iter().filter_map(one).collect()
}
