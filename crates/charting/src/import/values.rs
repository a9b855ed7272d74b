//! Foreign values of a column: suggested and mapped.

use std::collections::BTreeMap;
use std::io::Read;

use super::column::{Column, plain};
use super::fault::FaultKind;
use super::mapping::Mapping;
use super::rows::{ReadError, RowReader};
use super::whose::Whose;
use standpoint_board::chart::model::Setup;

type Words = &'static [(&'static str, &'static [&'static str])];

/// Values common in other charts, English and German; from memory.
const WINGS: Words = &[
    ("forehand", &["fh", "f", "fore", "vorhand", "vh"]),
    ("backhand", &["bh", "b", "back", "rückhand", "rueckhand", "rh"]),
];
const STROKES: Words = &[
    ("topspin", &["ts", "spin", "drive", "groundstroke", "grundschlag"]),
    ("flat", &["fl", "gerade", "drive flat"]),
    ("slice", &["sl", "chip", "unterschnitt"]),
    ("drop", &["ds", "drop shot", "stop", "stopp", "stoppball"]),
    ("lob", &["lb", "moonball"]),
    ("volley", &["vo", "vol", "flugball", "half volley", "halbvolley"]),
    ("overhead", &["oh", "smash", "schmetterball"]),
    ("serve", &["sv", "service", "aufschlag", "first serve", "second serve"]),
];
const SERVES: Words = &[
    ("first", &["1", "1st", "1.", "erster", "first serve"]),
    ("second", &["2", "2nd", "2.", "zweiter", "second serve"]),
];
const CALLS: Words = &[
    ("in", &["good", "ok", "gut"]),
    ("fault", &["f", "out", "fehler", "aus"]),
    ("let", &["l", "netz", "wiederholung"]),
];
const SIDES: Words =
    &[("deuce", &["d", "right", "rechts", "einstand"]), ("ad", &["a", "advantage", "left", "links", "vorteil"])];
const ENDINGS: Words = &[
    ("ace", &["as", "a"]),
    ("winner", &["w", "gewinnschlag"]),
    ("forced error", &["fe", "forced", "erzwungener fehler"]),
    ("unforced error", &["ue", "unforced", "unerzwungener fehler", "leichter fehler"]),
    ("double fault", &["df", "double", "doppelfehler"]),
];
const MISSES: Words =
    &[("net", &["n", "netz"]), ("long", &["l", "deep", "lang", "zu lang"]), ("wide", &["w", "seitlich", "seitenaus"])];
const HANDS: Words = &[("right", &["r", "rh", "rechts"]), ("left", &["l", "lh", "links"])];
const YES: Words = &[("yes", &["y", "x", "ja", "j", "wahr"]), ("no", &["n", "nein", "falsch"])];
const PLAYERS: Words = &[("near", &["n", "bottom", "unten", "nah"]), ("far", &["f", "top", "oben", "fern"])];

fn words(column: Column) -> Option<Words> {
    Some(match column {
        Column::Wing => WINGS,
        Column::Stroke => STROKES,
        Column::Serve => SERVES,
        Column::Call => CALLS,
        Column::Side => SIDES,
        Column::Ending => ENDINGS,
        Column::Miss => MISSES,
        Column::HitterHand | Column::OpponentHand => HANDS,
        Column::ChangedEnds => YES,
        Column::Hitter | Column::Server | Column::Winner => PLAYERS,
        _ => return None,
    })
}

/// Meanings that a word may have in a column: the names that mappings know there.
#[must_use]
pub fn meanings(column: Column) -> Vec<&'static str> {
    match column {
        Column::Hitter | Column::Server | Column::Winner => Whose::NAMES.iter().map(|(name, _)| *name).collect(),
        _ => words(column).map(|words| words.iter().map(|(name, _)| *name).collect()).unwrap_or_default(),
    }
}

/// The most likely meaning of a value in a column, if any. Players are known by their names.
#[must_use]
pub fn suggested_value(column: Column, value: &str, setup: &Setup) -> Option<&'static str> {
    let wanted = plain(value);
    if matches!(column, Column::Hitter | Column::Server | Column::Winner) && !wanted.is_empty() {
        let is = |name: &str| plain(name) == wanted || name.split_whitespace().any(|part| plain(part) == wanted);
        match (is(&setup.near.name), is(&setup.far.name)) {
            (true, false) => return Some("near_player"),
            (false, true) => return Some("far_player"),
            _ => {}
        }
    }
    let is = |word: &str| plain(word) == wanted;
    words(column)?.iter().find(|(name, others)| is(name) || others.iter().any(|word| is(word))).map(|(name, _)| *name)
}

/// Values that are not understood, by column, with their number among the first rows of a file.
pub type Unknown = BTreeMap<Column, BTreeMap<String, u64>>;

/// Searches the first rows of a file for values that a mapping does not understand.
///
/// # Errors
/// See [`ReadError`].
pub fn unknown_values(input: impl Read, mapping: &Mapping, setup: &Setup, rows: u64) -> Result<Unknown, ReadError> {
    let mut reader = RowReader::new(input, mapping, &setup.court)?;
    let mut unknown = Unknown::new();
    for _ in 0..rows {
        match reader.next_row()? {
            None => break,
            Some(Ok(_)) => {}
            Some(Err(bad)) => {
                for fault in bad.faults {
                    if let (FaultKind::UnknownName { found, .. }, Some(column)) =
                        (fault.kind, reader.column(&fault.column))
                    {
                        *unknown.entry(column).or_default().entry(found).or_default() += 1;
                    }
                }
            }
        }
    }
    Ok(unknown)
}

impl Mapping {
    /// The value of a cell after mapping.
    pub(super) fn value<'a>(&'a self, column: Column, text: &'a str) -> &'a str {
        let Some(values) = self.values.get(&column) else { return text };
        let exact = values.get(text);
        let same = || values.iter().find(|(known, _)| plain(known) == plain(text)).map(|(_, value)| value);
        exact.or_else(same).map_or(text, String::as_str)
    }

    /// Adds the suggestions for unknown values; those without a suggestion are left.
    #[must_use]
    pub fn with_suggested_values(mut self, unknown: &Unknown, setup: &Setup) -> Self {
        for (column, values) in unknown {
            for value in values.keys() {
                if let Some(name) = suggested_value(*column, value, setup) {
                    self.values.entry(*column).or_default().insert(value.clone(), name.to_owned());
                }
            }
        }
        self
    }
}
