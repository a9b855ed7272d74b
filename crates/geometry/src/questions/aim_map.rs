//! The aim map: the chance to win the point for every target, with the recovery the player can really make.
//!
//! The map is computed in passes from coarse to fine, target by target, on the caller's threads; this module gives the
//! order of the targets and the worth of each.

use glam::DVec2;

use crate::{
    ball::bounce::Path,
    court::Court,
    interception::Intercept,
    shot::{aim::Aim, situation::Situation, stroke::Stroke},
    solver::{Near, SolveError, Solver, shot_chance, shot_spread, sound},
    worth::Game,
};

/// Speeds tried for a target, as shares of the drawn shot's: the first playable one counts.
///
/// A player slows down for a target that the full speed cannot drop into the court; below half speed it is another
/// stroke.
const SPEEDS: [f64; 5] = [1.0, 0.88, 0.76, 0.64, 0.52];
/// Least chance in: below it the next slower ball is preferred.
const WILD: f64 = 0.25;

/// The worth of a target.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AimWorth {
    /// The model's chance to win the point, 0 to 1, with the recovery that serves best.
    pub win: f64,
    /// The same if the player recovers to the middle of the court instead.
    pub win_from_middle: f64,
    /// Chance that the shot goes in.
    pub chance_in: f64,
    /// Speed of the ball, m/s.
    pub speed: f64,
}

impl Solver {
    /// The worth of a situation's shot aimed at another target; `None` if no speed of the stroke gets there.
    ///
    /// # Errors
    /// [`SolveError::Invalid`] when the situation cannot be computed.
    pub fn worth(&mut self, situation: &Situation, target: DVec2) -> Result<Option<AimWorth>, SolveError> {
        sound(situation)?;
        let mut best: Option<(Situation, Aim, f64)> = None;
        for share in SPEEDS {
            let mut tried = *situation;
            tried.shot.target = target;
            tried.shot.speed *= share;
            let near = Near::new(&tried);
            let Ok(aimed) = near.aim() else { continue };
            let chance = shot_chance(&near, &aimed).good;
            if best.as_ref().is_none_or(|b| chance > b.2) {
                best = Some((tried, aimed, chance));
            }
            if chance > WILD {
                break;
            }
        }
        Ok(best.map(|(tried, aimed, chance)| self.worth_of(&tried, &aimed, chance)))
    }

    fn worth_of(&mut self, situation: &Situation, aimed: &Aim, chance_in: f64) -> AimWorth {
        let near = Near::new(situation);
        let (game, _) = self.game(&near);
        let speed = situation.shot.speed;
        let middle = middle_place(&situation.conditions.court);
        let lost = self.lost(&near, &game, aimed, None);
        let from_middle = self.lost(&near, &game, aimed, Some(middle));
        // The player runs to the middle where the usual place is no better.
        let lost = lost.min(from_middle);
        AimWorth { win: chance_in * (1.0 - lost), win_from_middle: chance_in * (1.0 - from_middle), chance_in, speed }
    }

    /// The opponent's chance to win the point once the shot is in, averaged over its landing places; near frame.
    ///
    /// `fixed` sends the hitter to a place regardless of the shot.
    pub(crate) fn lost(&mut self, near: &Near<'_>, game: &Game, aimed: &Aim, fixed: Option<DVec2>) -> f64 {
        let (depth, side) = shot_spread(near, aimed);
        let court = &near.situation.conditions.court;
        let (low, high) = lines(near);
        let (mut sum, mut total) = (0.0, 0.0);
        for (dx, dy, weight) in LANDINGS {
            let offset = DVec2::new(dx * side, dy * depth);
            let path = if offset == DVec2::ZERO {
                near.path(aimed)
            } else {
                // Only balls that are in count here: those beyond a line are replaced by balls that just touch it.
                let mut shot = near.shot;
                shot.target = (shot.target + offset).clamp(low, high);
                let Ok(aimed) = crate::shot::aim::aim(court, &near.physics, &shot) else { continue };
                near.path(&aimed)
            };
            sum += weight * made(near, game, &path, fixed);
            total += weight;
        }
        sum / total.max(1e-9)
    }

    /// The chance without scatter: the ball lands where it is aimed.
    pub(crate) fn lost_there(&mut self, near: &Near<'_>, game: &Game, aimed: &Aim) -> f64 {
        made(near, game, &near.path(aimed), None)
    }
}

/// Worth to the opponent of a ball on its path.
fn made(near: &Near<'_>, game: &Game, path: &Path, fixed: Option<DVec2>) -> f64 {
    match near.meet_with(game, path, fixed) {
        Intercept::Past { .. } => 0.0,
        Intercept::At(met) => met.worth,
    }
}

