//! Drawable parts of an answer: paths as points, the field, the shot with its numbers.

use glam::DVec2;

use super::near::{Near, bearing};
use super::shot::shot_chance;
use crate::{
    ball::bounce::Path,
    court::frame::Turn,
    shot::aim::Aim,
    solver::answer::{Field, Landing, NetCrossing, PathPoint, ShotFlight},
};

/// Spacing of the points of a drawn path, s.
const PATH_STEP_S: f64 = 0.03;

/// The field in the world frame, each axis reversed where the frame's is.
pub(super) fn turned_field(field: &Field, turn: Turn) -> Field {
    let (sx, sy) = turn.signs();
    let mut turned = field.clone();
    let size = DVec2::new((field.columns - 1) as f64, (field.rows - 1) as f64) * field.step;
    if sx < 0.0 {
        turned.origin.x = -(field.origin.x + size.x);
        for row in turned.values.chunks_exact_mut(field.columns) {
            row.reverse();
        }
    }
    if sy < 0.0 {
        turned.origin.y = -(field.origin.y + size.y);
        let rows: Vec<f32> = turned.values.chunks_exact(field.columns).rev().flatten().copied().collect();
        turned.values = rows;
    }
    turned
}

/// Points of a path for drawing, world frame, until it ends or leaves the site.
pub(super) fn sampled(path: &Path, near: &Near<'_>) -> Vec<PathPoint> {
    let court = &near.situation.conditions.court;
    let site = DVec2::new(court.site_half_width(), court.site_half_length());
    let end = path.end_time();
    let mut times: Vec<f64> = (0..=(end / PATH_STEP_S) as usize).map(|i| i as f64 * PATH_STEP_S).collect();
    // The bounces and the end are drawn exactly.
    times.extend(path.bounces.iter().map(|b| b.0));
    times.sort_by(f64::total_cmp);
    times.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    times
        .into_iter()
        .map(|time| PathPoint { time, point: path.position(time) })
        .take_while(|p| p.point.x.abs() <= site.x + 0.5 && p.point.y.abs() <= site.y + 0.5)
        .map(|p| PathPoint { time: p.time, point: near.turn.turn3(p.point) })
        .collect()
}

/// The hitter's shot with its numbers.
pub(crate) fn shot_flight(near: &Near<'_>, aimed: &Aim, path: &Path) -> ShotFlight {
    let turn = near.turn;
    let court = &near.situation.conditions.court;
    let landed = aimed.landed.state;
    // A solved aim has crossed the net.
    let crossing = aimed.landed.net.unwrap_or(crate::ball::flight::Crossing { time: 0.0, point: near.shot.contact });
    let net_height = court.net_height(crossing.point.x);
    let chance = shot_chance(near, aimed);
    let points = sampled(path, near);
    let until = points.last().map_or(0.0, |p| p.time);
    ShotFlight {
        elevation: aimed.elevation,
        azimuth: bearing(turn.turn2(aimed.launch.velocity.truncate())),
        speed: near.shot.speed,
        net: NetCrossing {
            time: crossing.time,
            x: turn.signs().0 * crossing.point.x,
            height: crossing.point.z,
            net_height,
            clearance: crossing.point.z - near.physics.radius - net_height,
        },
        landing: Landing {
            time: aimed.landed.time,
            place: turn.turn2(landed.position.truncate()),
            speed: landed.speed(),
            angle: landed.descent_angle(),
        },
        apex: path.arcs[0].apex().point.z,
        path: points,
        bounces: path.bounces.iter().map(|b| b.0).filter(|&t| t <= until + 1e-9).collect(),
        chance_in: chance.good,
    }
}
