//! The opponent's possible replies, for the slow reference.

use glam::{DVec2, DVec3};

use crate::{
    ball::{
        bounce::fly_path,
        flight::{BallPhysics, BallState, LAND_STEP, Landed, land},
    },
    court::Court,
    player::{
        Wing,
        reach::reach_share,
        scatter::{Delivery, Room, Sensitivity, landing_spread, spread, with_mishits},
    },
    solver::{FLIGHT, Near},
    worth::{Duel, Kind, Sample},
};

/// Resolution of the reference.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fineness {
    /// Number of landing places across the court and along it.
    pub landings: (usize, usize),
    /// Time between the points at which a ball may be met, s.
    pub step: f64,
}

impl Default for Fineness {
    fn default() -> Self {
        Self { landings: (13, 15), step: 0.03 }
    }
}

/// A point where the hitter may meet a reply, in the hitter's own frame.
#[derive(Debug, Clone, Copy)]
pub(super) struct Point {
    pub(super) at: DVec2,
    pub(super) time: f64,
    /// Reach at this height, m on the forehand, the backhand and ahead.
    pub(super) reach: [f64; 3],
    pub(super) rise: f64,
    pub(super) air: bool,
    /// Worth to the hitter by time level and wing.
    pub(super) worth: [f32; 8],
}

/// A reply to one landing place.
#[derive(Debug, Clone)]
pub(super) struct Reply {
    pub(super) family: usize,
    pub(super) landing: DVec2,
    pub(super) prior: f64,
    pub(super) points: Vec<Point>,
    /// Chance in, and spread of the landing in depth and sideways: for each stance as read in time, then with its real
    /// pressure.
    pub(super) chances: [Vec<(f64, (f64, f64))>; 2],
}

/// The choices below this share of the ease of the best are struck too seldom to be worth flying.
const HOPELESS: f64 = 0.05;
/// Time to spare below which the opponent's pressure is read too late, s (`docs/model.md`).
const READ_S: f64 = 0.3;

/// The player who replies, with the contact and the stances.
pub(super) struct Striker<'a> {
    pub(super) near: &'a Near<'a>,
    pub(super) duel: &'a Duel<'a>,
    /// x, depth and height in the striker's own frame.
    pub(super) contact: [f64; 3],
    pub(super) kind: Kind,
    pub(super) stances: &'a [(Wing, f64, f64)],
    pub(super) slope: f64,
    pub(super) fineness: Fineness,
}

