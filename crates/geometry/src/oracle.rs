//! The same model by brute force: a slow reference for the fast path.
//!
//! It shares with [`crate::solver`] what the question is (the shot, where the opponent meets it, which replies there are
//! and what a meeting is worth) and nothing of how it is answered: every reply is aimed on exact flights, its
//! sensitivities are differences of exact flights, its path is followed every few milliseconds, the player's movement is
//! [`Mover`] in `f64`, no reply is dropped because another one seems to beat it, every one is looked at from every
//! place, and the spot is found on a dense grid that is then refined. One situation takes about a second.

use glam::{DVec2, DVec3};

use crate::{
    aim::aim,
    answer::Place,
    bounce::fly_path,
    coverage::Mover,
    exposure::{FULL_HALF_LENGTH, quality, value_at},
    flight::{BallState, FlyOptions, land},
    receipt::Met,
    repertoire::{
        self, Aimed, DROP_ROWS, EFFORT, ELEVATIONS_DEG, LEAST_CHANCE, NET_REACH_M, SPINS_RPM, Striker, delivery,
        effort_of, speeds, strokes,
    },
    scatter::{self, Sensitivity, Spread},
    situation::{Situation, Stroke},
    solver::{Near, SolveError},
    spot::Stand,
    units::RPM,
};

/// How finely the reference looks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fineness {
    /// Time between the points of a reply's path, s.
    pub path_s: f64,
    /// Spacing of the first grid of standing places, m.
    pub grid_m: f64,
    /// Spacing at which the refinement ends, m.
    pub spot_m: f64,
}

impl Default for Fineness {
    fn default() -> Self {
        Self { path_s: 0.008, grid_m: 0.5, spot_m: 0.005 }
    }
}

/// What the reference finds; world frame.
#[derive(Debug, Clone, PartialEq)]
pub struct OracleAnswer {
    /// The place of least exposure.
    pub spot: Place,
    /// The bottoms of the lowest valleys, deepest first; the first is the spot.
    pub valleys: Vec<Place>,
    /// Replies looked at.
    pub replies: usize,
}

/// The replies of one situation, ready to judge places.
#[derive(Debug, Clone)]
pub struct Oracle {
    fineness: Fineness,
    replies: Vec<Reply>,
    points: Vec<Meeting>,
    mover: Mover,
    stand: Stand,
    end: crate::frame::End,
}

/// A reply and its range of points.
#[derive(Debug, Clone, Copy)]
struct Reply {
    chance: f64,
    first: usize,
    end: usize,
}

/// A point at which a reply can be met.
#[derive(Debug, Clone, Copy)]
struct Meeting {
    point: DVec3,
    time: f64,
    value: f64,
}

/// Solves a situation the slow way; `None` when the shot is a winner or leaves no reply.
///
/// # Errors
/// As [`crate::solver::solve`].
pub fn solve(situation: &Situation, fineness: Fineness) -> Result<Option<OracleAnswer>, SolveError> {
    Ok(Oracle::new(situation, fineness)?.map(|o| o.solve()))
}

/// The exposure of one standing place, world frame, the slow way; `None` as for [`solve`].
///
/// # Errors
/// As [`crate::solver::solve`].
pub fn exposure_at(situation: &Situation, place: DVec2, fineness: Fineness) -> Result<Option<f64>, SolveError> {
    Ok(Oracle::new(situation, fineness)?.map(|o| o.exposure(place)))
}

impl Oracle {
    /// Computes every reply of a situation; `None` when the shot is a winner or leaves no reply.
    ///
    /// # Errors
    /// As [`crate::solver::solve`].
    pub fn new(situation: &Situation, fineness: Fineness) -> Result<Option<Self>, SolveError> {
        let problems = situation.validate();
        if !problems.is_empty() {
            return Err(SolveError::Invalid(problems));
        }
        let near = Near::new(situation);
        let aimed = aim(&situation.conditions.court, &near.physics, &near.shot)?;
        let path = near.path(&aimed);
        let Met::At(receipt) = near.receive(&path) else { return Ok(None) };
        let mut oracle = Self {
            fineness,
            replies: Vec::new(),
            points: Vec::new(),
            mover: near.mover(),
            stand: near.stand(),
            end: situation.hitter_end,
        };
        let striker = near.striker(&path, &receipt);
        let bounces = situation.hitter.bounces;
        let lattice: Vec<Aimed> = repertoire::lattice(&striker).collect();
        for topspin in SPINS_RPM.map(|rpm| rpm * RPM) {
            for &(stroke, high) in strokes(&striker, topspin) {
                for speed in speeds() {
                    if (EFFORT.0..=EFFORT.1).contains(&effort_of(&striker, speed, topspin, stroke)) {
                        let way = Way::new(&striker, stroke, high, speed, topspin);
                        for aimed in &lattice {
                            oracle.add(&striker, &way, aimed, bounces);
                        }
                    }
                }
            }
        }
        Ok((!oracle.replies.is_empty()).then_some(oracle))
    }

