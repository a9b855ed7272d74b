//! The chance that a stroke goes in.
//!
//! A stroke leaves the racket with a Gaussian error in elevation, azimuth and speed. Through the flight's
//! sensitivities these become an error at the net (height) and where the ball lands (depth and side), and the chance
//! of each fault follows from the normal distribution. What is published on spread by level is little
//! (`docs/model.md`): the table in [`crate::presets`] is a choice, calibrated so that the professional profiles give
//! the published ratio of errors down the line to cross-court and the published landing ellipse.

use std::sync::LazyLock;

use crate::{
    court::Court,
    player::{Player, Wing, WingSkill},
    situation::Stroke,
};

/// Speed error of a stroke, one standard deviation as a share of the speed, per radian of elevation spread.
///
/// Choice: a player whose elevation spreads by 1.5 degrees misses the speed by 4 percent.
const SPEED_SPREAD_PER_RADIAN: f64 = 1.5;

/// How much wider elevation and azimuth spread for a ball that is turned by one radian away from where it came from.
///
/// Choice, calibrated with the error ratio of down the line to cross-court of `players.md` section 5 (1.5 on the forehand,
/// 1.9 to 2.1 on the backhand): a wing that changes the ball's direction misses more often than the geometry alone
/// explains, the backhand more so.
const TURN_PER_RADIAN: [(Wing, f64, f64); 2] = [(Wing::Forehand, 0.45, 1.0), (Wing::Backhand, 0.9, 1.55)];

/// Elevation from which a ball counts as lofted, and over which the spread grows to its full width, rad.
const LOFT_FROM: f64 = 0.21;
const LOFT_OVER: f64 = 0.31;
/// How much wider a fully lofted ball spreads.
const LOFT_WIDER: f64 = 0.6;

/// Weight of spin against speed in the racket-head effort: all a player has goes into one or the other.
const SPIN_WEIGHT: f64 = 0.25;

/// Usual speed of a first serve against the speed entered in a wing's place for it.
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
    /// 0 with time to spare, 1 at full stretch.
    pub pressure: f64,
    /// Angle between the way back to where the ball came from and the way it is sent, rad, not negative.
    pub turn: f64,
    /// Height of contact, m.
    pub height: f64,
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

