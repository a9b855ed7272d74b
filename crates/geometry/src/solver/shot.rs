//! The chance of the hitter's own shot to go in, and its spread.

use glam::DVec2;

use super::near::Near;
use crate::{
    ball::flight::{BallState, LAND_STEP, land},
    player::scatter::{self, Delivery, Room, Sensitivity},
    shot::{aim::Aim, stroke::Stroke},
    worth::Behaviour,
};

/// The sensitivity of the hitter's own shot to its launch, from neighbouring flights, and its spread.
fn shot_errors(near: &Near<'_>, aimed: &Aim) -> (Sensitivity, scatter::Spread) {
    /// Change of the launch: small enough to be linear, large enough to exceed the integration's error.
    const NUDGE: f64 = 2e-3;
    const STEP: f64 = LAND_STEP;
    let shot = &near.shot;
    let net = aimed.landed.net.map_or(shot.contact, |n| n.point);
    let net_height = near.situation.conditions.court.net_height(net.x);
    let from = shot.contact.truncate();
    let probe = |elevation: f64, speed: f64| {
        let start = BallState::launch(shot.contact, speed, elevation, aimed.azimuth, shot.topspin, shot.sidespin);
        land(&near.physics, start, STEP)
            .map_or((0.0, 0.0), |l| ((l.state.position.truncate() - from).length(), l.net.map_or(0.0, |n| n.point.z)))
    };
    let way = shot.target - from;
    let range = way.length();
    let up = probe(aimed.elevation + NUDGE, shot.speed);
    let fast = probe(aimed.elevation, shot.speed * (1.0 + NUDGE));
    let flight = Sensitivity {
        clearance: net.z - near.physics.radius - net_height,
        net_up: (up.1 - net.z) / NUDGE,
        net_speed: (fast.1 - net.z) / NUDGE,
        range,
        range_up: (up.0 - range) / NUDGE,
        range_speed: (fast.0 - range) / NUDGE,
        along: way.y / range,
        across: way.x.abs() / range,
    };
    let player = &near.hitter;
    let wing = player.wing_for(shot.contact.x - near.hitter_place.x);
    let back = (near.opponent_place - from).normalize_or(DVec2::Y);
    let delivery = Delivery {
        stroke: shot.stroke,
        wing,
        speed: shot.speed,
        topspin: shot.topspin,
        pressure: near.situation.hitter_pressure,
        // The ball came from where the opponent stood when striking it: the best estimate from one shot.
        turn: match shot.stroke {
            Stroke::Serve => 0.0,
            _ => back.dot(way / range).clamp(-1.0, 1.0).acos(),
        },
        height: shot.contact.z,
        depth: -shot.contact.y,
        elevation: aimed.elevation,
    };
    (flight, scatter::spread(&Behaviour::default(), player, &delivery))
}

/// Chances of the hitter's own shot.
pub(crate) fn shot_chance(near: &Near<'_>, aimed: &Aim) -> scatter::Chance {
    let (flight, spread) = shot_errors(near, aimed);
    let (court, shot) = (&near.situation.conditions.court, &near.shot);
    let room = match shot.stroke {
        Stroke::Serve => Room::in_box(court, court.service_depth(), shot.target.x, shot.target.y),
        _ => Room::on(court, shot.target.x, shot.target.y),
    };
    scatter::with_mishits(&Behaviour::default(), &flight, &room, &spread)
}

/// One standard deviation of the landing of the hitter's own shot in depth and sideways, m.
pub(crate) fn shot_spread(near: &Near<'_>, aimed: &Aim) -> (f64, f64) {
    let (flight, spread) = shot_errors(near, aimed);
    scatter::landing_spread(&flight, &spread)
}
