//! The chain in JSON.

use glam::DVec2;
use serde::Serialize;
use standpoint_geometry::{
    Answer, Bisector, Contour, End, HabitCase, HabitUsed, Interception, Outcome, Place, Play, Recovery, Reply, Shot,
    Third, Way, Wedge, WhatIf, worth::Basis,
};

use super::{
    Ground, Num, Space,
    flight::{FlightJson, flight, path},
};
use crate::{load::Asked, names};

/// A player.
#[derive(Debug, Serialize)]
pub struct PlayerJson {
    end: &'static str,
    name: String,
    place: Ground,
}

impl PlayerJson {
    /// The player at an end and where they are when the ball is struck.
    #[must_use]
    pub fn new(asked: &Asked, end: End, place: DVec2) -> Self {
        Self { end: names::end(end), name: asked.board.card(end).name.clone(), place: place.into() }
    }
}

/// The shot of the question.
#[derive(Debug, Serialize)]
pub struct ShotJson {
    stroke: &'static str,
    contact: Space,
    target: Ground,
    speed: Num,
    topspin_rad_s: Num,
    sidespin_rad_s: Num,
}

impl From<&Shot> for ShotJson {
    fn from(shot: &Shot) -> Self {
        Self {
            stroke: names::stroke(shot.stroke),
            contact: shot.contact.into(),
            target: shot.target.into(),
            speed: Num(shot.speed),
            topspin_rad_s: Num(shot.topspin),
            sidespin_rad_s: Num(shot.sidespin),
        }
    }
}

/// The shot's flight and outcome.
#[derive(Debug, Serialize)]
pub struct AnswerJson {
    basis: &'static str,
    flight: FlightJson,
    outcome: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    winner: Option<WinnerJson>,
    #[serde(skip_serializing_if = "Option::is_none")]
    receipt: Option<ReceiptJson>,
    #[serde(flatten)]
    play: Option<PlayJson>,
    #[serde(skip_serializing_if = "Option::is_none")]
    returner: Option<ReturnerJson>,
}

/// The receiver's side of a serve: what the server can do, and where to wait for it.
#[derive(Debug, Serialize)]
struct ReturnerJson {
    receipt: ReceiptJson,
    #[serde(flatten)]
    play: PlayJson,
}

impl AnswerJson {
    /// An answer to a shot, with the paths of the balls if wanted.
    #[must_use]
    pub fn new(answer: &Answer, shot: &Shot, paths: bool) -> Self {
        let mut json = Self {
            basis: match answer.basis {
                Basis::Solved => "solved",
                Basis::Level => "level",
            },
            flight: flight(&answer.shot, shot, paths),
            outcome: names::outcome(answer),
            winner: None,
            receipt: None,
            play: None,
            returner: answer
                .returner
                .as_ref()
                .map(|play| ReturnerJson { receipt: (&play.receipt).into(), play: PlayJson::new(play, paths) }),
        };
        match &answer.outcome {
            Outcome::Winner { late_by, closest } => {
                json.winner = Some(WinnerJson { late_by: Num(*late_by), closest: (*closest).into() });
            }
            Outcome::NoReply(receipt) => json.receipt = Some(receipt.into()),
            Outcome::Play(play) => {
                json.receipt = Some((&play.receipt).into());
                json.play = Some(PlayJson::new(play, paths));
            }
        }
        json
    }
}

#[derive(Debug, Serialize)]
struct WinnerJson {
    late_by: Num,
    closest: Space,
}

#[derive(Debug, Serialize)]
struct ReceiptJson {
    contact: Space,
    time: Num,
    place: Ground,
    wing: &'static str,
    bounces: u8,
    time_to_spare: Num,
    reach: Num,
    pressure: Num,
}

impl From<&Interception> for ReceiptJson {
    fn from(r: &Interception) -> Self {
        Self {
            contact: r.contact.into(),
            time: Num(r.time),
            place: r.place.into(),
            wing: names::wing(r.wing),
            bounces: r.bounces,
            time_to_spare: Num(r.time_to_spare),
            reach: Num(r.reach),
            pressure: Num(r.pressure),
        }
    }
}

#[derive(Debug, Serialize)]
struct PlayJson {
    wedge: WedgeJson,
    bisector: BisectorJson,
    best_replies: Vec<ReplyJson>,
    replies_weighed: usize,
    spot: PlaceJson,
    depth_range: [Num; 2],
    at_net: bool,
    middle: PlaceJson,
    zone: Option<ZoneJson>,
    wider_zones: Vec<ZoneJson>,
    recovery: RecoveryJson,
    #[serde(skip_serializing_if = "Option::is_none")]
    habits: Option<HabitsJson>,
}

/// What the habits of who strikes next changed.
#[derive(Debug, Serialize)]
struct HabitsJson {
    case: HabitCaseJson,
    across: WayJson,
    middle: WayJson,
    line: WayJson,
    spot_without: PlaceJson,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "snake_case")]
