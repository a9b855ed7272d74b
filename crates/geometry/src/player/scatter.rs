//! The chance that a stroke goes in.
//!
//! A stroke leaves the racket with a Gaussian error in elevation, azimuth and speed. Through the flight's sensitivities
//! these become an error at the net (height) and at the landing (depth and side), and the chance of each fault follows
//! from the normal distribution. Little is published on spread by level (`docs/model.md`): the table in
//! [`crate::player::presets`] is a choice, calibrated so that the professional profiles give the published ratio of
//! errors down the line to cross-court and the published landing ellipse.

use std::sync::LazyLock;

use crate::{
    court::Court,
    player::{Player, Wing, WingSkill},
    shot::stroke::Stroke,
    worth::Behaviour,
};

/// Elevation above which a ball counts as lofted, and range over which the spread grows to its full width, rad.
const LOFT_FROM: f64 = 0.21;
const LOFT_OVER: f64 = 0.31;
/// Extra spread of a fully lofted ball, as a share.
const LOFT_WIDER: f64 = 0.6;

/// Weight of spin relative to speed in the racket-head effort, which is shared between them.
const SPIN_WEIGHT: f64 = 0.25;

/// Usual speed of a first serve, as a multiple of the wing speed entered for it.
const SERVE_SPEED: f64 = 1.5;

/// How a stroke is struck: the inputs of its spread besides the wing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Delivery {
    /// Kind of stroke.
    pub stroke: Stroke,
    /// Wing it is struck with.
    pub wing: Wing,
    /// Speed off the racket, m/s.
    pub speed: f64,
    /// Topspin (backspin negative), rad/s.
    pub topspin: f64,
    /// Pressure: 0 with time to spare, 1 at full stretch.
    pub pressure: f64,
    /// Angle between the direction the ball came from and the direction it is sent, rad, not negative.
    pub turn: f64,
    /// Height of contact, m.
    pub height: f64,
    /// Distance of the contact from the net, m.
    pub depth: f64,
    /// Elevation of the launch, rad.
    pub elevation: f64,
}

/// One standard deviation of each launch error.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    /// Elevation, rad.
    pub up: f64,
    /// Azimuth, rad.
    pub side: f64,
    /// Speed, as a share of it.
    pub speed: f64,
}

/// Racket-head effort: 1 at the wing's usual rally speed and spin.
///
/// A ball taken under pressure leaves less of the swing. Slices and volleys have their own usual speeds, see
/// `usual_speed`.
#[must_use]
pub fn effort(behaviour: &Behaviour, skill: &WingSkill, delivery: &Delivery) -> f64 {
    let left = 1.0 - behaviour.pressure_slow * delivery.pressure.clamp(0.0, 1.0);
    let speed = delivery.speed / (usual_speed(skill, delivery.stroke) * left);
    match delivery.stroke {
        Stroke::Topspin | Stroke::Flat => {
            let spin = delivery.topspin.max(0.0) / skill.topspin.max(20.0);
            ((speed * speed + SPIN_WEIGHT * spin * spin) / (1.0 + SPIN_WEIGHT)).sqrt()
        }
        // Backspin takes no brushing effort of its own; its slower usual speed covers it.
        _ => speed,
    }
}

/// The speed at which a wing usually plays a stroke, m/s.
///
/// Choice, from common practice without a source: a slice travels at about three quarters of the drive, a volley at
/// two thirds, a smash a third faster.
#[must_use]
pub fn usual_speed(skill: &WingSkill, stroke: Stroke) -> f64 {
    skill.speed
        * match stroke {
            Stroke::Topspin | Stroke::Flat => 1.0,
            Stroke::Slice => 0.74,
            Stroke::Volley => 0.66,
            Stroke::Overhead => 1.3,
            Stroke::Lob => 0.8,
            Stroke::Drop => 0.6,
            Stroke::Serve => SERVE_SPEED,
        }
}

