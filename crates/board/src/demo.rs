//! The demo board and new boards.

use std::sync::Arc;

use glam::{DVec2, DVec3};
use standpoint_geometry::{
    Air, BallType, End, FlightLaw, Level, ReceiptChoice, Settings, Shot, Stroke, SurfaceKind,
    units::{KMH, RPM},
};
use standpoint_language::tr;

use crate::choices::{CourtChoice, SurfaceChoice, Units};
use crate::marks::Marks;
use crate::model::{Board, Drill, Page, ShotSpec};
use crate::player_card::PlayerCard;

impl Board {
    /// The first-start demo: a cross-court forehand from the deuce corner, the usual example of why the place to stand
    /// is not the middle of the baseline. Club and players are invented.
    #[must_use]
    pub fn demo() -> Self {
        Self {
            title: tr!("Larkfield Tennis Club: where to stand after a cross-court forehand"),
            pages: vec![Arc::new(Page {
                title: tr!("From the deuce corner"),
                notes: tr!("Mara has just struck a cross-court forehand from her deuce corner.\n\
                     Where should she be when Ivo strikes it back? Drag the ball and see."),
                cues: vec![tr!("Recover before you look"), tr!("Split as Ivo strikes")],
                shots: vec![ShotSpec::cross_court()],
                drill: Drill::default(),
                marks: Marks::default(),
            })],
            ..Self::blank()
        }
    }

    /// A new board: a full hard court of medium pace at sea level, two club players, and one page with one shot to
    /// start from.
    #[must_use]
    pub fn blank() -> Self {
        Self {
            title: tr!("New board"),
            court: CourtChoice::default(),
            surface: SurfaceChoice::usual(SurfaceKind::Hard),
            ball: BallType::Type2,
            air: Air { temperature_c: 20.0, altitude_m: 0.0 },
            law: FlightLaw::SpinDependent,
            near: PlayerCard::of_level("Mara Quell", Level::Tournament),
            far: PlayerCard::of_level("Ivo Tander", Level::Tournament),
            coached: End::Near,
            units: Units::Metres,
            theme: "hard".to_owned(),
            settings: Settings::default(),
            pages: vec![Arc::new(Page::blank())],
            chart: None,
        }
    }
}

impl Page {
    /// A page with one shot to start from.
    #[must_use]
    pub fn blank() -> Self {
        Self {
            title: tr!("Page"),
            notes: String::new(),
            cues: Vec::new(),
            drill: Drill::default(),
            shots: vec![ShotSpec::cross_court()],
            marks: Marks::default(),
        }
    }
}

impl ShotSpec {
    /// A topspin forehand from the near deuce corner, cross-court and deep; the opponent waits behind the far baseline.
    #[must_use]
    pub fn cross_court() -> Self {
        Self {
            hitter_end: End::Near,
            shot: Shot {
                contact: DVec3::new(3.2, -12.4, 0.9),
                stroke: Stroke::Topspin,
                target: DVec2::new(-2.9, 9.6),
                speed: 100.0 * KMH,
                topspin: 2000.0 * RPM,
                sidespin: 0.0,
            },
            receipt: ReceiptChoice::Best,
            hitter_place: None,
            opponent_place: DVec2::new(-0.6, 12.6),
            follows: false,
            recover_to: None,
            recover_in: None,
        }
    }
}