enum HabitCaseJson {
    Rally { wing: &'static str, from: &'static str, hurried: bool },
    Serve { side: &'static str, number: u8 },
}

#[derive(Debug, Serialize)]
struct WayJson {
    counted: u32,
    expected: Num,
    share: Num,
}

impl From<&HabitUsed> for HabitsJson {
    fn from(used: &HabitUsed) -> Self {
        let way = |way: Way| WayJson {
            counted: used.counts[way as usize],
            expected: Num(used.expected[way as usize]),
            share: Num(used.shares[way as usize]),
        };
        Self {
            case: match used.case {
                HabitCase::Rally(wing, from, hurried) => HabitCaseJson::Rally {
                    wing: names::wing(wing),
                    from: match from {
                        Third::Left => "left",
                        Third::Middle => "middle",
                        Third::Right => "right",
                    },
                    hurried,
                },
                HabitCase::Serve { deuce, second } => HabitCaseJson::Serve {
                    side: if deuce { "deuce" } else { "ad" },
                    number: if second { 2 } else { 1 },
                },
            },
            across: way(Way::Across),
            middle: way(Way::Middle),
            line: way(Way::Line),
            spot_without: used.without.into(),
        }
    }
}

impl PlayJson {
    fn new(play: &Play, paths: bool) -> Self {
        Self {
            wedge: (&play.wedge).into(),
            bisector: (&play.bisector).into(),
            best_replies: play.best.iter().map(|reply| self::reply(reply, paths)).collect(),
            replies_weighed: play.replies_weighed,
            spot: play.spot.into(),
            depth_range: [Num(play.depth_range.0), Num(play.depth_range.1)],
            at_net: play.at_net,
            middle: play.middle.into(),
            zone: play.contours.first().map(ZoneJson::from),
            wider_zones: play.contours.iter().skip(1).map(ZoneJson::from).collect(),
            recovery: (&play.recovery).into(),
            habits: play.habit.as_ref().map(Into::into),
        }
    }
}

#[derive(Debug, Serialize)]
struct WedgeJson {
    apex: Ground,
    left_deg: Num,
    right_deg: Num,
    width_deg: Num,
    left_landing: Ground,
    right_landing: Ground,
}

impl From<&Wedge> for WedgeJson {
    fn from(w: &Wedge) -> Self {
        Self {
            apex: w.apex.into(),
            left_deg: Num(w.left.to_degrees()),
            right_deg: Num(w.right.to_degrees()),
            width_deg: Num(w.width().to_degrees()),
            left_landing: w.left_landing.into(),
            right_landing: w.right_landing.into(),
        }
    }
}

#[derive(Debug, Serialize)]
struct BisectorJson {
    azimuth_deg: Num,
    x: Num,
    y: Num,
    exposure: Num,
    offset: Num,
}

impl From<&Bisector> for BisectorJson {
    fn from(b: &Bisector) -> Self {
        Self {
            azimuth_deg: Num(b.azimuth.to_degrees()),
            x: Num(b.place.x),
            y: Num(b.place.y),
            exposure: Num(b.exposure),
            offset: Num(b.offset),
        }
    }
}

#[derive(Debug, Serialize)]
struct ReplyJson {
    name: &'static str,
    stroke: &'static str,
    speed: Num,
    topspin_rad_s: Num,
    elevation_rad: Num,
    azimuth_rad: Num,
    landing: Ground,
    landing_time: Num,
    chance_in: Num,
    share: Num,
    wins_outright: Num,
    time_to_spare: Num,
    met_at: Space,
    exposure: Num,
    #[serde(skip_serializing_if = "Option::is_none")]
    path: Option<Vec<[Num; 4]>>,
}

fn reply(r: &Reply, paths: bool) -> ReplyJson {
    ReplyJson {
        name: names::reply(r.name),
        stroke: names::stroke(r.stroke),
        speed: Num(r.speed),
        topspin_rad_s: Num(r.topspin),
        elevation_rad: Num(r.elevation),
        azimuth_rad: Num(r.azimuth),
        landing: r.landing.into(),
        landing_time: Num(r.landing_time),
        chance_in: Num(r.chance_in),
        share: Num(r.share),
        wins_outright: Num(r.wins_outright),
        time_to_spare: Num(r.time_to_spare),
        met_at: r.met_at.into(),
        exposure: Num(r.exposure),
        path: paths.then(|| path(&r.path)),
    }
}

/// Where the board sends the hitter instead of to the spot.
#[derive(Debug, Serialize)]
pub struct ChosenJson {
    x: Num,
    y: Num,
    exposure: Num,
    uncovered: Num,
    reply: ReplyJson,
}

impl ChosenJson {
    /// The place and the reply that punishes it most.
    #[must_use]
    pub fn new(chosen: &WhatIf, paths: bool) -> Self {
        Self {
            x: Num(chosen.place.place.x),
            y: Num(chosen.place.place.y),
            exposure: Num(chosen.place.exposure),
            uncovered: Num(chosen.uncovered),
            reply: reply(&chosen.reply, paths),
        }
    }
}

#[derive(Debug, Serialize)]
struct PlaceJson {
    x: Num,
    y: Num,
    exposure: Num,
}

impl From<Place> for PlaceJson {
    fn from(p: Place) -> Self {
        Self { x: Num(p.place.x), y: Num(p.place.y), exposure: Num(p.exposure) }
    }
}

#[derive(Debug, Serialize)]
struct ZoneJson {
    above_least: Num,
    rings: Vec<Vec<[Num; 2]>>,
}

impl From<&Contour> for ZoneJson {
    fn from(contour: &Contour) -> Self {
        let ring = |ring: &Vec<DVec2>| ring.iter().map(|p| [Num(p.x), Num(p.y)]).collect();
        Self { above_least: Num(contour.above_least), rings: contour.rings.iter().map(ring).collect() }
    }
}

#[derive(Debug, Serialize)]
struct RecoveryJson {
    start: Ground,
    distance: Num,
    available: Num,
    needed: Num,
    short_by: Num,
    reached: PlaceJson,
    extra_exposure: Num,
}

impl From<&Recovery> for RecoveryJson {
    fn from(r: &Recovery) -> Self {
        Self {
            start: r.start.into(),
            distance: Num(r.distance),
            available: Num(r.available),
            needed: Num(r.needed),
            short_by: Num(r.short_by),
            reached: r.reached.into(),
            extra_exposure: Num(r.extra_exposure),
        }
    }
}
