//! Fits the spread of a wing to a target test: landings of balls aimed at one place.
//!
//! The flight gives the change of the landing for a small error of elevation, speed or azimuth; inverted, the spread of
//! the landings gives the size of the errors. Balls in the net count too: they fell short of the net (a censored normal
//! distribution, fitted by expectation and maximisation; Dempster, Laird & Rubin 1977).

use glam::{DVec2, DVec3};
use standpoint_geometry::{
    BallPhysics, BallState, Conditions, Delivery, LAND_STEP, Player, Shot, Stroke, Wing, aim, land, normal_cdf, spread,
    worth::Behaviour,
};
use standpoint_language::mark;

use super::{FitError, checked};
use crate::stats::{Estimate, Moments, deviation_interval};
use standpoint_board::player_card::PlayerCard;

/// Least number of landings.
const FEWEST: usize = 5;
/// Change of the launch: small enough to be linear, large enough to exceed the integration's error.
const NUDGE: f64 = 2e-3;
/// Rounds of the fit with balls in the net; it converges within a few dozen.
const ROUNDS: usize = 200;

/// A target test, in the frame of a near hitter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TargetTest {
    /// Court, surface, ball and air.
    pub conditions: Conditions,
    /// The player; speed and spin of the wing are those of the test.
    pub player: Player,
    /// The wing tested.
    pub wing: Wing,
    /// Kind of stroke.
    pub stroke: Stroke,
    /// Contact of the balls.
    pub contact: DVec3,
    /// Target of the balls.
    pub target: DVec2,
    /// Speed off the racket, m/s.
    pub speed: f64,
    /// Topspin, rad/s.
    pub topspin: f64,
    /// Place from which the balls were fed.
    pub fed_from: DVec2,
}

/// The spread of a wing from a target test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpreadFit {
    /// Spread of the launch elevation, rad.
    pub spread_up: Estimate,
    /// Spread of the launch azimuth, rad.
    pub spread_side: Estimate,
    /// Mean distance of the landings beyond the target (negative: short), m, with its interval.
    pub too_long: Estimate,
    /// Landings to the right of the target, m.
    pub too_right: Estimate,
    /// Balls that landed.
    pub landed: usize,
    /// Balls in the net.
    pub netted: usize,
}

impl SpreadFit {
    /// Writes the spread to a player's card.
    pub fn apply(&self, card: &mut PlayerCard, wing: Wing) {
        let player = card.make_custom();
        let skill = match wing {
            Wing::Forehand => &mut player.forehand,
            Wing::Backhand => &mut player.backhand,
        };
        (skill.spread_up, skill.spread_side) = (self.spread_up.value, self.spread_side.value);
    }
}

/// Sensitivity of the landing to the launch.
struct Answering {
    /// Shift along the flight for one unit of the wing's spread up, m.
    far: f64,
    /// Shift across the flight for one unit of the wing's spread to the side, m.
    side: f64,
    /// Distance short of the target, along the flight, of a ball that just touches the net, m.
    net_short: f64,
}

/// Fits the spread of a wing to the landings of balls meant for the target; `netted` balls went into the net.
///
/// # Errors
/// Fewer than five landings, an invalid landing, or a target that the test's stroke cannot reach.
pub fn fit_target(test: &TargetTest, landings: &[DVec2], netted: usize) -> Result<SpreadFit, FitError> {
    if landings.len() < FEWEST {
        return Err(FitError::TooFew { what: mark("landings"), found: landings.len(), wanted: FEWEST });
    }
    for (i, landing) in landings.iter().enumerate() {
        checked(i + 1, landing.x, (-20.0, 20.0), "m")?;
        checked(i + 1, landing.y, (0.0, 30.0), "m")?;
    }
    let answering = answering(test)?;
    let along = (test.target - test.contact.truncate()).normalize_or(DVec2::Y);
    let right = -along.perp();
    let far: Vec<f64> = landings.iter().map(|landing| (*landing - test.target).dot(along)).collect();
    let side = Moments::of(landings.iter().map(|landing| (*landing - test.target).dot(right)));
    let (far_mean, far_deviation) = censored(&far, netted, answering.net_short);
    let side_deviation = side.deviation().unwrap_or_default();
    if far_deviation < 1e-6 || side_deviation < 1e-6 {
        return Err(FitError::NoSpread);
    }
    let freedom = (landings.len() - 1) as f64;
    let mean_error = far_deviation / (landings.len() as f64).sqrt() * crate::stats::student(freedom);
    Ok(SpreadFit {
        spread_up: deviation_interval(far_deviation / answering.far, freedom),
        spread_side: deviation_interval(side_deviation / answering.side, freedom),
        too_long: Estimate { value: far_mean, low: far_mean - mean_error, high: far_mean + mean_error },
        too_right: side.interval().ok_or(FitError::NoSpread)?,
        landed: landings.len(),
        netted,
    })
}

