//! Habits supported by the evidence.

use std::collections::BTreeMap;

use standpoint_geometry::{End, Way};

use super::case::{Case, Key};
use super::counts::{Choices, count};
use super::habit::Smoothing;
use crate::chance::drawn_at_least;
use crate::stats::Estimate;

/// Largest p-value of a habit. This and the two below are choices without a source.
pub const CHANCE: f64 = 0.002;
/// Least number of shots inside a case, and outside of it.
pub const FEWEST: u64 = 15;
/// Smallest difference of shares that is reported.
pub const LEAST_DIFFERENCE: f64 = 0.1;
/// Most habits of a player.
const MOST: usize = 8;

/// A habit supported by the evidence.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tell {
    /// The player, by where they began.
    pub player: End,
    /// The case.
    pub case: Case,
    /// The way the ball goes more often than elsewhere.
    pub way: Way,
    /// Shots that went this way.
    pub counted: u64,
    /// Shots of the case.
    pub shots: u64,
    /// The smoothed share, with its interval at 95 percent.
    pub share: Estimate,
    /// Weight of the expectation in it, in shots.
    pub strength: f64,
    /// The counted share in the player's other strokes or serves, without those of earlier habits.
    pub elsewhere: f64,
    /// Number of those others.
    pub others: u64,
    /// Probability that luck alone shows as much in any of the tested cases; at most [`CHANCE`].
    pub chance: f64,
}

/// The habits of a player supported by the evidence, the clearest first.
#[must_use]
pub fn tells(choices: &Choices, player: End, smoothing: &Smoothing<'_>) -> Vec<Tell> {
    let mut left = choices.of_player(player).clone();
    let cases = Case::all();
    let mut found = Vec::new();
    while found.len() < MOST {
        let looked_at = cases.iter().flat_map(|case| Way::ALL.map(|way| (*case, way)));
        let held = looked_at.filter_map(|(case, way)| held(&left, case, way, 3 * cases.len()));
        let Some(clearest) = held.min_by(|a, b| a.chance.total_cmp(&b.chance).then(b.shots.cmp(&a.shots))) else {
            break;
        };
        let habit = choices.habit(player, clearest.case, smoothing);
        let share = habit.shares[clearest.way as usize].share;
        found.push(Tell { player, share, strength: habit.strength, ..clearest });
        // Reported shots are set aside, so that a habit is not reported again in every case that shares shots with it.
        left.retain(|key, _| !clearest.case.holds(key));
    }
    found
}

fn held(cells: &BTreeMap<Key, [u64; 3]>, case: Case, way: Way, looked_at: usize) -> Option<Tell> {
    let (inside, all) = (count(cells, case), count(cells, case.widest()));
    let (shots, whole) = (inside.iter().sum::<u64>(), all.iter().sum::<u64>());
    let others = whole - shots;
    if shots < FEWEST || others < FEWEST {
        return None;
    }
    let (counted, marked) = (inside[way as usize], all[way as usize]);
    let elsewhere = (marked - counted) as f64 / others as f64;
    if (counted as f64 / shots as f64) - elsewhere < LEAST_DIFFERENCE {
        return None;
    }
    let chance = looked_at as f64 * drawn_at_least(counted, shots, marked, whole);
    let blank = Estimate { value: 0.0, low: 0.0, high: 0.0 };
    let tell =
        Tell { player: End::Near, case, way, counted, shots, share: blank, strength: 0.0, elsewhere, others, chance };
    (chance <= CHANCE).then_some(tell)
}
