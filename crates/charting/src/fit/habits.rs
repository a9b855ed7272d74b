//! Habits of a player in a chart: directions of each wing, and their scatter.

use glam::DVec2;
use serde::{Deserialize, Serialize};
use standpoint_geometry::{End, Wing};

use crate::audit::{AuditedShot, Direction, Outcome};
use crate::stats::{Estimate, Moments, share};
use standpoint_board::chart::score::CourtSide;

/// Gathers habits shot by shot.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Habits {
    #[serde(with = "written")]
    counts: Vec<(Key, Count)>,
}

/// Key of a habit: player, wing, side of a serve, and direction. A wide serve goes to the left from one side and to the
/// right from the other, so their joint scatter would mean nothing.
type Key = (End, Wing, Option<CourtSide>, Direction);

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
struct Count {
    shots: u64,
    missed: u64,
    across: Moments,
    depth: Moments,
}

/// Directions of one wing.
#[derive(Debug, Clone, PartialEq)]
pub struct WingHabits {
    /// The wing.
    pub wing: Wing,
    /// Side of the serve, for serves.
    pub serves: Option<CourtSide>,
    /// Shots.
    pub shots: u64,
    /// Each direction, the most frequent first.
    pub directions: Vec<DirectionHabit>,
}

/// Frequency and accuracy of one direction.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct DirectionHabit {
    /// The direction.
    pub direction: Direction,
    /// Shots that went there.
    pub shots: u64,
    /// Their share of the wing's shots.
    pub share: Estimate,
    /// Share of them that were missed.
    pub missed: Estimate,
    /// Mean landing of those that were not missed, in the hitter's frame, m.
    pub landing: Option<(f64, f64)>,
    /// Standard deviation of the landing across and along, m. It includes intention and error, so a player's spread is
    /// at most this.
    pub scatter: Option<(f64, f64)>,
}

/// Counts in summaries.
mod written {
    use serde::{Deserialize, Deserializer, Serializer};

    use super::{Count, Key};
    use standpoint_board::file::Named;

    type Written = (String, String, Option<String>, String, Count);

    pub fn serialize<S: Serializer>(counts: &[(Key, Count)], serializer: S) -> Result<S::Ok, S::Error> {
        let named = |((began, wing, serves, direction), count): &(Key, Count)| {
            (began.name(), wing.name(), serves.map(Named::name), direction.name(), *count)
        };
        serializer.collect_seq(counts.iter().map(named))
    }

    pub fn deserialize<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Vec<(Key, Count)>, D::Error> {
        fn known<T: Named, E: serde::de::Error>(name: &str) -> Result<T, E> {
            let found = T::NAMES.iter().find(|(known, _)| *known == name);
            found.map(|(_, choice)| *choice).ok_or_else(|| E::custom(format_args!("`{name}` is not a name here")))
        }
        let counts = Vec::<Written>::deserialize(deserializer)?;
        let read = |(began, wing, serves, direction, count): Written| {
            let serves = serves.as_deref().map(known::<_, D::Error>).transpose()?;
            Ok(((known(&began)?, known(&wing)?, serves, known(&direction)?), count))
        };
        counts.into_iter().map(read).collect()
    }
}

impl Habits {
    fn count(&mut self, key: Key) -> &mut Count {
        let at = self.counts.iter().position(|(known, _)| *known == key).unwrap_or_else(|| {
            self.counts.push((key, Count::default()));
            self.counts.len() - 1
        });
        &mut self.counts[at].1
    }

    /// Adds the habits of another part of the same chart.
    pub fn merge(&mut self, other: &Self) {
        for (key, more) in &other.counts {
            let count = self.count(*key);
            count.shots = count.shots.saturating_add(more.shots);
            count.missed = count.missed.saturating_add(more.missed);
            count.across.merge(&more.across);
            count.depth.merge(&more.depth);
        }
    }

    /// Adds a shot.
    pub fn add(&mut self, shot: &AuditedShot) {
        let count = self.count((shot.began, shot.wing, shot.context.serve.map(|(side, _)| side), shot.direction));
        count.shots += 1;
        if matches!(shot.outcome, Outcome::Missed(_)) {
            count.missed += 1;
        } else if !shot.assumed.landing {
            let DVec2 { x, y } = shot.landing;
            count.across.add(x);
            count.depth.add(y);
        }
    }

    /// The habits of the player who began at an end: forehand, backhand, serves from either side, as far as there are
    /// shots.
    #[must_use]
    pub fn of(&self, began: End) -> Vec<WingHabits> {
        let serve = |side: CourtSide| (Wing::Forehand, Some(side));
        let kinds = [(Wing::Forehand, None), (Wing::Backhand, None), serve(CourtSide::Deuce), serve(CourtSide::Ad)];
        kinds.into_iter().filter_map(|(wing, serves)| self.wing(began, wing, serves)).collect()
    }

    fn wing(&self, began: End, wing: Wing, serves: Option<CourtSide>) -> Option<WingHabits> {
        let own = |key: &Key| key.0 == began && key.1 == wing && key.2 == serves;
        let counts: Vec<_> = self.counts.iter().filter(|(key, _)| own(key)).collect();
        let shots = counts.iter().map(|(_, count)| count.shots).sum();
        let habit = |(key, count): &&(Key, Count)| {
            Some(DirectionHabit {
                direction: key.3,
                shots: count.shots,
                share: share(count.shots, shots)?,
                missed: share(count.missed, count.shots)?,
                landing: count.across.mean().zip(count.depth.mean()),
                scatter: count.across.deviation().zip(count.depth.deviation()),
            })
        };
        let mut directions: Vec<DirectionHabit> = counts.iter().filter_map(habit).collect();
        directions.sort_by(|a, b| b.shots.cmp(&a.shots).then(a.direction.cmp(&b.direction)));
        (shots > 0).then_some(WingHabits { wing, serves, shots, directions })
    }
}
