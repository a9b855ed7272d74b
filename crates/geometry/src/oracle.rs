//! The same model by brute force: a slow reference for the fast path.
//!
//! It shares with [`crate::solver`] what the question is (the shot, where the opponent meets it, which replies there are
//! and what a meeting is worth) and nothing of how it is answered: every reply is aimed on exact flights, its
//! sensitivities are differences of exact flights, its path is followed every few milliseconds, movement and reach are
//! computed in `f64`, no reply is dropped because another one seems to beat it, and the spot is found on a dense grid
//! that is then refined. The only short cuts are identities: a reply costs no more than its chance to go in, and another
//! point at which to meet it cannot make it cost more; so a reply is left as soon as either shows that it is not the
//! worst. One situation takes about half a second.

use glam::{DVec2, DVec3};

use crate::{
    answer::Place,
    bounce::fly_path,
    coverage::{Mover, SOFT_REACH_M},
    exposure::{FULL_HALF_LENGTH, HALF_QUALITY_S, QUALITY_WIDTH_S, reach_share, value_at},
    flight::{BallState, LAND_STEP, land},
    receipt::Met,
    repertoire::{
        self, Aimed, DROP_ROWS, EFFORT, ELEVATIONS_DEG, LEAST_CHANCE, NET_REACH_M, SPINS_RPM, Striker, delivery,
        effort_of, speeds, strokes,
    },
    scatter::{self, Sensitivity, Spread},
    situation::{Situation, Stroke},
    solver::{FLIGHT, Near, SolveError},
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
    /// Size of the cells at which the refinement ends, m.
    pub spot_m: f64,
}

impl Default for Fineness {
    fn default() -> Self {
        Self { path_s: 0.008, grid_m: 0.5, spot_m: 0.01 }
    }
}

/// What the reference finds; world frame.
#[derive(Debug, Clone, PartialEq)]
pub struct OracleAnswer {
    /// The place of least exposure.
    pub spot: Place,
    /// Replies looked at.
    pub replies: usize,
}

