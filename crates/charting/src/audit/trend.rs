//! Changes of a player over time: by session, and by block of consecutive shots.

use std::collections::BTreeMap;
use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::group::Group;
use crate::stats::{Estimate, Line, Moments};
use standpoint_board::chart::date::Date;
use standpoint_board::chart::model::Setup;

/// Most sessions kept separately, the first in the alphabet; the others are merged into one. This rule gives the same
/// result for parts of a file and for the whole.
const SESSIONS: usize = 400;
/// Name of the merged session.
const OTHERS: &str = "(further sessions)";
/// Most blocks kept; beyond that neighbours are joined.
const BLOCKS: usize = 40;

/// Changes of a player over time.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Trend {
    /// Each session, in the order in which they first came.
    pub sessions: Vec<(Arc<str>, Group)>,
    /// Blocks of consecutive judged shots, all of the same length except the last. A summary has none.
    #[serde(skip)]
    pub blocks: Vec<Block>,
    /// Judged shots in a block; a power of two.
    #[serde(skip)]
    pub block_length: u64,
}

/// A block of judged shots.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Block {
    /// Error across, m.
    pub across: Moments,
    /// Error along, m.
    pub along: Moments,
    /// Avoidable exposure.
    pub avoidable: Moments,
}

impl Trend {
    /// The shots of each day, in the order of the calendar; sessions without a date are left out.
    #[must_use]
    pub fn by_date(&self, setup: &Setup) -> Vec<(Date, Group)> {
        let mut days: BTreeMap<Date, Group> = BTreeMap::new();
        for (name, group) in &self.sessions {
            if let Some(date) = setup.session(name).and_then(|session| session.date) {
                days.entry(date).or_default().merge(group);
            }
        }
        days.into_iter().collect()
    }

    pub(super) fn session(&mut self, name: &Arc<str>, add: impl FnOnce(&mut Group)) {
        // Rows of a session are usually consecutive.
        let known = self.sessions.iter().rposition(|(known, _)| known == name);
        let at = known.unwrap_or_else(|| self.begin(name));
        add(&mut self.sessions[at].1);
    }

    /// Adds a session. Beyond the limit the last one in the alphabet is merged into the others.
    fn begin(&mut self, name: &Arc<str>) -> usize {
        self.sessions.push((Arc::clone(name), Group::default()));
        if self.kept() <= SESSIONS {
            return self.sessions.len() - 1;
        }
        let apart = self.sessions.iter().enumerate().filter(|(_, (name, _))| &**name != OTHERS);
        let last = apart.max_by(|a, b| a.1.0.cmp(&b.1.0)).map_or(0, |(at, _)| at);
        let (dropped, group) = self.sessions.remove(last);
        let others = self.sessions.iter().position(|(known, _)| &**known == OTHERS).unwrap_or_else(|| {
            self.sessions.push((OTHERS.into(), Group::default()));
            self.sessions.len() - 1
        });
        self.sessions[others].1.merge(&group);
        if dropped == *name {
            others
        } else {
            self.sessions.iter().position(|(known, _)| known == name).unwrap_or(others)
        }
    }

    /// Number of sessions kept separately.
    fn kept(&self) -> usize {
        self.sessions.iter().filter(|(name, _)| &**name != OTHERS).count()
    }

    /// Adds the sessions of another part of the same chart, without its blocks: their position in the
    /// whole is unknown.
    pub(super) fn merge(&mut self, other: &Self) {
        for (name, group) in &other.sessions {
            self.session(name, |known| known.merge(group));
        }
        self.blocks.clear();
        self.block_length = 0;
    }

    pub(super) fn add(&mut self, across: f64, along: f64, avoidable: f64) {
        self.block_length = self.block_length.max(1);
        if self.blocks.last().is_none_or(|block| block.across.count >= self.block_length) {
            if self.blocks.len() == BLOCKS {
                self.join();
            }
            self.blocks.push(Block::default());
        }
        if let Some(block) = self.blocks.last_mut() {
            block.across.add(across);
            block.along.add(along);
            block.avoidable.add(avoidable);
        }
    }

