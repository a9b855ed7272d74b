//! Aiming: from a target to the launch that lands the ball on it.
//!
//! The flight is the same for every azimuth, so aiming is a search in one variable: the elevation whose landing is as
//! far away as the target. The azimuth follows from the bearing of that landing, sidespin included. Below the elevation
//! of the longest flight there is a low solution, above it a high one; the stroke determines which.

use glam::{DVec2, DVec3};

use crate::{
    ball::flight::{BallPhysics, BallState, LAND_STEP, Landed, land},
    court::Court,
    player::{
        Player, Wing,
        scatter::{skill_of, usual_speed},
    },
    shot::{
        situation::{Conditions, Shot},
        stroke::Stroke,
    },
    units::{KMH, RPM},
};

/// Step of the flights that aiming tries, s; their error is far below the tolerance.
const STEP: f64 = LAND_STEP;
/// Largest distance of the landing found from the target, m.
pub const TOLERANCE: f64 = 1e-4;
/// Elevations between which a solution is searched, degrees: lowest first. Dense where drives are.
const LADDER_DEG: [f64; 15] =
    [-40.0, -22.0, -12.0, -6.0, -1.0, 4.0, 9.0, 15.0, 22.0, 30.0, 38.0, 46.0, 55.0, 65.0, 78.0];

/// Which of the two solutions is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ArcChoice {
    /// The flatter one.
    Low,
    /// The steeper one.
    High,
}

impl Stroke {
    /// The solution used by the stroke: only a lob uses the high one.
    #[must_use]
    pub fn arc(self) -> ArcChoice {
        match self {
            Self::Lob => ArcChoice::High,
            _ => ArcChoice::Low,
        }
    }
}

/// A solved aim.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Aim {
    /// Launch elevation, rad.
    pub elevation: f64,
    /// Launch azimuth, rad.
    pub azimuth: f64,
    /// The ball just struck.
    pub launch: BallState,
    /// Its landing and net crossing.
    pub landed: Landed,
}

/// Why a target cannot be played.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum AimError {
    /// The contact is not on the hitter's side of the net.
    #[error("the contact must be on the hitter's own side of the net")]
    ContactBeyondNet,
    /// The target is not on the other side of the net.
    #[error("the target must be on the other side of the net")]
    TargetNotBeyondNet,
    /// The ball would hit the net.
    #[error("into the net by {by:.2} m; hit slower, with more topspin, higher or deeper")]
    Net {
        /// Height missing between the ball's lowest point and the tape, m.
        by: f64,
    },
    /// No elevation carries the ball this far.
    #[error("too slow: it lands {short_by:.1} m short of the target; hit faster or aim shorter")]
    TooSlow {
        /// Distance missing at the best elevation, m.
        short_by: f64,
    },
    /// The target lies beyond the baseline (or the service line, for a serve).
    #[error("long by {by:.2} m; aim shorter")]
    Long {
        /// How far beyond, m.
        by: f64,
    },
    /// The target lies beside the court (or the service box).
    #[error("wide by {by:.2} m; aim inside the sideline")]
    Wide {
        /// How far beside, m.
        by: f64,
    },
    /// The server stands inside the court.
    #[error("a serve is struck from behind the baseline; step back {by:.2} m")]
    ServeFromInside {
        /// How far inside, m.
        by: f64,
    },
    /// The server stands beside the half to serve from.
    #[error("a serve is struck from between the centre mark and the sideline; move along the baseline")]
    ServeFromBeside,
    /// The court has no service boxes.
    #[error("this court has no service boxes; choose another stroke or a larger court")]
    NoServiceBox,
    /// A ball is to be volleyed from behind the baseline.
    #[error("a volley is not played from {by:.1} m behind the baseline; move in or let the ball bounce")]
    VolleyFromBehind {
        /// How far behind, m.
        by: f64,
    },
    /// A smash below the shoulder.
    #[error("an overhead is not struck at {height:.2} m; raise the contact to 1.50 m or play a volley")]
    OverheadTooLow {
        /// Height of the contact, m.
        height: f64,
    },
    /// The steepest downward flight still passes over the target.
    #[error("too fast for so short a target; hit slower or aim deeper")]
    TooFast,
}

/// Checks that a stroke may be played from where the hitter stands, in the frame of a near hitter.
///
/// # Errors
/// A serve from inside the court, from beside its half or without a service box; a volley or overhead from behind the
/// baseline, where the ball has bounced; an overhead below the shoulder.
pub fn legal(court: &Court, shot: &Shot, hitter_place: DVec2) -> Result<(), AimError> {
    let length = court.half_length();
    match shot.stroke {
        Stroke::Serve => {
            // Behind the baseline, between the imaginary extensions of centre mark and sideline (ITF Rules of Tennis,
            // Rule 16); the racket may meet the ball over the court.
            if court.service_line.is_none() {
                return Err(AimError::NoServiceBox);
            }
            if hitter_place.y > -length {
                return Err(AimError::ServeFromInside { by: hitter_place.y + length });
            }
            let half = court.half_width();
            let wrong_half = hitter_place.x * shot.contact.x < 0.0 && hitter_place.x.abs() > 0.35;
            if hitter_place.x.abs() > half || wrong_half || shot.contact.x.abs() > half + 0.7 {
                return Err(AimError::ServeFromBeside);
            }
            Ok(())
        }
        Stroke::Volley | Stroke::Overhead if shot.contact.y < -length - 0.3 => {
            Err(AimError::VolleyFromBehind { by: -shot.contact.y - length })
        }
        Stroke::Overhead if shot.contact.z < 1.5 => Err(AimError::OverheadTooLow { height: shot.contact.z }),
        _ => Ok(()),
    }
}

