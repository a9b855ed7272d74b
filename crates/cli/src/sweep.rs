//! `sweep`: when to change direction.

use std::io::{self, Write};

use clap::Args;
use serde::Serialize;
use standpoint_board::Units;
use standpoint_geometry::{Cause, Choice, Pace, Shot, SolveError, Solver, Sweep, SweepPoint, Wing, sweep};
use standpoint_workbench::{
    compare_words,
    phrases::{BASIS, bare_percent, wrapped},
    words,
};

use super::{
    args::{CauseArg, ChoiceArg, Form, Reading, Which, choice_word},
    exact::Exact,
    fault::{Fault, Stop},
    json::{self, Num, ShotJson},
    load::Asked,
    names,
    solve::title,
    table::{Lean, Table},
};
use crate::round::rounded;

/// Arguments of `sweep`.
#[derive(Debug, Args)]
pub struct SweepArgs {
    /// Which shot.
    #[command(flatten)]
    pub which: Which,
    /// Exact or quick.
    #[command(flatten)]
    pub exact: Exact,
    /// What is varied.
    #[arg(long, value_enum)]
    pub cause: CauseArg,
    /// The one shot.
    #[arg(long, value_enum, value_name = "CHOICE", default_value = "cross")]
    pub first: ChoiceArg,
    /// The other shot.
    #[arg(long, value_enum, value_name = "CHOICE", default_value = "line")]
    pub second: ChoiceArg,
    /// The least value, in the units of the answer in words: m or ft, km/h or mph, or %.
    #[arg(long, value_name = "A", allow_negative_numbers = true, value_parser = number)]
    pub from: Option<f64>,
    /// The greatest value.
    #[arg(long, value_name = "B", allow_negative_numbers = true, value_parser = number)]
    pub to: Option<f64>,
    /// How many steps: 1 to 500.
    #[arg(long, value_name = "N", default_value_t = 12, value_parser = clap::value_parser!(u16).range(1..=500))]
    pub steps: u16,
    /// JSON or CSV.
    #[command(flatten)]
    pub form: Form,
    /// Units.
    #[command(flatten)]
    pub reading: Reading,
}

impl SweepArgs {
    /// An opponent whose backhand varies is another one at every step: all of them are answered for from the nearest level.
    fn exact(&self) -> Exact {
        Exact { quick: self.exact.quick || self.cause == CauseArg::OpponentBackhand }
    }
}

fn number(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(number) if number.is_finite() => Ok(number),
        _ => Err("write an ordinary number".to_owned()),
    }
}

/// Sweeps a cause for two shots.
///
/// # Errors
/// A board that cannot be read, choices that do not exist there, a range that makes no sense, or an answer that cannot
/// be written.
pub fn run(args: &SweepArgs, out: &mut dyn Write) -> Result<(), Stop> {
    let asked = Asked::read(&args.which, &args.reading, args.exact())?;
    let cause = args.cause.cause();
    let choices = [args.first, args.second].map(ChoiceArg::choice);
    let mut solver = Solver::new();
    let shots = [shot(&mut solver, &asked, choices[0])?, shot(&mut solver, &asked, choices[1])?];
    let range = range(args, &asked)?;
    let swept = sweep(&mut solver, &asked.situation, choices, cause, range, usize::from(args.steps))
        .map_err(|error| beyond(args, &asked, range, &error).unwrap_or_else(|| asked.refusal(&error)))?;
    let said = Swept { asked: &asked, word: args.cause.word(), choices, shots, swept };
    if args.form.json {
        return json::print(out, "sweep", &asked, said.json());
    }
    if args.form.csv {
        return said.csv(out);
    }
    Ok(said.write(out)?)
}

/// The shot as things stand on the board.
fn shot(solver: &mut Solver, asked: &Asked, choice: Choice) -> Result<Shot, Box<Fault>> {
    let aimed = solver.aimed(choice, &asked.situation, Pace::Drawn).map_err(|error| asked.refusal(&error))?;
    aimed.ok_or_else(|| {
        let what = format!("the choice {} is not there from this contact", choice_word(choice));
        Fault::new("no_choice", &asked.place(), what, "Ask for another --first or --second.")
    })
}

