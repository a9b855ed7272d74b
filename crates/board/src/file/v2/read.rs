//! Reads the layout of version 2 from the tree and notes every problem.

use standpoint_language::mark;

use super::VERSION;
use super::layout::*;
use crate::chart::file::{layout::Seen, read::read_part};
use crate::file::fields::{Diagnostics, Named, Parts, choice_named};
use crate::file::habits;
use crate::file::tree::{Node, Value};
use crate::file::v1::layout::{ContactFile, Name, PlaceFile};
use crate::file::v1::read::{PLACE, air, court, figures, name, place, receipt, settings, surface};
use crate::marks::{Layer, Mark};
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
    "chart",
];
const PAGE: &[&str] = &["title", "notes", "cues", "drill", "shots", "marks", "hidden_layers"];
const DRILL: &[&str] = &["feed", "targets", "progression", "equipment"];
const SHOT: &[&str] = &[
    "hitter",
    "follows",
    "stroke",
    "contact",
    "target",
    "speed_kmh",
    "topspin_rpm",
    "sidespin_rpm",
    "receipt",
    "hitter_place",
    "opponent_place",
    "recover_to",
    "recover_in",
];
const FORMS: [&str; 7] = ["Pen", "Arrow", "Text", "Cone", "Basket", "Person", "Zone"];

/// Reads a board whose version is known to be 2.
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
        chart: Seen(board.optional("chart").map(|node| read_part(n, node, &board.role("chart")))),
    }
}

fn players(n: &mut Diagnostics, board: &Parts<'_, '_>) -> PlayersFile {
    let players = board.parts(n, "players", &["near", "far"]);
    PlayersFile { near: player(n, &players, "near"), far: player(n, &players, "far") }
}

fn player(n: &mut Diagnostics, players: &Parts<'_, '_>, end: &'static str) -> PlayerFile {
    let player = players.parts(n, end, &["name", "hand", "backhand", "figures", "habits"]);
    PlayerFile {
        name: player.text(n, "name"),
        hand: name(n, &player, "hand"),
        backhand: name(n, &player, "backhand"),
        figures: figures(n, &player),
        habits: Seen(player.optional("habits").map(|node| habits::read(n, node, &player.role("habits")))),
    }
}

fn pages(n: &mut Diagnostics, board: &Parts<'_, '_>) -> Vec<PageFile> {
    let mut pages = Vec::new();
    for (i, node) in board.list(n, "pages").iter().enumerate() {
        let page = Parts::of(n, Some(node), &format!("pages[{i}]"), PAGE);
        pages.push(PageFile {
            title: page.text(n, "title"),
            notes: page.text(n, "notes"),
            cues: cues(n, &page),
            drill: drill(n, &page),
            shots: shots(n, &page),
            marks: marks(n, &page),
            hidden_layers: hidden_layers(n, &page),
        });
    }
    pages
}

fn cues(n: &mut Diagnostics, page: &Parts<'_, '_>) -> Vec<String> {
    let mut cues = Vec::new();
    for (i, node) in page.list(n, "cues").iter().enumerate() {
        cues.push(match &node.value {
            Value::Text(text) => text.clone().into_owned(),
            other => {
                let kind = ProblemKind::WrongKind { expected: mark("a text in quotes"), found: other.describe() };
                n.add(node.at, format!("{}[{i}]", page.role("cues")), kind);
                String::new()
            }
        });
    }
    cues
}

fn drill(n: &mut Diagnostics, page: &Parts<'_, '_>) -> Option<DrillFile> {
    let node = page.optional("drill")?;
    let drill = Parts::of(n, Some(node), &page.role("drill"), DRILL);
    Some(DrillFile {
        feed: drill.text(n, "feed"),
        targets: drill.text(n, "targets"),
        progression: drill.text(n, "progression"),
        equipment: drill.text(n, "equipment"),
    })
}

