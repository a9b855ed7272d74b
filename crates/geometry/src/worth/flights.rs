//! Planar flights of one player's strokes, computed once and shared by every contact and direction.
//!
//! A ball without sidespin flies in a plane; its flight depends on speed, spin and elevation only. The contact height
//! determines where the flight meets the ground, and the bounce follows from there.

use glam::DVec3;

use crate::{
    ball::{
        Ball,
        bounce::bounce,
        flight::{BallPhysics, BallState, FlightLaw},
    },
    court::surface::Surface,
    shot::stroke::Stroke,
    units::GRAVITY,
};

/// Time between the samples of a flight, s.
pub(crate) const STEP: f64 = 0.02;
/// Distance below its start to which a flight is followed, m.
const DEPTH: f64 = 3.2;
/// Longest flight followed, s.
const LONGEST: f64 = 4.2;
/// Samples after the bounce.
pub(crate) const AFTER: usize = 16;
/// Nudges of the launch for the sensitivities: elevation, rad, and speed, share.
const NUDGE_UP: f64 = 0.01;
const NUDGE_SPEED: f64 = 0.02;

/// Drag and lift coefficients over the spin parameter, from a table.
#[derive(Debug, Clone)]
struct Coefficients {
    drag: Vec<f64>,
    lift: Vec<f64>,
}

impl Coefficients {
    const PER_UNIT: f64 = 256.0;
    const MOST: f64 = 2.0;

    fn new(law: FlightLaw) -> Self {
        let n = (Self::PER_UNIT * Self::MOST) as usize + 1;
        let at = |i: usize| law.coefficients(i as f64 / Self::PER_UNIT);
        Self { drag: (0..=n).map(|i| at(i).drag).collect(), lift: (0..=n).map(|i| at(i).lift_per_spin).collect() }
    }

    #[inline]
    fn at(&self, s: f64) -> (f64, f64) {
        let x = s.min(Self::MOST) * Self::PER_UNIT;
        let i = x as usize;
        let u = x - i as f64;
        (self.drag[i] + u * (self.drag[i + 1] - self.drag[i]), self.lift[i] + u * (self.lift[i + 1] - self.lift[i]))
    }
}

/// Forces on a ball in a plane.
#[derive(Debug, Clone)]
pub(crate) struct Plane {
    k: f64,
    radius: f64,
    table: Coefficients,
}

#[derive(Debug, Clone, Copy)]
struct State {
    r: f64,
    z: f64,
    vr: f64,
    vz: f64,
}

impl Plane {
    pub fn new(physics: &BallPhysics) -> Self {
        Self { k: physics.k(), radius: physics.radius, table: Coefficients::new(physics.law) }
    }

    #[inline]
    fn force(&self, vr: f64, vz: f64, spin: f64) -> (f64, f64) {
        let v = (vr * vr + vz * vz).sqrt().max(1e-6);
        let (drag, lift) = self.table.at(self.radius * spin.abs() / v);
        let l = self.k * self.radius * spin * lift;
        let d = self.k * drag * v;
        (-d * vr + l * vz, -d * vz - l * vr - GRAVITY)
    }

    /// Classical Runge-Kutta step.
    #[inline]
    fn step(&self, s: State, spin: f64, h: f64) -> State {
        let (a1, b1) = self.force(s.vr, s.vz, spin);
        let (vr2, vz2) = (s.vr + 0.5 * h * a1, s.vz + 0.5 * h * b1);
        let (a2, b2) = self.force(vr2, vz2, spin);
        let (vr3, vz3) = (s.vr + 0.5 * h * a2, s.vz + 0.5 * h * b2);
        let (a3, b3) = self.force(vr3, vz3, spin);
        let (vr4, vz4) = (s.vr + h * a3, s.vz + h * b3);
        let (a4, b4) = self.force(vr4, vz4, spin);
        let w = h / 6.0;
        State {
            r: s.r + w * (s.vr + 2.0 * (vr2 + vr3) + vr4),
            z: s.z + w * (s.vz + 2.0 * (vz2 + vz3) + vz4),
            vr: s.vr + w * (a1 + 2.0 * (a2 + a3) + a4),
            vz: s.vz + w * (b1 + 2.0 * (b2 + b3) + b4),
        }
    }
}

/// One flight from height 0, sampled every [`STEP`].
#[derive(Debug, Clone, Default)]
pub(crate) struct Flight {
    pub elevation: f32,
    pub speed: f32,
    pub r: Vec<f32>,
    pub z: Vec<f32>,
    vr: Vec<f32>,
    vz: Vec<f32>,
}