/// Solves a shot for its launch, in the frame of a hitter at the near end.
///
/// The landing agrees with the target to [`TOLERANCE`].
///
/// # Errors
/// See [`AimError`]; the first that applies in the order contact, target, reach, net.
pub fn aim(court: &Court, physics: &BallPhysics, shot: &Shot) -> Result<Aim, AimError> {
    if shot.contact.y >= 0.0 {
        return Err(AimError::ContactBeyondNet);
    }
    check_target(court, shot)?;
    let to_target = shot.target - shot.contact.truncate();
    let distance = to_target.length();
    let elevation = solve_elevation(physics, shot, distance)?;
    let start = |azimuth| BallState::launch(shot.contact, shot.speed, elevation, azimuth, shot.topspin, shot.sidespin);
    let bearing = |v: DVec2| v.x.atan2(v.y);
    let straight = land(physics, start(0.0), STEP).ok_or(AimError::TooFast)?;
    let azimuth = bearing(to_target) - bearing(straight.state.position.truncate() - shot.contact.truncate());
    let launch = start(azimuth);
    let landed = land(physics, launch, STEP).ok_or(AimError::TooFast)?;
    let Some(net) = landed.net else { return Err(AimError::TargetNotBeyondNet) };
    let clearance = net.point.z - physics.radius - court.net_height(net.point.x);
    if clearance < 0.0 && net.point.x.abs() <= court.post_x() {
        return Err(AimError::Net { by: -clearance });
    }
    Ok(Aim { elevation, azimuth, launch, landed })
}

fn check_target(court: &Court, shot: &Shot) -> Result<(), AimError> {
    // A ball that touches the line is in; half a millimetre is allowed for rounding.
    let slack = 5e-4;
    if shot.target.y <= 0.0 {
        return Err(AimError::TargetNotBeyondNet);
    }
    let (mut long, mut wide) = (shot.target.y - court.half_length(), shot.target.x.abs() - court.half_width());
    if shot.stroke == Stroke::Serve
        && let Some(service_line) = court.service_line
    {
        // From the right of the centre mark the serve goes to the box on the left, and the other way round.
        long = shot.target.y - service_line;
        let across = if shot.contact.x >= 0.0 { -shot.target.x } else { shot.target.x };
        wide = (across - court.half_width()).max(-across);
    }
    if long > slack {
        Err(AimError::Long { by: long })
    } else if wide > slack {
        Err(AimError::Wide { by: wide })
    } else {
        Ok(())
    }
}

/// The elevation whose landing is `distance` away.
fn solve_elevation(physics: &BallPhysics, shot: &Shot, distance: f64) -> Result<f64, AimError> {
    let origin = shot.contact.truncate();
    let launch = |e: f64| BallState::launch(shot.contact, shot.speed, e, 0.0, shot.topspin, shot.sidespin);
    let range = |e: f64| {
        land(physics, launch(e), STEP).map_or(f64::INFINITY, |l| (l.state.position.truncate() - origin).length())
    };
    let mut best = (f64::NEG_INFINITY, 0.0);
    let mut previous: Option<(f64, f64)> = None;
    let rung = |i: usize| match shot.stroke.arc() {
        ArcChoice::Low => LADDER_DEG[i].to_radians(),
        ArcChoice::High => LADDER_DEG[LADDER_DEG.len() - 1 - i].to_radians(),
    };
    for i in 0..LADDER_DEG.len() {
        let e = rung(i);
        let miss = range(e) - distance;
        if miss >= 0.0 {
            let Some((e0, miss0)) = previous else { return Err(AimError::TooFast) };
            return root((e0, miss0), (e, miss), |e| range(e) - distance).ok_or(AimError::TooFast);
        }
        if miss > best.0 {
            best = (miss, e);
        } else if miss < best.0 - 1.0 && i > 3 {
            // Past the longest flight, the rest is shorter still.
            break;
        }
        previous = Some((e, miss));
    }
    // The longest flight lies between the rungs; search there before giving up.
    let width = 9.0_f64.to_radians();
    let (peak, miss) = golden_max(best.1 - width, best.1 + width, |e| range(e) - distance);
    if miss < 0.0 {
        return Err(AimError::TooSlow { short_by: -miss });
    }
    let away = match shot.stroke.arc() {
        ArcChoice::Low => peak - 2.0 * width,
        ArcChoice::High => peak + 2.0 * width,
    };
    root((away, range(away) - distance), (peak, miss), |e| range(e) - distance).ok_or(AimError::TooFast)
}

