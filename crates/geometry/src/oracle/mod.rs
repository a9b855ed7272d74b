//! A slow, plain look-ahead, to check the fast one.
//!
//! Taken as given: the worth after the next contact, from the solved table; where and how the opponent meets the ball,
//! from the answer; and the figures of [`Behaviour`] and of the players. All else is computed again in `f64`: every
//! reply is aimed and flown exactly in three dimensions, landing places are dense, the worth is averaged over the
//! Gaussian of landings place by place, the times to reach and to a stance follow from their definitions, and no reply
//! is left out.

mod striker;

use glam::DVec2;

use crate::{
    court::Court,
    player::Wing,
    shot::situation::{ReadyArea, Situation},
    solver::{Loaded, SolveError, Solver, answer::Place, own},
    worth::Behaviour,
};

pub use self::striker::Fineness;
use self::striker::{Point, Reply, Striker};

/// The slow reference for one situation.
#[derive(Debug)]
pub struct Oracle {
    near_turn: crate::court::frame::Turn,
    replies: Vec<Reply>,
    weights: Vec<f64>,
    behaviour: Behaviour,
    legs: Feet,
    level: f64,
    area: (DVec2, DVec2),
}

/// The hitter's movement, from the formulas of the model page.
#[derive(Debug, Clone, Copy)]
struct Feet {
    quadratic: f64,
    linear: f64,
    backward: f64,
    forehand: f64,
}

/// Levels of the time to spare in a table, s.
const LEVELS: [f64; 4] = [-0.35, 0.1, 0.5, 0.95];

impl Oracle {
    /// Lists the replies to a situation's shot; `None` when it is a winner or leaves no reply.
    ///
    /// # Errors
    /// As [`Solver::solve`].
    pub fn new(situation: &Situation, fineness: Fineness) -> Result<Option<Self>, SolveError> {
        let mut solver = Solver::new();
        let Some(Loaded { near, game, met, .. }) = solver.loaded(situation)? else { return Ok(None) };
        let duel = game.duel(1);
        let [x, depth] = own(met.point.truncate());
        let contact = [f64::from(x), f64::from(depth), met.point.z];
        let kind = game.side(1).strokes.kind(met.point.z as f32, met.bounces == 0);
        let stances: Vec<(Wing, f64, f64)> =
            met.stances.iter().map(|s| (s.wing, f64::from(s.spare), f64::from(s.weight))).collect();
        let player = &near.hitter;
        let stride = player.movement.stride();
        let legs = Feet {
            quadratic: stride.quadratic,
            linear: stride.linear,
            // The player's figure counts relative to its usual value; the behaviour's factor is the same for all
            // players.
            backward: player.movement.backward_factor.max(1.0) * f64::from(duel.behaviour.backward) / 1.25,
            forehand: player.hand.forehand_sign(),
        };
        let replies = Striker {
            near: &near,
            duel: &duel,
            contact,
            kind,
            stances: &stances,
            slope: f64::from(met.slope),
            fineness,
        }
        .replies();
        if replies.is_empty() {
            return Ok(None);
        }
        let mut oracle = Self {
            near_turn: near.turn,
            replies,
            weights: stances.iter().map(|s| s.2).collect(),
            behaviour: *duel.behaviour,
            legs,
            level: 0.0,
            area: back(&situation.conditions.court, situation.settings.ready),
        };
        oracle.settle(near.turn.turn2(near.stand().clamp(near.hitter_place)));
        Ok(Some(oracle))
    }

    /// Sets the level: with the hitter at a place, world frame (that of the recovery run), the opponent counts with
    /// their real pressure. Differences between places are those of the opponent as read in time.
    pub fn settle(&mut self, reached: DVec2) {
        let place = self.near_turn.turn2(reached);
        let own = DVec2::new(place.x, -place.y);
        self.level = self.mean(own, 1) - self.mean(own, 0);
    }

    /// The opponent's chance to win with the hitter at a place, world frame.
    #[must_use]
    pub fn exposure(&self, place: DVec2) -> f64 {
        self.at(self.near_turn.turn2(place))
    }

    /// The chance to win, with the place in the frame of the near hitter.
    fn at(&self, place: DVec2) -> f64 {
        self.mean(DVec2::new(place.x, -place.y), 0) + self.level
    }

    /// The spot: centre of the zone at the back (or at the net), from the floor of the valley row by row; world frame.
    ///
    /// `about` is a place near the valley, from which the rows are searched.
    #[must_use]
    pub fn spot(&self, about: DVec2) -> Place {
        let about = self.near_turn.turn2(about);
        let (low, high) = self.area;
        let mut floors: Vec<(DVec2, f64)> = Vec::new();
        let mut y = low.y;
        while y <= high.y {
            let x = floors.last().map_or(about.x, |f| f.0.x);
            let row: Vec<(DVec2, f64)> = (-6..=6)
                .map(|i| DVec2::new((x + 0.3 * f64::from(i)).clamp(low.x, high.x), y))
                .map(|p| (p, self.at(p)))
                .collect();
            let Some(least) = row.iter().min_by(|a, b| a.1.total_cmp(&b.1)) else { break };
            floors.push(*least);
            y += 0.5;
        }
        let least = floors.iter().map(|f| f.1).fold(f64::INFINITY, f64::min);
        let (mut sum, mut centre) = (0.0, DVec2::ZERO);
        for (p, v) in &floors {
            let w = (-(v - least) / f64::from(self.behaviour.zone_width)).exp();
            sum += w;
            centre += w * p;
        }
        let place = centre / sum;
        Place { place: self.near_turn.turn2(place), exposure: self.at(place) }
    }

