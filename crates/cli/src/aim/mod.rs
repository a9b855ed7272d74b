//! `aim`: the worth of every target, and the best one.

mod rows;

use std::{
    io::{self, IsTerminal as _, Write},
    sync::{
        Mutex,
        atomic::{AtomicBool, AtomicUsize, Ordering},
    },
    thread,
    time::Duration,
};

use clap::Args;
use glam::DVec2;
use standpoint_geometry::{AimMap, AimWorth, NetPosition, ReadyArea, Situation, SolveError, Solver, as_approach};
use standpoint_workbench::{
    phrases::{self, BASIS, bare_percent, points_in_100, wrapped},
    words,
};

use super::{
    args::{Form, Reading, Which},
    exact::Exact,
    fault::{Fault, Stop},
    json,
    load::Asked,
    solve::title,
    table::{Lean, Table},
};

/// Threads that compute the map.
const WORKERS: usize = 2;
/// Between two messages on the progress.
const PROGRESS: Duration = Duration::from_millis(100);

/// Arguments of `aim`.
#[derive(Debug, Args)]
pub struct AimArgs {
    /// Which shot.
    #[command(flatten)]
    pub which: Which,
    /// Exact or quick.
    #[command(flatten)]
    pub exact: Exact,
    /// Distance between targets, in metres: 0.1 to 2.
    #[arg(long, value_name = "M", default_value_t = 0.5, value_parser = step)]
    pub step: f64,
    /// Go to the net after the shot.
    #[arg(long)]
    pub approach: bool,
    /// JSON or CSV.
    #[command(flatten)]
    pub form: Form,
    /// Units.
    #[command(flatten)]
    pub reading: Reading,
}

fn step(text: &str) -> Result<f64, String> {
    match text.parse() {
        Ok(step) if (0.1..=2.0).contains(&step) => Ok(step),
        _ => Err("write a number of metres from 0.1 to 2".to_owned()),
    }
}

/// Computes the map and prints the best target.
///
/// # Errors
/// A board that cannot be read, a stroke that reaches no target, or an answer that cannot be written.
pub fn run(args: &AimArgs, out: &mut dyn Write) -> Result<(), Stop> {
    let asked = Asked::read(&args.which, &args.reading, args.exact)?;
    let situation = if args.approach { as_approach(&asked.situation) } else { asked.situation };
    let map = compute(&situation, args.step).map_err(|error| asked.refusal(&error))?;
    let Some(best) = map.best(false) else {
        return Err(asked.answer().err().unwrap_or_else(|| no_target(&asked)).into());
    };
    let found = Found::new(&asked, &situation, args.approach, map, best).map_err(|error| asked.refusal(&error))?;
    if args.form.json {
        return json::print(out, "aim", &asked, found.json());
    }
    if args.form.csv {
        return found.csv(out);
    }
    Ok(found.write(out)?)
}

fn no_target(asked: &Asked) -> Box<Fault> {
    let what = "no target can be reached with this stroke at any speed";
    Fault::new("no_target", &asked.place(), what, "Choose another stroke, or hit faster or from higher.")
}

/// Computes the map on two threads that each take the next target. Progress goes to a terminal.
fn compute(situation: &Situation, step: f64) -> Result<AimMap, SolveError> {
    let mut map = AimMap::new(situation, step);
    let (order, _) = map.order();
    let next = AtomicUsize::new(0);
    let over = AtomicBool::new(false);
    let found = Mutex::new(Vec::with_capacity(order.len()));
    let work = || -> Result<(), SolveError> {
        let mut solver = Solver::new();
        let mut mine = Vec::new();
        while let Some(&cell) = order.get(next.fetch_add(1, Ordering::Relaxed)) {
            match solver.worth(situation, map.target(cell)) {
                Ok(worth) => mine.push((cell, worth)),
                Err(error) => {
                    next.store(order.len(), Ordering::Relaxed);
                    return Err(error);
                }
            }
        }
        // A panicked thread is reported below; its results are dropped.
        found.lock().unwrap_or_else(std::sync::PoisonError::into_inner).extend(mine);
        Ok(())
    };
    let results = thread::scope(|scope| {
        let workers: Vec<_> = (0..WORKERS).map(|_| scope.spawn(work)).collect();
        if io::stderr().is_terminal() {
            scope.spawn(|| progress(&next, order.len(), &over));
        }
        let results: Vec<_> = workers.into_iter().map(thread::ScopedJoinHandle::join).collect();
        over.store(true, Ordering::Relaxed);
        results
    });
    for result in results {
        result.unwrap_or_else(|panic| std::panic::resume_unwind(panic))?;
    }
    for (cell, worth) in found.into_inner().unwrap_or_else(std::sync::PoisonError::into_inner) {
        map.worth[cell] = Some(worth);
    }
    Ok(map)
}