    /// Joins each block with its neighbour.
    fn join(&mut self) {
        self.block_length *= 2;
        let joined = self.blocks.chunks(2).map(|pair| {
            let mut block = pair[0];
            if let Some(next) = pair.get(1) {
                block.across.merge(&next.across);
                block.along.merge(&next.along);
                block.avoidable.merge(&next.avoidable);
            }
            block
        });
        self.blocks = joined.collect();
    }
}

/// Change of a mean in thirty days, with its interval at 95 percent, by a straight line through the means of the days;
/// `None` for fewer than three days with shots.
#[must_use]
pub fn in_thirty_days(days: &[(Date, Group)], of: impl Fn(&Group) -> &Moments) -> Option<Estimate> {
    let mut line = Line::default();
    for (date, group) in days {
        if let Some(mean) = of(group).mean() {
            line.add(f64::from(date.days()), mean);
        }
    }
    line.slope().map(|slope| slope.scaled(30.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn blocks_are_joined_in_order_and_none_is_lost() {
        let mut trend = Trend::default();
        (0..1000).for_each(|i| trend.add(f64::from(i), 0.0, 0.0));
        assert!(trend.blocks.len() <= BLOCKS && trend.blocks.len() > BLOCKS / 2);
        assert_eq!(trend.blocks.iter().map(|block| block.across.count).sum::<u64>(), 1000);
        let means: Vec<f64> = trend.blocks.iter().filter_map(|block| block.across.mean()).collect();
        assert!(means.windows(2).all(|pair| pair[0] < pair[1]));
        let (last, full) = trend.blocks.split_last().unwrap();
        assert!(full.iter().all(|block| block.across.count == trend.block_length));
        assert!(last.across.count <= trend.block_length);
    }

    #[test]
    fn days_are_in_order_and_their_trend_is_found() {
        let mut setup = Setup::default();
        let mut trend = Trend::default();
        // Half a metre less every ten days, two sessions on the first day, and an undated session.
        for (name, date, across) in [
            ("late", Some("2026-05-21"), 0.0),
            ("early", Some("2026-05-01"), 1.0),
            ("early too", Some("2026-05-01"), 1.0),
            ("middle", Some("2026-05-11"), 0.5),
            ("undated", None, 9.0),
        ] {
            setup.session_mut(name).date = date.and_then(|date| date.parse().ok());
            trend.session(&name.into(), |group| group.across.add(across));
        }
        let days = trend.by_date(&setup);
        let found: Vec<_> = days.iter().map(|(date, group)| (date.to_string(), group.across.count)).collect();
        assert_eq!(found, [("2026-05-01".into(), 2), ("2026-05-11".into(), 1), ("2026-05-21".into(), 1)]);
        let slope = in_thirty_days(&days, |group| &group.across).unwrap();
        assert!((slope.value + 1.5).abs() < 1e-9 && in_thirty_days(&days[..2], |group| &group.across).is_none());
    }

    #[test]
    fn sessions_beyond_the_limit_are_gathered_whatever_the_order() {
        let names: Vec<Arc<str>> = (0..SESSIONS + 50).map(|i| format!("day {i:04}").into()).collect();
        let counted = |names: &[Arc<str>]| {
            let mut trend = Trend::default();
            names.iter().for_each(|name| trend.session(name, |group| group.shots += 1));
            trend
        };
        let trend = counted(&names);
        assert_eq!(trend.sessions.len(), SESSIONS + 1);
        let others =
            |trend: &Trend| trend.sessions.iter().find(|(name, _)| &**name == OTHERS).map(|(_, group)| group.shots);
        assert_eq!(others(&trend), Some(50));
        let backwards: Vec<_> = names.iter().rev().cloned().collect();
        let mut sorted = counted(&backwards).sessions;
        sorted.sort_by(|a, b| a.0.cmp(&b.0));
        let mut expected = trend.sessions.clone();
        expected.sort_by(|a, b| a.0.cmp(&b.0));
        assert_eq!(sorted, expected);
        let mut merged = counted(&names[..300]);
        merged.merge(&counted(&names[300..]));
        assert_eq!(merged, trend);
    }
}