/// The range asked for, in SI units; the usual one of the cause where nothing is said.
fn range(args: &SweepArgs, asked: &Asked) -> Result<(f64, f64), Box<Fault>> {
    let cause = args.cause.cause();
    let (factor, unit) = compare_words::cause_unit(cause, asked.units);
    let usual = cause.range(&asked.situation);
    let low = args.from.map_or(usual.0, |from| from * factor);
    let high = args.to.map_or(usual.1, |to| to * factor);
    let said = |value: f64| format!("{} {unit}", words::decimal(value / factor, 2));
    if low < high && (high - low).is_finite() {
        return Ok((low, high));
    }
    if low < high {
        let what = format!("the range from {} to {} goes beyond what can be computed", said(low), said(high));
        return Err(Fault::new("range", "standpoint", what, within(args, asked)));
    }
    let what = format!("the range from {} to {} is empty", said(low), said(high));
    Err(Fault::new("range", "standpoint", what, "Make --from less than --to."))
}

/// Error for a valid shot whose cause leaves the computable range: it blames the range, not the shot.
fn beyond(args: &SweepArgs, asked: &Asked, range: (f64, f64), error: &SolveError) -> Option<Box<Fault>> {
    let SolveError::Invalid(problems) = error else { return None };
    let problem = problems.first().filter(|_| asked.situation.validate().is_empty())?;
    let (factor, unit) = compare_words::cause_unit(args.cause.cause(), asked.units);
    let said = |value: f64| format!("{} {unit}", words::decimal(value / factor, 2));
    let figure = |value: f64| words::decimal(value, 1);
    let (low, high) = (said(range.0), said(range.1));
    let what = format!(
        "the range from {low} to {high} goes beyond what can be computed: {} would be {} {}, outside {} to {}",
        problem.field,
        figure(problem.value),
        problem.unit,
        figure(problem.low),
        figure(problem.high)
    );
    Some(Fault::new("range", "standpoint", what, within(args, asked)))
}

/// The remedy for a range beyond what can be computed.
fn within(args: &SweepArgs, asked: &Asked) -> String {
    let cause = args.cause.cause();
    let (factor, unit) = compare_words::cause_unit(cause, asked.units);
    let (low, high) = cause.range(&asked.situation);
    let [low, high] = [low, high].map(|value| words::decimal(value / factor, 1));
    format!("Keep --from and --to within what can happen; without them it goes from {low} to {high} {unit}.")
}

struct Swept<'a> {
    asked: &'a Asked,
    word: &'static str,
    choices: [Choice; 2],
    shots: [Shot; 2],
    swept: Sweep,
}

