//! Figures of a group of shots.

use serde::{Deserialize, Serialize};

use super::fill::Miss;
use super::judge::{AuditedShot, Judged, Outcome};
use crate::stats::Moments;

/// Figures of a group of shots.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Group {
    /// Shots.
    pub shots: u64,
    /// Missed into the net, long, wide.
    pub missed: [u64; 3],
    /// Shots that the model's opponent would not have reached.
    pub winners: u64,
    /// Shots that the model's opponent would hardly have put back.
    pub no_reply: u64,
    /// Shots after which nobody noted where the hitter stood.
    pub not_seen: u64,
    /// Shots for which the model finds no flight.
    pub not_playable: u64,
    /// Spots that could be reached in time, among those judged.
    pub reachable: u64,
    /// Offset of the player to the right of the best place that could be reached, m.
    pub across: Moments,
    /// Offset of the player behind that place, m.
    pub along: Moments,
    /// Offset of the player to the right of the spot, m.
    pub across_spot: Moments,
    /// Offset of the player behind the spot, m.
    pub along_spot: Moments,
    /// Exposure beyond that at the spot.
    pub extra: Moments,
    /// Exposure beyond that at the best place that could be reached.
    pub avoidable: Moments,
    /// Time from the hitter's contact to the opponent's, s.
    pub available: Moments,
    /// Time a run to the spot takes, s.
    pub needed: Moments,
    /// Shots that distinguish a run to the middle from one to the spot.
    pub telling: u64,
    /// Telling shots after which the player stood in the middle.
    pub to_the_middle: u64,
}

impl Group {
    /// Shots whose place was judged.
    #[must_use]
    pub fn judged(&self) -> u64 {
        self.across.count
    }

    pub(super) fn add(&mut self, shot: &AuditedShot) {
        self.shots += 1;
        match &shot.outcome {
            Outcome::Judged(judged) => self.add_judged(judged),
            Outcome::Winner => self.winners += 1,
            Outcome::NoReply => self.no_reply += 1,
            Outcome::Missed(Miss::Net) => self.missed[0] += 1,
            Outcome::Missed(Miss::Long) => self.missed[1] += 1,
            Outcome::Missed(Miss::Wide) => self.missed[2] += 1,
            Outcome::NotSeen => self.not_seen += 1,
            Outcome::NotPlayable(_) => self.not_playable += 1,
        }
    }

    fn add_judged(&mut self, judged: &Judged) {
        let ((across, along), (across_spot, along_spot)) = (judged.from_goal(), judged.from_spot());
        self.reachable += u64::from(judged.reachable);
        self.across.add(across);
        self.along.add(along);
        self.across_spot.add(across_spot);
        self.along_spot.add(along_spot);
        self.extra.add(judged.extra);
        self.avoidable.add(judged.avoidable);
        self.available.add(judged.available);
        self.needed.add(judged.needed);
        if let Some(middle) = judged.to_the_middle {
            self.telling += 1;
            self.to_the_middle += u64::from(middle);
        }
    }
}