/// The spread of a player's stroke.
///
/// Grows with effort beyond the usual one, with pressure, with the change of direction, with the loft, for contacts below
/// the knee or above the shoulder, and for volleys from further back or below the tape; see [`Behaviour`].
#[must_use]
pub fn spread(b: &Behaviour, player: &Player, at: &Delivery) -> Spread {
    let wing = wing_of(at.stroke, at.wing);
    let skill = skill_of(player, at.stroke, wing);
    let over = (effort(b, &skill, at) - b.effort_free).max(0.0);
    let mut common = 1.0 + b.effort_cost * over * over;
    common *= 1.0 + b.pressure_spread * at.pressure.clamp(0.0, 1.0);
    if at.stroke != Stroke::Serve {
        common *= b.skill_spread;
    }
    common *= match at.stroke {
        Stroke::Serve => b.serve_spread,
        Stroke::Overhead => 1.0,
        Stroke::Volley => {
            1.0 + b.volley_depth * (at.depth - b.volley_home).max(0.0) + b.volley_low * (0.9 - at.height).max(0.0)
        }
        _ => 1.0 + b.low_spread * (0.45 - at.height).max(0.0) + b.high_spread * (at.height - 1.5).max(0.0),
    };
    // A touch shot depends on feel: wider than a drive at the same low effort (choice).
    if at.stroke == Stroke::Drop {
        common *= 1.5;
    }
    let (up, side) = if wing == Wing::Forehand { b.turn_forehand } else { b.turn_backhand };
    let turn = at.turn.clamp(0.0, 1.5);
    Spread {
        up: skill.spread_up * common * (1.0 + up * turn),
        side: skill.spread_side * common * (1.0 + side * turn),
        speed: b.speed_spread * skill.spread_up * common,
    }
    .lofted(at.elevation)
}

/// The chances of a stroke, a few of which are mishits, three times as wide.
#[must_use]
pub fn with_mishits(b: &Behaviour, flight: &Sensitivity, room: &Room, spread: &Spread) -> Chance {
    let usual = chance(flight, room, spread);
    if b.mishits <= 0.0 {
        return usual;
    }
    let wide = chance(flight, room, &spread.scaled(3.0));
    let mix = |a: f64, c: f64| a + b.mishits * (c - a);
    Chance {
        good: mix(usual.good, wide.good),
        net: mix(usual.net, wide.net),
        long: mix(usual.long, wide.long),
        wide: mix(usual.wide, wide.wide),
    }
}

impl Spread {
    /// All errors multiplied by a factor.
    #[must_use]
    pub fn scaled(self, factor: f64) -> Self {
        Self { up: self.up * factor, side: self.side * factor, speed: self.speed * factor }
    }

    /// The spread of a ball struck at an elevation, rad, given that of a drive: lofted balls depend on feel, and spread
    /// half as wide again from 30 degrees up. Choice.
    #[must_use]
    pub fn lofted(self, elevation: f64) -> Self {
        let u = ((elevation - LOFT_FROM) / LOFT_OVER).clamp(0.0, 1.0);
        self.scaled(1.0 + LOFT_WIDER * u * u * (3.0 - 2.0 * u))
    }
}

/// The path of a flight, and its sensitivity to small changes of the launch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sensitivity {
    /// Height of the ball's lowest point over the tape, m.
    pub clearance: f64,
    /// Change of the height at the net with elevation, m/rad.
    pub net_up: f64,
    /// Change of the height at the net with the logarithm of speed, m.
    pub net_speed: f64,
    /// Ground distance from contact to landing, m.
    pub range: f64,
    /// Change of the range with elevation, m/rad.
    pub range_up: f64,
    /// Change of the range with the logarithm of speed, m.
    pub range_speed: f64,
    /// Cosine of the angle between the flight and the court's length.
    pub along: f64,
    /// Sine of the same angle.
    pub across: f64,
}

/// Room around a landing place: distances to the limits, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Room {
    /// To the far limit (baseline, or service line for a serve).
    pub deep: f64,
    /// To the sideline on the left.
    pub left: f64,
    /// To the sideline on the right.
    pub right: f64,
}

impl Room {
    /// The room of a serve in its box, on the side of `x`.
    ///
    /// The box is that of a facing player: from the centre line to the singles sideline on the side where `x` lies.
    #[must_use]
    pub fn in_box(court: &Court, service_line: f64, x: f64, depth: f64) -> Self {
        let across = x.abs();
        Self { deep: service_line - depth, left: across, right: court.half_width() - across }
    }

    /// The room of a ball that lands `depth` beyond the net and at `x` on the singles court.
    #[must_use]
    pub fn on(court: &Court, x: f64, depth: f64) -> Self {
        let half = court.half_width();
        Self { deep: court.half_length() - depth, left: half + x, right: half - x }
    }
}