/// Progress on a terminal, removed at the end.
fn progress(next: &AtomicUsize, count: usize, over: &AtomicBool) {
    let mut said = false;
    thread::sleep(PROGRESS);
    while !over.load(Ordering::Relaxed) {
        let done = next.load(Ordering::Relaxed).min(count);
        let _ = write!(io::stderr(), "\r{done} of {count} targets");
        said = true;
        thread::sleep(PROGRESS);
    }
    if said {
        let _ = write!(io::stderr(), "\r{:30}\r", "");
    }
}

/// The alternative to compare with: staying back, or recovering to the middle.
struct Found<'a> {
    asked: &'a Asked,
    approach: bool,
    map: AimMap,
    best: (DVec2, AimWorth),
    /// The best target if the player goes to the middle after it.
    to_middle: Option<(DVec2, AimWorth)>,
    /// The target on the board.
    drawn: Option<AimWorth>,
    /// For an approach: the best target's worth with a player who stays back, and the place at the net.
    staying: Option<AimWorth>,
    at_net: Option<NetPosition>,
}

impl<'a> Found<'a> {
    fn new(
        asked: &'a Asked,
        situation: &Situation,
        approach: bool,
        map: AimMap,
        best: (DVec2, AimWorth),
    ) -> Result<Self, SolveError> {
        let mut solver = Solver::new();
        let drawn = solver.worth(situation, situation.shot.target)?;
        let to_middle = if approach { None } else { map.best(true) };
        let (mut staying, mut at_net) = (None, None);
        if approach {
            let mut back = asked.situation;
            back.settings.ready = ReadyArea::Back;
            staying = solver.worth(&back, best.0)?;
            let mut aimed = *situation;
            aimed.shot.target = best.0;
            aimed.shot.speed = best.1.speed;
            if let Some(play) = solver.solve(&aimed)?.play() {
                at_net = solver.net_position(&aimed, play.recovery.reached.place)?;
            }
        }
        Ok(Self { asked, approach, map, best, to_middle, drawn, staying, at_net })
    }

    fn target(&self, place: DVec2) -> String {
        let (asked, stroke) = (self.asked, self.asked.situation.shot.stroke);
        phrases::target(asked.end().turn2(place), asked.court(), stroke, asked.units)
    }

    /// `72 points in 100`, and the speed where it is another one than the board's.
    fn wins(&self, worth: &AimWorth, win: f64) -> String {
        let said = format!("wins {}, make rate {}", points_in_100(win), words::percent(worth.chance_in));
        let drawn = self.asked.situation.shot.speed;
        if (worth.speed - drawn).abs() < 0.01 * drawn {
            return said;
        }
        format!("{said}, struck at {} instead of {}", self.speed(worth.speed), self.speed(drawn))
    }

    fn speed(&self, speed: f64) -> String {
        words::speed(speed, self.asked.units)
    }

    fn write(&self, out: &mut dyn Write) -> io::Result<()> {
        title(out, self.asked)?;
        let (target, worth) = &self.best;
        let then = if self.approach { " and come in" } else { "" };
        writeln!(out, "{}", wrapped(&format!("Aim {}{then}: {}.", self.target(*target), self.wins(worth, worth.win))))?;
        self.drawn(out)?;
        self.middle(out)?;
        self.net(out)?;
        self.picture(out)?;
        writeln!(out, "\n{BASIS}")
    }