fn answering(test: &TargetTest) -> Result<Answering, FitError> {
    let c = &test.conditions;
    let physics = BallPhysics::new(&c.ball, &c.air, c.law);
    let shot = Shot {
        contact: test.contact,
        stroke: test.stroke,
        target: test.target,
        speed: test.speed,
        topspin: test.topspin,
        sidespin: 0.0,
    };
    let aimed = aim(&c.court, &physics, &shot)?;
    let from = test.contact.truncate();
    let probe = |elevation: f64, speed: f64| {
        let start = BallState::launch(test.contact, speed, elevation, aimed.azimuth, test.topspin, 0.0);
        land(&physics, start, LAND_STEP).map_or((0.0, 0.0), |landed| {
            ((landed.state.position.truncate() - from).length(), landed.net.map_or(0.0, |net| net.point.z))
        })
    };
    let way = test.target - from;
    let base = probe(aimed.elevation, test.speed);
    let up = probe(aimed.elevation + NUDGE, test.speed);
    let fast = probe(aimed.elevation, test.speed * (1.0 + NUDGE));
    let (range_up, range_speed) = ((up.0 - base.0) / NUDGE, (fast.0 - base.0) / NUDGE);
    let net_up = (up.1 - base.1) / NUDGE;
    let net = aimed.landed.net.map_or(test.contact, |net| net.point);
    let clearance = net.z - physics.radius - c.court.net_height(net.x);
    // The spread at a wing's spread of one radian, as it grows in proportion.
    let mut one = test.player;
    for wing in [&mut one.forehand, &mut one.backhand] {
        (wing.spread_up, wing.spread_side) = (1.0, 1.0);
    }
    let back = (test.fed_from - from).normalize_or(DVec2::Y);
    let delivery = Delivery {
        stroke: test.stroke,
        wing: test.wing,
        speed: test.speed,
        topspin: test.topspin,
        pressure: 0.0,
        turn: back.dot(way.normalize_or(DVec2::Y)).clamp(-1.0, 1.0).acos(),
        height: test.contact.z,
        depth: test.contact.y.abs(),
        elevation: aimed.elevation,
    };
    let behaviour = Behaviour::default();
    let unit = spread(&behaviour, &one, &delivery);
    Ok(Answering {
        far: (range_up * unit.up).hypot(range_speed * unit.speed),
        side: way.length() * unit.side,
        net_short: clearance * range_up / net_up.max(1e-9),
    })
}

/// Mean and standard deviation of values, with `lost` more values somewhere below `-limit`.
fn censored(values: &[f64], lost: usize, limit: f64) -> (f64, f64) {
    let seen = Moments::of(values.iter().copied());
    let (mut mean, mut deviation) = (seen.mean().unwrap_or_default(), seen.deviation().unwrap_or_default());
    if lost == 0 || deviation <= 0.0 {
        return (mean, deviation);
    }
    let (n, m) = (values.len() as f64, lost as f64);
    for _ in 0..ROUNDS {
        // Mean and mean square of a normal value known to lie below the limit.
        let z = (-limit - mean) / deviation;
        let density = (-0.5 * z * z).exp() / std::f64::consts::TAU.sqrt();
        let hazard = density / normal_cdf(z).max(1e-12);
        let below = mean - deviation * hazard;
        let below_square = deviation * deviation * (1.0 - z * hazard) + mean * (2.0 * below - mean);
        let sum: f64 = values.iter().sum();
        let squares: f64 = values.iter().map(|value| value * value).sum();
        let next = (sum + m * below) / (n + m);
        let variance = (squares + m * below_square) / (n + m) - next * next;
        (mean, deviation) = (next, variance.max(1e-12).sqrt());
    }
    // Maximum likelihood divides by the count; the mean takes up one degree of freedom.
    (mean, deviation * ((n + m) / (n + m - 1.0)).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;
    use standpoint_board::dice::Dice;

    #[test]
    fn values_cut_off_are_made_up_for() {
        let mut dice = Dice::new(11);
        let all: Vec<f64> = (0..4000).map(|_| 0.4 + 1.5 * dice.normal()).collect();
        let seen: Vec<f64> = all.iter().copied().filter(|value| *value > -1.2).collect();
        let (mean, deviation) = censored(&seen, all.len() - seen.len(), 1.2);
        assert!((mean - 0.4).abs() < 0.08 && (deviation - 1.5).abs() < 0.08, "{mean} {deviation}");
        // Leaving them out would bias the fit.
        assert!(Moments::of(seen).deviation().unwrap() < 1.3);
    }
}