    /// The opponent's worth over all stances with the hitter at a place (own frame): as read in time (0) or with the
    /// real pressure (1).
    fn mean(&self, place: DVec2, read: usize) -> f64 {
        let made: Vec<f64> = self.replies.iter().map(|r| self.made(r, place)).collect();
        let one = |stance: usize| {
            let (mut sum, mut total) = (0.0, 0.0);
            for (i, reply) in self.replies.iter().enumerate() {
                let (chance, sigma) = reply.chances[read][stance];
                let q = chance * (1.0 - self.averaged(i, sigma, &made));
                let w = reply.prior * (q / f64::from(self.behaviour.temperature)).exp();
                sum += w * q;
                total += w;
            }
            sum / total
        };
        self.weights.iter().enumerate().map(|(stance, weight)| weight * one(stance)).sum()
    }

    /// Worth of a reply to the hitter, averaged over its landing places around the aim, inside the lines.
    fn averaged(&self, i: usize, (depth, side): (f64, f64), made: &[f64]) -> f64 {
        let aim = &self.replies[i];
        let (mut sum, mut total) = (0.0, 0.0);
        for (reply, made) in self.replies.iter().zip(made).filter(|(r, _)| r.family == aim.family) {
            let way = (reply.landing - aim.landing) / DVec2::new(side, depth);
            let w = (-0.5 * way.length_squared()).exp();
            sum += w * made;
            total += w;
        }
        sum / total
    }

    /// Worth of a reply to the hitter at a place, from the best point to meet it.
    fn made(&self, reply: &Reply, place: DVec2) -> f64 {
        reply.points.iter().map(|p| self.meeting(p, place)).fold(0.0, f64::max)
    }

    fn meeting(&self, p: &Point, place: DVec2) -> f64 {
        let b = &self.behaviour;
        let way = p.at - place;
        let backwards = |y: f64| if y > 0.0 { y * self.legs.backward } else { y };
        // Distance to the ball, with backward metres counted longer; the reach of the arm is subtracted.
        let far = DVec2::new(way.x, backwards(way.y)).length().max(1e-3);
        let [forehand, backhand, ahead] = p.reach;
        let arm = if way.x * self.legs.forehand > 0.0 { forehand } else { backhand };
        let reach = ahead + (arm - ahead) * (way.x / far).powi(2);
        let (run, brake) = self.run(far - reach);
        // A step and the arm at full stretch.
        let lunge = f64::from(if p.air { b.lunge_air } else { b.lunge }) * (far / (reach + 0.05)).min(1.0);
        let needed = run.hypot(lunge);
        // A player who comes forward for a ball in the air must stop first.
        let forward = if way.y > 0.0 { 0.0 } else { way.y * way.y / (far * far) };
        let spare = p.time - needed - if p.air { forward * brake } else { 0.0 };
        let u = ((spare - f64::from(b.reach_centre)) / f64::from(b.reach_half_width)).clamp(-1.0, 1.0);
        let chance = 0.5 + 0.75 * u - 0.25 * u * u * u;
        if chance <= 0.0 {
            return 0.0;
        }
        let worth = |wing: usize| {
            let side = if wing == 0 { self.legs.forehand } else { -self.legs.forehand };
            let stance = way + DVec2::new(-side * f64::from(b.stance_beside), f64::from(b.stance_ahead));
            let deep = backwards(stance.y);
            let far = DVec2::new(stance.x, deep).length();
            let (run, brake) = self.run(far - f64::from(b.stance_slack));
            let share = deep * deep / (far * far + 0.25);
            let forward = if stance.y > 0.0 { 0.0 } else { share };
            between(p.time - p.rise - run - brake * forward - f64::from(b.depth_read) * share, &p.worth, wing)
        };
        chance * worth(0).max(worth(1))
    }

    /// Time of a run over the distance left, from rest, and of the braking at its end, s. The corner at zero distance
    /// is 0.3 m soft.
    fn run(&self, left: f64) -> (f64, f64) {
        let b = &self.behaviour;
        let d = 0.5 * (left + left.hypot(0.3));
        let (q, l) = (self.legs.quadratic, self.legs.linear);
        let t = (d * (q * d + l)).sqrt();
        // t^2 = q d^2 + l d, so the speed is 2 t / (2 q d + l).
        let speed = 2.0 * t / (2.0 * q * d + l);
        (t, (speed - f64::from(b.brake_speed)).max(0.0) / (2.0 * f64::from(b.brake)))
    }
}

/// Worth at a time to spare, interpolated linearly between the levels of the table.
fn between(spare: f64, worth: &[f32; 8], wing: usize) -> f64 {
    let at = |i: usize| f64::from(worth[2 * i + wing]);
    if spare <= LEVELS[0] {
        return at(0);
    }
    for i in 0..3 {
        if spare < LEVELS[i + 1] {
            return at(i) + (at(i + 1) - at(i)) * (spare - LEVELS[i]) / (LEVELS[i + 1] - LEVELS[i]);
        }
    }
    at(3)
}

/// The part of the side that a player waits in: behind the service line, or at the net (`docs/model.md`).
fn back(court: &Court, ready: ReadyArea) -> (DVec2, DVec2) {
    let scale = court.half_length() / 11.885;
    let x = (court.half_width() + 1.9).min(court.site_half_width());
    match ready {
        ReadyArea::Net => (DVec2::new(-x, -6.5 * scale), DVec2::new(x, -1.2 * scale)),
        _ => {
            let deepest = (court.site_half_length() - 0.5).min(court.half_length() + 5.0);
            (DVec2::new(-x, -(deepest * 2.0).floor() / 2.0), DVec2::new(x, -8.8 * scale))
        }
    }
}
