//! Reads the layout from the tree and notes every problem. The additions of version 2 are not allowed in a chart of
//! version 1.

use standpoint_language::mark;

use super::layout::{ChartPart, DateFile, FormatFile, PointFile, Seen, SessionFile, ShotFile, VERSION};
use crate::file::fields::{Diagnostics, Named, Parts, choice_named};
use crate::file::tree::{Node, Value, shortened};
use crate::file::v1::layout::{Name, PlaceFile};
use crate::file::v1::read::{air, court, name, place, players, settings, surface};
use crate::problem::ProblemKind;

/// The mark of a file, then the parts.
const CHART: &[&str] = &[
    "standpoint_chart",
    "title",
    "notes",
    "court",
    "surface",
    "ball",
    "air",
    "flight_law",
    "players",
    "settings",
    "points",
    "sessions",
];
const SESSION: &[&str] = &["name", "date", "format", "first_server", "video", "times_by_hand"];
const FORMAT: &[&str] = &["sets", "game", "set", "last_set", "tie_break_ends"];
const POINT: &[&str] =
    &["session", "label", "ends", "shots", "server", "side", "winner", "ending", "miss", "score", "video_offset_s"];
const SHOT: &[&str] = &[
    "hitter",
    "contact",
    "contact_height",
    "landing",
    "met",
    "stood",
    "hitter_place",
    "opponent_place",
    "stroke",
    "wing",
    "speed_kmh",
    "topspin_rpm",
    "time_s",
    "met_time_s",
    "hitter_level",
    "hitter_hand",
    "opponent_level",
    "opponent_hand",
    "serve",
    "call",
];
const PLACE: &[&str] = &["x", "y"];

/// The parts of a version; its additions are last.
struct Known {
    chart: &'static [&'static str],
    point: &'static [&'static str],
    shot: &'static [&'static str],
}

impl Known {
    fn of(version: u32) -> Self {
        let added = usize::from(version < 2);
        Self {
            chart: &CHART[..CHART.len() - added],
            point: &POINT[..POINT.len() - 7 * added],
            shot: &SHOT[..SHOT.len() - 2 * added],
        }
    }
}

/// Reads a chart of a known version.
pub fn read(notes: &mut Diagnostics, root: &Node<'_>, version: u32) -> ChartPart {
    let known = Known::of(version);
    let chart = Parts::of(notes, Some(root), "", known.chart);
    parts(notes, &chart, &known)
}

/// Reads a chart that stands in a board. Without a mark it is of version 1.
pub fn read_part(notes: &mut Diagnostics, node: &Node<'_>, role: &str) -> ChartPart {
    let version = version_of(notes, node, role);
    let known = Known::of(version);
    let unmarked = usize::from(version < 2);
    let chart = Parts::of(notes, Some(node), role, &known.chart[unmarked..]);
    parts(notes, &chart, &known)
}

/// The version named in the chart of a board; a wrong one is reported and read as the last version.
fn version_of(n: &mut Diagnostics, node: &Node<'_>, role: &str) -> u32 {
    let Value::Struct(_, fields) = &node.value else { return 1 };
    let Some(mark) = fields.iter().find(|field| field.name == CHART[0]) else { return 1 };
    let kind = match mark.node.value {
        Value::Number(number) if number.total_cmp(&f64::from(VERSION)).is_eq() => return VERSION,
        Value::Number(number) if number > f64::from(VERSION) && number.fract() == 0.0 => {
            ProblemKind::NewerVersion { found: number as u64, known: u64::from(VERSION) }
        }
        _ => {
            let found = match &mark.node.value {
                Value::Number(number) => number.to_string(),
                other => other.describe(),
            };
            ProblemKind::NoSuchVersion { found, mark: CHART[0], last: VERSION }
        }
    };
    n.add(mark.node.at, format!("{role}.{}", CHART[0]), kind);
    VERSION
}

fn parts(n: &mut Diagnostics, chart: &Parts<'_, '_>, known: &Known) -> ChartPart {
    ChartPart {
        standpoint_chart: Seen(None),
        title: chart.text(n, "title"),
        notes: chart.text(n, "notes"),
        court: court(n, chart),
        surface: surface(n, chart),
        ball: name(n, chart, "ball"),
        air: air(n, chart),
        flight_law: name(n, chart, "flight_law"),
        players: players(n, chart),
        settings: settings(n, chart),
        sessions: sessions(n, chart),
        points: points(n, chart, known),
    }
}

fn points(n: &mut Diagnostics, chart: &Parts<'_, '_>, known: &Known) -> Vec<PointFile> {
    let mut points = Vec::new();
    for (i, node) in chart.list(n, "points").iter().enumerate() {
        let point = Parts::of(n, Some(node), &format!("{}[{i}]", chart.role("points")), known.point);
        points.push(PointFile {
            session: seen_text(n, &point, "session"),
            label: seen_text(n, &point, "label"),
            ends: name(n, &point, "ends"),
            server: seen_name(n, &point, "server"),
            side: seen_name(n, &point, "side"),
            winner: seen_name(n, &point, "winner"),
            ending: seen_name(n, &point, "ending"),
            miss: seen_name(n, &point, "miss"),
            score: seen_text(n, &point, "score"),
            video_offset_s: seen_number(n, &point, "video_offset_s"),
            shots: shots(n, &point, known),
        });
    }
    points
}

