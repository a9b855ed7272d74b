//! What a striker may choose from a contact: strokes, landing places, and the paths they take.

use super::{
    behaviour::Behaviour,
    flights::{AFTER, Cut, Family, Ground, Plane},
    lattice::Axis,
};
use crate::{
    ball::flight::BallPhysics,
    court::Court,
    player::{
        Player,
        scatter::{self, Delivery, Room, Sensitivity},
    },
    shot::situation::Stroke,
    units::RPM,
};

/// Samples of a path before the bounce, between net and landing.
const BEFORE: usize = 9;
/// Balls in the air are met at most this far from the net on a full court, m.
const AIR_DEPTH: f32 = 9.5;
/// Full court: half length and half width, m.
const FULL: (f64, f64) = (11.885, 4.115);
/// Landing lattice on a full court, m.
const ROWS: [f32; 7] = [2.2, 4.2, 6.2, 7.8, 9.2, 10.4, 11.4];
const COLUMNS: [f32; 7] = [-3.85, -3.2, -2.1, 0.0, 2.1, 3.2, 3.85];
const SERVE_ROWS: [f32; 4] = [4.3, 5.2, 5.8, 6.2];
const SERVE_COLUMNS: [f32; 7] = [0.25, 0.7, 1.3, 2.05, 2.8, 3.4, 3.85];
/// A path is dropped when it goes in less often than this at the best.
const LEAST_CHANCE: f32 = 0.2;

/// Landing places with the areas they stand for.
#[derive(Debug, Clone)]
pub(crate) struct Landings {
    pub x: Axis,
    pub y: Axis,
    width: Vec<f32>,
    length: Vec<f32>,
}

impl Landings {
    fn rally(court: &Court) -> Self {
        let (sx, sy) = scales(court);
        let x = Axis::new(&COLUMNS.map(|c| c * sx));
        let y = Axis::new(&ROWS.map(|r| r * sy));
        let half = court.half_width() as f32;
        let (width, length) = (x.widths(-half, half), y.widths(0.8 * sy, court.half_length() as f32));
        Self { x, y, width, length }
    }

    /// `side` is the sign of `x` in the box.
    fn serve(court: &Court, side: f32) -> Self {
        let (sx, sy) = scales(court);
        let mut xs = SERVE_COLUMNS.map(|c| c * sx * side);
        if side < 0.0 {
            xs.reverse();
        }
        let line = court.service_depth() as f32;
        let x = Axis::new(&xs);
        let y = Axis::new(&SERVE_ROWS.map(|r| (r * sy).min(line - 0.1)));
        let half = court.half_width() as f32;
        let (low, high) = if side < 0.0 { (-half, 0.0) } else { (0.0, half) };
        let (width, length) = (x.widths(low, high), y.widths(3.6 * sy, line));
        Self { x, y, width, length }
    }

    /// The share of the cell of a landing place.
    pub fn area(&self, row: usize, column: usize) -> f32 {
        self.width[column] * self.length[row]
    }
}

/// Sideways and depth scale of a court against the full one.
pub(crate) fn scales(court: &Court) -> (f32, f32) {
    ((court.half_width() / FULL.1) as f32, (court.half_length() / FULL.0) as f32)
}

/// Which strokes a contact allows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(crate) enum Kind {
    Ground,
    Volley,
    Overhead,
    FirstServe,
    SecondServe,
}

/// All strokes of a player with this ball.
#[derive(Debug, Clone)]
pub(crate) struct Repertoire {
    pub player: Player,
    pub court: Court,
    pub plane: Plane,
    pub radius: f64,
    kinds: [Vec<Family>; 5],
    rally: Landings,
    serve: [Landings; 2],
}

