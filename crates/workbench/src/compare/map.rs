//! The aim map as it arrives, pass after pass.

use std::sync::Arc;

use glam::DVec2;
use standpoint_geometry::{AimMap, AimWorth, Court, Situation};

use super::{chart::Chart, task::Work};

/// Distance between the targets of the finest pass, m.
pub const STEP_M: f64 = 0.5;
/// Targets in a piece of work: few in the first pass, so that both threads finish together.
const PIECES: [usize; 3] = [5, 12, 24];
/// Distance between the targets of each pass, in cells.
const STRIDES: [usize; 3] = [4, 2, 1];

/// A map and its known part.
#[derive(Debug, Clone)]
pub struct Progress {
    map: AimMap,
    order: Vec<usize>,
    ends: Vec<usize>,
    known: usize,
    passes: usize,
    /// Of the last complete pass, by the best recovery and by the one to the middle.
    charts: Option<[Arc<Chart>; 2]>,
    /// Grows with every new chart of any map.
    generation: u64,
}

impl Progress {
    /// The empty map of a situation and the work to be done for it.
    #[must_use]
    pub fn begin(situation: &Situation, generation: u64) -> (Self, Vec<Work>) {
        let map = AimMap::new(situation, STEP_M);
        let (order, ends) = map.order();
        let asked = Arc::new(*situation);
        let mut works = Vec::new();
        let mut from = 0;
        for (pass, &end) in ends.iter().enumerate() {
            let size = PIECES[pass.min(PIECES.len() - 1)];
            let pieces = order[from..end].chunks(size);
            works.extend(pieces.map(|piece| {
                let cells = piece.iter().map(|cell| (*cell, map.target(*cell))).collect();
                Work::Cells(Arc::clone(&asked), cells)
            }));
            from = end;
        }
        (Self { map, order, ends, known: 0, passes: 0, charts: None, generation }, works)
    }

    /// Takes the worth of some targets; returns whether that completed a pass.
    pub fn take(&mut self, cells: Vec<(usize, Option<AimWorth>)>, court: &Court) -> bool {
        for (cell, worth) in cells {
            self.known += usize::from(self.map.worth[cell].is_none());
            self.map.worth[cell] = Some(worth);
        }
        let complete = |end: &usize| self.order[..*end].iter().all(|cell| self.map.worth[*cell].is_some());
        let passes = self.ends.iter().take_while(|end| complete(end)).count();
        if passes == self.passes {
            return false;
        }
        self.passes = passes;
        let stride = STRIDES[(passes - 1).min(STRIDES.len() - 1)];
        self.charts = Some([false, true].map(|middle| Arc::new(Chart::new(&self.map, stride, middle, court))));
        self.generation += 1;
        true
    }

    /// The map itself.
    #[must_use]
    pub fn map(&self) -> &AimMap {
        &self.map
    }

    /// The chart of the last complete pass.
    #[must_use]
    pub fn chart(&self, to_middle: bool) -> Option<&Arc<Chart>> {
        self.charts.as_ref().map(|charts| &charts[usize::from(to_middle)])
    }

    /// Grows with every new chart.
    #[must_use]
    pub fn generation(&self) -> u64 {
        self.generation
    }

    /// The part that is known, 0 to 1.
    #[must_use]
    pub fn part(&self) -> f64 {
        self.known as f64 / self.order.len().max(1) as f64
    }

    /// How many passes are complete, and how many there are.
    #[must_use]
    pub fn passes(&self) -> (usize, usize) {
        (self.passes, self.ends.len())
    }

    /// The worth of aiming at a place, by the finest cell around it that is known.
    #[must_use]
    pub fn worth_near(&self, place: DVec2) -> Option<AimWorth> {
        let near = |cell: &usize| self.map.target(*cell).distance_squared(place);
        let known = (0..self.map.worth.len()).filter(|cell| self.map.worth[*cell].is_some());
        known.min_by(|a, b| near(a).total_cmp(&near(b))).and_then(|cell| self.map.worth[cell].flatten())
    }
}
