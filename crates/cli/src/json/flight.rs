//! The shot's flight and its own quality in JSON.

use serde::Serialize;
use standpoint_geometry::{Chance, Landing, NetCrossing, PathPoint, Quality, Shot, ShotFlight};

use super::Num;

#[derive(Debug, Serialize)]
pub(super) struct FlightJson {
    launch: LaunchJson,
    net: NetJson,
    apex_height: Num,
    landing: LandingJson,
    bounce_times: Vec<Num>,
    chance_in: Num,
    #[serde(skip_serializing_if = "Option::is_none")]
    path: Option<Vec<[Num; 4]>>,
}

#[derive(Debug, Serialize)]
struct LaunchJson {
    elevation_rad: Num,
    azimuth_rad: Num,
    speed: Num,
    topspin_rad_s: Num,
    sidespin_rad_s: Num,
}

#[derive(Debug, Serialize)]
struct NetJson {
    x: Num,
    height: Num,
    net_height: Num,
    clearance: Num,
    time: Num,
}

impl From<&NetCrossing> for NetJson {
    fn from(net: &NetCrossing) -> Self {
        Self {
            x: Num(net.x),
            height: Num(net.height),
            net_height: Num(net.net_height),
            clearance: Num(net.clearance),
            time: Num(net.time),
        }
    }
}

#[derive(Debug, Serialize)]
struct LandingJson {
    x: Num,
    y: Num,
    time: Num,
    speed: Num,
    angle_rad: Num,
}

impl From<&Landing> for LandingJson {
    fn from(landing: &Landing) -> Self {
        Self {
            x: Num(landing.place.x),
            y: Num(landing.place.y),
            time: Num(landing.time),
            speed: Num(landing.speed),
            angle_rad: Num(landing.angle),
        }
    }
}

pub(super) fn path(points: &[PathPoint]) -> Vec<[Num; 4]> {
    points.iter().map(|p| [Num(p.time), Num(p.point.x), Num(p.point.y), Num(p.point.z)]).collect()
}

pub(super) fn flight(flight: &ShotFlight, shot: &Shot, paths: bool) -> FlightJson {
    FlightJson {
        launch: LaunchJson {
            elevation_rad: Num(flight.elevation),
            azimuth_rad: Num(flight.azimuth),
            speed: Num(flight.speed),
            topspin_rad_s: Num(shot.topspin),
            sidespin_rad_s: Num(shot.sidespin),
        },
        net: (&flight.net).into(),
        apex_height: Num(flight.apex),
        landing: (&flight.landing).into(),
        bounce_times: flight.bounces.iter().copied().map(Num).collect(),
        chance_in: Num(flight.chance_in),
        path: paths.then(|| path(&flight.path)),
    }
}

/// The hitter's shot judged on its own.
#[derive(Debug, Serialize)]
pub struct QualityJson {
    chance: ChanceJson,
    clearance: Num,
    net_height: Num,
    to_back_line: Num,
    to_side_line: Num,
    vertical_window: WindowJson,
    lateral_window: WindowJson,
    length_available: Num,
    time_to_landing: Num,
}

#[derive(Debug, Serialize)]
struct ChanceJson {
    good: Num,
    net: Num,
    long: Num,
    wide: Num,
}

impl From<&Chance> for ChanceJson {
    fn from(c: &Chance) -> Self {
        Self { good: Num(c.good), net: Num(c.net), long: Num(c.long), wide: Num(c.wide) }
    }
}

#[derive(Debug, Serialize)]
struct WindowJson {
    least_rad: Num,
    greatest_rad: Num,
    width_rad: Num,
}

impl From<(f64, f64)> for WindowJson {
    fn from((least, greatest): (f64, f64)) -> Self {
        Self { least_rad: Num(least), greatest_rad: Num(greatest), width_rad: Num(greatest - least) }
    }
}

impl From<&Quality> for QualityJson {
    fn from(q: &Quality) -> Self {
        Self {
            chance: (&q.chance).into(),
            clearance: Num(q.clearance),
            net_height: Num(q.net_height),
            to_back_line: Num(q.to_back_line),
            to_side_line: Num(q.to_side_line),
            vertical_window: q.vertical.into(),
            lateral_window: q.lateral.into(),
            length_available: Num(q.length_available),
            time_to_landing: Num(q.time_to_landing),
        }
    }
}