/// The chances of a stroke's faults; they are taken as exclusive.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chance {
    /// Lands in.
    pub good: f64,
    /// Into the net.
    pub net: f64,
    /// Beyond the baseline.
    pub long: f64,
    /// Beside a sideline.
    pub wide: f64,
}

/// The chance that a stroke lands in, by the normal distribution through the sensitivities.
#[must_use]
pub fn chance(flight: &Sensitivity, room: &Room, spread: &Spread) -> Chance {
    let sigma_net = length(flight.net_up * spread.up, flight.net_speed * spread.speed);
    let net = TAIL.below(-flight.clearance / sigma_net.max(1e-9));
    let (sigma_depth, sigma_side) = landing_spread(flight, spread);
    let long = TAIL.below(-room.deep / sigma_depth);
    let wide = TAIL.below(-room.left / sigma_side) + TAIL.below(-room.right / sigma_side);
    // Net and long are the two ends of one error, so they add; the side is independent of both.
    let vertical = (1.0 - net - long).max(0.0);
    let lateral = (1.0 - wide).max(0.0);
    Chance { good: vertical * lateral, net, long, wide: vertical * (1.0 - lateral) }
}

/// One standard deviation of the landing place along and across the court, m.
#[must_use]
pub fn landing_spread(flight: &Sensitivity, spread: &Spread) -> (f64, f64) {
    let far = length(flight.range_up * spread.up, flight.range_speed * spread.speed);
    let side = flight.range * spread.side;
    let depth = length(far * flight.along, side * flight.across);
    let lateral = length(far * flight.across, side * flight.along);
    (depth.max(1e-6), lateral.max(1e-6))
}

/// Length of a vector; `hypot` guards against overflow that cannot happen here, at several times the cost.
fn length(x: f64, y: f64) -> f64 {
    (x * x + y * y).sqrt()
}

/// Standard normal distribution function; tails below 3e-7 are taken as zero.
#[must_use]
pub fn normal_cdf(z: f64) -> f64 {
    // Beyond five standard deviations the tail is below 3e-7.
    if z < -5.0 {
        return 0.0;
    }
    0.5 * libm::erfc(-z * std::f64::consts::FRAC_1_SQRT_2)
}

/// [`normal_cdf`] from a table, as one answer needs thousands of chances.
static TAIL: LazyLock<Tail> = LazyLock::new(Tail::new);

/// Values and slopes of the normal distribution function from -5 to 5; the cubic between them is good to 3e-8.
struct Tail([(f64, f64); Tail::STEPS + 1]);

impl Tail {
    const END: f64 = 5.0;
    const PER_SIGMA: f64 = 16.0;
    const STEPS: usize = 160;

    fn new() -> Self {
        Self(std::array::from_fn(|i| {
            let z = i as f64 / Self::PER_SIGMA - Self::END;
            let slope = (-0.5 * z * z).exp() / (2.0 * std::f64::consts::PI).sqrt();
            (normal_cdf(z), slope / Self::PER_SIGMA)
        }))
    }

    #[inline]
    fn below(&self, z: f64) -> f64 {
        let at = (z + Self::END) * Self::PER_SIGMA;
        if at <= 0.0 {
            return 0.0;
        }
        let i = at as usize;
        if i >= Self::STEPS {
            return 1.0;
        }
        let (u, ((a, da), (b, db))) = (at - i as f64, (self.0[i], self.0[i + 1]));
        let rise = b - a;
        a + u * (da + u * ((3.0 * rise - 2.0 * da - db) + u * (da + db - 2.0 * rise)))
    }
}

/// The skill used for a stroke: the wing's, or the serve's own speed, spin and spread.
#[must_use]
pub fn skill_of(player: &Player, stroke: Stroke, wing: Wing) -> WingSkill {
    match stroke {
        Stroke::Serve => WingSkill {
            // Makes the first serve's usual speed its own, see `usual_speed`.
            speed: player.serve.first_speed / SERVE_SPEED,
            topspin: player.serve.topspin,
            spread_up: player.serve.spread,
            spread_side: player.serve.spread,
        },
        _ => *player.wing(wing_of(stroke, wing)),
    }
}

/// The wing whose skill is used for a stroke: overheads and serves are struck on the forehand side.
#[must_use]
pub fn wing_of(stroke: Stroke, wing: Wing) -> Wing {
    match stroke {
        Stroke::Overhead | Stroke::Serve => Wing::Forehand,
        _ => wing,
    }
}