impl Striker<'_> {
    pub(super) fn court(&self) -> &Court {
        &self.near.situation.conditions.court
    }

    pub(super) fn replies(&self) -> Vec<Reply> {
        let court = self.court();
        let (half, length) = (court.half_width(), court.half_length());
        let scale = length / 11.885;
        let (columns, rows) = self.fineness.landings;
        // Landing places of a stroke end where its rows of the coarse lattice do: drops short, lobs deep.
        let edges = [0.8, 3.2, 5.2, 7.0, 8.5, 9.8, 10.9, 11.885].map(|e| e * scale);
        let mut all = Vec::new();
        for (family, f) in self.duel.strokes.families(self.kind).iter().enumerate() {
            let (low, high) = (edges[f.rows.start], edges[f.rows.end]);
            let rows = ((rows as f64 * (high - low) / (length - edges[0])).ceil() as usize).max(4);
            let (width, height) = (2.0 * half / columns as f64, (high - low) / rows as f64);
            for i in 0..columns {
                for j in 0..rows {
                    let landing = DVec2::new(-half + (i as f64 + 0.5) * width, low + (j as f64 + 0.5) * height);
                    let prior = f64::from(f.prior) * width * height;
                    all.extend(self.reply(family, landing, prior));
                }
            }
        }
        all
    }

    /// A launch in the striker's frame at `+y`, and its landing.
    fn fly(&self, way: DVec2, speed: f64, elevation: f64, topspin: f64) -> (BallState, Option<Landed>) {
        let physics = &self.near.physics;
        let from = DVec3::new(self.contact[0], -self.contact[1], self.contact[2]);
        let start = BallState::launch(from, speed, elevation, way.x.atan2(way.y), topspin, 0.0);
        (start, land(physics, start, LAND_STEP))
    }

    fn reply(&self, family: usize, landing: DVec2, prior: f64) -> Option<Reply> {
        let f = &self.duel.strokes.families(self.kind)[family];
        let from = DVec2::new(self.contact[0], -self.contact[1]);
        let way = landing - from;
        let wanted = way.length();
        let range = |speed: f64, elevation: f64| {
            self.fly(way, speed, elevation, f.topspin).1.map(|l| (l.state.position.truncate() - from).length())
        };
        let (first, last) = (&f.bundles.first()?.flight, &f.bundles.last()?.flight);
        let lofted = (first.elevation - last.elevation).abs() < 1e-6;
        let ends = if lofted { (first.speed, last.speed) } else { (first.elevation, last.elevation) };
        let of = |u: f64| if lofted { (u, f64::from(first.elevation)) } else { (f64::from(first.speed), u) };
        // The lowest value that carries as far, by steps and then by bisection.
        let (mut low, end) = (f64::from(ends.0), f64::from(ends.1));
        let step = (end - low) / 24.0;
        let mut high = None;
        for i in 1..=24 {
            let u = f64::from(ends.0) + step * f64::from(i);
            let (speed, elevation) = of(u);
            match range(speed, elevation) {
                Some(r) if r >= wanted => {
                    high = Some(u);
                    break;
                }
                _ => low = u,
            }
        }
        let mut high = high?;
        for _ in 0..22 {
            let middle = 0.5 * (low + high);
            let (speed, elevation) = of(middle);
            if range(speed, elevation).is_some_and(|r| r >= wanted) { high = middle } else { low = middle }
        }
        let (speed, elevation) = of(high);
        let (start, landed) = self.fly(way, speed, elevation, f.topspin);
        let landed = landed?;
        // Where the range jumps, the ball lands nowhere near.
        if (landed.state.position.truncate() - landing).length() > 0.05 {
            return None;
        }
        let net = landed.net?.point;
        let court = self.court();
        let physics = &self.near.physics;
        let clearance = net.z - physics.radius - court.net_height(net.x);
        if clearance < 0.0 || net.x.abs() > court.post_x() {
            return None;
        }
        let sensitivity = self.sensitivity(way, (speed, elevation, f.topspin), clearance);
        let room = Room::on(court, landing.x, landing.y);
        let chances = [0, 1].map(|as_is| {
            let of = |s: &(Wing, f64, f64)| {
                let spare = if as_is == 0 { s.1.max(READ_S) } else { s.1 };
                let delivery = Delivery {
                    stroke: f.stroke,
                    wing: s.0,
                    speed,
                    topspin: f.topspin,
                    pressure: self.duel.behaviour.pressure(spare),
                    turn: (way.x.atan2(way.y) + self.slope.atan()).abs(),
                    height: self.contact[2],
                    depth: self.contact[1],
                    elevation,
                };
                let spread = spread(self.duel.behaviour, &self.near.opponent, &delivery);
                let chance = with_mishits(self.duel.behaviour, &sensitivity, &room, &spread).good;
                (chance, landing_spread(&sensitivity, &spread))
            };
            self.stances.iter().map(of).collect::<Vec<_>>()
        });
        if chances.iter().flatten().all(|c| c.0 < HOPELESS) {
            return None;
        }
        let points = self.points(physics, start, way);
        Some(Reply { family, landing, prior, points, chances })
    }

    /// Sensitivity of the flight to its launch, from neighbouring flights.
    fn sensitivity(&self, way: DVec2, (speed, elevation, topspin): (f64, f64, f64), clearance: f64) -> Sensitivity {
        const UP: f64 = 0.002;
        const FAST: f64 = 0.005;
        let from = DVec2::new(self.contact[0], -self.contact[1]);
        let probe = |speed: f64, elevation: f64| {
            let landed = self.fly(way, speed, elevation, topspin).1;
            landed.map_or((0.0, 0.0), |l| {
                ((l.state.position.truncate() - from).length(), l.net.map_or(0.0, |n| n.point.z))
            })
        };
        let pair = |a: (f64, f64), b: (f64, f64), by: f64| ((a.0 - b.0) / by, (a.1 - b.1) / by);
        let up = pair(probe(speed, elevation + UP), probe(speed, elevation - UP), 2.0 * UP);
        let fast = pair(probe(speed * (1.0 + FAST), elevation), probe(speed * (1.0 - FAST), elevation), 2.0 * FAST);
        let range = way.length();
        Sensitivity {
            clearance,
            net_up: up.1,
            net_speed: fast.1,
            range,
            range_up: up.0,
            range_speed: fast.0,
            along: way.y / range,
            across: way.x.abs() / range,
        }
    }

    /// Points where the hitter may meet the ball, with their worth from the table.
    fn points(&self, physics: &BallPhysics, start: BallState, way: DVec2) -> Vec<Point> {
        let c = &self.near.situation.conditions;
        let hitter = &self.near.hitter;
        let path = fly_path(physics, &c.surface, &c.ball, start, hitter.bounces, FLIGHT);
        let court = self.court();
        let b = self.duel.behaviour;
        let overhead = hitter.reach.overhead;
        let mut all = Vec::new();
        let steps = (path.end_time() / self.fineness.step) as usize;
        for i in 1..=steps {
            let time = i as f64 * self.fineness.step;
            let at = path.position(time);
            let bounces = path.bounces_by(time);
            let air = bounces == 0;
            // The hitter's own frame: the striker's left is the hitter's right.
            let place = DVec2::new(-at.x, at.y);
            let near_enough = !air || place.y < f64::from(self.duel.limits.air_depth);
            let on_site = place.x.abs() < court.site_half_width() && place.y < court.site_half_length();
            if !on_site || place.y < 0.3 || at.z > overhead || !near_enough {
                continue;
            }
            let since = if air { f64::INFINITY } else { time - path.bounces[bounces - 1].0 };
            let early = (1.0 - since / f64::from(b.rise_until)).max(0.0);
            let share = reach_share(at.z, overhead);
            let r = &hitter.reach;
            let sample = Sample {
                x: place.x as f32,
                depth: place.y as f32,
                height: at.z as f32,
                time: time as f32,
                since: if air { -1.0 } else { since as f32 },
                air,
            };
            all.push(Point {
                at: place,
                time: time - hitter.movement.reaction_s,
                reach: [r.forehand, r.backhand, r.ahead].map(|r| r * share),
                rise: if air { 0.0 } else { f64::from(b.rise_cost) * early * early },
                air,
                worth: self.later(&sample, -way.x / way.y),
            });
        }
        all
    }

    /// Worth to the hitter of meeting the ball there: the table, with the striker recovered by then.
    fn later(&self, s: &Sample, slope: f64) -> [f32; 8] {
        let lattice = self.duel.next_lattice;
        let corners = lattice.corners([s.x, s.depth, s.height], s.air, slope as f32);
        let t = self.duel.next.target(&corners).map(f64::from);
        let worth = |to: DVec2| {
            let p = self.recovered(to, f64::from(s.time));
            self.duel.next.worth(&corners, &lattice.around([p.x as f32, p.y as f32]))
        };
        let may_come_in = self.duel.may_come_in(self.contact[1] as f32);
        let mut out = [0.0; 8];
        for (half, goals) in [(4..8, [0, 2]), (0..4, [4, 6])] {
            let of = |k: usize| worth(DVec2::new(t[k], t[k + 1]));
            let mut best = of(goals[0]);
            if may_come_in {
                let net = of(goals[1]);
                let sum = |w: &[f32; 8]| w[half.clone()].iter().sum::<f32>();
                if sum(&net) < sum(&best) {
                    best = net;
                }
            }
            out[half.clone()].copy_from_slice(&best[half]);
        }
        out
    }

    /// Where the striker's run towards a place has got to after a time, own frame.
    fn recovered(&self, to: DVec2, time: f64) -> DVec2 {
        let b = self.duel.behaviour;
        let m = &self.near.opponent.movement;
        let from = DVec2::new(self.contact[0], self.contact[1] + f64::from(b.stance_ahead));
        let left = time - m.follow_through_s - f64::from(b.ready);
        let range = f64::from(b.recovery) * m.stride().distance(left);
        let way = to - from;
        let factor = m.backward_factor.max(1.0) * f64::from(b.backward) / 1.25;
        let far = DVec2::new(way.x, if way.y > 0.0 { way.y * factor } else { way.y }).length();
        if far <= range { to } else { from + way * (range / far) }
    }
}