impl Flight {
    fn fly(plane: &Plane, speed: f64, elevation: f64, spin: f64) -> Self {
        let (sin, cos) = elevation.sin_cos();
        let mut s = State { r: 0.0, z: 0.0, vr: speed * cos, vz: speed * sin };
        let mut flight = Self { elevation: elevation as f32, speed: speed as f32, ..Self::default() };
        let mut t = 0.0;
        loop {
            flight.r.push(s.r as f32);
            flight.z.push(s.z as f32);
            flight.vr.push(s.vr as f32);
            flight.vz.push(s.vz as f32);
            if s.z < -DEPTH || t > LONGEST || s.r > 40.0 {
                return flight;
            }
            s = plane.step(s, spin, STEP);
            t += STEP;
        }
    }

    /// Index and fraction where the ball falls through a height, `None` if it never does.
    fn falls_through(&self, z: f32) -> Option<(usize, f32)> {
        let n = self.z.len();
        if n < 2 || self.z[n - 1] > z {
            return None;
        }
        // Heights rise, then fall: bisect on the falling part.
        let mut low = 0;
        let mut high = n - 1;
        while high - low > 1 {
            let m = usize::midpoint(low, high);
            if self.z[m] > z || self.vz[m] > 0.0 { low = m } else { high = m }
        }
        let (a, b) = (self.z[low], self.z[low + 1]);
        if a < z {
            return None;
        }
        Some((low, ((a - z) / (a - b)).clamp(0.0, 1.0)))
    }

    /// Time and height when the ball has covered a ground distance.
    #[inline]
    pub fn at_range(&self, r: f32) -> Option<(f32, f32)> {
        let n = self.r.len();
        if n < 2 || self.r[n - 1] <= r {
            return None;
        }
        // The ball only slows down, so it cannot be there before this sample.
        let mut i = ((r / (self.vr[0].max(0.1) * STEP as f32)) as usize).min(n - 2);
        while self.r[i + 1] < r {
            i += 1;
        }
        let u = (r - self.r[i]) / (self.r[i + 1] - self.r[i]);
        Some(((i as f32 + u) * STEP as f32, self.z[i] + u * (self.z[i + 1] - self.z[i])))
    }

    /// Ground distance and height at a time.
    #[inline]
    pub fn at_time(&self, t: f32) -> (f32, f32) {
        let x = t / STEP as f32;
        let i = (x as usize).min(self.r.len() - 2);
        let u = x - i as f32;
        (self.r[i] + u * (self.r[i + 1] - self.r[i]), self.z[i] + u * (self.z[i + 1] - self.z[i]))
    }
}

/// A flight with neighbouring flights for the sensitivities.
#[derive(Debug, Clone)]
pub(crate) struct Bundle {
    pub flight: Flight,
    higher: Flight,
    faster: Flight,
}

/// Strokes of one speed and spin over all elevations, or a lob of one elevation over all speeds.
#[derive(Debug, Clone)]
pub(crate) struct Family {
    pub stroke: Stroke,
    /// Topspin, rad/s.
    pub topspin: f64,
    /// Prior weight.
    pub prior: f32,
    /// Rows of the landing lattice that the stroke is played to.
    pub rows: std::ops::Range<usize>,
    pub second_serve: bool,
    pub bundles: Vec<Bundle>,
}

impl Family {
    pub fn driven(
        plane: &Plane,
        (stroke, prior): (Stroke, f32),
        (speed, topspin): (f64, f64),
        rows: std::ops::Range<usize>,
        degrees: (i32, i32),
    ) -> Self {
        let bundles = (degrees.0..=degrees.1).map(|e| Bundle::new(plane, speed, f64::from(e).to_radians(), topspin));
        Self { stroke, topspin, prior, rows, second_serve: false, bundles: bundles.collect() }
    }

    pub fn lofted(
        plane: &Plane,
        prior: f32,
        (elevation, topspin): (f64, f64),
        speeds: (f64, f64),
        rows: std::ops::Range<usize>,
    ) -> Self {
        let n = 22;
        let speed = |i: i32| speeds.0 + (speeds.1 - speeds.0) * f64::from(i) / f64::from(n);
        let bundles = (0..=n).map(|i| Bundle::new(plane, speed(i), elevation, topspin));
        Self { stroke: Stroke::Lob, topspin, prior, rows, second_serve: false, bundles: bundles.collect() }
    }
}

impl Bundle {
    fn new(plane: &Plane, speed: f64, elevation: f64, spin: f64) -> Self {
        Self {
            flight: Flight::fly(plane, speed, elevation, spin),
            higher: Flight::fly(plane, speed, elevation + NUDGE_UP, spin),
            faster: Flight::fly(plane, speed * (1.0 + NUDGE_SPEED), elevation, spin),
        }
    }

    /// Change of the height at a range with elevation (m/rad) and with the logarithm of speed (m).
    pub fn net_sensitivity(&self, r: f32, z: f32) -> (f32, f32) {
        let d = |f: &Flight, nudge: f64| f.at_range(r).map_or(r, |(_, h)| (h - z) / nudge as f32);
        (d(&self.higher, NUDGE_UP), d(&self.faster, NUDGE_SPEED))
    }
}

