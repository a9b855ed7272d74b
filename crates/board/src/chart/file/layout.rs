//! Layout of a chart file, and its conversion to the model. Lengths are metres; other units are in the names.
//! Players and conditions are written as in a board of version 1.
//!
//! Version 2 added `sessions`, facts about a point (`server` to `video_offset_s`) and about a serve (`serve`, `call`).
//! All of them are optional, so a chart of version 1 is one of version 2 without them.

use glam::DVec2;
use serde::{Serialize, Serializer};
use standpoint_geometry::{
    BallType, End, FlightLaw, Hand, Level, Stroke, Wing,
    units::{KMH, RPM},
};

use crate::chart::date::Date;
use crate::chart::ends::Ends;
use crate::chart::model::{Chart, ObservedShot, Point, SessionInfo, Setup, Who};
use crate::chart::score::{
    CourtSide, Ending, GameRule, LastSet, MatchFormat, Miss, ServeCall, ServeNumber, SetRule, SetsToWin, TieBreakEnds,
};
use crate::choices::Units;
use crate::file::v1::convert::{into, out};
use crate::file::v1::layout::{AirFile, BoardFile, CourtFile, Name, PlaceFile, PlayersFile, SettingsFile, SurfaceFile};

/// The version this program writes, and the last that it reads.
pub const VERSION: u32 = 2;

/// An optional value, left out when `None` and written without `Some(..)` otherwise.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seen<T>(pub Option<T>);

impl<T> Seen<T> {
    /// Whether it is left out.
    pub fn unseen(&self) -> bool {
        self.0.is_none()
    }
}

impl<T: Serialize> Serialize for Seen<T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match &self.0 {
            Some(value) => value.serialize(serializer),
            None => serializer.serialize_none(),
        }
    }
}

/// A chart without the mark of its file, as embedded in a board.
#[derive(Debug, Serialize)]
pub struct ChartPart {
    /// The version: in a file of its own, and in a board if it needs more than version 1.
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub standpoint_chart: Seen<u32>,
    pub title: String,
    pub notes: String,
    pub court: CourtFile,
    pub surface: SurfaceFile,
    pub ball: Name<BallType>,
    pub air: AirFile,
    pub flight_law: Name<FlightLaw>,
    pub players: PlayersFile,
    pub settings: SettingsFile,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub sessions: Vec<SessionFile>,
    pub points: Vec<PointFile>,
}

#[derive(Debug, Serialize)]
pub struct SessionFile {
    pub name: String,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub date: Seen<DateFile>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub format: Seen<FormatFile>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub first_server: Seen<Name<End>>,
    #[serde(skip_serializing_if = "String::is_empty")]
    pub video: String,
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub times_by_hand: bool,
}

/// A date as a text.
#[derive(Debug)]
pub struct DateFile(pub Date);

impl Serialize for DateFile {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(&self.0)
    }
}

#[derive(Debug, Serialize)]
pub struct FormatFile {
    pub sets: Name<SetsToWin>,
    pub game: Name<GameRule>,
    pub set: Name<SetRule>,
    pub last_set: Name<LastSet>,
    pub tie_break_ends: Name<TieBreakEnds>,
}

#[derive(Debug, Serialize)]
pub struct PointFile {
    #[serde(skip_serializing_if = "String::is_empty")]
    pub session: String,
    #[serde(skip_serializing_if = "String::is_empty")]
    pub label: String,
    pub ends: Name<Ends>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub server: Seen<Name<End>>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub side: Seen<Name<CourtSide>>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub winner: Seen<Name<End>>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub ending: Seen<Name<Ending>>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub miss: Seen<Name<Miss>>,
    #[serde(skip_serializing_if = "String::is_empty")]
    pub score: String,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub video_offset_s: Seen<f64>,
    pub shots: Vec<ShotFile>,
}

