//! Habits in files: of a player of a board, and of each match of a player of the roster.
//!
//! Cases without a count are left out.

use serde::Serialize;
use standpoint_geometry::{HabitCase, ReplyHabits, Third, Wing};

use super::fields::{Diagnostics, Named, Parts};
use super::tree::{Node, Value};
use super::v1::convert::{into, out};
use super::v1::layout::Name;
use crate::chart::date::Date;
use crate::chart::score::{CourtSide, ServeNumber};
use crate::player_card::KnownHabits;
use crate::problem::ProblemKind;

/// Most shots of one way in a case.
pub const COUNT_LIMIT: f64 = 1_000_000.0;
/// Most matches behind a player's habits.
pub const MATCH_LIMIT: f64 = 100_000.0;

const HABITS: &[&str] = &["of", "matches", "last", "used", "strength", "rally", "serves"];
const RALLY: &[&str] = &["wing", "from", "hurried", "across", "middle", "line"];
const SERVE: &[&str] = &["side", "number", "wide", "body", "t"];

impl Named for Third {
    const NAMES: &'static [(&'static str, Self)] =
        &[("Left", Self::Left), ("Middle", Self::Middle), ("Right", Self::Right)];
}

#[derive(Debug, Serialize)]
pub struct HabitsFile {
    of: String,
    matches: u32,
    #[serde(skip_serializing_if = "String::is_empty")]
    last: String,
    used: bool,
    strength: f64,
    rally: Vec<RallyFile>,
    serves: Vec<ServesFile>,
}

/// Strokes of a rally in one case.
#[derive(Debug, Serialize)]
pub struct RallyFile {
    wing: Name<Wing>,
    from: Name<Third>,
    hurried: bool,
    across: u32,
    middle: u32,
    line: u32,
}

/// Serves in one case.
#[derive(Debug, Serialize)]
pub struct ServesFile {
    side: Name<CourtSide>,
    number: Name<ServeNumber>,
    wide: u32,
    body: u32,
    t: u32,
}

impl From<&KnownHabits> for HabitsFile {
    fn from(known: &KnownHabits) -> Self {
        let (rally, serves) = cases_of(&known.counts);
        Self {
            of: known.of.clone(),
            matches: known.matches,
            last: known.last.map(|date| date.to_string()).unwrap_or_default(),
            used: known.used,
            strength: out(known.counts.strength, 1.0),
            rally,
            serves,
        }
    }
}

impl HabitsFile {
    pub fn into_habits(self) -> KnownHabits {
        let mut counts = counts_of(&self.rally, &self.serves);
        counts.strength = into(self.strength, 1.0);
        KnownHabits { of: self.of, matches: self.matches, last: self.last.parse().ok(), used: self.used, counts }
    }
}

/// What was seen, case by case.
pub fn cases_of(counts: &ReplyHabits) -> (Vec<RallyFile>, Vec<ServesFile>) {
    let (mut rally, mut serves) = (Vec::new(), Vec::new());
    for case in ReplyHabits::cases() {
        let [across, middle, line] = counts.counts(case);
        if across == 0 && middle == 0 && line == 0 {
            continue;
        }
        match case {
            HabitCase::Rally(wing, from, hurried) => {
                rally.push(RallyFile { wing: Name(wing), from: Name(from), hurried, across, middle, line });
            }
            HabitCase::Serve { deuce, second } => serves.push(ServesFile {
                side: Name(if deuce { CourtSide::Deuce } else { CourtSide::Ad }),
                number: Name(if second { ServeNumber::Second } else { ServeNumber::First }),
                wide: across,
                body: middle,
                t: line,
            }),
        }
    }
    (rally, serves)
}

/// The counts of what was seen, with the usual weight of the expectation.
pub fn counts_of(rally: &[RallyFile], serves: &[ServesFile]) -> ReplyHabits {
    let mut counts = ReplyHabits::default();
    for of in rally {
        counts.set(of.case(), [of.across, of.middle, of.line]);
    }
    for of in serves {
        counts.set(of.case(), [of.wide, of.body, of.t]);
    }
    counts
}