/// The replies of one situation, ready to judge places.
#[derive(Debug, Clone)]
pub struct Oracle {
    fineness: Fineness,
    replies: Vec<Reply>,
    points: Meetings,
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

/// Points at which replies can be met, one column per quantity so that the compiler can work on several at once.
#[derive(Debug, Clone, Default)]
struct Meetings {
    x: Vec<f64>,
    y: Vec<f64>,
    time: Vec<f64>,
    /// Share of the reach left at the point's height.
    share: Vec<f64>,
    value: Vec<f64>,
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
        let aimed = near.aim()?;
        let path = near.path(&aimed);
        let Met::At(receipt) = near.receive(&path) else { return Ok(None) };
        let mut oracle = Self {
            fineness,
            replies: Vec::new(),
            points: Meetings::default(),
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
        oracle.replies.sort_by(|a, b| b.chance.total_cmp(&a.chance));
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
        let path = fly_path(striker.physics, &c.surface, &c.ball, launch, bounces, FLIGHT);
        let points = &mut self.points;
        let first = points.time.len();
        let from = striker.contact.truncate();
        let mut meet = |time: f64, bounced: bool, p: DVec3| {
            let place = from + aimed.direction * (p.y + aimed.net_range);
            let on_site = place.y > -court.site_half_length() && place.x.abs() < court.site_half_width();
            let share = reach_share(p.z, self.mover.overhead);
            if place.y < -NET_REACH_M && on_site && share > 0.0 {
                points.x.push(place.x);
                points.y.push(place.y);
                points.time.push(time);
                points.share.push(share);
                points.value.push(value_at(-place.y * FULL_HALF_LENGTH / court.half_length(), p.z, bounced));
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
        self.replies.push(Reply { chance, first, end: points.time.len() });
    }

    /// The exposure of a standing place, world frame.
    #[must_use]
    pub fn exposure(&self, place: DVec2) -> f64 {
        self.judge(self.end.turn2(place))
    }

    /// The exposure of a place in the frame of a near player.
    fn judge(&self, place: DVec2) -> f64 {
        let mut worst = 0.0f64;
        for reply in &self.replies {
            if reply.chance <= worst {
                break;
            }
            // As soon as the player makes this much of it, the reply is not the worst.
            let enough = 1.0 - worst / reply.chance;
            let gain = self.gain(reply, place, enough);
            if gain < enough {
                worst = reply.chance * (1.0 - gain);
            }
        }
        worst
    }

    /// The most that the player makes of a reply: value times quality at the best of its points; or less, but at least
    /// `enough`, where that much is found early. The middle of the path is looked at first.
    fn gain(&self, reply: &Reply, place: DVec2, enough: f64) -> f64 {
        const BLOCK: usize = 16;
        let middle = reply.first + (reply.end - reply.first) / 2;
        let mut best = 0.0f64;
        for half in [middle..reply.end, reply.first..middle] {
            let mut from = half.start;
            while from < half.end && best < enough {
                let to = (from + BLOCK).min(half.end);
                best = best.max(self.gain_within(from..to, place));
                from = to;
            }
        }
        best
    }

    /// The most that the player makes of the points of a range.
    ///
    /// The formulas are those of [`Mover::time_needed`] and [`crate::exposure::quality`], without their branches.
    fn gain_within(&self, range: std::ops::Range<usize>, place: DVec2) -> f64 {
        let p = &self.points;
        let (x, y, time) = (&p.x[range.clone()], &p.y[range.clone()], &p.time[range.clone()]);
        let (share, value) = (&p.share[range.clone()], &p.value[range.clone()]);
        let (forehand, backhand, ahead) = self.mover.reach;
        let stride = &self.mover.stride;
        let mut best = [0.0f64; 4];
        for i in 0..range.len() {
            let dx = x[i] - place.x;
            let dy = y[i] - place.y;
            let dy = if dy < 0.0 { dy * self.mover.backward } else { dy };
            let square = dx * dx + dy * dy + 1e-6;
            let d = square.sqrt();
            let side = if dx * self.mover.forehand_x > 0.0 { forehand } else { backhand };
            let q = d - share[i] * (ahead + (side - ahead) * (dx * dx / square));
            let run = 0.5 * (q + (q * q + SOFT_REACH_M * SOFT_REACH_M).sqrt());
            let needed = self.mover.reaction + (run * (stride.quadratic * run + stride.linear)).sqrt();
            let s = (time[i] - needed - HALF_QUALITY_S) / QUALITY_WIDTH_S;
            let gain = value[i] * (0.5 + 0.5 * s / (1.0 + s * s).sqrt());
            best[i % 4] = if gain > best[i % 4] { gain } else { best[i % 4] };
        }
        best.into_iter().fold(0.0, f64::max)
    }

    /// The place of least exposure.
    ///
    /// A grid of cells is judged at their middles, and the lowest `KEPT` of them are quartered again and again, until
    /// they are as small as wanted. So many are kept that no valley is lost only because its floor is narrow.
    #[must_use]
    pub fn solve(&self) -> OracleAnswer {
        let size = self.stand.max - self.stand.min;
        let counts = (size / self.fineness.grid_m).ceil().max(DVec2::ONE);
        let mut cell = size / counts;
        let (columns, rows) = (counts.x as usize, counts.y as usize);
        let middle = |i: usize, j: usize| self.stand.min + cell * DVec2::new(i as f64 + 0.5, j as f64 + 0.5);
        let judged = |place: DVec2| Place { place, exposure: self.judge(place) };
        let mut cells: Vec<Place> = (0..columns * rows).map(|n| judged(middle(n % columns, n / columns))).collect();
        let mut best = lowest(&cells);
        while cell.max_element() > self.fineness.spot_m {
            cells.sort_by(|a, b| a.exposure.total_cmp(&b.exposure));
            cells.truncate(KEPT);
            let quarters = [(-1.0, -1.0), (1.0, -1.0), (-1.0, 1.0), (1.0, 1.0)].map(|(x, y)| DVec2::new(x, y));
            cells = cells.iter().flat_map(|c| quarters.map(|q| judged(c.place + 0.25 * cell * q))).collect();
            cell *= 0.5;
            let found = lowest(&cells);
            if found.exposure < best.exposure {
                best = found;
            }
        }
        // Spots may lie on the border of where one may stand.
        let inset = best.place.clamp(self.stand.min + cell, self.stand.max - cell);
        if inset != best.place {
            let pushed = best.place + (best.place - inset).signum() * 0.5 * cell;
            let pushed = judged(pushed.clamp(self.stand.min, self.stand.max));
            if pushed.exposure < best.exposure {
                best = pushed;
            }
        }
        best.place = self.end.turn2(best.place);
        OracleAnswer { spot: best, replies: self.replies.len() }
    }
}

/// Cells that are quartered at every size.
const KEPT: usize = 48;

fn lowest(cells: &[Place]) -> Place {
    let by_exposure = |a: &&Place, b: &&Place| a.exposure.total_cmp(&b.exposure);
    cells.iter().min_by(by_exposure).copied().unwrap_or(Place { place: DVec2::ZERO, exposure: 1.0 })
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
        let skill = scatter::skill_of(striker.player, stroke, striker.wing);
        let straight = scatter::spread(&skill, &delivery(striker, speed, topspin, stroke));
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
        let landed = land(striker.physics, start, LAND_STEP)?;
        Some((landed.state.position.y + net_range, landed.net.map_or(0.0, |n| n.point.z)))
    }

    fn flight(&self, striker: &Striker<'_>, net_range: f64, elevation: f64) -> Option<(f64, f64)> {
        self.flight_at(striker, net_range, elevation, 1.0)
    }

    /// The elevation of this branch that lands `distance` away, to a hundredth of a millimetre, by false position
    /// (Illinois variant) within the interval that holds it.
    fn elevation(&self, striker: &Striker<'_>, distance: f64) -> Option<f64> {
        let after = self.branch.iter().position(|b| b.1 > distance)?;
        if after == 0 {
            return None;
        }
        let miss = |(e, r): (f64, f64)| (e, r - distance);
        let (mut short, mut long) = (miss(self.branch[after - 1]), miss(self.branch[after]));
        let mut side = 0;
        for _ in 0..60 {
            let e = (short.0 * long.1 - long.0 * short.1) / (long.1 - short.1);
            let m = self.flight(striker, 0.0, e)?.0 - distance;
            if m.abs() < 1e-5 {
                return Some(e);
            }
            if m > 0.0 {
                long = (e, m);
                short.1 *= if side == 1 { 0.5 } else { 1.0 };
                side = 1;
            } else {
                short = (e, m);
                long.1 *= if side == -1 { 0.5 } else { 1.0 };
                side = -1;
            }
        }
        Some(0.5 * (short.0 + long.0))
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
        scatter::chance(&flight, &aimed.room, &self.straight.turned(aimed.turn, striker.wing).lofted(elevation)).good
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        exposure::quality,
        frame::End,
        player::{BackhandGrip, Hand},
        presets::Level,
    };

    #[test]
    fn the_gain_is_value_times_quality_of_the_time_to_spare() {
        let player = Level::Club.player(Hand::Left, BackhandGrip::TwoHanded);
        let mover = Mover::new(&player, End::Near);
        for n in 0..200 {
            let f = f64::from(n);
            let point = DVec3::new(4.0 * (0.7 * f).sin(), -9.0 + 8.0 * (1.3 * f).cos(), 1.2 + (2.1 * f).sin());
            let (time, place) = (0.9 + 0.5 * (0.9 * f).sin(), DVec2::new((1.7 * f).cos(), -11.0));
            let points = Meetings {
                x: vec![point.x],
                y: vec![point.y],
                time: vec![time],
                share: vec![reach_share(point.z, mover.overhead)],
                value: vec![0.6],
            };
            let stand = Stand { min: DVec2::ZERO, max: DVec2::ZERO };
            let fineness = Fineness::default();
            let oracle = Oracle { fineness, replies: Vec::new(), points, mover, stand, end: End::Near };
            let gain = oracle.gain(&Reply { chance: 1.0, first: 0, end: 1 }, place, 1.0);
            let needed = mover.time_needed(place, point).expect("below the highest reach");
            assert!((gain - 0.6 * quality(time - needed)).abs() < 1e-6);
        }
    }
}