#[derive(Debug, Serialize)]
pub struct ShotFile {
    pub hitter: Name<End>,
    pub contact: PlaceFile,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub contact_height: Seen<f64>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub landing: Seen<PlaceFile>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub met: Seen<PlaceFile>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub stood: Seen<PlaceFile>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub hitter_place: Seen<PlaceFile>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub opponent_place: Seen<PlaceFile>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub stroke: Seen<Name<Stroke>>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub wing: Seen<Name<Wing>>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub speed_kmh: Seen<f64>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub topspin_rpm: Seen<f64>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub time_s: Seen<f64>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub met_time_s: Seen<f64>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub hitter_level: Seen<Name<Level>>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub hitter_hand: Seen<Name<Hand>>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub opponent_level: Seen<Name<Level>>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub opponent_hand: Seen<Name<Hand>>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub serve: Seen<Name<ServeNumber>>,
    #[serde(skip_serializing_if = "Seen::unseen")]
    pub call: Seen<Name<ServeCall>>,
}

impl From<&Chart> for ChartPart {
    fn from(chart: &Chart) -> Self {
        let board = chart.setup.board(Vec::new());
        Self {
            standpoint_chart: Seen(None),
            title: board.title,
            notes: chart.setup.notes.clone(),
            court: (&board.court).into(),
            surface: (&board.surface).into(),
            ball: Name(board.ball),
            air: (&board.air).into(),
            flight_law: Name(board.law),
            players: PlayersFile { near: (&board.near).into(), far: (&board.far).into() },
            settings: (&board.settings).into(),
            sessions: chart.setup.sessions.iter().map(SessionFile::from).collect(),
            points: chart.points.iter().map(PointFile::from).collect(),
        }
    }
}

impl ChartPart {
    /// The layout of a file of its own.
    pub fn marked(self) -> Self {
        Self { standpoint_chart: Seen(Some(VERSION)), ..self }
    }

    /// The layout inside a board: with a version if it needs more than version 1.
    pub fn in_board(self) -> Self {
        let more = !self.sessions.is_empty() || self.points.iter().any(PointFile::says_more);
        if more { self.marked() } else { self }
    }

    /// The chart, not checked yet.
    pub fn into_chart(self) -> Chart {
        let board = BoardFile {
            standpoint_board: 1,
            title: self.title,
            court: self.court,
            surface: self.surface,
            ball: self.ball,
            air: self.air,
            flight_law: self.flight_law,
            players: self.players,
            coached: Name(End::Near),
            units: Name(Units::Metres),
            theme: String::new(),
            settings: self.settings,
            pages: Vec::new(),
        };
        let sessions = self.sessions.into_iter().map(SessionFile::into_session).collect();
        let setup = Setup { notes: self.notes, sessions, ..Setup::of_board(&board.into_board()) };
        Chart { setup, points: self.points.into_iter().map(PointFile::into_point).collect() }
    }
}

impl From<&SessionInfo> for SessionFile {
    fn from(session: &SessionInfo) -> Self {
        Self {
            name: session.name.clone(),
            date: Seen(session.date.map(DateFile)),
            format: Seen(session.format.as_ref().map(FormatFile::from)),
            first_server: Seen(session.first_server.map(Name)),
            video: session.video.clone(),
            times_by_hand: session.times_by_hand,
        }
    }
}

impl SessionFile {
    fn into_session(self) -> SessionInfo {
        SessionInfo {
            name: self.name,
            date: self.date.0.map(|date| date.0),
            format: self.format.0.map(FormatFile::into_format),
            first_server: self.first_server.0.map(|name| name.0),
            video: self.video,
            times_by_hand: self.times_by_hand,
        }
    }
}

impl From<&MatchFormat> for FormatFile {
    fn from(format: &MatchFormat) -> Self {
        let MatchFormat { sets, game, set, last_set, tie_break_ends } = *format;
        Self {
            sets: Name(sets),
            game: Name(game),
            set: Name(set),
            last_set: Name(last_set),
            tie_break_ends: Name(tie_break_ends),
        }
    }
}

impl FormatFile {
    fn into_format(self) -> MatchFormat {
        MatchFormat {
            sets: self.sets.0,
            game: self.game.0,
            set: self.set.0,
            last_set: self.last_set.0,
            tie_break_ends: self.tie_break_ends.0,
        }
    }
}

