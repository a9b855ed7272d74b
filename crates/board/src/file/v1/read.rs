//! Reads the layout of version 1 from the tree and notes every problem.

use standpoint_language::mark;

use super::VERSION;
use super::layout::*;
use crate::file::fields::{Diagnostics, Named, Parts, choice_named};
use crate::file::tree::{Node, Value};
use crate::problem::ProblemKind;

const BOARD: &[&str] = &[
    "standpoint_board",
    "title",
    "court",
    "surface",
    "ball",
    "air",
    "flight_law",
    "players",
    "coached",
    "units",
    "theme",
    "settings",
    "pages",
];
const SHOT: &[&str] = &[
    "hitter",
    "stroke",
    "contact",
    "target",
    "speed_kmh",
    "topspin_rpm",
    "sidespin_rpm",
    "receipt",
    "hitter_place",
    "opponent_place",
];
const MOVEMENT: &[&str] = &["reaction_s", "top_speed_m_s", "time_constant_s", "backward_factor", "follow_through_s"];
const WING: &[&str] = &["speed_kmh", "topspin_rpm", "spread_up_deg", "spread_side_deg"];
const SERVE: &[&str] = &["first_speed_kmh", "second_speed_kmh", "height", "topspin_rpm", "spread_deg"];
pub const PLACE: &[&str] = &["x", "y"];

/// Reads a board whose version is known to be 1.
pub fn read(notes: &mut Diagnostics, root: &Node<'_>) -> BoardFile {
    let n = notes;
    let board = Parts::of(n, Some(root), "", BOARD);
    BoardFile {
        standpoint_board: VERSION,
        title: board.text(n, "title"),
        court: court(n, &board),
        surface: surface(n, &board),
        ball: name(n, &board, "ball"),
        air: air(n, &board),
        flight_law: name(n, &board, "flight_law"),
        players: players(n, &board),
        coached: name(n, &board, "coached"),
        units: name(n, &board, "units"),
        theme: board.text(n, "theme"),
        settings: settings(n, &board),
        pages: pages(n, &board),
    }
}

pub(crate) fn name<T: Named>(n: &mut Diagnostics, parts: &Parts<'_, '_>, part: &'static str) -> Name<T> {
    Name(parts.choice(n, part))
}

pub(crate) fn court(n: &mut Diagnostics, board: &Parts<'_, '_>) -> CourtFile {
    let court = board.parts(n, "court", &["stage", "net", "run_off"]);
    let run_off = court.parts(n, "run_off", &["behind", "beside"]);
    CourtFile {
        stage: name(n, &court, "stage"),
        net: name(n, &court, "net"),
        run_off: RunOffFile { behind: run_off.number(n, "behind"), beside: run_off.number(n, "beside") },
    }
}

pub(crate) fn surface(n: &mut Diagnostics, board: &Parts<'_, '_>) -> SurfaceFile {
    let surface = board.parts(n, "surface", &["kind", "measured"]);
    let measured = surface.optional("measured").map(|node| {
        let known = &["friction", "restitution", "grip_restitution"];
        let measured = Parts::of(n, Some(node), &surface.role("measured"), known);
        BounceFile {
            friction: measured.number(n, "friction"),
            restitution: measured.number(n, "restitution"),
            grip_restitution: measured.number(n, "grip_restitution"),
        }
    });
    SurfaceFile { kind: name(n, &surface, "kind"), measured }
}

pub(crate) fn air(n: &mut Diagnostics, board: &Parts<'_, '_>) -> AirFile {
    let air = board.parts(n, "air", &["temperature_c", "altitude_m"]);
    AirFile { temperature_c: air.number(n, "temperature_c"), altitude_m: air.number(n, "altitude_m") }
}

pub(crate) fn players(n: &mut Diagnostics, board: &Parts<'_, '_>) -> PlayersFile {
    let players = board.parts(n, "players", &["near", "far"]);
    PlayersFile { near: player(n, &players, "near"), far: player(n, &players, "far") }
}

pub(crate) fn player(n: &mut Diagnostics, players: &Parts<'_, '_>, end: &'static str) -> PlayerFile {
    let player = players.parts(n, end, &["name", "hand", "backhand", "figures"]);
    PlayerFile {
        name: player.text(n, "name"),
        hand: name(n, &player, "hand"),
        backhand: name(n, &player, "backhand"),
        figures: figures(n, &player),
    }
}

/// `Level(Club)` or `Custom(bounces: 1, ...)`.
pub(crate) fn figures(n: &mut Diagnostics, player: &Parts<'_, '_>) -> FiguresFile {
    let stand_in = FiguresFile::Level(Name(Named::NAMES[0].1));
    let role = player.role("figures");
    let Some(node) = player.required(n, "figures") else { return stand_in };
    match &node.value {
        Value::Tuple(Some("Level"), items) => match items.as_slice() {
            [Node { at, value: Value::Name(level) }] => {
                choice_named(n, *at, &role, level).map_or(stand_in, |level| FiguresFile::Level(Name(level)))
            }
            _ => {
                let expected = mark("the name of one level, as in `Level(Club)`,");
                n.add(node.at, role, ProblemKind::WrongKind { expected, found: node.value.describe() });
                stand_in
            }
        },
        Value::Struct(Some("Custom"), _) => custom(n, node, &role),
        other => {
            let expected = mark("`Level(...)` or `Custom(...)`");
            n.add(node.at, role, ProblemKind::WrongKind { expected, found: other.describe() });
            stand_in
        }
    }
}

