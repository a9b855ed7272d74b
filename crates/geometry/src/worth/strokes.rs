//! A striker's options from a contact: strokes, landing places, and their paths.

use super::{
    behaviour::Behaviour,
    flights::{Cut, Family, Ground, Plane},
    lattice::{Axis, FULL, scales},
};
use crate::{ball::flight::BallPhysics, court::Court, player::Player, shot::stroke::Stroke, units::RPM};

/// Landing lattice on a full court, m.
const ROWS: [f32; 7] = [2.2, 4.2, 6.2, 7.8, 9.2, 10.4, 11.4];
const COLUMNS: [f32; 7] = [-3.85, -3.2, -2.1, 0.0, 2.1, 3.2, 3.85];
const SERVE_ROWS: [f32; 4] = [4.3, 5.2, 5.8, 6.2];
const SERVE_COLUMNS: [f32; 7] = [0.25, 0.7, 1.3, 2.05, 2.8, 3.4, 3.85];
/// Best chance in below which a path is dropped.
const LEAST_CHANCE: f32 = 0.2;

/// Landing places with their areas.
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

/// Kinds of contact, by the strokes they allow.
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
        // Lobs have the speed that lands on the target from a launch of 50 degrees.
        let lob = |degrees: f64, topspin: f64, prior: f32| {
            let prior = prior * behaviour.prior_lob;
            Family::lofted(&plane, prior, (degrees.to_radians(), topspin), (8.0, 25.0), 3..7)
        };
        // The speed of touch shots scales with the length of the court.
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

    /// The kind of a contact.
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

/// Flights of one kind cut for contacts of many heights; other heights are interpolated.
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

/// Whether a path is worth keeping, by its chance to go in at ease.
pub(crate) fn worth_keeping(chance_at_ease: f32) -> bool {
    chance_at_ease >= LEAST_CHANCE
}