fn shots(n: &mut Diagnostics, point: &Parts<'_, '_>, known: &Known) -> Vec<ShotFile> {
    let mut shots = Vec::new();
    for (i, node) in point.list(n, "shots").iter().enumerate() {
        let shot = Parts::of(n, Some(node), &format!("{}[{i}]", point.role("shots")), known.shot);
        let contact = shot.parts(n, "contact", PLACE);
        shots.push(ShotFile {
            hitter: name(n, &shot, "hitter"),
            contact: place(n, &contact),
            contact_height: seen_number(n, &shot, "contact_height"),
            landing: seen_place(n, &shot, "landing"),
            met: seen_place(n, &shot, "met"),
            stood: seen_place(n, &shot, "stood"),
            hitter_place: seen_place(n, &shot, "hitter_place"),
            opponent_place: seen_place(n, &shot, "opponent_place"),
            stroke: seen_name(n, &shot, "stroke"),
            wing: seen_name(n, &shot, "wing"),
            speed_kmh: seen_number(n, &shot, "speed_kmh"),
            topspin_rpm: seen_number(n, &shot, "topspin_rpm"),
            time_s: seen_number(n, &shot, "time_s"),
            met_time_s: seen_number(n, &shot, "met_time_s"),
            hitter_level: seen_name(n, &shot, "hitter_level"),
            hitter_hand: seen_name(n, &shot, "hitter_hand"),
            opponent_level: seen_name(n, &shot, "opponent_level"),
            opponent_hand: seen_name(n, &shot, "opponent_hand"),
            serve: seen_name(n, &shot, "serve"),
            call: seen_name(n, &shot, "call"),
        });
    }
    shots
}

/// Sessions, where they are noted.
fn sessions(n: &mut Diagnostics, chart: &Parts<'_, '_>) -> Vec<SessionFile> {
    if chart.optional("sessions").is_none() {
        return Vec::new();
    }
    let mut sessions = Vec::new();
    for (i, node) in chart.list(n, "sessions").iter().enumerate() {
        let session = Parts::of(n, Some(node), &format!("{}[{i}]", chart.role("sessions")), SESSION);
        sessions.push(SessionFile {
            name: session.text(n, "name"),
            date: date(n, &session),
            format: format(n, &session),
            first_server: seen_name(n, &session, "first_server"),
            video: seen_text(n, &session, "video"),
            times_by_hand: session.optional("times_by_hand").is_some() && session.flag(n, "times_by_hand"),
        });
    }
    sessions
}

fn date(n: &mut Diagnostics, session: &Parts<'_, '_>) -> Seen<DateFile> {
    let Some(node) = session.optional("date") else { return Seen(None) };
    let Value::Text(text) = &node.value else {
        return Seen(wrong(n, session, "date", node, mark("a text in quotes")));
    };
    let date = text.parse();
    if date.is_err() {
        n.add(node.at, session.role("date"), ProblemKind::NotADate { found: shortened(text) });
    }
    Seen(date.ok().map(DateFile))
}

fn format(n: &mut Diagnostics, session: &Parts<'_, '_>) -> Seen<FormatFile> {
    Seen(session.optional("format").map(|node| {
        let format = Parts::of(n, Some(node), &session.role("format"), FORMAT);
        FormatFile {
            sets: name(n, &format, "sets"),
            game: name(n, &format, "game"),
            set: name(n, &format, "set"),
            last_set: name(n, &format, "last_set"),
            tie_break_ends: name(n, &format, "tie_break_ends"),
        }
    }))
}

fn seen_place(n: &mut Diagnostics, shot: &Parts<'_, '_>, part: &'static str) -> Seen<PlaceFile> {
    Seen(shot.optional(part).map(|node| {
        let parts = Parts::of(n, Some(node), &shot.role(part), PLACE);
        place(n, &parts)
    }))
}

fn seen_number(n: &mut Diagnostics, shot: &Parts<'_, '_>, part: &'static str) -> Seen<f64> {
    Seen(match shot.optional(part) {
        None => None,
        Some(Node { value: Value::Number(number), .. }) => Some(*number),
        Some(other) => wrong(n, shot, part, other, "a number"),
    })
}

fn seen_name<T: Named>(n: &mut Diagnostics, shot: &Parts<'_, '_>, part: &'static str) -> Seen<Name<T>> {
    Seen(match shot.optional(part) {
        None => None,
        Some(Node { value: Value::Name(name), at }) => choice_named(n, *at, &shot.role(part), name).map(Name),
        Some(other) => wrong(n, shot, part, other, "a name"),
    })
}

/// A text that is empty where it is left out.
fn seen_text(n: &mut Diagnostics, point: &Parts<'_, '_>, part: &'static str) -> String {
    match point.optional(part) {
        None => String::new(),
        Some(Node { value: Value::Text(text), .. }) => text.clone().into_owned(),
        Some(other) => wrong(n, point, part, other, "a text in quotes").unwrap_or_default(),
    }
}

fn wrong<T>(
    n: &mut Diagnostics,
    parts: &Parts<'_, '_>,
    part: &str,
    node: &Node<'_>,
    expected: &'static str,
) -> Option<T> {
    n.add(node.at, parts.role(part), ProblemKind::WrongKind { expected, found: node.value.describe() });
    None
}
