//! From the tree to the layout of version 1, with every problem noted on the way.

use super::layout::{ChartPart, PointFile, Seen, ShotFile};
use crate::file::fields::{Named, Notes, Parts, choice_named};
use crate::file::tree::{Node, Value};
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
];
const POINT: &[&str] = &["session", "label", "ends", "shots"];
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
];
const PLACE: &[&str] = &["x", "y"];

/// Reads a chart whose version is known to be 1.
pub fn read(notes: &mut Notes, root: &Node<'_>) -> ChartPart {
    let chart = Parts::of(notes, Some(root), "", CHART);
    parts(notes, &chart)
}

/// Reads a chart that stands in a board, written as one of version 1 but for the mark.
pub fn read_part(notes: &mut Notes, node: &Node<'_>, role: &str) -> ChartPart {
    let chart = Parts::of(notes, Some(node), role, &CHART[1..]);
    parts(notes, &chart)
}

fn parts(n: &mut Notes, chart: &Parts<'_, '_>) -> ChartPart {
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
        points: points(n, chart),
    }
}

fn points(n: &mut Notes, chart: &Parts<'_, '_>) -> Vec<PointFile> {
    let mut points = Vec::new();
    for (i, node) in chart.list(n, "points").iter().enumerate() {
        let point = Parts::of(n, Some(node), &format!("{}[{i}]", chart.role("points")), POINT);
        points.push(PointFile {
            session: seen_text(n, &point, "session"),
            label: seen_text(n, &point, "label"),
            ends: name(n, &point, "ends"),
            shots: shots(n, &point),
        });
    }
    points
}

fn shots(n: &mut Notes, point: &Parts<'_, '_>) -> Vec<ShotFile> {
    let mut shots = Vec::new();
    for (i, node) in point.list(n, "shots").iter().enumerate() {
        let shot = Parts::of(n, Some(node), &format!("{}[{i}]", point.role("shots")), SHOT);
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
        });
    }
    shots
}

fn seen_place(n: &mut Notes, shot: &Parts<'_, '_>, part: &'static str) -> Seen<PlaceFile> {
    Seen(shot.optional(part).map(|node| {
        let parts = Parts::of(n, Some(node), &shot.role(part), PLACE);
        place(n, &parts)
    }))
}

fn seen_number(n: &mut Notes, shot: &Parts<'_, '_>, part: &'static str) -> Seen<f64> {
    Seen(match shot.optional(part) {
        None => None,
        Some(Node { value: Value::Number(number), .. }) => Some(*number),
        Some(other) => wrong(n, shot, part, other, "a number"),
    })
}

fn seen_name<T: Named>(n: &mut Notes, shot: &Parts<'_, '_>, part: &'static str) -> Seen<Name<T>> {
    Seen(match shot.optional(part) {
        None => None,
        Some(Node { value: Value::Name(name), at }) => choice_named(n, *at, &shot.role(part), name).map(Name),
        Some(other) => wrong(n, shot, part, other, "a name"),
    })
}

/// A text that is empty where it is left out.
fn seen_text(n: &mut Notes, point: &Parts<'_, '_>, part: &'static str) -> String {
    match point.optional(part) {
        None => String::new(),
        Some(Node { value: Value::Text(text), .. }) => text.clone().into_owned(),
        Some(other) => wrong(n, point, part, other, "a text in quotes").unwrap_or_default(),
    }
}

fn wrong<T>(n: &mut Notes, parts: &Parts<'_, '_>, part: &str, node: &Node<'_>, expected: &'static str) -> Option<T> {
    n.add(node.at, parts.role(part), ProblemKind::WrongKind { expected, found: node.value.describe() });
    None
}