fn shots(n: &mut Diagnostics, page: &Parts<'_, '_>) -> Vec<ShotFile> {
    let mut shots = Vec::new();
    for (i, node) in page.list(n, "shots").iter().enumerate() {
        let shot = Parts::of(n, Some(node), &format!("{}[{i}]", page.role("shots")), SHOT);
        let contact = shot.parts(n, "contact", &["x", "y", "height"]);
        shots.push(ShotFile {
            hitter: name(n, &shot, "hitter"),
            follows: shot.flag(n, "follows"),
            stroke: name(n, &shot, "stroke"),
            contact: ContactFile {
                x: contact.number(n, "x"),
                y: contact.number(n, "y"),
                height: contact.number(n, "height"),
            },
            target: place_of(n, &shot, "target"),
            speed_kmh: shot.number(n, "speed_kmh"),
            topspin_rpm: shot.number(n, "topspin_rpm"),
            sidespin_rpm: shot.number(n, "sidespin_rpm"),
            receipt: receipt(n, &shot),
            hitter_place: optional_place(n, &shot, "hitter_place"),
            opponent_place: place_of(n, &shot, "opponent_place"),
            recover_to: optional_place(n, &shot, "recover_to"),
            recover_in: shot.optional_choice(n, "recover_in").map(Name),
        });
    }
    shots
}

fn place_of(n: &mut Diagnostics, parts: &Parts<'_, '_>, part: &'static str) -> PlaceFile {
    let inside = parts.parts(n, part, PLACE);
    place(n, &inside)
}

fn optional_place(n: &mut Diagnostics, parts: &Parts<'_, '_>, part: &'static str) -> Option<PlaceFile> {
    let node = parts.optional(part)?;
    let inside = Parts::of(n, Some(node), &parts.role(part), PLACE);
    Some(place(n, &inside))
}

/// Reads marks that stand alone, as on the clipboard.
pub fn read_marks(notes: &mut Diagnostics, root: &Node<'_>) -> Vec<Mark> {
    let parts = Parts::of(notes, Some(root), "", &["standpoint_marks", "marks"]);
    marks(notes, &parts).into_iter().map(MarkFile::into_mark).collect()
}

fn marks(n: &mut Diagnostics, page: &Parts<'_, '_>) -> Vec<MarkFile> {
    let mut marks = Vec::new();
    for (i, node) in page.list(n, "marks").iter().enumerate() {
        let mark = Parts::of(
            n,
            Some(node),
            &format!("{}[{i}]", page.role("marks")),
            &["id", "layer", "ink", "appears", "form"],
        );
        marks.push(MarkFile {
            id: id(mark.number(n, "id")),
            layer: name(n, &mark, "layer"),
            ink: name(n, &mark, "ink"),
            appears: appears(n, &mark),
            form: form(n, &mark),
        });
    }
    marks
}

/// The largest number of a shot that a mark may appear with.
const LAST_SHOT: f64 = 1e6;

/// `(shot: 2, step: Answer)`, where it is said.
fn appears(n: &mut Diagnostics, mark: &Parts<'_, '_>) -> Option<AppearsFile> {
    let node = mark.optional("appears")?;
    let inside = Parts::of(n, Some(node), &mark.role("appears"), &["shot", "step"]);
    let (shot, step) = (inside.number(n, "shot"), name(n, &inside, "step"));
    if shot.fract() != 0.0 || !(1.0..=LAST_SHOT).contains(&shot) {
        let kind = ProblemKind::OutOfRange { found: shot, low: 1.0, high: LAST_SHOT, unit: "" };
        n.add(node.at, inside.role("shot"), kind);
    }
    Some(AppearsFile { shot: id(shot), step })
}

/// A whole number; anything else becomes 0, which the check of the board refuses.
fn id(number: f64) -> u32 {
    if number.fract() == 0.0 && (0.0..=f64::from(u32::MAX)).contains(&number) { number as u32 } else { 0 }
}

