//! `compare`: shots from the same contact, side by side.

mod rows;

use std::io::{self, Write};

use clap::Args;
use standpoint_geometry::{
    Answer, Choice, Difference, Outcome, Quality, Situation, SolveError, Solver, Stroke, Weighed, difference,
    to_weaker_wing, weigh,
};
use standpoint_workbench::{
    compare::plan,
    compare_words,
    phrases::{BASIS, bare_length, bare_percent, length_heading, listed, place_cells, points_in_100, wrapped},
    words,
};

use super::{
    args::{ChoiceArg, Form, Reading, Which, choice_word},
    exact::Exact,
    fault::{Fault, Stop},
    json,
    load::Asked,
    solve::title,
    table::{Lean, Table},
};

/// Arguments of `compare`.
#[derive(Debug, Args)]
pub struct CompareArgs {
    /// Which shot.
    #[command(flatten)]
    pub which: Which,
    /// Exact or quick.
    #[command(flatten)]
    pub exact: Exact,
    /// The choices to compare, the first being the one that the others are compared with; all that go with the shot
    /// without it.
    #[arg(long, value_enum, value_delimiter = ',', value_name = "LIST")]
    pub choices: Vec<ChoiceArg>,
    /// JSON or CSV.
    #[command(flatten)]
    pub form: Form,
    /// Units.
    #[command(flatten)]
    pub reading: Reading,
}

/// Compares the choices.
///
/// # Errors
/// A board that cannot be read, choices none of which exists there, or an answer that cannot be written.
pub fn run(args: &CompareArgs, out: &mut dyn Write) -> Result<(), Stop> {
    let asked = Asked::read(&args.which, &args.reading, args.exact)?;
    let choices = wanted(&args.choices, &asked.situation);
    let weighed = weigh(&mut Solver::new(), &asked.situation, &choices);
    let absent: Vec<Choice> =
        choices.iter().copied().filter(|choice| weighed.iter().all(|w| w.choice != *choice)).collect();
    if let Some(invalid) = weighed.iter().find_map(|w| w.result.as_ref().err().filter(|e| !is_aim(e))) {
        return Err(asked.refusal(invalid).into());
    }
    if weighed.is_empty() {
        let reasons: Vec<String> = absent
            .iter()
            .map(|choice| format!("{}: {}", choice_word(*choice), reason_absent(*choice, &asked.situation)))
            .collect();
        let what = format!("none of these choices is there; {}", listed(&reasons));
        return Err(Fault::new("no_choice", &asked.place(), what, "Ask for other --choices.").into());
    }
    let compared = Compared { asked: &asked, weighed: &weighed, absent: &absent };
    if args.form.json {
        return json::print(out, "compare", &asked, compared.json());
    }
    if args.form.csv {
        return compared.csv(out);
    }
    Ok(compared.write(out)?)
}

/// The choices asked for, each once; without any, those that exist there.
fn wanted(args: &[ChoiceArg], situation: &Situation) -> Vec<Choice> {
    if args.is_empty() {
        return Choice::ALL.into_iter().filter(|choice| choice.shot(situation).is_some()).collect();
    }
    let mut choices: Vec<Choice> = Vec::new();
    for arg in args {
        if !choices.contains(&arg.choice()) {
            choices.push(arg.choice());
        }
    }
    choices
}

fn is_aim(error: &SolveError) -> bool {
    matches!(error, SolveError::Aim(_))
}

/// Why a choice does not exist in a situation.
fn reason_absent(choice: Choice, situation: &Situation) -> &'static str {
    let serves = matches!(choice, Choice::ServeWide | Choice::ServeBody | Choice::ServeT | Choice::SecondServe);
    match (serves, situation.shot.stroke == Stroke::Serve) {
        (true, true) => "there is no service box on this court",
        (true, false) => "the shot on the board is no serve",
        (false, true) => "the shot on the board is a serve",
        (false, false) => "it takes a forehand from the backhand side",
    }
}

struct Compared<'a> {
    asked: &'a Asked,
    weighed: &'a [Weighed],
    absent: &'a [Choice],
}