impl Swept<'_> {
    fn sentences(&self, units: Units) -> Vec<String> {
        compare_words::crossings(&self.swept, self.choices, self.asked.court(), units)
    }

    fn write(&self, out: &mut dyn Write) -> io::Result<()> {
        title(out, self.asked)?;
        let units = self.asked.units;
        for sentence in self.sentences(units) {
            writeln!(out, "{}", wrapped(&sentence))?;
        }
        writeln!(out)?;
        let (factor, unit) = compare_words::cause_unit(self.swept.cause, units);
        let [first, second] = self.choices.map(compare_words::choice_label);
        const R: Lean = Lean::Right;
        let mut table = Table::new(&[R, R, R, R, Lean::Left, Lean::Left]);
        table.heading(&[compare_words::cause(self.swept.cause), first, second, "better by", "", "met with"]);
        table.heading(&[unit, "in 100", "in 100", "in 100", "", ""]);
        let figures = if matches!(self.swept.cause, Cause::Speed | Cause::OpponentBackhand) { 0 } else { 2 };
        for point in &self.swept.points {
            let win = |i: usize| point.win[i].map_or_else(|| "—".to_owned(), bare_percent);
            let (by, which) = match point.win {
                [Some(a), Some(b)] if a >= b => (words::decimal((a - b) * 100.0, 1), first),
                [Some(a), Some(b)] => (words::decimal((b - a) * 100.0, 1), second),
                _ => (String::new(), ""),
            };
            table.row(vec![
                words::decimal(point.value / factor, figures),
                win(0),
                win(1),
                by,
                which.to_owned(),
                met(point),
            ]);
        }
        table.write(out)?;
        let here = words::decimal(self.swept.cause.value(&self.asked.situation) / factor, figures);
        writeln!(out, "\nOn the board: {here} {unit}{}. —: cannot be played there.", self.side())?;
        writeln!(out, "{BASIS}")
    }

    /// Side on which a distance from the middle line is swept: that on the board.
    fn side(&self) -> &'static str {
        let (situation, end) = (&self.asked.situation, self.asked.end());
        let across = match self.swept.cause {
            Cause::OpponentWide => end.other().sign() * situation.opponent_place.x,
            Cause::ContactWide => end.sign() * situation.shot.contact.x,
            _ => return "",
        };
        if across < 0.0 { ", to that player’s left" } else { ", to that player’s right" }
    }

    fn json(&self) -> Body {
        let range = |at: Option<&SweepPoint>| at.map(|p| Num(p.value));
        Body {
            cause: self.word,
            unit: match self.swept.cause {
                Cause::Speed => "m/s",
                Cause::OpponentBackhand => "share",
                _ => "m",
            },
            on_the_board: Num(self.swept.cause.value(&self.asked.situation)),
            from: range(self.swept.points.first()),
            to: range(self.swept.points.last()),
            first: NamedShot { choice: choice_word(self.choices[0]), shot: (&self.shots[0]).into() },
            second: NamedShot { choice: choice_word(self.choices[1]), shot: (&self.shots[1]).into() },
            points: self.swept.points.iter().map(PointJson::from).collect(),
            crossings: self.swept.crossings.iter().map(|&(value, above)| self.crossing(value, above)).collect(),
            words: self.sentences(Units::Metres),
        }
    }

    fn crossing(&self, value: f64, second_above: bool) -> CrossingJson {
        let [first, second] = self.choices.map(choice_word);
        let (below, above) = if second_above { (first, second) } else { (second, first) };
        CrossingJson { value: Num(value), better_below: below, better_above: above }
    }

    fn csv(&self, out: &mut dyn Write) -> Result<(), Stop> {
        let mut csv = csv::Writer::from_writer(out);
        let [first, second] = self.choices.map(choice_word);
        csv.write_record(["value", "first", "win_first", "wing_first", "second", "win_second", "wing_second"])?;
        for point in &self.swept.points {
            let figure = |value: Option<f64>| value.map_or_else(String::new, |value| rounded(value).to_string());
            let wing = |wing: Option<Wing>| wing.map_or("", names::wing).to_owned();
            csv.write_record([
                rounded(point.value).to_string(),
                first.to_owned(),
                figure(point.win[0]),
                wing(point.wing[0]),
                second.to_owned(),
                figure(point.win[1]),
                wing(point.wing[1]),
            ])?;
        }
        Ok(csv.flush()?)
    }
}

/// The wings on which the opponent meets the two shots: `forehand, backhand`.
fn met(point: &SweepPoint) -> String {
    let one = |i: usize| match (point.win[i], point.wing[i]) {
        (None, _) => "—",
        (Some(_), None) => "gets past",
        (Some(_), Some(wing)) => words::wing(wing),
    };
    match [one(0), one(1)] {
        ["—", "—"] => String::new(),
        [first, second] if first == second => first.to_owned(),
        [first, second] => format!("{first}, {second}"),
    }
}

#[derive(Debug, Serialize)]
struct Body {
    cause: &'static str,
    unit: &'static str,
    on_the_board: Num,
    from: Option<Num>,
    to: Option<Num>,
    first: NamedShot,
    second: NamedShot,
    points: Vec<PointJson>,
    crossings: Vec<CrossingJson>,
    words: Vec<String>,
}

#[derive(Debug, Serialize)]
struct NamedShot {
    choice: &'static str,
    #[serde(flatten)]
    shot: ShotJson,
}

#[derive(Debug, Serialize)]
struct PointJson {
    value: Num,
    win_first: Option<Num>,
    win_second: Option<Num>,
    wing_first: Option<&'static str>,
    wing_second: Option<&'static str>,
}

impl From<&SweepPoint> for PointJson {
    fn from(point: &SweepPoint) -> Self {
        let [win_first, win_second] = point.win.map(|win| win.map(Num));
        let [wing_first, wing_second] = point.wing.map(|wing| wing.map(names::wing));
        Self { value: Num(point.value), win_first, win_second, wing_first, wing_second }
    }
}

#[derive(Debug, Serialize)]
struct CrossingJson {
    value: Num,
    better_below: &'static str,
    better_above: &'static str,
}
