//! The ball in the air: gravity, drag and the lift of its spin.
//!
//! With `k = density pi R^2 / (2 m)` and spin parameter `S = R w / |v|`, where `w` is the part of the spin across the
//! velocity, the acceleration is `-k CD |v| v + k CL |v|^2 n - g`, `n` being the direction of `spin x velocity`. The
//! spin stays constant in flight (it loses about 2 % in 6.4 m).
//!
//! Integration is by the classical Runge-Kutta method of fourth order with a fixed step. At [`DEFAULT_STEP`] it stays
//! within 0.001 mm of reference integrations over whole flights.

mod arc;

use glam::{DVec3, dvec3};

use arc::Cubic;
pub use arc::{Arc, fly};

use crate::{
    ball::{Ball, air::Air},
    units::GRAVITY,
};

/// Default step of the integration, s.
pub const DEFAULT_STEP: f64 = 0.02;
/// Step for aiming, s, where only the end of a flight counts: still within 0.1 mm, in well under half the time.
pub const LAND_STEP: f64 = 0.05;
/// Default time limit of a flight, s. The highest lobs stay up for less than half of it.
pub const MAX_TIME: f64 = 10.0;
/// Least step, s: smaller (or not positive) ones are raised to it, so that every flight ends.
const MIN_STEP: f64 = 1e-4;
/// Cap of the spin parameter, at which both coefficients have reached their limits to eight digits. Only a ball that
/// has almost stopped in the air exceeds it.
const MAX_SPIN_PARAMETER: f64 = 1e4;

/// Drag and lift coefficients at one spin parameter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Coefficients {
    /// Drag coefficient.
    pub drag: f64,
    /// Lift coefficient divided by the spin parameter, so that it is finite at 0.
    pub lift_per_spin: f64,
}

/// The law of drag and lift coefficients.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum FlightLaw {
    /// `CD = 0.55`, `CL = 1 / (2 + 1/S)` (Brody, Cross and Lindsey, The Physics and Technology of Tennis).
    Constant,
    /// `CD = 0.508 + (22.503 + 4.196 S^-2.5)^-0.4`, `CL = 1 / (2.022 + 0.981/S)` (Stepanek, American Journal of Physics
    /// 56, 1988, 138, as reproduced in Cross, Sports Engineering 3, 2000).
    #[default]
    SpinDependent,
}

impl FlightLaw {
    /// Both coefficients at spin parameter `s`, which is not negative; finite at 0.
    #[must_use]
    #[inline]
    pub fn coefficients(self, s: f64) -> Coefficients {
        match self {
            Self::Constant => Coefficients { drag: 0.55, lift_per_spin: 1.0 / (2.0 * s + 1.0) },
            // (22.503 + 4.196 s^-2.5)^-0.4 with s^2.5 taken out of the bracket, so that nothing divides by s.
            Self::SpinDependent => Coefficients {
                drag: 0.508 + s / (22.503 * (s * s * s.sqrt()) + 4.196).powf(0.4),
                lift_per_spin: 1.0 / (2.022 * s + 0.981),
            },
        }
    }

    /// Drag coefficient at spin parameter `s`, which is not negative; finite at 0.
    #[must_use]
    pub fn drag_coefficient(self, s: f64) -> f64 {
        self.coefficients(s).drag
    }

    /// Lift coefficient at spin parameter `s`, which is not negative; 0 at 0.
    #[must_use]
    pub fn lift_coefficient(self, s: f64) -> f64 {
        s * self.coefficients(s).lift_per_spin
    }
}

/// Properties of ball and air that the flight depends on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BallPhysics {
    /// Mass of the ball, kg, positive.
    pub mass: f64,
    /// Radius of the ball, m; its centre is this high when it touches the ground.
    pub radius: f64,
    /// Density of the air, kg/m³; 0 is a vacuum.
    pub density: f64,
    /// Law of drag and lift.
    pub law: FlightLaw,
}

impl BallPhysics {
    /// Puts ball, air and law together.
    #[must_use]
    pub fn new(ball: &Ball, air: &Air, law: FlightLaw) -> Self {
        Self { mass: ball.mass, radius: ball.radius, density: air.density(), law }
    }

    /// `density pi R^2 / (2 m)`, 1/m.
    #[must_use]
    #[inline]
    pub fn k(&self) -> f64 {
        self.density * std::f64::consts::PI * self.radius * self.radius / (2.0 * self.mass)
    }

