//! Shares smoothed towards their expectation.

use standpoint_geometry::{End, ReplyHabits, Way};

use super::case::Case;
use super::counts::Choices;
use crate::chance::beta_quantile;
use crate::stats::Estimate;

/// Default weight of the expectation, in shots; the model uses the same for replies.
pub const STRENGTH: f64 = ReplyHabits::STRENGTH;

/// The prior that counts are smoothed with.
pub struct Smoothing<'a> {
    /// The model's expectation of a case; without it the three ways are equally likely.
    pub expected: Option<&'a dyn Fn(Case) -> [f64; 3]>,
    /// Its weight in shots.
    pub strength: f64,
}

impl Default for Smoothing<'_> {
    fn default() -> Self {
        Self { expected: None, strength: STRENGTH }
    }
}

/// Frequency of one way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Share {
    /// The way.
    pub way: Way,
    /// Shots that were counted.
    pub counted: u64,
    /// The expected share before any of them.
    pub expected: f64,
    /// The smoothed share with its interval at 95 percent.
    pub share: Estimate,
}

/// The habit of a player in a case.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Habit {
    /// The case.
    pub case: Case,
    /// Shots that were counted.
    pub shots: u64,
    /// Weight of the expectation, in shots.
    pub strength: f64,
    /// The three ways, in the order of [`Way::ALL`].
    pub shares: [Share; 3],
}

impl Habit {
    /// The smoothed shares, which sum to one: the prior of the replies of this opponent.
    #[must_use]
    pub fn replies(&self) -> [f64; 3] {
        self.shares.map(|share| share.share.value)
    }
}

impl Choices {
    /// The habit of the player who began at an end, smoothed.
    #[must_use]
    pub fn habit(&self, player: End, case: Case, smoothing: &Smoothing<'_>) -> Habit {
        let expected = self.expected(player, case, smoothing);
        let counts = self.counts(player, case);
        let strength = smoothing.strength.max(1e-6);
        let shots: u64 = counts.iter().sum();
        let whole = shots as f64 + strength;
        let share = |way: Way| {
            let (counted, expected) = (counts[way as usize], expected[way as usize]);
            let own = counted as f64 + strength * expected;
            // A share of a Dirichlet distribution has a beta distribution.
            let bound = |chance: f64| beta_quantile(chance, own.max(1e-6), (whole - own).max(1e-6));
            Share {
                way,
                counted,
                expected,
                share: Estimate { value: own / whole, low: bound(0.025), high: bound(0.975) },
            }
        };
        Habit { case, shots, strength, shares: Way::ALL.map(share) }
    }

    /// Expectation of a case: the model's, adjusted by the player's habit in the wider case.
    fn expected(&self, player: End, case: Case, smoothing: &Smoothing<'_>) -> [f64; 3] {
        let model = |case: Case| shares(smoothing.expected.map_or([1.0; 3], |expected| expected(case)));
        let Some(wider) = case.wider() else { return model(case) };
        // Ratio of this player's shares to the model's in the wider case.
        let (habit, usual, here) = (self.habit(player, wider, smoothing).replies(), model(wider), model(case));
        shares([0, 1, 2].map(|way| here[way] * habit[way] / usual[way]))
    }
}

/// Normalises positive numbers to a sum of one.
fn shares(weights: [f64; 3]) -> [f64; 3] {
    let weights = weights.map(|weight| if weight.is_finite() { weight.max(1e-6) } else { 1e-6 });
    let sum: f64 = weights.iter().sum();
    weights.map(|weight| weight / sum)
}