impl RallyFile {
    fn case(&self) -> HabitCase {
        HabitCase::Rally(self.wing.0, self.from.0, self.hurried)
    }
}

impl ServesFile {
    fn case(&self) -> HabitCase {
        HabitCase::Serve { deuce: self.side.0 == CourtSide::Deuce, second: self.number.0 == ServeNumber::Second }
    }
}

/// Reads the habits of a player.
pub fn read(n: &mut Diagnostics, node: &Node<'_>, role: &str) -> HabitsFile {
    let habits = Parts::of(n, Some(node), role, HABITS);
    let last = match habits.optional("last") {
        Some(_) => date(n, &habits, "last"),
        None => String::new(),
    };
    let (rally, serves) = cases(n, &habits);
    HabitsFile {
        of: habits.text(n, "of"),
        matches: whole(n, &habits, "matches", MATCH_LIMIT),
        last,
        used: habits.flag(n, "used"),
        strength: habits.number(n, "strength"),
        rally,
        serves,
    }
}

/// Reads what was seen, case by case.
pub fn cases(n: &mut Diagnostics, habits: &Parts<'_, '_>) -> (Vec<RallyFile>, Vec<ServesFile>) {
    let rally = each(n, habits, ("rally", RALLY), RallyFile::case, |n, of| RallyFile {
        wing: Name(of.choice(n, "wing")),
        from: Name(of.choice(n, "from")),
        hurried: of.flag(n, "hurried"),
        across: whole(n, of, "across", COUNT_LIMIT),
        middle: whole(n, of, "middle", COUNT_LIMIT),
        line: whole(n, of, "line", COUNT_LIMIT),
    });
    let serves = each(n, habits, ("serves", SERVE), ServesFile::case, |n, of| ServesFile {
        side: Name(of.choice(n, "side")),
        number: Name(of.choice(n, "number")),
        wide: whole(n, of, "wide", COUNT_LIMIT),
        body: whole(n, of, "body", COUNT_LIMIT),
        t: whole(n, of, "t", COUNT_LIMIT),
    });
    (rally, serves)
}

/// Reads a list of cases; each may stand in it once.
fn each<T>(
    n: &mut Diagnostics,
    habits: &Parts<'_, '_>,
    (part, fields): (&'static str, &'static [&'static str]),
    case: impl Fn(&T) -> HabitCase,
    read: impl Fn(&mut Diagnostics, &Parts<'_, '_>) -> T,
) -> Vec<T> {
    let mut all: Vec<T> = Vec::new();
    for (i, node) in habits.list(n, part).iter().enumerate() {
        let role = format!("{}[{i}]", habits.role(part));
        let of = Parts::of(n, Some(node), &role, fields);
        let found = read(n, &of);
        if all.iter().any(|known| case(known) == case(&found)) {
            n.add(node.at, role, ProblemKind::CaseTwice);
        }
        all.push(found);
    }
    all
}

/// A day as a text, such as `"2026-05-03"`.
pub fn date(n: &mut Diagnostics, parts: &Parts<'_, '_>, part: &'static str) -> String {
    let found = parts.text(n, part);
    if let Some(Node { value: Value::Text(_), at }) = parts.optional(part)
        && !found.is_empty()
        && found.parse::<Date>().is_err()
    {
        n.add(*at, parts.role(part), ProblemKind::NotADate { found: found.clone() });
    }
    found
}

/// A whole number from 0 to a limit.
fn whole(n: &mut Diagnostics, parts: &Parts<'_, '_>, part: &'static str, limit: f64) -> u32 {
    let found = parts.number(n, part);
    if found.fract() == 0.0 && (0.0..=limit).contains(&found) {
        return found as u32;
    }
    let at = parts.optional(part).map_or(0, |node| node.at);
    n.add(at, parts.role(part), ProblemKind::NotWhole { found, high: limit });
    0
}
