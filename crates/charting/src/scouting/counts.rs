//! Counts of a player's directions.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use standpoint_geometry::{End, HabitCase, ReplyHabits};

use super::case::{Case, Key};
use crate::audit::{AuditedShot, Miss, Outcome};

/// Counts of both players' directions, by case. Memory does not grow with the number of shots,
/// and merged parts equal the whole.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Choices {
    #[serde(with = "pairs")]
    players: [BTreeMap<Key, [u64; 3]>; 2],
}

impl Choices {
    /// Adds a shot. The intended direction of a ball in the net is unknown.
    pub fn add(&mut self, shot: &AuditedShot) {
        if shot.outcome == Outcome::Missed(Miss::Net) || shot.assumed.landing {
            return;
        }
        let counts = self.players[standpoint_board::chart::score::at(shot.began)].entry(Key::of(shot)).or_default();
        counts[shot.way as usize] += 1;
    }

    /// The choices in these shots.
    #[must_use]
    pub fn of<'a>(shots: impl IntoIterator<Item = &'a AuditedShot>) -> Self {
        let mut choices = Self::default();
        shots.into_iter().for_each(|shot| choices.add(shot));
        choices
    }

    /// Adds the counts of another part.
    pub fn merge(&mut self, other: &Self) {
        for (own, others) in self.players.iter_mut().zip(&other.players) {
            for (key, counts) in others {
                let known = own.entry(*key).or_default();
                known.iter_mut().zip(counts).for_each(|(known, more)| *known = known.saturating_add(*more));
            }
        }
    }

    /// How often the player who began at an end sent the ball each way in a case.
    #[must_use]
    pub fn counts(&self, player: End, case: Case) -> [u64; 3] {
        count(self.of_player(player), case)
    }

    /// The counts of the player who began at an end, in the form used to weigh replies.
    #[must_use]
    pub fn replies(&self, player: End) -> ReplyHabits {
        let mut habits = ReplyHabits::default();
        for (key, counts) in self.of_player(player) {
            let case = HabitCase::from(*key);
            let known = habits.counts(case);
            let more = counts.map(|count| u32::try_from(count).unwrap_or(u32::MAX));
            habits.set(case, [0, 1, 2].map(|way| known[way].saturating_add(more[way])));
        }
        habits
    }

    pub(super) fn of_player(&self, player: End) -> &BTreeMap<Key, [u64; 3]> {
        &self.players[standpoint_board::chart::score::at(player)]
    }
}

/// The sums over the cells of a case.
pub(super) fn count(cells: &BTreeMap<Key, [u64; 3]>, case: Case) -> [u64; 3] {
    let mut sums = [0; 3];
    for (_, counts) in cells.iter().filter(|(key, _)| case.holds(key)) {
        sums.iter_mut().zip(counts).for_each(|(sum, count)| *sum += count);
    }
    sums
}

/// Counts in summaries: pairs, because their keys are not texts.
mod pairs {
    use std::collections::BTreeMap;

    use serde::{Deserialize, Deserializer, Serialize, Serializer};

    use super::Key;

    type Players = [BTreeMap<Key, [u64; 3]>; 2];

    pub fn serialize<S: Serializer>(players: &Players, serializer: S) -> Result<S::Ok, S::Error> {
        let pairs = |counts: &BTreeMap<Key, [u64; 3]>| counts.iter().map(|(key, counts)| (*key, *counts)).collect();
        let pairs: [Vec<(Key, [u64; 3])>; 2] = [pairs(&players[0]), pairs(&players[1])];
        pairs.serialize(serializer)
    }

    pub fn deserialize<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Players, D::Error> {
        let pairs = <[Vec<(Key, [u64; 3])>; 2]>::deserialize(deserializer)?;
        Ok(pairs.map(|pairs| pairs.into_iter().collect()))
    }
}
