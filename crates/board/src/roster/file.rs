//! A player of the roster as text, and back: RON like a board, versioned, with every problem reported.

use std::path::Path;

use serde::Serialize;

use super::{Entry, EntryKind, MatchHabits, RosterPlayer};
use crate::chart::Date;
use crate::check::board::{Finding, LINE_LIMIT, NOTES_LIMIT};
use crate::file::fields::{Diagnostics, LISTED, Parts};
use crate::file::habits::{self, RallyFile, ServesFile};
use crate::file::reading::{self, Format};
use crate::file::tree::{Node, Value};
use crate::file::v1::layout::{Name, PlayerFile};
use crate::file::v1::read::player;
use crate::model::Board;
use crate::problem::{Problem, ProblemKind, Report};
use crate::store::{self, LoadError, SaveError};

/// Ending of the files, without the dot.
pub const EXTENSION: &str = "player";
/// Largest file, bytes.
const SIZE_LIMIT: u64 = 4 * 1024 * 1024;
/// The version this program writes, and the last that it reads.
pub const VERSION: u32 = 1;
/// Most values in a file: some ten thousand entries and a thousand matches.
const VALUE_LIMIT: usize = 200_000;

const FORMAT: Format = Format {
    mark: "standpoint_player",
    version: VERSION,
    size_limit: SIZE_LIMIT,
    value_limit: VALUE_LIMIT,
    stranger: ProblemKind::NotAPlayer,
};

#[derive(Debug, Serialize)]
struct RosterFile {
    standpoint_player: u32,
    player: PlayerFile,
    #[serde(skip_serializing_if = "String::is_empty")]
    notes: String,
    log: Vec<EntryFile>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    matches: Vec<MatchFile>,
}

#[derive(Debug, Serialize)]
struct MatchFile {
    title: String,
    #[serde(skip_serializing_if = "String::is_empty")]
    date: String,
    rally: Vec<RallyFile>,
    serves: Vec<ServesFile>,
}

#[derive(Debug, Serialize)]
struct EntryFile {
    #[serde(skip_serializing_if = "String::is_empty")]
    date: String,
    kind: Name<EntryKind>,
    text: String,
    #[serde(skip_serializing_if = "String::is_empty")]
    file: String,
}

/// The player as text of the current version.
///
/// # Errors
/// A report of everything that is wrong: a player that could not be read back is not written.
pub fn to_text(of: &RosterPlayer) -> Result<String, Report> {
    let problems: Vec<Problem> = findings(of).into_iter().map(|finding| finding.problem).collect();
    if !problems.is_empty() {
        let unlisted = problems.len().saturating_sub(LISTED);
        return Err(Report { problems: problems.into_iter().take(LISTED).collect(), unlisted });
    }
    let entry = |entry: &Entry| EntryFile {
        date: entry.date.map(|date| date.to_string()).unwrap_or_default(),
        kind: Name(entry.kind),
        text: entry.text.clone(),
        file: entry.file.clone(),
    };
    let log = of.log.iter().map(entry).collect();
    let of_match = |of: &MatchHabits| {
        let (rally, serves) = habits::cases_of(&of.counts);
        let date = of.date.map(|date| date.to_string()).unwrap_or_default();
        MatchFile { title: of.title.clone(), date, rally, serves }
    };
    let written = RosterFile {
        standpoint_player: VERSION,
        player: (&of.card).into(),
        notes: of.notes.clone(),
        log,
        matches: of.matches.iter().map(of_match).collect(),
    };
    let style = ron::ser::PrettyConfig::new().new_line("\n").indentor("  ").depth_limit(3);
    let failed =
        |error: ron::Error| Report::of(Problem::new("", ProblemKind::NotWritten { reason: error.to_string() }));
    Ok(ron::ser::to_string_pretty(&written, style).map_err(failed)? + "\n")
}