    /// Acceleration of a ball with velocity `v`, m/s, and spin `omega`, rad/s. Only gravity acts on a ball at rest.
    #[must_use]
    #[inline]
    pub fn acceleration(&self, v: DVec3, omega: DVec3) -> DVec3 {
        Forces::new(self, omega, |s| self.law.coefficients(s)).acceleration(v)
    }
}

/// A ball in motion.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BallState {
    /// Centre of the ball.
    pub position: DVec3,
    /// Velocity, m/s.
    pub velocity: DVec3,
    /// Spin, rad/s.
    pub omega: DVec3,
}

/// The spin vector of a ball that leaves in a direction: topspin turns about the horizontal axis to the left of the
/// direction of travel, sidespin about `+z`. All rad or rad/s.
#[must_use]
pub fn omega_from(azimuth: f64, topspin: f64, sidespin: f64) -> DVec3 {
    let (sin, cos) = azimuth.sin_cos();
    dvec3(-cos * topspin, sin * topspin, sidespin)
}

impl BallState {
    /// A ball just struck. Speed in m/s, angles in rad, spins in rad/s with the signs of the crate's conventions.
    #[must_use]
    pub fn launch(contact: DVec3, speed: f64, elevation: f64, azimuth: f64, topspin: f64, sidespin: f64) -> Self {
        let (up, along) = elevation.sin_cos();
        let (right, forward) = azimuth.sin_cos();
        let velocity = dvec3(along * right, along * forward, up) * speed;
        Self { position: contact, velocity, omega: omega_from(azimuth, topspin, sidespin) }
    }

    /// Speed, m/s.
    #[must_use]
    pub fn speed(&self) -> f64 {
        self.velocity.length()
    }

    /// Angle of the velocity down from the horizontal, rad; negative while rising, 0 at rest.
    #[must_use]
    pub fn descent_angle(&self) -> f64 {
        (-self.velocity.z).atan2(self.velocity.truncate().length())
    }

    /// Kinetic and potential energy per mass, J/kg, without the energy of the spin, which is constant in flight.
    #[must_use]
    pub fn specific_energy(&self) -> f64 {
        0.5 * self.velocity.length_squared() + GRAVITY * self.position.z
    }

    /// The ball `dt` seconds later by one Runge-Kutta step; the ground is ignored.
    #[must_use]
    pub fn advanced(&self, physics: &BallPhysics, dt: f64) -> Self {
        Forces::new(physics, self.omega, |s| physics.law.coefficients(s)).step(self, dt)
    }
}

/// A moment of a flight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crossing {
    /// Time since the launch, s.
    pub time: f64,
    /// Centre of the ball.
    pub point: DVec3,
}

/// The forces on a ball, with everything constant during a flight.
struct Forces<F> {
    k: f64,
    radius: f64,
    omega: DVec3,
    law: F,
}

impl<F: Fn(f64) -> Coefficients> Forces<F> {
    #[inline]
    fn new(physics: &BallPhysics, omega: DVec3, law: F) -> Self {
        Self { k: physics.k(), radius: physics.radius, omega, law }
    }

    #[inline]
    fn acceleration(&self, v: DVec3) -> DVec3 {
        let gravity = dvec3(0.0, 0.0, -GRAVITY);
        let square = v.length_squared();
        if square <= 0.0 {
            return gravity;
        }
        let cross = self.omega.cross(v);
        let s = (self.radius * cross.length() / square).min(MAX_SPIN_PARAMETER);
        let at = (self.law)(s);
        // CL |v|^2 n = (CL / S) R (spin x v), which avoids the direction of a vector that may be zero.
        gravity + cross * (self.k * self.radius * at.lift_per_spin) - v * (self.k * at.drag * square.sqrt())
    }

    /// One step of the classical Runge-Kutta method.
    #[inline]
    fn step(&self, s: &BallState, h: f64) -> BallState {
        let f = |v: DVec3| self.acceleration(v);
        let v1 = s.velocity;
        let a1 = f(v1);
        let v2 = v1 + a1 * (0.5 * h);
        let a2 = f(v2);
        let v3 = v1 + a2 * (0.5 * h);
        let a3 = f(v3);
        let v4 = v1 + a3 * h;
        let a4 = f(v4);
        BallState {
            position: s.position + (v1 + 2.0 * (v2 + v3) + v4) * (h / 6.0),
            velocity: v1 + (a1 + 2.0 * (a2 + a3) + a4) * (h / 6.0),
            omega: s.omega,
        }
    }