impl Repertoire {
    pub fn new(court: &Court, physics: &BallPhysics, player: &Player, behaviour: &Behaviour) -> Self {
        let plane = Plane::new(physics);
        let (f, b) = (player.forehand, player.backhand);
        let speed = 0.5 * (f.speed + b.speed);
        let spin = 0.5 * (f.topspin + b.topspin);
        let all = 0..ROWS.len();
        let drive = |share: f64, prior: f32| {
            Family::driven(&plane, (Stroke::Topspin, prior), (speed * share, spin), all.clone(), (-8, 34))
        };
        let flat = |share: f64, prior: f32| {
            Family::driven(&plane, (Stroke::Flat, prior), (speed * share, 0.2 * spin), all.clone(), (-12, 26))
        };
        let under = -(1200.0 * RPM).min(1.2 * spin + 300.0 * RPM);
        let s = behaviour.prior_slice;
        let slice = |share: f64, prior: f32| {
            Family::driven(&plane, (Stroke::Slice, prior * s), (speed * share, under), all.clone(), (-8, 30))
        };
        let drop = |v: f64| {
            let prior = behaviour.prior_drop;
            Family::driven(&plane, (Stroke::Drop, 0.5 * prior), (v, under), 0..2, (0, 48))
        };
        // Lobs are as fast as it takes to come down on the target from a launch of 50 degrees.
        let lob = |degrees: f64, topspin: f64, prior: f32| {
            let prior = prior * behaviour.prior_lob;
            Family::lofted(&plane, prior, (degrees.to_radians(), topspin), (8.0, 25.0), 3..7)
        };
        // Touch shots are as fast as the court is long.
        let small = (court.half_length() / FULL.0).sqrt();
        let ground = vec![
            drive(0.7, 0.1),
            drive(0.85, 0.25),
            drive(1.0, 0.3),
            drive(1.13, 0.25),
            drive(1.27, 0.1),
            flat(1.0, 0.25),
            flat(1.2, 0.15),
            slice(0.5, 0.3),
            slice(0.65, 0.4),
            slice(0.8, 0.3),
            lob(50.0, 40.0, 0.5),
            lob(46.0, 0.4 * spin, 0.5),
            drop(10.5 * small),
            drop(13.0 * small),
        ];
        let volley = |share: f64, prior: f32| {
            Family::driven(
                &plane,
                (Stroke::Volley, prior),
                (speed * share, -(500.0 * RPM).min(spin)),
                all.clone(),
                (-18, 34),
            )
        };
        let air = vec![volley(0.35, 0.2), volley(0.5, 0.3), volley(0.65, 0.3), volley(0.85, 0.2), lob(50.0, 0.0, 0.3)];
        let smash = |share: f64, prior: f32| {
            Family::driven(&plane, (Stroke::Overhead, prior), (speed * share, 0.0), all.clone(), (-32, 22))
        };
        let overhead = vec![smash(0.8, 0.25), smash(1.0, 0.35), smash(1.25, 0.4)];
        let serve = |speed: f64, topspin: f64, prior: f32, second: bool| {
            let mut family =
                Family::driven(&plane, (Stroke::Serve, prior), (speed, topspin), 0..SERVE_ROWS.len(), (-16, 24));
            family.second_serve = second;
            family
        };
        let v = player.serve;
        let first = [0.9, 1.0, 1.07].map(|k| serve(v.first_speed * k, v.topspin / 3.0, 0.33, false)).to_vec();
        let second = [0.88, 1.0, 1.12].map(|k| serve(v.second_speed * k, v.topspin, 0.33, true)).to_vec();
        Self {
            player: *player,
            court: *court,
            radius: physics.radius,
            kinds: [ground, air, overhead, first, second],
            rally: Landings::rally(court),
            serve: [Landings::serve(court, -1.0), Landings::serve(court, 1.0)],
            plane,
        }
    }

    pub fn families(&self, kind: Kind) -> &[Family] {
        &self.kinds[kind as usize]
    }

    pub fn landings(&self, kind: Kind, contact_x: f32) -> &Landings {
        match kind {
            Kind::FirstServe | Kind::SecondServe => &self.serve[usize::from(contact_x < 0.0)],
            _ => &self.rally,
        }
    }

    /// Which strokes a contact allows.
    pub fn kind(&self, height: f32, air: bool) -> Kind {
        if !air {
            Kind::Ground
        } else if f64::from(height) > 0.7 * self.player.reach.overhead {
            Kind::Overhead
        } else {
            Kind::Volley
        }
    }

    /// The flights of a kind cut for a contact height.
    pub fn cut(&self, kind: Kind, height: f32, ground: &Ground) -> Cuts {
        let cut = |f: &Family| {
            f.bundles.iter().map(|b| Cut::new(&self.plane, b, f.topspin, f64::from(height), ground)).collect()
        };
        Cuts { kind, height, families: self.families(kind).iter().map(cut).collect() }
    }
}

/// Flights of one kind cut for contacts of many heights, between which others are mixed.
#[derive(Debug, Clone)]
pub(crate) struct CutTable(Vec<Cuts>);

impl CutTable {
    const STEP: f32 = 0.1;

    pub fn new(strokes: &Repertoire, kind: Kind, ground: &Ground) -> Self {
        let highest = (strokes.player.reach.overhead + 0.3).max(2.0) as f32;
        let n = (highest / Self::STEP).ceil() as usize;
        Self((0..=n).map(|i| strokes.cut(kind, (i as f32 * Self::STEP).max(0.03), ground)).collect())
    }

    /// The flights for a contact height.
    pub fn at(&self, height: f32) -> Cuts {
        let x = (height / Self::STEP).clamp(0.0, self.0.len() as f32 - 1.001);
        let i = x as usize;
        let (a, b, u) = (&self.0[i], &self.0[i + 1], x - i as f32);
        let family = |(a, b): (&Vec<Cut>, &Vec<Cut>)| a.iter().zip(b).map(|(a, b)| a.mixed(b, u)).collect();
        Cuts { kind: a.kind, height, families: a.families.iter().zip(&b.families).map(family).collect() }
    }
}