fn custom(n: &mut Diagnostics, node: &Node<'_>, role: &str) -> FiguresFile {
    let custom = Parts::of(n, Some(node), role, &["bounces", "movement", "reach", "forehand", "backhand", "serve"]);
    let movement = custom.parts(n, "movement", MOVEMENT);
    let reach = custom.parts(n, "reach", &["forehand", "backhand", "ahead", "overhead"]);
    let serve = custom.parts(n, "serve", SERVE);
    FiguresFile::Custom {
        bounces: bounces(custom.number(n, "bounces")),
        movement: MovementFile {
            reaction_s: movement.number(n, "reaction_s"),
            top_speed_m_s: movement.number(n, "top_speed_m_s"),
            time_constant_s: movement.number(n, "time_constant_s"),
            backward_factor: movement.number(n, "backward_factor"),
            follow_through_s: movement.number(n, "follow_through_s"),
        },
        reach: ReachFile {
            forehand: reach.number(n, "forehand"),
            backhand: reach.number(n, "backhand"),
            ahead: reach.number(n, "ahead"),
            overhead: reach.number(n, "overhead"),
        },
        forehand: wing(n, &custom, "forehand"),
        backhand: wing(n, &custom, "backhand"),
        serve: ServeFile {
            first_speed_kmh: serve.number(n, "first_speed_kmh"),
            second_speed_kmh: serve.number(n, "second_speed_kmh"),
            height: serve.number(n, "height"),
            topspin_rpm: serve.number(n, "topspin_rpm"),
            spread_deg: serve.number(n, "spread_deg"),
        },
    }
}

/// A whole number of bounces; anything else becomes 0, which the check of the board refuses.
fn bounces(number: f64) -> u8 {
    if number.fract() == 0.0 && (0.0..=255.0).contains(&number) { number as u8 } else { 0 }
}

fn wing(n: &mut Diagnostics, custom: &Parts<'_, '_>, part: &'static str) -> WingFile {
    let wing = custom.parts(n, part, WING);
    WingFile {
        speed_kmh: wing.number(n, "speed_kmh"),
        topspin_rpm: wing.number(n, "topspin_rpm"),
        spread_up_deg: wing.number(n, "spread_up_deg"),
        spread_side_deg: wing.number(n, "spread_side_deg"),
    }
}

pub(crate) fn settings(n: &mut Diagnostics, board: &Parts<'_, '_>) -> SettingsFile {
    let settings = board.parts(n, "settings", &["edge_chance", "zone_tolerance", "ready"]);
    SettingsFile {
        edge_chance: settings.number(n, "edge_chance"),
        zone_tolerance: settings.number(n, "zone_tolerance"),
        ready: name(n, &settings, "ready"),
    }
}

fn pages(n: &mut Diagnostics, board: &Parts<'_, '_>) -> Vec<PageFile> {
    let mut pages = Vec::new();
    for (i, node) in board.list(n, "pages").iter().enumerate() {
        let page = Parts::of(n, Some(node), &format!("pages[{i}]"), &["title", "notes", "shots"]);
        pages.push(PageFile { title: page.text(n, "title"), notes: page.text(n, "notes"), shots: shots(n, &page) });
    }
    pages
}

fn shots(n: &mut Diagnostics, page: &Parts<'_, '_>) -> Vec<ShotFile> {
    let mut shots = Vec::new();
    for (i, node) in page.list(n, "shots").iter().enumerate() {
        let shot = Parts::of(n, Some(node), &format!("{}[{i}]", page.role("shots")), SHOT);
        let contact = shot.parts(n, "contact", &["x", "y", "height"]);
        let target = shot.parts(n, "target", PLACE);
        let opponent = shot.parts(n, "opponent_place", PLACE);
        let hitter_place = shot.optional("hitter_place").map(|node| {
            let parts = Parts::of(n, Some(node), &shot.role("hitter_place"), PLACE);
            place(n, &parts)
        });
        shots.push(ShotFile {
            hitter: name(n, &shot, "hitter"),
            stroke: name(n, &shot, "stroke"),
            contact: ContactFile {
                x: contact.number(n, "x"),
                y: contact.number(n, "y"),
                height: contact.number(n, "height"),
            },
            target: place(n, &target),
            speed_kmh: shot.number(n, "speed_kmh"),
            topspin_rpm: shot.number(n, "topspin_rpm"),
            sidespin_rpm: shot.number(n, "sidespin_rpm"),
            receipt: receipt(n, &shot),
            hitter_place,
            opponent_place: place(n, &opponent),
        });
    }
    shots
}

pub(crate) fn place(n: &mut Diagnostics, parts: &Parts<'_, '_>) -> PlaceFile {
    PlaceFile { x: parts.number(n, "x"), y: parts.number(n, "y") }
}

/// `Best` or `Near(x: 1.0, y: 2.0)`.
pub fn receipt(n: &mut Diagnostics, shot: &Parts<'_, '_>) -> ReceiptFile {
    let Some(node) = shot.required(n, "receipt") else { return ReceiptFile::Best };
    match &node.value {
        Value::Name("Best") => ReceiptFile::Best,
        Value::Struct(Some("Near"), _) => {
            let parts = Parts::of(n, Some(node), &shot.role("receipt"), PLACE);
            ReceiptFile::Near { x: parts.number(n, "x"), y: parts.number(n, "y") }
        }
        other => {
            let expected = mark("`Best` or `Near(x: ..., y: ...)`");
            n.add(node.at, shot.role("receipt"), ProblemKind::WrongKind { expected, found: other.describe() });
            ReceiptFile::Best
        }
    }
}