    /// The state when the ball comes down to `ground` within the step `h` from `a` (above or on it) to `b` (below):
    /// `(time since a, state)`.
    #[cold]
    fn to_ground(&self, a: &BallState, b: &BallState, h: f64, ground: f64) -> (f64, BallState) {
        // Start below the ground and step back along the path: the height is concave, so Newton's method comes down
        // on the last crossing from one side, even when the step also begins on the ground. Two or three rounds do,
        // unless the hop is far shorter than the step: then each halves it.
        let (mut t, mut state) = (h, *b);
        for _ in 0..40 {
            let miss = state.position.z - ground;
            if miss.abs() < 1e-12 || state.velocity.z >= 0.0 {
                break;
            }
            t = (t - miss / state.velocity.z).clamp(0.0, h);
            state = self.step(a, t);
        }
        (t, state)
    }
}

/// Runs a flight from `start`, calling `visit(time, before, after, h)` after every step; `before` is the state at
/// `time - h`. Returns the end time, the end state and why it ended.
#[inline]
fn run(
    physics: &BallPhysics,
    law: impl Fn(f64) -> Coefficients,
    start: &BallState,
    step: f64,
    max_time: f64,
    mut visit: impl FnMut(f64, &BallState, &BallState, f64),
) -> (f64, BallState, ArcEnd) {
    // A ball struck lower than its radius ends where it comes back to that height.
    let ground = physics.radius.min(start.position.z);
    if start.position.z <= ground && start.velocity.z <= 0.0 {
        return (0.0, *start, ArcEnd::Ground);
    }
    let step = step.max(MIN_STEP);
    let forces = Forces::new(physics, start.omega, law);
    let (mut time, mut state) = (0.0, *start);
    while time < max_time {
        let h = step.min(max_time - time);
        let next = forces.step(&state, h);
        if next.position.z < ground && next.velocity.z < 0.0 {
            let (h, landed) = forces.to_ground(&state, &next, h, ground);
            visit(time + h, &state, &landed, h);
            return (time + h, landed, ArcEnd::Ground);
        }
        time += h;
        visit(time, &state, &next, h);
        state = next;
    }
    (time, state, ArcEnd::TimeLimit)
}

/// How a flight is computed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlyOptions {
    /// Step of the integration, s.
    pub step: f64,
    /// The flight is cut after this time, s.
    pub max_time: f64,
}

impl Default for FlyOptions {
    fn default() -> Self {
        Self { step: DEFAULT_STEP, max_time: MAX_TIME }
    }
}

/// Why a flight ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ArcEnd {
    /// The ball touches the ground.
    Ground,
    /// The time allowed is over.
    TimeLimit,
}

/// Where a flight comes down, without its path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Landed {
    /// Time since the launch, s.
    pub time: f64,
    /// The ball at the ground, just before the bounce.
    pub state: BallState,
    /// Where the ball's centre crossed the plane of the net (`y = 0`), if it did.
    pub net: Option<Crossing>,
}

/// Flies a ball to the ground and keeps only what aiming needs; nothing is allocated. The same steps as [`fly`].
///
/// `None` if the ball is still in the air after [`MAX_TIME`].
#[must_use]
pub fn land(physics: &BallPhysics, start: BallState, step: f64) -> Option<Landed> {
    land_with(physics, |s| physics.law.coefficients(s), start, step)
}

/// As [`land`], by another law: the coefficients as a function of the spin parameter.
///
/// The published examples that the flight is checked against use laws of their own.
#[must_use]
pub fn land_with(
    physics: &BallPhysics,
    law: impl Fn(f64) -> Coefficients,
    start: BallState,
    step: f64,
) -> Option<Landed> {
    let on_net = start.position.y.abs() <= 0.0;
    let mut net = on_net.then_some(Crossing { time: 0.0, point: start.position });
    let (time, state, end) = run(physics, law, &start, step, MAX_TIME, |time, a, b, h| {
        if net.is_none() && a.position.y * b.position.y <= 0.0 {
            net = Some(net_crossing(time, a, b, h));
        }
    });
    (end == ArcEnd::Ground).then_some(Landed { time, state, net })
}

#[cold]
fn net_crossing(time: f64, a: &BallState, b: &BallState, h: f64) -> Crossing {
    let piece = Cubic { p0: a.position, v0: a.velocity, p1: b.position, v1: b.velocity, h };
    let u = piece.root(|p| p.y, 0.0);
    Crossing { time: time - h * (1.0 - u), point: piece.position(u) }
}

#[cfg(test)]
mod tests;