/// Flights cut for one contact height.
#[derive(Debug, Clone)]
pub(crate) struct Cuts {
    pub kind: Kind,
    pub height: f32,
    pub families: Vec<Vec<Cut>>,
}

/// One choice: a stroke to a landing place.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Path {
    pub family: u16,
    pub row: u8,
    pub column: u8,
    pub prior: f32,
    /// Landing in the striker's frame.
    pub x: f32,
    pub y: f32,
    pub distance: f32,
    /// Direction, sideways metres per metre forward, and the unit vector.
    pub direction: [f32; 2],
    pub elevation: f32,
    pub speed: f32,
    pub land_time: f32,
    pub clearance: f32,
    pub net_up: f32,
    pub net_speed: f32,
    pub range_up: f32,
    pub range_speed: f32,
    pub samples: (u32, u32),
}

impl Path {
    /// Sideways metres per metre of depth as the responder sees the ball come.
    pub fn incoming(&self) -> f32 {
        -self.direction[0] / self.direction[1]
    }
}

/// A point where the responder may meet the ball, in the responder's frame.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Sample {
    pub x: f32,
    pub depth: f32,
    pub height: f32,
    pub time: f32,
    /// Time since the last bounce, s; negative in the air.
    pub since: f32,
    pub air: bool,
}

/// The choices from one contact.
#[derive(Debug, Clone, Default)]
pub(crate) struct Paths {
    pub paths: Vec<Path>,
    pub samples: Vec<Sample>,
}

impl Paths {
    /// Drops the samples of paths that were left out.
    pub fn pack(&mut self) {
        let mut kept = 0;
        for path in &mut self.paths {
            let (from, to) = (path.samples.0 as usize, path.samples.1 as usize);
            self.samples.copy_within(from..to, kept);
            path.samples = (kept as u32, (kept + to - from) as u32);
            kept += to - from;
        }
        self.samples.truncate(kept);
    }

    pub fn samples(&self, path: &Path) -> &[Sample] {
        &self.samples[path.samples.0 as usize..path.samples.1 as usize]
    }
}

/// Who must answer, as far as the path is concerned.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Limits {
    pub overhead: f32,
    pub half_width: f32,
    pub half_length: f32,
    pub after_step: f32,
    pub air_depth: f32,
}

impl Limits {
    pub fn new(court: &Court, responder: &Player, ground: &Ground) -> Self {
        Self {
            overhead: responder.reach.overhead as f32,
            half_width: court.site_half_width() as f32,
            half_length: court.site_half_length() as f32,
            after_step: ground.after_step as f32,
            air_depth: AIR_DEPTH * scales(court).1,
        }
    }
}

impl Repertoire {
    /// Lists the paths from a contact (striker's frame: x, depth).
    pub fn paths(&self, cuts: &Cuts, x: f32, depth: f32, limits: &Limits, out: &mut Paths) {
        out.paths.clear();
        out.samples.clear();
        let landings = self.landings(cuts.kind, x);
        for (n, family) in self.families(cuts.kind).iter().enumerate() {
            for row in family.rows.clone() {
                for column in 0..landings.x.len() {
                    let to = [landings.x.node(column), landings.y.node(row)];
                    if let Some(mut path) = self.path(cuts, n, (x, depth), to, limits, &mut out.samples) {
                        (path.row, path.column) = (row as u8, column as u8);
                        path.prior = family.prior * landings.area(row, column);
                        out.paths.push(path);
                    }
                }
            }
        }
    }

    /// One path, if the stroke can be played so.
    pub fn path(
        &self,
        cuts: &Cuts,
        n: usize,
        (x, depth): (f32, f32),
        to: [f32; 2],
        limits: &Limits,
        samples: &mut Vec<Sample>,
    ) -> Option<Path> {
        self.path_of(cuts, n, ((x, depth), to), limits, samples).filter(|p| p.clearance >= 0.0)
    }