/// The landing of a flight, and the ball after the bounce.
#[derive(Debug, Clone, Default)]
pub(crate) struct Cut {
    /// Time and distance of the landing; negative distance where it does not land.
    pub time: f32,
    pub r: f32,
    pub range_up: f32,
    pub range_speed: f32,
    /// Distance from the landing and height of the centre after the bounce, every [`Ground::after_step`].
    pub after_r: [f32; AFTER],
    pub after_z: [f32; AFTER],
    /// Samples before the ball is dead.
    pub alive: usize,
    /// First bounce only: the sample from which the second bounce has happened (two-bounce players).
    pub second: usize,
}

/// The surface, and the number of bounces allowed.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Ground {
    pub surface: Surface,
    pub ball: Ball,
    pub radius: f64,
    pub bounces: u8,
    /// Time between the samples after the bounce, s.
    pub after_step: f64,
}

impl Ground {
    pub fn new(surface: Surface, ball: Ball, bounces: u8) -> Self {
        let after_step = if bounces > 1 { 0.11 } else { 0.075 };
        Self { surface, ball, radius: ball.radius, bounces, after_step }
    }
}

impl Cut {
    const NONE: f32 = -1.0;

    /// Cuts a bundle for a contact at `height`.
    pub fn new(plane: &Plane, bundle: &Bundle, topspin: f64, height: f64, ground: &Ground) -> Self {
        let z = (ground.radius - height) as f32;
        let land = |f: &Flight| {
            f.falls_through(z).map(|(i, u)| ((i as f32 + u) * STEP as f32, f.r[i] + u * (f.r[i + 1] - f.r[i]), i, u))
        };
        let f = &bundle.flight;
        let (Some((time, r, i, u)), Some(higher), Some(faster)) = (land(f), land(&bundle.higher), land(&bundle.faster))
        else {
            return Self { r: Self::NONE, ..Self::default() };
        };
        let mix = |a: &[f32]| f64::from(a[i] + u * (a[i + 1] - a[i]));
        let mut cut = Self {
            time,
            r,
            range_up: (higher.1 - r) / NUDGE_UP as f32,
            range_speed: (faster.1 - r) / NUDGE_SPEED as f32,
            ..Self::default()
        };
        cut.rebound(plane, (mix(&f.vr), mix(&f.vz)), topspin, ground);
        cut
    }

    /// Interpolates between two cuts, `u` of the way to the other.
    pub fn mixed(&self, other: &Self, u: f32) -> Self {
        if self.r < 0.0 || other.r < 0.0 {
            return Self { r: Self::NONE, ..Self::default() };
        }
        let mix = |a: f32, b: f32| a + u * (b - a);
        let mut cut = Self {
            time: mix(self.time, other.time),
            r: mix(self.r, other.r),
            range_up: mix(self.range_up, other.range_up),
            range_speed: mix(self.range_speed, other.range_speed),
            alive: self.alive.min(other.alive),
            second: self.second.min(other.second),
            ..Self::default()
        };
        for i in 0..cut.alive {
            cut.after_r[i] = mix(self.after_r[i], other.after_r[i]);
            cut.after_z[i] = mix(self.after_z[i], other.after_z[i]);
        }
        cut
    }

    fn rebound(&mut self, plane: &Plane, (vr, vz): (f64, f64), topspin: f64, ground: &Ground) {
        let mut before = BallState::launch(DVec3::new(0.0, 0.0, ground.radius), 1.0, 0.0, 0.0, topspin, 0.0);
        before.velocity = DVec3::new(0.0, vr, vz);
        let mut up = bounce(&before, &ground.surface, &ground.ball).state;
        let mut s = State { r: 0.0, z: ground.radius, vr: up.velocity.y, vz: up.velocity.z };
        let mut bounces = 1;
        self.second = AFTER;
        let step = ground.after_step;
        for i in 0..AFTER {
            let next = plane.step(s, -up.omega.x, step);
            if next.z < ground.radius && next.vz < 0.0 {
                if bounces >= ground.bounces {
                    return;
                }
                // Accurate enough for the second bounce of a slow ball: the straight line's intersection with the
                // ground.
                let u = ((s.z - ground.radius) / (s.z - next.z).max(1e-6)).clamp(0.0, 1.0);
                let at = plane.step(s, -up.omega.x, step * u);
                let mut state = up;
                state.velocity = DVec3::new(0.0, at.vr, at.vz);
                up = bounce(&state, &ground.surface, &ground.ball).state;
                bounces += 1;
                self.second = i;
                let from = State { r: at.r, z: ground.radius, vr: up.velocity.y, vz: up.velocity.z };
                s = plane.step(from, -up.omega.x, step * (1.0 - u));
            } else {
                s = next;
            }
            self.after_r[i] = s.r as f32;
            self.after_z[i] = s.z.max(ground.radius) as f32;
            self.alive = i + 1;
        }
    }
}
