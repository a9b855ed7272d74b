//! Places of a player, as many as can be distinguished on paper.

use glam::DVec2;
use standpoint_charting::{audit::Judged, stats::thinned};

/// Most places kept; more are thinned evenly.
const MOST: usize = 3000;

/// A place with its cost.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// Where they stood, in the player's frame.
    pub stood: DVec2,
    /// The best place that could be reached.
    pub goal: DVec2,
    /// Share of points it cost.
    pub cost: f64,
}

/// Places, thinned evenly when they become too many.
#[derive(Debug, Clone, PartialEq)]
pub struct Places {
    /// Those that are kept.
    pub kept: Vec<Spot>,
    /// How many there were.
    pub seen: usize,
    stride: usize,
}

impl Default for Places {
    fn default() -> Self {
        Self { kept: Vec::new(), seen: 0, stride: 1 }
    }
}

impl Places {
    /// Takes in a place.
    pub fn add(&mut self, judged: &Judged) {
        if self.seen.is_multiple_of(self.stride) {
            self.kept.push(Spot { stood: judged.stood, goal: judged.goal, cost: judged.avoidable });
        }
        self.seen += 1;
        if thinned(&mut self.kept, MOST) {
            self.stride *= 2;
        }
    }
}