    /// The same for a ball of which it is known that it got over the net.
    pub fn path_of(
        &self,
        cuts: &Cuts,
        n: usize,
        ((x, depth), to): ((f32, f32), [f32; 2]),
        limits: &Limits,
        samples: &mut Vec<Sample>,
    ) -> Option<Path> {
        let (dx, dy) = (to[0] - x, to[1] + depth);
        let distance = (dx * dx + dy * dy).sqrt();
        let direction = [dx / distance, dy / distance];
        let net_range = depth / direction[1];
        let net_x = x + direction[0] * net_range;
        if net_x.abs() > self.court.post_x() as f32 {
            return None;
        }
        let cut = &cuts.families[n];
        let first = cut.iter().position(|c| c.r > 0.0)?;
        let mut k = first;
        while k + 1 < cut.len() && cut[k + 1].r >= cut[k].r && cut[k + 1].r < distance {
            k += 1;
        }
        if k + 1 >= cut.len() || cut[k + 1].r < distance || cut[k].r > distance {
            return None;
        }
        let (a, b) = (&cut[k], &cut[k + 1]);
        let mix = (distance - a.r) / (b.r - a.r).max(1e-6);
        let lerp = |p: f32, q: f32| p + mix * (q - p);
        let family = &self.families(cuts.kind)[n];
        let (fa, fb) = (&family.bundles[k], &family.bundles[k + 1]);
        let (na, nb) = (fa.flight.at_range(net_range)?, fb.flight.at_range(net_range)?);
        let net_height = self.court.net_height(f64::from(net_x)) as f32;
        let clearance = cuts.height + lerp(na.1, nb.1) - self.radius as f32 - net_height;
        let net = fa.net_sensitivity(net_range, na.1);
        let start = samples.len() as u32;
        let net_time = lerp(na.0, nb.0);
        let land_time = lerp(a.time, b.time);
        let at = |r: f32| [-(x + direction[0] * r), direction[1] * r - depth];
        if !matches!(cuts.kind, Kind::FirstServe | Kind::SecondServe) {
            for i in 0..BEFORE {
                let u = (i as f32 + 0.7) / BEFORE as f32;
                let (pa, pb) =
                    (fa.flight.at_time(na.0 + u * (a.time - na.0)), fb.flight.at_time(nb.0 + u * (b.time - nb.0)));
                let place = at(lerp(pa.0, pb.0));
                let height = cuts.height + lerp(pa.1, pb.1);
                if place[1] > 0.4 && place[1] < limits.air_depth && height < limits.overhead {
                    let time = net_time + u * (land_time - net_time);
                    samples.push(Sample { x: place[0], depth: place[1], height, time, since: -1.0, air: true });
                }
            }
        }
        for i in 0..a.alive.min(b.alive).min(AFTER) {
            let place = at(distance + lerp(a.after_r[i], b.after_r[i]));
            let height = lerp(a.after_z[i], b.after_z[i]);
            let inside = place[0].abs() < limits.half_width && place[1] < limits.half_length && place[1] > 0.2;
            if inside && height < limits.overhead {
                let since = (i + 1) as f32 * limits.after_step;
                // After a second bounce the ball has long been read.
                let fresh = if i >= a.second { since - a.second as f32 * limits.after_step } else { since };
                samples.push(Sample {
                    x: place[0],
                    depth: place[1],
                    height,
                    time: land_time + since,
                    since: fresh,
                    air: false,
                });
            }
        }
        Some(Path {
            family: n as u16,
            row: 0,
            column: 0,
            prior: 0.0,
            x: to[0],
            y: to[1],
            distance,
            direction,
            elevation: lerp(fa.flight.elevation, fb.flight.elevation),
            speed: lerp(fa.flight.speed, fb.flight.speed),
            land_time,
            clearance,
            net_up: net.0,
            net_speed: net.1,
            range_up: lerp(a.range_up, b.range_up),
            range_speed: lerp(a.range_speed, b.range_speed),
            samples: (start, samples.len() as u32),
        })
    }

    /// How a path answers to errors of its launch.
    pub fn sensitivity(path: &Path) -> Sensitivity {
        Sensitivity {
            clearance: f64::from(path.clearance),
            net_up: f64::from(path.net_up),
            net_speed: f64::from(path.net_speed),
            range: f64::from(path.distance),
            range_up: f64::from(path.range_up),
            range_speed: f64::from(path.range_speed),
            along: f64::from(path.direction[1]),
            across: f64::from(path.direction[0].abs()),
        }
    }

    /// The room of a path's landing place.
    pub fn room(&self, kind: Kind, path: &Path) -> Room {
        let (x, y) = (f64::from(path.x), f64::from(path.y));
        match kind {
            Kind::FirstServe | Kind::SecondServe => Room::in_box(&self.court, self.court.service_depth(), x, y),
            _ => Room::on(&self.court, x, y),
        }
    }

    /// Chance to go in, mishits included, and the spread of the landing (depth, side), m.
    pub fn chance(&self, b: &Behaviour, kind: Kind, path: &Path, at: &Delivery) -> (f32, (f64, f64)) {
        let spread = scatter::spread(b, &self.player, at);
        let flight = Self::sensitivity(path);
        let chance = scatter::with_mishits(b, &flight, &self.room(kind, path), &spread).good;
        (chance as f32, scatter::landing_spread(&flight, &spread))
    }
}

/// Whether a path is worth keeping, by its chance to go in at ease.
pub(crate) fn worth_keeping(chance_at_ease: f32) -> bool {
    chance_at_ease >= LEAST_CHANCE
}