/// Corners of the ground on which a shot is good, near frame.
fn lines(near: &Near<'_>) -> (DVec2, DVec2) {
    let court = &near.situation.conditions.court;
    let half = court.half_width();
    let (mut low, mut high) = (DVec2::new(-half, 0.3), DVec2::new(half, court.half_length()));
    if near.shot.stroke == Stroke::Serve
        && let Some(service_line) = court.service_line
    {
        high.y = service_line;
        if near.shot.contact.x >= 0.0 { high.x = 0.0 } else { low.x = 0.0 }
    }
    (low, high)
}

/// Landing places around the aim, in standard deviations sideways and in depth, with their weights: the cubature of third
/// degree for a Gaussian in the plane (Stroud & Secrest 1963).
const LANDINGS: [(f64, f64, f64); 5] =
    [(0.0, 0.0, 0.5), (1.414, 0.0, 0.125), (-1.414, 0.0, 0.125), (0.0, 1.414, 0.125), (0.0, -1.414, 0.125)];

/// The place given by the plain rule "back to the middle": a metre behind the centre mark, near frame.
#[must_use]
pub fn middle_place(court: &Court) -> DVec2 {
    DVec2::new(0.0, -court.half_length() - 1.0)
}

/// A map of worth over the far court, world frame.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct AimMap {
    /// Place of the first target (lowest x and y).
    pub origin: DVec2,
    /// Distance between targets of the finest pass, m.
    pub step: f64,
    /// Targets along x.
    pub columns: usize,
    /// Targets along y.
    pub rows: usize,
    /// Computed cells: outer `None` not computed yet, inner `None` not playable. Row by row, `y` outer.
    pub worth: Vec<Option<Option<AimWorth>>>,
}

impl AimMap {
    /// An empty map for the shot of a situation: the singles court (the service box for a serve) inset by the ball's
    /// width, with targets `step` apart.
    #[must_use]
    pub fn new(situation: &Situation, step: f64) -> Self {
        let court = &situation.conditions.court;
        let end = situation.hitter_end;
        let half = court.half_width();
        let (mut low, mut high) = (DVec2::new(-half, 1.0), DVec2::new(half, court.half_length()));
        if situation.shot.stroke == Stroke::Serve
            && let Some(service_line) = court.service_line
        {
            high.y = service_line;
            if end.turn3(situation.shot.contact).x >= 0.0 { high.x = 0.0 } else { low.x = 0.0 }
        }
        let inset = 0.05;
        let (a, b) = (end.turn2(low + inset), end.turn2(high - inset));
        let (low, high) = (a.min(b), a.max(b));
        let span = high - low;
        let cells = (span / step).floor();
        // The remainder of a step is divided between both borders.
        let origin = low + (span - cells * step) / 2.0;
        let (columns, rows) = (cells.x as usize + 1, cells.y as usize + 1);
        Self { origin, step, columns, rows, worth: vec![None; columns * rows] }
    }

    /// The target of a cell.
    #[must_use]
    pub fn target(&self, index: usize) -> DVec2 {
        let (i, j) = (index % self.columns, index / self.columns);
        self.origin + DVec2::new(i as f64, j as f64) * self.step
    }

    /// The order in which to compute the cells: every fourth in both directions, then every second, then the rest.
    ///
    /// Returns the cells and where each pass ends.
    #[must_use]
    pub fn order(&self) -> (Vec<usize>, Vec<usize>) {
        let mut order = Vec::with_capacity(self.worth.len());
        let mut ends = Vec::new();
        for stride in [4, 2, 1] {
            for j in (0..self.rows).step_by(stride) {
                for i in (0..self.columns).step_by(stride) {
                    let earlier = stride < 4 && i % (2 * stride) == 0 && j % (2 * stride) == 0;
                    if !earlier {
                        order.push(j * self.columns + i);
                    }
                }
            }
            ends.push(order.len());
        }
        (order, ends)
    }

    /// The best target computed so far and its worth.
    #[must_use]
    pub fn best(&self, from_middle: bool) -> Option<(DVec2, AimWorth)> {
        let win = |w: &AimWorth| if from_middle { w.win_from_middle } else { w.win };
        self.worth
            .iter()
            .enumerate()
            .filter_map(|(i, w)| Some((i, (*w)??)))
            .max_by(|a, b| win(&a.1).total_cmp(&win(&b.1)))
            .map(|(i, w)| (self.target(i), w))
    }
}

/// Computes a whole map on this thread; for the command line, tests and benchmarks.
///
/// # Errors
/// [`SolveError::Invalid`] when the situation cannot be computed.
pub fn aim_map(solver: &mut Solver, situation: &Situation, step: f64) -> Result<AimMap, SolveError> {
    let mut map = AimMap::new(situation, step);
    for cell in map.order().0 {
        map.worth[cell] = Some(solver.worth(situation, map.target(cell))?);
    }
    Ok(map)
}
