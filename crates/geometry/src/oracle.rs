//! The look-ahead computed slowly and plainly, to hold the fast one against.
//!
//! What comes after the next contact is taken from the solved table, where and how the opponent meets the ball from the
//! answer, and the figures of [`Behaviour`] and of the players, which say what is computed, from where they are. All else
//! is worked out again in `f64`: every reply is aimed and flown exactly in three dimensions, landing places lie densely, the
//! worth is averaged over the Gaussian of landings place by place, the times to reach and to a stance are written from
//! what they mean, and no reply is left out.

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
    shot::situation::{ReadyArea, Situation},
    solver::{FLIGHT, Loaded, Near, SolveError, Solver, answer::Place, own},
    worth::{Behaviour, Duel, Kind, Sample},
};

/// How finely the reference computes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fineness {
    /// Landing places across the court and along it.
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
struct Point {
    at: DVec2,
    time: f64,
    /// Reach left at the height, m on the forehand, the backhand and ahead.
    reach: [f64; 3],
    rise: f64,
    air: bool,
    /// Worth to the hitter by time level and wing.
    worth: [f32; 8],
}

/// A reply to one landing place.
#[derive(Debug, Clone)]
struct Reply {
    family: usize,
    landing: DVec2,
    prior: f64,
    points: Vec<Point>,
    /// For each stance as read in time, then for each as it is: chance in and spread of the landing in depth and sideways.
    chances: [Vec<(f64, (f64, f64))>; 2],
}

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

/// The hitter's movement, written from the model page.
#[derive(Debug, Clone, Copy)]
struct Feet {
    quadratic: f64,
    linear: f64,
    backward: f64,
    forehand: f64,
}

/// The choices below this share of the ease of the best are struck too seldom to be worth flying.
const HOPELESS: f64 = 0.05;
/// How hurried the opponent will be is read too late below this time to spare, s (`docs/model.md`).
const READ_S: f64 = 0.3;
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
            // The figure of the level counts for a run-up of its own; the behaviour for all of them.
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

    /// Counts the opponent as they are, however hurried, with the hitter at a place, world frame: that of the recovery run.
    /// Places are told apart by the opponent as read in time.
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

    /// The same in the frame of the near hitter.
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

    /// The opponent's worth over all stances with the hitter at a place (own frame), as read in time (0) or as it is (1).
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

    /// What the hitter makes of a reply, averaged over where it may land around its aim, inside the lines.
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

    /// What the hitter makes of a reply from a place: the best point to meet it.
    fn made(&self, reply: &Reply, place: DVec2) -> f64 {
        reply.points.iter().map(|p| self.meeting(p, place)).fold(0.0, f64::max)
    }

    fn meeting(&self, p: &Point, place: DVec2) -> f64 {
        let b = &self.behaviour;
        let way = p.at - place;
        let backwards = |y: f64| if y > 0.0 { y * self.legs.backward } else { y };
        // The way to the ball, a metre backwards counted longer; what the arm covers comes off it.
        let far = DVec2::new(way.x, backwards(way.y)).length().max(1e-3);
        let [forehand, backhand, ahead] = p.reach;
        let arm = if way.x * self.legs.forehand > 0.0 { forehand } else { backhand };
        let reach = ahead + (arm - ahead) * (way.x / far).powi(2);
        let (run, brake) = self.run(far - reach);
        // A step and the arm at full stretch.
        let lunge = f64::from(if p.air { b.lunge_air } else { b.lunge }) * (far / (reach + 0.05)).min(1.0);
        let needed = run.hypot(lunge);
        // Whoever comes forward for a ball in the air must stop first.
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

    /// Time of a run from rest over what is left of a way, and the braking at its end, s. The corner where nothing is left
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

/// Worth at a time to spare, straight between the levels of the table.
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

/// Who replies, from where, and how.
struct Striker<'a> {
    near: &'a Near<'a>,
    duel: &'a Duel<'a>,
    /// x, depth and height in the striker's own frame.
    contact: [f64; 3],
    kind: Kind,
    stances: &'a [(Wing, f64, f64)],
    slope: f64,
    fineness: Fineness,
}

impl Striker<'_> {
    fn court(&self) -> &Court {
        &self.near.situation.conditions.court
    }

    fn replies(&self) -> Vec<Reply> {
        let court = self.court();
        let (half, length) = (court.half_width(), court.half_length());
        let scale = length / 11.885;
        let (columns, rows) = self.fineness.landings;
        // The landing places that a stroke is played to end where its rows of the coarse lattice do: drops short, lobs deep.
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

    /// A launch in the striker's frame at `+y`, and how it lands.
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
        // The first value from below that carries as far, by steps and then by halving.
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
        // A jump of the range lands nowhere near.
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

    /// How the flight answers to its launch, from neighbouring flights.
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

    /// Where the hitter may meet the ball, with what that is worth by the table.
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

    /// What meeting the ball there is worth to the hitter: the table, with the striker recovered by then.
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

    /// Where the striker's run towards a place has led after a time, own frame.
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