impl Compared<'_> {
    /// The first that can be played, with which the others are compared.
    fn yardstick(&self) -> Option<&Weighed> {
        self.weighed.iter().find(|w| w.result.is_ok())
    }

    fn best(&self) -> Option<&Weighed> {
        let playable = self.weighed.iter().filter(|w| w.win().is_some());
        playable.max_by(|a, b| a.win().unwrap_or(0.0).total_cmp(&b.win().unwrap_or(0.0)))
    }

    fn differences(&self) -> impl Iterator<Item = (&Weighed, &Weighed, Difference)> {
        let first = self.yardstick();
        let others = self.weighed.iter().filter(move |w| first.is_some_and(|f| f.choice != w.choice));
        others.filter_map(move |second| Some((first?, second, difference(first?, second)?)))
    }

    fn write(&self, out: &mut dyn Write) -> io::Result<()> {
        title(out, self.asked)?;
        self.verdict(out)?;
        self.table(out)?;
        let units = self.asked.units;
        let said: Vec<String> =
            self.differences().map(|(a, b, d)| compare_words::sentence(a.choice, b.choice, &d, units)).collect();
        if !said.is_empty() {
            writeln!(out)?;
        }
        for line in said {
            writeln!(out, "{}", wrapped(&line))?;
        }
        self.plan(out)?;
        self.not_played(out)?;
        writeln!(out, "\n{BASIS}")
    }

    fn verdict(&self, out: &mut dyn Write) -> io::Result<()> {
        let Some((best, win)) = self.best().and_then(|w| Some((w, w.win()?))) else {
            return writeln!(out, "None of these shots can be played.");
        };
        /// Chances to win closer than this are as good as equal: the model is no better than that.
        const AS_GOOD: f64 = 0.01;
        let near = |w: &&Weighed| w.choice != best.choice && w.win().is_some_and(|other| win - other < AS_GOOD);
        let others: Vec<String> =
            self.weighed.iter().filter(near).map(|w| compare_words::choice(w.choice).to_owned()).collect();
        let name = compare_words::choice(best.choice);
        write!(out, "Best of these: {name}, which wins {}.", points_in_100(win))?;
        if !others.is_empty() {
            write!(out, " As good within a point: {}.", listed(&others))?;
        }
        writeln!(out, "\n")
    }

    /// Two shots ahead of the best one.
    fn plan(&self, out: &mut dyn Write) -> io::Result<()> {
        let Some(best) = self.best() else { return Ok(()) };
        let situation = Situation { shot: best.shot, ..self.asked.situation };
        let planned = Solver::new().plan(&situation).unwrap_or_default();
        if planned.is_empty() {
            return Ok(());
        }
        writeln!(out, "\nAfter {}:", compare_words::choice(best.choice))?;
        for reply in &planned {
            writeln!(out, "{}", wrapped(&format!("{}.", plan::sentence(reply, &situation))))?;
        }
        Ok(())
    }

    fn table(&self, out: &mut dyn Write) -> io::Result<()> {
        const R: Lean = Lean::Right;
        const L: Lean = Lean::Left;
        let units = self.asked.units;
        let unit = length_heading(units);
        let mut table = Table::new(&[L, R, R, R, R, R, L, R, R, R, R, R, R, L, L]);
        table.heading(&[
            "", "wins", "in", "over", "net", "their", "their", "to", "angle", "run", "needs", "has", "they win",
            "stand", "",
        ]);
        table.heading(&["", "in 100", "%", unit, unit, "time", "wing", "spare", "°", unit, "s", "s", "in 100", "", ""]);
        for w in self.weighed {
            let name = compare_words::choice_label(w.choice).to_owned();
            table.row(match &w.result {
                Ok((quality, answer)) => self.row(name, w.win(), quality, answer),
                Err(_) => vec![name, "—".to_owned()],
            });
        }
        table.write(out)
    }

    fn row(&self, name: String, win: Option<f64>, quality: &Quality, answer: &Answer) -> Vec<String> {
        let units = self.asked.units;
        let mut cells = vec![
            name,
            win.map_or_else(String::new, words::points),
            bare_percent(quality.chance.good),
            bare_length(quality.clearance, 2, units),
            bare_length(quality.net_height, 2, units),
        ];
        let seconds = |s: f64| words::decimal(s, 2);
        match &answer.outcome {
            Outcome::Winner { .. } => cells.extend(["—".to_owned(), "winner".to_owned()]),
            Outcome::NoReply(receipt) => {
                cells.extend([
                    seconds(receipt.time),
                    words::wing(receipt.wing).to_owned(),
                    seconds(receipt.time_to_spare),
                ]);
            }
            Outcome::Play(play) => {
                let (across, depth) = place_cells(self.asked.end().turn2(play.spot.place), self.asked.court(), units);
                let weaker = to_weaker_wing(&self.asked.situation, answer).unwrap_or(false);
                let wing = words::wing(play.receipt.wing);
                cells.extend([
                    seconds(play.receipt.time),
                    if weaker { format!("{wing}*") } else { wing.to_owned() },
                    seconds(play.receipt.time_to_spare),
                    words::decimal(play.wedge.width().to_degrees(), 0),
                    bare_length(play.recovery.distance, 1, units),
                    seconds(play.recovery.needed),
                    seconds(play.recovery.available),
                    words::points(play.recovery.reached.exposure),
                    across,
                    depth,
                ]);
            }
        }
        cells
    }

    /// Choices that cannot be played or are not there, with the reason.
    fn not_played(&self, out: &mut dyn Write) -> io::Result<()> {
        let units = self.asked.units;
        writeln!(out)?;
        for w in self.weighed {
            if let Err(error) = &w.result {
                let (what, remedy) = words::refusal(error, units);
                let label = compare_words::choice_label(w.choice);
                writeln!(out, "{label}: cannot be played, {what}. {remedy}.")?;
            }
        }
        for choice in self.absent {
            let label = compare_words::choice_label(*choice);
            writeln!(out, "{label}: not there, {}.", reason_absent(*choice, &self.asked.situation))?;
        }
        writeln!(
            out,
            "Wins: it goes in, and the point is won from where the run ends. They win: once it is in, over all their \
             replies.\n*: the weaker wing. Needs, has: seconds for the run to the spot."
        )
    }
}