/// `Cone(at: (x: 1.0, y: 2.0))` and so on.
fn form(n: &mut Diagnostics, mark: &Parts<'_, '_>) -> FormFile {
    let stand_in = FormFile::Cone { at: PlaceFile { x: 0.0, y: 0.0 } };
    let Some(node) = mark.required(n, "form") else { return stand_in };
    let role = mark.role("form");
    let name = match &node.value {
        Value::Struct(Some(name), _) | Value::Tuple(Some(name), _) | Value::Name(name) => *name,
        other => {
            let expected = standpoint_language::mark("a form such as `Cone(at: (x: ..., y: ...))`");
            n.add(node.at, role, ProblemKind::WrongKind { expected, found: other.describe() });
            return stand_in;
        }
    };
    let mut of = |known| Parts::of(n, Some(node), &role, known);
    match name {
        "Pen" => {
            let form = of(&["points", "pattern"]);
            FormFile::Pen { points: points(n, &form), pattern: pattern(n, &form) }
        }
        "Arrow" => {
            let form = of(&["from", "to", "bend", "pattern"]);
            let (from, to) = (place_of(n, &form, "from"), place_of(n, &form, "to"));
            FormFile::Arrow { from, to, bend: form.number(n, "bend"), pattern: pattern(n, &form) }
        }
        "Text" => {
            let form = of(&["at", "text", "size"]);
            let at = place_of(n, &form, "at");
            FormFile::Text { at, text: form.text(n, "text"), size: form.number(n, "size") }
        }
        "Cone" => {
            let form = of(&["at"]);
            FormFile::Cone { at: place_of(n, &form, "at") }
        }
        "Basket" => {
            let form = of(&["at"]);
            FormFile::Basket { at: place_of(n, &form, "at") }
        }
        "Person" => {
            let form = of(&["at", "letter"]);
            let at = place_of(n, &form, "at");
            FormFile::Person { at, letter: form.text(n, "letter") }
        }
        "Zone" => {
            let form = of(&["from", "to", "round"]);
            let (from, to) = (place_of(n, &form, "from"), place_of(n, &form, "to"));
            FormFile::Zone { from, to, round: form.flag(n, "round") }
        }
        found => {
            let found = crate::file::tree::shortened(found);
            n.add(node.at, role, ProblemKind::UnknownName { found, known: FORMS.to_vec() });
            stand_in
        }
    }
}

fn pattern<T: Named>(n: &mut Diagnostics, form: &Parts<'_, '_>) -> Name<T> {
    name(n, form, "pattern")
}

/// `[(1.0, 2.0), ...]`.
fn points(n: &mut Diagnostics, form: &Parts<'_, '_>) -> Vec<(f64, f64)> {
    let nodes = form.list(n, "points");
    let mut points = Vec::with_capacity(nodes.len());
    for (i, node) in nodes.iter().enumerate() {
        let pair = match &node.value {
            Value::Tuple(None, pair) => pair.as_slice(),
            _ => &[],
        };
        match pair {
            [Node { value: Value::Number(x), .. }, Node { value: Value::Number(y), .. }] => points.push((*x, *y)),
            _ => {
                let kind =
                    ProblemKind::WrongKind { expected: mark("two numbers `(x, y)`"), found: node.value.describe() };
                n.add(node.at, format!("{}[{i}]", form.role("points")), kind);
                points.push((0.0, 0.0));
            }
        }
    }
    points
}

fn hidden_layers(n: &mut Diagnostics, page: &Parts<'_, '_>) -> Vec<Name<Layer>> {
    let mut hidden = Vec::new();
    for (i, node) in page.list(n, "hidden_layers").iter().enumerate() {
        let role = format!("{}[{i}]", page.role("hidden_layers"));
        match &node.value {
            Value::Name(name) => hidden.extend(choice_named(n, node.at, &role, name).map(Name)),
            other => {
                let kind = ProblemKind::WrongKind { expected: mark("the name of a layer"), found: other.describe() };
                n.add(node.at, role, kind);
            }
        }
    }
    hidden
}
