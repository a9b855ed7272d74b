//! Merges the findings of parts. The result equals that of the whole to the last digit; only the
//! blocks of consecutive shots are dropped, because they depend on where a part began.

use crate::exact;
use crate::stats::Histogram;

use super::findings::{AssumedCounts, Brief, COSTLIEST, Findings, Section, among};
use super::group::Group;
use super::refusal::RefusalKind;

impl Findings {
    /// Adds the findings of the next part and continues the numbering of points.
    pub fn merge(&mut self, next: &Self) {
        for (section, other) in self.players.iter_mut().zip(&next.players) {
            section.merge(other, self.points);
        }
        self.rows = self.rows.saturating_add(next.rows);
        self.bad_rows = self.bad_rows.saturating_add(next.bad_rows);
        self.points = self.points.saturating_add(next.points);
        self.cells.merge(&next.cells);
        self.choices.merge(&next.choices);
        for (reason, count) in &next.not_playable {
            self.add_reason(*reason, *count);
        }
    }

    /// Counts a reason.
    pub(super) fn add_reason(&mut self, reason: RefusalKind, count: u64) {
        match self.not_playable.iter_mut().find(|(known, _)| *known == reason) {
            Some((_, known)) => *known = known.saturating_add(count),
            None => self.not_playable.push((reason, count)),
        }
    }

    /// Whether the histograms have the usual steps, and the counts add up to the rows.
    pub(super) fn is_sound(&self) -> bool {
        let usual = Section::new();
        let same = |a: &Histogram, b: &Histogram| {
            a.counts.len() == b.counts.len()
                && exact::steps(a.low) == exact::steps(b.low)
                && exact::steps(a.step) == exact::steps(b.step)
        };
        let steps = |section: &Section| {
            same(&section.across, &usual.across)
                && same(&section.along, &usual.along)
                && same(&section.avoidable, &usual.avoidable)
        };
        let shots = self.players.iter().map(|section| section.all.shots).fold(self.bad_rows, u64::saturating_add);
        self.players.iter().all(steps) && shots == self.rows
    }

    /// The findings without the parts that a summary leaves out.
    #[must_use]
    pub fn summarized(&self) -> Self {
        let mut summary = self.clone();
        for section in &mut summary.players {
            section.costliest.clear();
            section.trend.blocks.clear();
            section.trend.block_length = 0;
        }
        summary
    }
}

fn merge_all<K: PartialEq + Copy>(groups: &mut Vec<(K, Group)>, others: &[(K, Group)]) {
    for (key, group) in others {
        among(groups, *key).merge(group);
    }
}

impl Section {
    fn merge(&mut self, next: &Self, points_before: u64) {
        self.all.merge(&next.all);
        merge_all(&mut self.by_stroke, &next.by_stroke);
        merge_all(&mut self.by_wing, &next.by_wing);
        merge_all(&mut self.by_direction, &next.by_direction);
        merge_all(&mut self.by_side, &next.by_side);
        merge_all(&mut self.by_level, &next.by_level);
        self.trend.merge(&next.trend);
        self.recovery.merge(&next.recovery);
        self.ready_stood.merge(&next.ready_stood);
        self.ready_spot.merge(&next.ready_spot);
        self.across.merge(&next.across);
        self.along.merge(&next.along);
        self.avoidable.merge(&next.avoidable);
        self.assumed.merge(&next.assumed);
        self.costliest.clear();
        for brief in &next.brief {
            self.add_brief(Brief { point_number: brief.point_number.saturating_add(points_before), ..brief.clone() });
        }
    }

    /// Keeps a moment if it is among the costliest; ties keep the first.
    pub(super) fn add_brief(&mut self, brief: Brief) {
        let at = self.brief.partition_point(|kept| kept.avoidable >= brief.avoidable);
        if at < COSTLIEST {
            self.brief.insert(at, brief);
            self.brief.truncate(COSTLIEST);
        }
    }
}

impl Group {
    /// Adds another group.
    pub fn merge(&mut self, other: &Self) {
        let counts = [
            (&mut self.shots, other.shots),
            (&mut self.winners, other.winners),
            (&mut self.no_reply, other.no_reply),
            (&mut self.not_seen, other.not_seen),
            (&mut self.not_playable, other.not_playable),
            (&mut self.reachable, other.reachable),
            (&mut self.telling, other.telling),
            (&mut self.to_the_middle, other.to_the_middle),
        ];
        for (count, more) in counts {
            *count = count.saturating_add(more);
        }
        for (count, more) in self.missed.iter_mut().zip(other.missed) {
            *count = count.saturating_add(more);
        }
        let moments = [
            (&mut self.across, &other.across),
            (&mut self.along, &other.along),
            (&mut self.across_spot, &other.across_spot),
            (&mut self.along_spot, &other.along_spot),
            (&mut self.extra, &other.extra),
            (&mut self.avoidable, &other.avoidable),
            (&mut self.available, &other.available),
            (&mut self.needed, &other.needed),
        ];
        for (own, more) in moments {
            own.merge(more);
        }
    }
}

impl AssumedCounts {
    fn merge(&mut self, other: &Self) {
        let counts = [
            (&mut self.stroke, other.stroke),
            (&mut self.wing, other.wing),
            (&mut self.height, other.height),
            (&mut self.landing, other.landing),
            (&mut self.speed, other.speed),
            (&mut self.met, other.met),
            (&mut self.opponent, other.opponent),
            (&mut self.time, other.time),
        ];
        for (count, more) in counts {
            *count = count.saturating_add(more);
        }
    }
}