/// Racket-head effort: 1 at the wing's usual rally speed and spin; above about 1.3 control is lost.
///
/// A ball taken under pressure leaves less of the swing: at full stretch 60 % of the speed is left for the same
/// effort (choice). Slices and volleys have their own usual speed, see [`usual_speed`].
#[must_use]
pub fn effort(skill: &WingSkill, delivery: &Delivery) -> f64 {
    let left = 1.0 - 0.4 * delivery.pressure.clamp(0.0, 1.0);
    let speed = delivery.speed / (usual_speed(skill, delivery.stroke) * left);
    // Backspin takes no brushing effort of its own; its slower usual speed covers it.
    let spin = delivery.topspin.max(0.0) / skill.topspin.max(20.0);
    let spin_weight = match delivery.stroke {
        Stroke::Topspin | Stroke::Flat | Stroke::Lob => SPIN_WEIGHT,
        Stroke::Slice | Stroke::Drop | Stroke::Volley | Stroke::Overhead | Stroke::Serve => 0.0,
    };
    ((speed * speed + spin_weight * spin * spin) / (1.0 + spin_weight)).sqrt()
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

/// The spread of a stroke.
///
/// Grows slowly with effort up to 1.25 and steeply beyond, with pressure (twice as wide at full stretch, choice), with
/// the change of direction, and for contacts below the knee or above the shoulder.
#[must_use]
pub fn spread(skill: &WingSkill, delivery: &Delivery) -> Spread {
    let e = effort(skill, delivery);
    let over = (e - 1.25).max(0.0);
    let by_effort = 0.8 + 0.2 * e.powi(4) + 12.0 * over * over;
    let by_pressure = 1.0 + delivery.pressure.clamp(0.0, 1.0);
    let off_height = (0.45 - delivery.height).max(0.0) * 0.8 + (delivery.height - 1.5).clamp(0.0, 0.6) * 0.4;
    let by_height = match delivery.stroke {
        Stroke::Overhead | Stroke::Serve => 1.0,
        _ => 1.0 + off_height,
    };
    // A touch shot is judged by feel: wider than a drive at the same low effort (choice).
    let by_touch = match delivery.stroke {
        Stroke::Drop => 1.5,
        _ => 1.0,
    };
    let common = by_effort * by_pressure * by_height * by_touch;
    let straight = Spread {
        up: skill.spread_up * common,
        side: skill.spread_side * common,
        speed: SPEED_SPREAD_PER_RADIAN * skill.spread_up * common,
    };
    straight.turned(delivery.turn, delivery.wing)
}

impl Spread {
    /// The spread of a ball struck at an elevation, rad, given that of a drive: lofted balls are judged by feel, and half
    /// as wide again from 30 degrees up. Choice.
    #[must_use]
    pub fn lofted(self, elevation: f64) -> Self {
        let u = ((elevation - LOFT_FROM) / LOFT_OVER).clamp(0.0, 1.0);
        let factor = 1.0 + LOFT_WIDER * u * u * (3.0 - 2.0 * u);
        Self { up: self.up * factor, side: self.side * factor, speed: self.speed * factor }
    }

    /// The spread of a ball that is turned by an angle from where it came, given that of one sent straight back.
    #[must_use]
    pub fn turned(self, turn: f64, wing: Wing) -> Self {
        let turn = turn.clamp(0.0, 1.5);
        let [forehand, backhand] = TURN_PER_RADIAN;
        let (_, up, side) = if wing == Wing::Forehand { forehand } else { backhand };
        Self { up: self.up * (1.0 + up * turn), side: self.side * (1.0 + side * turn), speed: self.speed }
    }
}

/// How a flight answers to small changes of its launch, and where it goes.
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

/// Where a ball may land, seen from its landing place: distances to the limits, m.
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

/// [`normal_cdf`] read off a table: thousands of chances are computed for one answer.
static TAIL: LazyLock<Tail> = LazyLock::new(Tail::new);

/// Values and slopes of the normal distribution function from -5 to 5, between which a cubic is good to 3e-8.
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

/// The pressure under which a ball is struck that was reached with `time_to_spare` seconds in hand.
///
/// Smooth and strictly falling: about 0.76 at full stretch (0 s), 0.5 at 0.15 s, 0.1 at 0.55 s. Choice.
#[must_use]
pub fn pressure(time_to_spare: f64) -> f64 {
    let x = (time_to_spare - 0.15) / 0.25;
    let p = 0.5 - 0.5 * x / (1.0 + x * x).sqrt();
    // A neutral ball (more than about 0.6 s in hand) should count as none; the tail is taken off smoothly.
    let tail = 0.5 - 0.5 * NEUTRAL / (1.0f64 + NEUTRAL * NEUTRAL).sqrt();
    ((p - tail) / (1.0 - tail)).max(0.0)
}

/// `(0.6 - 0.15) / 0.25`: where [`pressure`] reaches zero.
const NEUTRAL: f64 = 1.8;

/// The skill that counts for a stroke: the wing's, or the serve's own speed, spin and spread.
#[must_use]
pub fn skill_of(player: &Player, stroke: Stroke, wing: Wing) -> WingSkill {
    match stroke {
        Stroke::Serve => WingSkill {
            // So that the first serve is struck at its usual speed, see [`usual_speed`].
            speed: player.serve.first_speed / SERVE_SPEED,
            topspin: player.serve.topspin,
            spread_up: player.serve.spread,
            spread_side: player.serve.spread,
        },
        _ => *player.wing(wing_of(stroke, wing)),
    }
}

/// Which wing's skill counts for a stroke: overheads and serves are struck on the forehand side.
#[must_use]
pub fn wing_of(stroke: Stroke, wing: Wing) -> Wing {
    match stroke {
        Stroke::Overhead | Stroke::Serve => Wing::Forehand,
        _ => wing,
    }
}