    fn drawn(&self, out: &mut dyn Write) -> io::Result<()> {
        let drawn = self.target(self.asked.situation.shot.target);
        match &self.drawn {
            Some(worth) => {
                writeln!(out, "{}", wrapped(&format!("As drawn, {drawn}: {}.", self.wins(worth, worth.win))))
            }
            None => writeln!(out, "As drawn, {drawn}: out of reach at any speed."),
        }
    }

    /// What it costs to go back to the middle by rule.
    fn middle(&self, out: &mut dyn Write) -> io::Result<()> {
        let Some((target, worth)) = &self.to_middle else { return Ok(()) };
        let (best, here) = &self.best;
        let cost = points_in_100((here.win - here.win_from_middle).max(0.0));
        let mut said = format!("Running to the middle after the best aim instead of to the spot costs {cost}");
        if (*target - *best).length() > 1.5 * self.map.step {
            let aim = self.target(*target);
            said.push_str(&format!(
                "; then the best aim would be {aim}, which wins {}",
                words::points(worth.win_from_middle)
            ));
        }
        writeln!(out, "{}", wrapped(&format!("{said}.")))
    }

    fn net(&self, out: &mut dyn Write) -> io::Result<()> {
        if !self.approach {
            return Ok(());
        }
        let (_, worth) = &self.best;
        if let Some(staying) = &self.staying {
            let more = worth.win - staying.win;
            let said = match words::points(more.abs()).as_str() {
                "0" => "Coming in after it is worth as much as staying back".to_owned(),
                points if more > 0.0 => format!("Coming in after it wins {points} in 100 more than staying back"),
                points => format!("Coming in after it wins {points} in 100 fewer than staying back"),
            };
            writeln!(out, "{said}.")?;
        }
        let Some(net) = &self.at_net else {
            return writeln!(out, "Nothing comes back that would have to be met at the net.");
        };
        let asked = self.asked;
        let place = words::place(net.place, asked.end(), asked.court(), asked.units);
        let worst = words::reply(net.worst).to_lowercase();
        let said =
            format!("At the opponent’s stroke {} is {place}; the worst there: {worst}.", asked.name(asked.end()));
        writeln!(out, "{}", wrapped(&said))?;
        let [line, across, lob] = [net.line, net.across, net.lob].map(words::points);
        writeln!(out, "Lost in 100 to each: pass down the line {line}, cross-court pass {across}, lob {lob}.")?;
        if let Some(distance) = net.safe_distance {
            let distance = words::length(distance, asked.units);
            let close =
                if net.too_close { "Too close for the lob: stand" } else { "The lob stays the worst reply up to" };
            writeln!(out, "{close} {distance} from the net.")?;
        }
        Ok(())
    }

    /// The map as the hitter sees it: points won in 100, the baseline on top.
    fn picture(&self, out: &mut dyn Write) -> io::Result<()> {
        let (map, end) = (&self.map, self.asked.end());
        writeln!(out, "\nPoints won in 100 for each target, as the hitter sees the court (-- out of reach)\n")?;
        let mut table = Table::new(&[&vec![Lean::Right; map.columns][..], &[Lean::Left]].concat());
        let depth = |row: usize| end.turn2(map.target(row * map.columns)).y;
        let mut rows: Vec<usize> = (0..map.rows).collect();
        rows.sort_by(|&a, &b| depth(b).total_cmp(&depth(a)));
        let best =
            map.worth.iter().enumerate().find(|(cell, _)| map.target(*cell) == self.best.0).map(|(cell, _)| cell);
        for row in rows {
            let mut cells: Vec<usize> = (0..map.columns).map(|column| row * map.columns + column).collect();
            cells.sort_by(|&a, &b| end.turn2(map.target(a)).x.total_cmp(&end.turn2(map.target(b)).x));
            let mut texts: Vec<String> = cells
                .into_iter()
                .map(|cell| {
                    let text = map.worth[cell].flatten().map_or_else(|| "--".to_owned(), |w| bare_percent(w.win));
                    if Some(cell) == best { format!("*{text}") } else { format!("{text:>3}") }
                })
                .collect();
            texts.push(format!("  {} from the net", words::length(depth(row), self.asked.units)));
            table.row(texts);
        }
        table.write(out)?;
        writeln!(out, "\n*: the best aim.")
    }
}