    /// Replies looked at.
    #[must_use]
    pub fn replies(&self) -> usize {
        self.replies.len()
    }

    /// Adds one stroke to one landing place, if it gets there likely enough.
    fn add(&mut self, striker: &Striker<'_>, way: &Way, aimed: &Aimed, bounces: u8) {
        if way.stroke == Stroke::Drop && aimed.row >= DROP_ROWS {
            return;
        }
        let Some(elevation) = way.elevation(striker, aimed.distance) else { return };
        let chance = way.chance(striker, aimed, elevation);
        if chance < LEAST_CHANCE {
            return;
        }
        let c = striker.conditions;
        let court = &c.court;
        let launch = way.launch(striker, aimed.net_range, elevation);
        let path = fly_path(striker.physics, &c.surface, &c.ball, launch, bounces, FlyOptions::default());
        let first = self.points.len();
        let from = striker.contact.truncate();
        let mut meet = |time: f64, bounced: bool, p: DVec3| {
            let place = from + aimed.direction * (p.y + aimed.net_range);
            let point = place.extend(p.z);
            let on_site = place.y > -court.site_half_length() && place.x.abs() < court.site_half_width();
            let within_reach = self.mover.distance(place, point).is_some();
            if place.y < -NET_REACH_M && on_site && within_reach {
                let value = value_at(-place.y * FULL_HALF_LENGTH / court.half_length(), p.z, bounced);
                self.points.push(Meeting { point, time, value });
            }
        };
        for (i, arc) in path.arcs.iter().enumerate() {
            let begin = if i == 0 { 0.0 } else { path.bounces[i - 1].0 };
            let steps = ((arc.end_time() - begin) / self.fineness.path_s).ceil().max(1.0) as usize;
            for n in 0..=steps {
                let time = begin + (arc.end_time() - begin) * n as f64 / steps as f64;
                meet(time, i > 0, arc.position(time));
            }
        }
        self.replies.push(Reply { chance, first, end: self.points.len() });
    }

    /// The exposure of a standing place, world frame.
    #[must_use]
    pub fn exposure(&self, place: DVec2) -> f64 {
        self.judge(self.end.turn2(place))
    }

    /// The exposure of a place in the frame of a near player.
    fn judge(&self, place: DVec2) -> f64 {
        let against = |reply: &Reply| {
            let gain = |m: &Meeting| {
                let needed = self.mover.time_needed(place, m.point);
                needed.map_or(0.0, |needed| m.value * quality(m.time - needed))
            };
            reply.chance * (1.0 - self.points[reply.first..reply.end].iter().map(gain).fold(0.0, f64::max))
        };
        self.replies.iter().map(against).fold(0.0, f64::max)
    }

    /// The place of least exposure.
    #[must_use]
    pub fn solve(&self) -> OracleAnswer {
        let size = self.stand.max - self.stand.min;
        let cells = (size / self.fineness.grid_m).ceil().max(DVec2::ONE);
        let step = size / cells;
        let (columns, rows) = (cells.x as usize + 1, cells.y as usize + 1);
        let at = |i: usize, j: usize| self.stand.min + step * DVec2::new(i as f64, j as f64);
        let grid: Vec<f64> = (0..columns * rows).map(|n| self.judge(at(n % columns, n / columns))).collect();
        let mut valleys = Vec::new();
        for (n, &e) in grid.iter().enumerate() {
            let (i, j) = (n % columns, n / columns);
            let (left, right) = (i.saturating_sub(1), (i + 1).min(columns - 1));
            let around =
                (j.saturating_sub(1)..=(j + 1).min(rows - 1)).flat_map(|j| (left..=right).map(move |i| (i, j)));
            if around.into_iter().all(|(i, j)| grid[j * columns + i] >= e) {
                valleys.push(Place { place: at(i, j), exposure: e });
            }
        }
        let by_depth = |a: &Place, b: &Place| a.exposure.total_cmp(&b.exposure);
        valleys.sort_by(by_depth);
        valleys.truncate(4);
        for valley in &mut valleys {
            *valley = self.refine(*valley, step.max_element());
            valley.place = self.end.turn2(valley.place);
        }
        valleys.sort_by(by_depth);
        let spot = valleys.first().copied().unwrap_or(Place { place: DVec2::ZERO, exposure: 1.0 });
        OracleAnswer { spot, valleys, replies: self.replies.len() }
    }