/// Root of a function between two points of opposite sign, by the Illinois variant of false position.
///
/// Ends when the value is within [`TOLERANCE`]. `None` where the function jumps over it: struck hard with backspin from just
/// over the ground, a ball either falls to it at once or is lifted far beyond, and nothing lands in between.
fn root(mut a: (f64, f64), mut b: (f64, f64), f: impl Fn(f64) -> f64) -> Option<f64> {
    let mut side = 0;
    for i in 0..60 {
        let x = if i < 40 && b.1.is_finite() && a.1.is_finite() {
            (a.0 * b.1 - b.0 * a.1) / (b.1 - a.1)
        } else {
            0.5 * (a.0 + b.0)
        };
        let y = f(x);
        if y.abs() < TOLERANCE {
            return Some(x);
        }
        if (y > 0.0) == (b.1 > 0.0) {
            b = (x, y);
            if side == 1 {
                a.1 *= 0.5;
            }
            side = 1;
        } else {
            a = (x, y);
            if side == -1 {
                b.1 *= 0.5;
            }
            side = -1;
        }
    }
    None
}

/// Maximum of a function with one peak, by golden section: `(place, value)`.
fn golden_max(mut a: f64, mut b: f64, f: impl Fn(f64) -> f64) -> (f64, f64) {
    let ratio = 0.618_033_988_749_894_9;
    let (mut c, mut d) = (b - ratio * (b - a), a + ratio * (b - a));
    let (mut fc, mut fd) = (f(c), f(d));
    for _ in 0..24 {
        if fc > fd {
            (b, d, fd) = (d, c, fc);
            c = b - ratio * (b - a);
            fc = f(c);
        } else {
            (a, c, fc) = (c, d, fd);
            d = a + ratio * (b - a);
            fd = f(d);
        }
    }
    if fc > fd { (c, fc) } else { (d, fd) }
}

/// Speed and topspin at which a player usually plays a stroke to a target, m/s and rad/s.
///
/// Drives take the wing's rally speed and spin. A lob is as fast as it must be to come down on the target after a
/// launch of 48 degrees, a drop as fast as the flattest launch from 14 degrees up needs that clears the tape (both common
/// practice, no source).
#[must_use]
pub fn usual_delivery(
    conditions: &Conditions,
    player: &Player,
    wing: Wing,
    stroke: Stroke,
    contact: DVec3,
    target: DVec2,
) -> (f64, f64) {
    let skill = skill_of(player, stroke, wing);
    let physics = BallPhysics::new(&conditions.ball, &conditions.air, conditions.law);
    let distance = (target - contact.truncate()).length();
    let touch = |elevation_deg: f64, topspin: f64| {
        speed_for(&physics, contact.z, elevation_deg.to_radians(), topspin, distance)
            .unwrap_or(usual_speed(&skill, stroke))
    };
    match stroke {
        Stroke::Topspin => (skill.speed, skill.topspin),
        Stroke::Flat => (skill.speed * 1.03, skill.topspin * 0.2),
        Stroke::Slice => (usual_speed(&skill, stroke), -1200.0 * RPM),
        Stroke::Drop => {
            // The flattest launch that clears the net with some room.
            let topspin = -1200.0 * RPM;
            let speed = (14..=40).step_by(2).find_map(|degrees| {
                let elevation = f64::from(degrees).to_radians();
                let speed = speed_for(&physics, contact.z, elevation, topspin, distance)?;
                let way = target - contact.truncate();
                let start = BallState::launch(contact, speed, elevation, way.x.atan2(way.y), topspin, 0.0);
                let net = land(&physics, start, STEP)?.net?.point;
                (net.z - physics.radius - conditions.court.net_height(net.x) > DROP_CLEARANCE_M).then_some(speed)
            });
            (speed.unwrap_or_else(|| touch(14.0, topspin)), topspin)
        }
        Stroke::Lob => (touch(48.0, 0.0), 0.0),
        Stroke::Volley => (usual_speed(&skill, stroke), -500.0 * RPM),
        Stroke::Overhead => (usual_speed(&skill, stroke), 0.0),
        Stroke::Serve => (player.serve.first_speed, player.serve.topspin / 3.0),
    }
}

/// How far over the tape a drop shot is usually played, m. Choice, from common practice without a source.
const DROP_CLEARANCE_M: f64 = 0.15;

/// The speed whose flight at an elevation lands `distance` away, m/s; `None` outside 3-60 m/s.
fn speed_for(physics: &BallPhysics, height: f64, elevation: f64, topspin: f64, distance: f64) -> Option<f64> {
    let miss = |speed: f64| {
        let start = BallState::launch(DVec3::new(0.0, 0.0, height), speed, elevation, 0.0, topspin, 0.0);
        land(physics, start, STEP).map_or(1e3, |l| l.state.position.y - distance)
    };
    let (low, high) = (3.0, 60.0);
    let (at_low, at_high) = (miss(low), miss(high));
    if at_low > 0.0 || at_high < 0.0 {
        return None;
    }
    let speed = root((low, at_low), (high, at_high), miss)?;
    // Whole km/h, as a player would set it.
    Some((speed / KMH).round() * KMH)
}
