//! `solve`: where to stand after a shot, and why.

use std::io::{self, Write};

use clap::Args;
use glam::DVec2;
use serde::Serialize;
use standpoint_geometry::{
    Answer, Interception, Outcome, Play, Quality, Reply, SolveError, Solver, Stroke, WhatIf, quality, worth::Basis,
};
use standpoint_workbench::{
    habits,
    phrases::{self, BASIS, bare_percent, degrees, points_in_100},
    replying, standing,
    words::{self, SHORT},
};

use super::{
    args::{Reading, Which},
    exact::Exact,
    fault::Stop,
    json::{self, AnswerJson, ChosenJson, Num, PlayerJson, QualityJson, ShotJson},
    load::Asked,
    table::{Lean, Table, facts},
};

/// The first row of the places.
const SPOT: &str = "the spot";

/// Arguments of `solve`.
#[derive(Debug, Args)]
pub struct SolveArgs {
    /// Which shot.
    #[command(flatten)]
    pub which: Which,
    /// Exact or quick.
    #[command(flatten)]
    pub exact: Exact,
    /// Units.
    #[command(flatten)]
    pub reading: Reading,
    /// Print JSON in SI units.
    #[arg(long)]
    pub json: bool,
    /// Put the paths of the balls into the JSON: time, x, y and height of points along each.
    #[arg(long, requires = "json")]
    pub paths: bool,
}

/// Answers one shot.
///
/// # Errors
/// A board that cannot be read, a shot that cannot be played, or an answer that cannot be written.
pub fn run(args: &SolveArgs, out: &mut dyn Write) -> Result<(), Stop> {
    let asked = Asked::read(&args.which, &args.reading, args.exact)?;
    let answer = asked.answer()?;
    let quality = quality(&asked.situation).map_err(|error| asked.refusal(&SolveError::Aim(error)))?;
    let chosen = chosen(&asked)?;
    if args.json {
        return json::print(out, "solve", &asked, Solved::new(&asked, &quality, answer, chosen.as_ref(), args.paths));
    }
    let said = Said { asked: &asked, quality: &quality, answer, chosen };
    Ok(said.write(out)?)
}

/// Cost of the recovery place named by the board, if any.
fn chosen(asked: &Asked) -> Result<Option<WhatIf>, Stop> {
    let Some(place) = asked.spec.recover_to else { return Ok(None) };
    let judged = Solver::new().what_if(&asked.situation, &[place]).map_err(|error| asked.refusal(&error))?;
    Ok(judged.into_iter().next())
}

/// The answer in JSON.
#[derive(Debug, Serialize)]
struct Solved {
    hitter: PlayerJson,
    hitter_pressure: Num,
    opponent: PlayerJson,
    shot: ShotJson,
    quality: QualityJson,
    #[serde(flatten)]
    answer: AnswerJson,
    #[serde(skip_serializing_if = "Option::is_none")]
    recover_to: Option<ChosenJson>,
}

impl Solved {
    fn new(asked: &Asked, quality: &Quality, answer: &Answer, chosen: Option<&WhatIf>, paths: bool) -> Self {
        let situation = &asked.situation;
        Self {
            hitter: PlayerJson::new(asked, asked.end(), situation.hitter_place),
            hitter_pressure: Num(situation.hitter_pressure),
            opponent: PlayerJson::new(asked, asked.end().other(), situation.opponent_place),
            shot: (&situation.shot).into(),
            quality: quality.into(),
            answer: AnswerJson::new(answer, &situation.shot, paths),
            recover_to: chosen.map(|chosen| ChosenJson::new(chosen, paths)),
        }
    }
}

/// The answer in words.
struct Said<'a> {
    asked: &'a Asked,
    quality: &'a Quality,
    answer: &'a Answer,
    chosen: Option<WhatIf>,
}