/// The player in the bytes of a file.
///
/// # Errors
/// A report of everything that is wrong, each with line, role and remedy.
pub fn from_bytes(bytes: &[u8]) -> Result<RosterPlayer, Report> {
    FORMAT.size_allowed(bytes.len() as u64)?;
    FORMAT.read(reading::text_of(bytes)?, read, findings)
}

fn read(n: &mut Diagnostics, root: &Node<'_>) -> RosterPlayer {
    let parts = Parts::of(n, Some(root), "", &["standpoint_player", "player", "log", "notes", "matches"]);
    let card = player(n, &parts, "player").into_card();
    let notes = optional_text(n, &parts, "notes");
    let mut log = Vec::new();
    for (i, node) in parts.list(n, "log").iter().enumerate() {
        let entry = Parts::of(n, Some(node), &format!("log[{i}]"), &["kind", "text", "date", "file"]);
        let day = day(n, &entry);
        let kind = entry.choice(n, "kind");
        let text = entry.text(n, "text");
        log.push(Entry { date: day, kind, text, file: optional_text(n, &entry, "file") });
    }
    let mut matches = Vec::new();
    if parts.optional("matches").is_some() {
        for (i, node) in parts.list(n, "matches").iter().enumerate() {
            let of = Parts::of(n, Some(node), &format!("matches[{i}]"), &["title", "date", "rally", "serves"]);
            let (title, date) = (of.text(n, "title"), day(n, &of));
            let (rally, serves) = habits::cases(n, &of);
            matches.push(MatchHabits { title, date, counts: habits::counts_of(&rally, &serves) });
        }
    }
    RosterPlayer { card, notes, log, matches }
}

/// A day that may be left out.
fn day(n: &mut Diagnostics, parts: &Parts<'_, '_>) -> Option<Date> {
    parts.optional("date")?;
    habits::date(n, parts, "date").parse().ok()
}

/// A text that is empty where it is left out.
fn optional_text(n: &mut Diagnostics, parts: &Parts<'_, '_>, part: &'static str) -> String {
    match parts.optional(part) {
        None => String::new(),
        Some(Node { value: Value::Text(_), .. }) => parts.text(n, part),
        Some(_) => parts.text(n, part),
    }
}

/// Everything that is wrong with a player.
fn findings(of: &RosterPlayer) -> Vec<Finding> {
    let board = Board { near: of.card.clone(), ..Board::blank() };
    let mut found: Vec<Finding> = crate::check::findings(&board)
        .into_iter()
        .filter(|finding| finding.problem.role.starts_with("players.near"))
        .map(|mut finding| {
            finding.problem.role = finding.problem.role.replacen("players.near", "player", 1);
            finding
        })
        .collect();
    let mut long = |role: String, text: &str, limit: usize| {
        let count = text.chars().count();
        if count > limit {
            let problem = Problem::new(role, ProblemKind::TextTooLong { found: count, limit });
            found.push(Finding { problem, rests_on: None });
        }
    };
    long("notes".to_owned(), &of.notes, NOTES_LIMIT);
    for (i, entry) in of.log.iter().enumerate() {
        long(format!("log[{i}].text"), &entry.text, LINE_LIMIT);
        long(format!("log[{i}].file"), &entry.file, NOTES_LIMIT);
    }
    for (i, of) in of.matches.iter().enumerate() {
        long(format!("matches[{i}].title"), &of.title, LINE_LIMIT);
    }
    found
}

/// Saves a player; the former file is never lost.
///
/// # Errors
/// See [`SaveError`].
pub fn save(path: &Path, player: &RosterPlayer) -> Result<(), SaveError> {
    store::save_text(path, &to_text(player).map_err(SaveError::Board)?)
}

/// Opens a player.
///
/// # Errors
/// See [`LoadError`].
pub fn load(path: &Path) -> Result<RosterPlayer, LoadError> {
    let bytes = store::load_bytes(path, SIZE_LIMIT)?;
    from_bytes(&bytes).map_err(|report| LoadError::Content { path: path.to_owned(), report })
}