    /// The bottom of the valley around a place: ever finer grids of seven by seven around the best one so far, which
    /// move on without getting finer while the best lies on their border.
    fn refine(&self, mut best: Place, around: f64) -> Place {
        const REACH: i32 = 3;
        let mut step = around / f64::from(REACH);
        while step > self.fineness.spot_m / 2.0 {
            let center = best.place;
            let mut border = false;
            for j in -REACH..=REACH {
                for i in -REACH..=REACH {
                    let place = center + DVec2::new(f64::from(i), f64::from(j)) * step;
                    let place = place.clamp(self.stand.min, self.stand.max);
                    let exposure = self.judge(place);
                    if exposure < best.exposure {
                        best = Place { place, exposure };
                        border = i.abs() == REACH || j.abs() == REACH;
                    }
                }
            }
            if !border {
                step /= 2.0;
            }
        }
        best
    }
}

/// A stroke at one speed and spin.
struct Way {
    stroke: Stroke,
    speed: f64,
    topspin: f64,
    /// Spread when the ball is sent back where it came from.
    straight: Spread,
    /// Elevations of the branch with their ranges, from short to long.
    branch: Vec<(f64, f64)>,
}

impl Way {
    fn new(striker: &Striker<'_>, stroke: Stroke, high: bool, speed: f64, topspin: f64) -> Self {
        let skill = striker.player.wing(scatter::wing_of(stroke, striker.wing));
        let straight = scatter::spread(skill, &delivery(striker, speed, topspin, stroke));
        let mut way = Self { stroke, speed, topspin, straight, branch: Vec::new() };
        let all: Vec<(f64, f64)> = (ELEVATIONS_DEG.0..=ELEVATIONS_DEG.1)
            .map(|deg| f64::from(deg).to_radians())
            .filter_map(|e| Some((e, way.flight(striker, 0.0, e)?.0)))
            .collect();
        let top = (0..all.len()).max_by(|&a, &b| all[a].1.total_cmp(&all[b].1)).unwrap_or(0);
        way.branch = if high { all[top..].iter().rev().copied().collect() } else { all[..=top].to_vec() };
        way
    }

    fn launch(&self, striker: &Striker<'_>, net_range: f64, elevation: f64) -> BallState {
        let start = DVec3::new(0.0, -net_range, striker.contact.z);
        BallState::launch(start, self.speed, elevation, 0.0, self.topspin, 0.0)
    }

    /// Range and height at the net of an exact flight.
    fn flight_at(&self, striker: &Striker<'_>, net_range: f64, elevation: f64, speed: f64) -> Option<(f64, f64)> {
        let mut start = self.launch(striker, net_range, elevation);
        start.velocity *= speed;
        let landed = land(striker.physics, start, crate::flight::LAND_STEP)?;
        Some((landed.state.position.y + net_range, landed.net.map_or(0.0, |n| n.point.z)))
    }

    fn flight(&self, striker: &Striker<'_>, net_range: f64, elevation: f64) -> Option<(f64, f64)> {
        self.flight_at(striker, net_range, elevation, 1.0)
    }

    /// The elevation of this branch that lands `distance` away, by bisection within the interval that holds it.
    fn elevation(&self, striker: &Striker<'_>, distance: f64) -> Option<f64> {
        let after = self.branch.iter().position(|b| b.1 > distance)?;
        if after == 0 {
            return None;
        }
        let (mut short, mut long) = (self.branch[after - 1].0, self.branch[after].0);
        while (long - short).abs() > 1e-7 {
            let middle = 0.5 * (short + long);
            if self.flight(striker, 0.0, middle)?.0 > distance { long = middle } else { short = middle }
        }
        Some(0.5 * (short + long))
    }

    /// Chance in, with sensitivities from neighbouring flights.
    fn chance(&self, striker: &Striker<'_>, aimed: &Aimed, elevation: f64) -> f64 {
        const NUDGE: f64 = 2e-3;
        let fly = |e: f64, speed: f64| self.flight_at(striker, aimed.net_range, e, speed);
        let Some((_, net)) = fly(elevation, 1.0) else { return 0.0 };
        let (Some(up), Some(down)) = (fly(elevation + NUDGE, 1.0), fly(elevation - NUDGE, 1.0)) else { return 0.0 };
        let (Some(fast), Some(slow)) = (fly(elevation, 1.0 + NUDGE), fly(elevation, 1.0 - NUDGE)) else { return 0.0 };
        let slope = |a: f64, b: f64| (a - b) / (2.0 * NUDGE);
        let flight = Sensitivity {
            clearance: net - striker.physics.radius - aimed.net_height,
            net_up: slope(up.1, down.1),
            net_speed: slope(fast.1, slow.1),
            range: aimed.distance,
            range_up: slope(up.0, down.0),
            range_speed: slope(fast.0, slow.0),
            along: -aimed.direction.y,
            across: aimed.direction.x.abs(),
        };
        scatter::chance(&flight, &aimed.room, &self.straight.turned(aimed.turn)).good
    }
}