impl Said<'_> {
    fn write(&self, out: &mut dyn Write) -> io::Result<()> {
        title(out, self.asked)?;
        self.headline(out)?;
        self.shot(out)?;
        match &self.answer.outcome {
            Outcome::Play(play) => {
                self.receipt(out, &play.receipt)?;
                self.replies(out, play)?;
                self.places(out, play)?;
                self.run(out, play)?;
            }
            Outcome::NoReply(receipt) => self.receipt(out, receipt)?,
            Outcome::Winner { .. } => {}
        }
        if let Some(play) = &self.answer.returner {
            self.returner(out, play)?;
        }
        if self.answer.basis == Basis::Level {
            writeln!(
                out,
                "\nAn estimate from the nearest level: the rally was not solved for these players, court and ball."
            )?;
        }
        writeln!(out, "\n{BASIS}")
    }

    fn headline(&self, out: &mut dyn Write) -> io::Result<()> {
        let (hitter, opponent) = (self.asked.name(self.asked.end()), self.asked.name(self.asked.end().other()));
        match &self.answer.outcome {
            Outcome::Winner { late_by, .. } => {
                let late = words::seconds(*late_by);
                writeln!(out, "A winner: {opponent} is {late} too late. Nothing comes back.")
            }
            Outcome::NoReply(receipt) => {
                let wing = words::wing(receipt.wing);
                writeln!(out, "{opponent} gets a {wing} on it, but no reply is likely to go in.")
            }
            Outcome::Play(play) => {
                let stand = standing::stand(play, self.asked.end(), self.asked.court(), self.asked.units);
                writeln!(out, "{stand}.")?;
                let (win, middle) = (points_in_100(play.spot.exposure), words::points(play.middle.exposure));
                writeln!(out, "{opponent} wins {win} with {hitter} there, {middle} in the middle at the same depth.")?;
                if let Some(said) = habits::describe(play, &opponent, self.asked.end(), self.asked.units) {
                    writeln!(out, "{said}.")?;
                }
                self.out_of_reach(out, play)
            }
        }
    }

    /// If the spot cannot be reached: the best reachable place, and its worth.
    fn out_of_reach(&self, out: &mut dyn Write, play: &Play) -> io::Result<()> {
        let run = &play.recovery;
        if run.short_by <= SHORT {
            return Ok(());
        }
        let (end, court, units) = (self.asked.end(), self.asked.court(), self.asked.units);
        let (hitter, opponent) = (self.asked.name(end), self.asked.name(end.other()));
        let place = words::place(run.reached.place, end, court, units);
        let win = points_in_100(run.reached.exposure);
        writeln!(out, "That is out of reach: {hitter} gets as far as {place}, where {opponent} wins {win}.")
    }

    fn shot(&self, out: &mut dyn Write) -> io::Result<()> {
        let (asked, units) = (self.asked, self.asked.units);
        let (flight, quality, shot) = (&self.answer.shot, self.quality, &asked.situation.shot);
        let (end, court) = (asked.end(), asked.court());
        let fine = |metres: f64| words::fine_length(metres, units);
        let launch = if flight.elevation < 0.0 { "down" } else { "up" };
        let c = &quality.chance;
        let faults = [("net", c.net), ("long", c.long), ("wide", c.wide)]
            .map(|(what, chance)| format!("{what} {}", words::percent(chance)));
        let back = if shot.stroke == Stroke::Serve { "service line" } else { "baseline" };
        facts(
            out,
            &format!("The shot of {}", asked.name(end)),
            &[
                ("stroke", self.stroke()),
                ("struck", self.struck()),
                ("aimed", phrases::target(end.turn2(shot.target), court, shot.stroke, units)),
                ("leaves", format!("{} {launch}", degrees(flight.elevation.abs()))),
                (
                    "over the net",
                    format!(
                        "{} over the tape, which is {} high there, after {}",
                        fine(flight.net.clearance),
                        fine(flight.net.net_height),
                        words::seconds(flight.net.time)
                    ),
                ),
                (
                    "lands",
                    format!(
                        "after {}, at {} and {} down",
                        words::seconds(flight.landing.time),
                        words::speed(flight.landing.speed, units),
                        degrees(flight.landing.angle)
                    ),
                ),
                ("make rate", format!("{}  ({})", words::percent(c.good), faults.join(", "))),
                (
                    "room to miss",
                    format!(
                        "{} to the {back}, {} to the sideline; a window of {} up and down, {} sideways",
                        fine(quality.to_back_line),
                        fine(quality.to_side_line),
                        degrees(quality.vertical_window()),
                        degrees(quality.lateral_window())
                    ),
                ),
            ],
        )
    }

    fn stroke(&self) -> String {
        let shot = &self.asked.situation.shot;
        format!(
            "{}, {}, {}",
            words::stroke(shot.stroke).to_lowercase(),
            words::speed(shot.speed, self.asked.units),
            words::spin(shot.topspin)
        )
    }

    /// The contact, and how hurried the hitter is.
    fn struck(&self) -> String {
        let (asked, units) = (self.asked, self.asked.units);
        let contact = asked.situation.shot.contact;
        let place = words::place(contact.truncate(), asked.end(), asked.court(), units);
        let said = format!("{place}, {} high", words::fine_length(contact.z, units));
        match asked.situation.hitter_pressure {
            0.0 => said,
            pressure => format!("{said}, {}", phrases::pressed(pressure)),
        }
    }

    fn receipt(&self, out: &mut dyn Write, receipt: &Interception) -> io::Result<()> {
        let (asked, units) = (self.asked, self.asked.units);
        let end = asked.end().other();
        let place = words::place(receipt.contact.truncate(), end, asked.court(), units);
        let spare = format!("{}, {}", words::seconds(receipt.time_to_spare), phrases::pressed(receipt.pressure));
        facts(
            out,
            &format!("{} meets it", asked.name(end)),
            &[
                ("with", phrases::met(receipt, units)),
                ("where", place),
                ("when", format!("{} after the stroke", words::seconds(receipt.time))),
                ("time to spare", spare),
            ],
        )
    }

    fn replies(&self, out: &mut dyn Write, play: &Play) -> io::Result<()> {
        let width = degrees(play.wedge.width());
        writeln!(
            out,
            "\nReplies: an angle of {width}, {} considered; the most dangerous against the spot",
            play.replies_weighed
        )?;
        self.best(out, play)
    }

    fn best(&self, out: &mut dyn Write, play: &Play) -> io::Result<()> {
        const R: Lean = Lean::Right;
        let mut table = Table::new(&[Lean::Left, R, R, R, R, Lean::Left]);
        let units = self.asked.units;
        let speed = words::speed_unit(units);
        table.heading(&["", "speed", "make rate", "to spare", "wins", ""]);
        table.heading(&["", speed.1, "%", "s", "in 100", ""]);
        for reply in &play.best {
            table.row(vec![
                reply_name(reply),
                words::decimal(reply.speed / speed.0, 0),
                bare_percent(reply.chance_in),
                words::decimal(reply.time_to_spare, 2),
                words::points(reply.exposure),
                replying::describe(reply),
            ]);
        }
        table.write(out)
    }

    fn places(&self, out: &mut dyn Write, play: &Play) -> io::Result<()> {
        let (end, court, units) = (self.asked.end(), self.asked.court(), self.asked.units);
        writeln!(out, "\nPlaces to stand")?;
        let mut table = Table::new(&[Lean::Left, Lean::Right, Lean::Right, Lean::Right, Lean::Right]);
        table.heading(&["", "left-right", "depth", "opponent wins", "more"]);
        table.heading(&["", "", "", "in 100", ""]);
        let mut row = |name: &str, place: DVec2, exposure: f64| {
            let (across, depth) = phrases::place_cells(end.turn2(place), court, units);
            let more = exposure - play.spot.exposure;
            let more = if name == SPOT { String::new() } else { words::more_points(more) };
            table.row(vec![name.to_owned(), across, depth, words::decimal(exposure * 100.0, 1), more]);
        };
        row(SPOT, play.spot.place, play.spot.exposure);
        row("bisector, same depth", play.bisector.place, play.bisector.exposure);
        row("middle, same depth", play.middle.place, play.middle.exposure);
        let run = &play.recovery;
        if run.short_by > SHORT {
            row("reached by then", run.reached.place, run.reached.exposure);
        }
        if let Some(chosen) = &self.chosen {
            row("chosen by hand", chosen.place.place, chosen.place.exposure);
        }
        table.write(out)
    }

    /// Where the receiver waits, whatever serve comes.
    fn returner(&self, out: &mut dyn Write, play: &Play) -> io::Result<()> {
        let (end, court, units) = (self.asked.end().other(), self.asked.court(), self.asked.units);
        let receiver = self.asked.name(end);
        let place = standing::place(play, end, court, units);
        let (server, win) = (self.asked.name(end.other()), points_in_100(play.spot.exposure));
        writeln!(out, "\n{receiver}, receiving, waits {place}")?;
        writeln!(out, "and {server} wins {win} with the serves that follow")?;
        self.best(out, play)
    }

    fn run(&self, out: &mut dyn Write, play: &Play) -> io::Result<()> {
        let (run, units) = (&play.recovery, self.asked.units);
        facts(
            out,
            "Recovery",
            &[
                ("distance", words::length(run.distance, units)),
                ("needed", words::seconds(run.needed)),
                ("available", words::seconds(run.available)),
                ("arrives", phrases::run_ends(run, units)),
            ],
        )
    }
}

fn reply_name(reply: &Reply) -> String {
    let name = words::reply(reply.name);
    let stroke = words::stroke(reply.stroke).to_lowercase();
    if name.to_lowercase().starts_with(&stroke) { name.to_owned() } else { format!("{name} ({stroke})") }
}

/// The board, the shot and who plays it.
///
/// # Errors
/// When it cannot be written.
pub fn title(out: &mut dyn Write, asked: &Asked) -> io::Result<()> {
    let (end, other) = (asked.end(), asked.end().other());
    let page = asked.board.page(asked.page - 1).map_or("", |page| page.title.as_str());
    writeln!(out, "{}", asked.board.title)?;
    writeln!(
        out,
        "Page {} “{page}”, shot {}: {} ({} end) to {} ({} end)\n",
        asked.page,
        asked.shot,
        asked.name(end),
        words::end(end),
        asked.name(other),
        words::end(other)
    )
}