impl From<&Point> for PointFile {
    fn from(point: &Point) -> Self {
        Self {
            session: point.session.clone(),
            label: point.label.clone(),
            ends: Name(point.ends),
            server: Seen(point.server.map(Name)),
            side: Seen(point.side.map(Name)),
            winner: Seen(point.winner.map(Name)),
            ending: Seen(point.ending.map(Name)),
            miss: Seen(point.miss.map(Name)),
            score: point.score.clone(),
            video_offset_s: Seen(point.video_offset.map(|offset| out(offset, 1.0))),
            shots: point.shots.iter().map(ShotFile::from).collect(),
        }
    }
}

impl PointFile {
    fn into_point(self) -> Point {
        Point {
            session: self.session,
            label: self.label,
            ends: self.ends.0,
            shots: self.shots.into_iter().map(ShotFile::into_shot).collect(),
            server: self.server.0.map(|name| name.0),
            side: self.side.0.map(|name| name.0),
            winner: self.winner.0.map(|name| name.0),
            ending: self.ending.0.map(|name| name.0),
            miss: self.miss.0.map(|name| name.0),
            score: self.score,
            video_offset: self.video_offset_s.0.map(|offset| into(offset, 1.0)),
        }
    }

    /// Whether it needs more than version 1.
    fn says_more(&self) -> bool {
        let told = self.server.0.is_some() || self.side.0.is_some() || self.winner.0.is_some();
        let ended = self.ending.0.is_some() || self.miss.0.is_some() || !self.score.is_empty();
        let served = |shot: &ShotFile| shot.serve.0.is_some() || shot.call.0.is_some();
        told || ended || self.video_offset_s.0.is_some() || self.shots.iter().any(served)
    }
}

impl From<&ObservedShot> for ShotFile {
    fn from(shot: &ObservedShot) -> Self {
        let place = |place: Option<DVec2>| Seen(place.map(PlaceFile::from));
        let number = |value: Option<f64>, unit: f64| Seen(value.map(|value| out(value, unit)));
        Self {
            hitter: Name(shot.hitter),
            contact: shot.contact.into(),
            contact_height: number(shot.contact_height, 1.0),
            landing: place(shot.landing),
            met: place(shot.met),
            stood: place(shot.stood),
            hitter_place: place(shot.hitter_place),
            opponent_place: place(shot.opponent_place),
            stroke: Seen(shot.stroke.map(Name)),
            wing: Seen(shot.wing.map(Name)),
            speed_kmh: number(shot.speed, KMH),
            topspin_rpm: number(shot.topspin, RPM),
            time_s: number(shot.time, 1.0),
            met_time_s: number(shot.met_time, 1.0),
            hitter_level: Seen(shot.struck_by.level.map(Name)),
            hitter_hand: Seen(shot.struck_by.hand.map(Name)),
            opponent_level: Seen(shot.against.level.map(Name)),
            opponent_hand: Seen(shot.against.hand.map(Name)),
            serve: Seen(shot.serve.map(Name)),
            call: Seen(shot.call.map(Name)),
        }
    }
}

impl ShotFile {
    fn into_shot(self) -> ObservedShot {
        let place = |place: Seen<PlaceFile>| place.0.map(PlaceFile::into_place);
        let number = |value: Seen<f64>, unit: f64| value.0.map(|value| into(value, unit));
        ObservedShot {
            hitter: self.hitter.0,
            contact: self.contact.into_place(),
            contact_height: number(self.contact_height, 1.0),
            landing: place(self.landing),
            met: place(self.met),
            stood: place(self.stood),
            hitter_place: place(self.hitter_place),
            opponent_place: place(self.opponent_place),
            stroke: self.stroke.0.map(|name| name.0),
            wing: self.wing.0.map(|name| name.0),
            speed: number(self.speed_kmh, KMH),
            topspin: number(self.topspin_rpm, RPM),
            time: number(self.time_s, 1.0),
            met_time: number(self.met_time_s, 1.0),
            struck_by: Who { level: self.hitter_level.0.map(|n| n.0), hand: self.hitter_hand.0.map(|n| n.0) },
            against: Who { level: self.opponent_level.0.map(|n| n.0), hand: self.opponent_hand.0.map(|n| n.0) },
            serve: self.serve.0.map(|name| name.0),
            call: self.call.0.map(|name| name.0),
        }
    }
}
