//! Quality of a shot before the opponent replies: its chances, its margins and its duration.

use glam::DVec2;

use crate::{
    ball::flight::{BallPhysics, BallState, LAND_STEP, land},
    court::Court,
    player::scatter::Chance,
    shot::{
        aim::{Aim, AimError},
        situation::{Shot, Situation},
        stroke::Stroke,
    },
    solver::{Near, shot_chance},
};

/// The hitter's shot, judged on its own.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Quality {
    /// Chances of going in and of each fault.
    pub chance: Chance,
    /// Height of the ball's lowest point over the tape, m.
    pub clearance: f64,
    /// Height of the tape where the ball crosses, m.
    pub net_height: f64,
    /// Distance from the target to the line beyond it (baseline, or service line for a serve), m.
    pub to_back_line: f64,
    /// Distance from the target to the nearer sideline, m.
    pub to_side_line: f64,
    /// Elevations, rad, that clear the net and land in along the same direction: lowest and highest.
    pub vertical: (f64, f64),
    /// Azimuths, rad, relative to the aim, that land inside the sidelines at the same range: left and right.
    pub lateral: (f64, f64),
    /// Length of court along the direction of the shot, from contact to where it leaves the court, m.
    pub length_available: f64,
    /// Time from contact to landing, s.
    pub time_to_landing: f64,
}

impl Quality {
    /// Opening of the vertical window, rad.
    #[must_use]
    pub fn vertical_window(&self) -> f64 {
        self.vertical.1 - self.vertical.0
    }

    /// Opening of the lateral window, rad.
    #[must_use]
    pub fn lateral_window(&self) -> f64 {
        self.lateral.1 - self.lateral.0
    }
}

/// Judges the shot of a situation on its own.
///
/// # Errors
/// When the shot cannot be played.
pub fn quality(situation: &Situation) -> Result<Quality, AimError> {
    let near = Near::new(situation);
    let court = &situation.conditions.court;
    let aimed = near.aim()?;
    let box_depth = back_line(court, near.shot.stroke);
    let from = near.shot.contact.truncate();
    let way = near.shot.target - from;
    let direction = way.normalize_or(DVec2::Y);
    let length_available = exit_distance(court, from, direction, box_depth);
    let net = aimed.landed.net.map_or(near.shot.contact, |n| n.point);
    let net_height = court.net_height(net.x);
    let half = court.half_width();
    let (left, right) = (from.x + half, half - from.x);
    // The ball lands on a circle around the contact; where it meets the sidelines, the azimuth is asin(x / range).
    let range = way.length();
    let lands_at = |x: f64| (x / range).clamp(-1.0, 1.0).asin();
    let bearing = direction.x.atan2(direction.y);
    Ok(Quality {
        chance: shot_chance(&near, &aimed),
        clearance: net.z - near.physics.radius - net_height,
        net_height,
        to_back_line: box_depth - near.shot.target.y,
        to_side_line: half - near.shot.target.x.abs(),
        vertical: vertical_window(&near.physics, court, &near.shot, &aimed, length_available),
        lateral: (lands_at(-left) - bearing, lands_at(right) - bearing),
        length_available,
        time_to_landing: aimed.landed.time,
    })
}

/// Depth of the line a ball must not pass, m from the net.
fn back_line(court: &Court, stroke: Stroke) -> f64 {
    match (stroke, court.service_line) {
        (Stroke::Serve, Some(service_line)) => service_line,
        _ => court.half_length(),
    }
}

/// Ground distance from a place to where a ray leaves the singles court on the far side.
fn exit_distance(court: &Court, from: DVec2, direction: DVec2, depth: f64) -> f64 {
    let to_back = (depth - from.y) / direction.y.max(1e-9);
    let half = court.half_width();
    let side = if direction.x > 0.0 { half - from.x } else { -half - from.x };
    let to_side = if direction.x.abs() < 1e-9 { f64::INFINITY } else { side / direction.x };
    // A contact outside the sideline meets that line first on the way in; only the other one lets the ball out.
    if to_side > 0.0 { to_back.min(to_side) } else { to_back }
}

/// Elevations around the aim that clear the net and land within `reach`, by bisection on exact flights.
fn vertical_window(physics: &BallPhysics, court: &Court, shot: &Shot, aimed: &Aim, reach: f64) -> (f64, f64) {
    let azimuth = aimed.launch.velocity.x.atan2(aimed.launch.velocity.y);
    let from = shot.contact.truncate();
    let good = |elevation: f64| {
        let start = BallState::launch(shot.contact, shot.speed, elevation, azimuth, shot.topspin, shot.sidespin);
        land(physics, start, LAND_STEP).is_some_and(|l| {
            let clears = l.net.is_some_and(|n| n.point.z - physics.radius >= court.net_height(n.point.x));
            clears && l.state.position.y > 0.0 && (l.state.position.truncate() - from).length() <= reach
        })
    };
    let edge = |direction: f64| {
        // Step out from the aim until it fails, at most 30 degrees, then bisect.
        let mut inside = aimed.elevation;
        let mut outside = None;
        for i in 1..=30 {
            let e = aimed.elevation + direction * f64::from(i).to_radians();
            if good(e) {
                inside = e;
            } else {
                outside = Some(e);
                break;
            }
        }
        let Some(mut outside) = outside else { return inside };
        for _ in 0..16 {
            let middle = 0.5 * (inside + outside);
            if good(middle) { inside = middle } else { outside = middle }
        }
        inside
    };
    (edge(-1.0), edge(1.0))
}
