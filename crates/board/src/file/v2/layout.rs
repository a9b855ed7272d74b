//! Layout of version 2.

use serde::Serialize;
use standpoint_geometry::{BackhandGrip, BallType, End, FlightLaw, Hand, ReadyArea, Stroke};

use crate::chart::file::layout::{ChartPart, Seen};
use crate::choices::Units;
use crate::file::habits::HabitsFile;
use crate::file::v1::layout::{
    AirFile, ContactFile, CourtFile, FiguresFile, Name, PlaceFile, ReceiptFile, SettingsFile, SurfaceFile,
};
use crate::marks::{Ink, Layer, Pattern, Step};

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
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub chart: Seen<ChartPart>,
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
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub habits: Seen<HabitsFile>,
}

#[derive(Debug, Serialize)]
pub struct PageFile {
    pub title: String,
    pub notes: String,
    pub cues: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub drill: Option<DrillFile>,
    pub shots: Vec<ShotFile>,
    pub marks: Vec<MarkFile>,
    pub hidden_layers: Vec<Name<Layer>>,
}

#[derive(Debug, Serialize)]
pub struct DrillFile {
    pub feed: String,
    pub targets: String,
    pub progression: String,
    pub equipment: String,
}

#[derive(Debug, Serialize)]
pub struct ShotFile {
    pub hitter: Name<End>,
    pub follows: bool,
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
    #[serde(skip_serializing_if = "Option::is_none")]
    pub recover_to: Option<PlaceFile>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub recover_in: Option<Name<ReadyArea>>,
}

#[derive(Debug, Serialize)]
pub struct MarkFile {
    pub id: u32,
    pub layer: Name<Layer>,
    pub ink: Name<Ink>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub appears: Option<AppearsFile>,
    pub form: FormFile,
}

#[derive(Debug, Serialize)]
pub struct AppearsFile {
    pub shot: u32,
    pub step: Name<Step>,
}

#[derive(Debug, Serialize)]
pub enum FormFile {
    Pen { points: Vec<(f64, f64)>, pattern: Name<Pattern> },
    Arrow { from: PlaceFile, to: PlaceFile, bend: f64, pattern: Name<Pattern> },
    Text { at: PlaceFile, text: String, size: f64 },
    Cone { at: PlaceFile },
    Basket { at: PlaceFile },
    Person { at: PlaceFile, letter: String },
    Zone { from: PlaceFile, to: PlaceFile, round: bool },
}
