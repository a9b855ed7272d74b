//! Layout of version 1. Lengths are metres; other units are in the names.

use serde::{Serialize, Serializer};
use standpoint_geometry::{
    BackhandGrip, BallType, End, FlightLaw, Hand, Level, NetPosts, ReadyArea, Stage, Stroke, SurfaceKind,
};

use crate::choices::Units;
use crate::file::fields::Named;

/// An enum written by its name.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Name<T>(pub T);

impl<T: Named> Serialize for Name<T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_unit_variant("Choice", 0, self.0.name())
    }
}

#[derive(Debug, Serialize)]
pub struct BoardFile {
    pub standpoint_board: u32,
    pub title: String,
    pub court: CourtFile,
    pub surface: SurfaceFile,
    pub ball: Name<BallType>,
    pub air: AirFile,
    pub flight_law: Name<FlightLaw>,
    pub players: PlayersFile,
    pub coached: Name<End>,
    pub units: Name<Units>,
    pub theme: String,
    pub settings: SettingsFile,
    pub pages: Vec<PageFile>,
}

#[derive(Debug, Serialize)]
pub struct CourtFile {
    pub stage: Name<Stage>,
    pub net: Name<NetPosts>,
    pub run_off: RunOffFile,
}

#[derive(Debug, Serialize)]
pub struct RunOffFile {
    pub behind: f64,
    pub beside: f64,
}

#[derive(Debug, Serialize)]
pub struct SurfaceFile {
    pub kind: Name<SurfaceKind>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub measured: Option<BounceFile>,
}

#[derive(Debug, Serialize)]
pub struct BounceFile {
    pub friction: f64,
    pub restitution: f64,
    pub grip_restitution: f64,
}

#[derive(Debug, Serialize)]
pub struct AirFile {
    pub temperature_c: f64,
    pub altitude_m: f64,
}

#[derive(Debug, Serialize)]
pub struct PlayersFile {
    pub near: PlayerFile,
    pub far: PlayerFile,
}

#[derive(Debug, Serialize)]
pub struct PlayerFile {
    pub name: String,
    pub hand: Name<Hand>,
    pub backhand: Name<BackhandGrip>,
    pub figures: FiguresFile,
}

#[derive(Debug, Serialize)]
pub enum FiguresFile {
    Level(Name<Level>),
    Custom {
        bounces: u8,
        movement: MovementFile,
        reach: ReachFile,
        forehand: WingFile,
        backhand: WingFile,
        serve: ServeFile,
    },
}

#[derive(Debug, Serialize)]
pub struct MovementFile {
    pub reaction_s: f64,
    pub top_speed_m_s: f64,
    pub time_constant_s: f64,
    pub backward_factor: f64,
    pub follow_through_s: f64,
}

#[derive(Debug, Serialize)]
pub struct ReachFile {
    pub forehand: f64,
    pub backhand: f64,
    pub ahead: f64,
    pub overhead: f64,
}

#[derive(Debug, Serialize)]
pub struct WingFile {
    pub speed_kmh: f64,
    pub topspin_rpm: f64,
    pub spread_up_deg: f64,
    pub spread_side_deg: f64,
}

#[derive(Debug, Serialize)]
pub struct ServeFile {
    pub first_speed_kmh: f64,
    pub second_speed_kmh: f64,
    pub height: f64,
    pub topspin_rpm: f64,
    pub spread_deg: f64,
}

#[derive(Debug, Serialize)]
pub struct SettingsFile {
    pub edge_chance: f64,
    pub zone_tolerance: f64,
    pub ready: Name<ReadyArea>,
}

#[derive(Debug, Serialize)]
pub struct PageFile {
    pub title: String,
    pub notes: String,
    pub shots: Vec<ShotFile>,
}

#[derive(Debug, Serialize)]
pub struct ShotFile {
    pub hitter: Name<End>,
    pub stroke: Name<Stroke>,
    pub contact: ContactFile,
    pub target: PlaceFile,
    pub speed_kmh: f64,
    pub topspin_rpm: f64,
    pub sidespin_rpm: f64,
    pub receipt: ReceiptFile,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hitter_place: Option<PlaceFile>,
    pub opponent_place: PlaceFile,
}

#[derive(Debug, Serialize)]
pub struct ContactFile {
    pub x: f64,
    pub y: f64,
    pub height: f64,
}

#[derive(Debug, Serialize)]
pub struct PlaceFile {
    pub x: f64,
    pub y: f64,
}

#[derive(Debug, Serialize)]
pub enum ReceiptFile {
    Best,
    Near { x: f64, y: f64 },
}
