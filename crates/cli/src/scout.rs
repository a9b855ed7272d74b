//! `scout`: a player as an opponent, on one page.

use std::{io::Write, path::PathBuf, sync::atomic::AtomicBool};

use clap::Args;
use standpoint_board::chart::Chart;
use standpoint_charting::{
    audit::{CollectedShots, Compare, Crew, Watch},
    import::read_chart,
    scouting::profile,
};
use standpoint_export::scout;
use standpoint_geometry::End;

use super::{
    EXIT_INPUT, EXIT_OK,
    audit::{Content, Input, LayoutArgs, PaperArg, read_fault, setup_without_players},
    complain,
    exact::threads_of,
    fault::{Fault, Stop, line},
    output,
};

/// Arguments of `scout`.
#[derive(Debug, Args)]
pub struct ScoutArgs {
    /// A chart, a board that one is kept with, a CSV file, or `-` for what is piped in.
    pub file: PathBuf,
    /// Whom the sheet is about: a name as in the chart, or the one who began at this end.
    #[arg(long, value_name = "NAME|near|far", default_value = "far")]
    pub player: String,
    /// Write the sheet here as PDF; without it the sentences are printed.
    #[arg(long, short, value_name = "FILE")]
    pub output: Option<PathBuf>,
    /// Its paper.
    #[arg(long, value_enum, default_value = "a4")]
    pub paper: PaperArg,
    /// How many cores compute; all of them without it, and never more than there are.
    #[arg(long, value_name = "N", default_value_t = 0, hide_default_value = true)]
    pub threads: usize,
    /// How a CSV file is read.
    #[command(flatten)]
    pub layout: LayoutArgs,
}

/// Writes the sheet.
///
/// # Errors
/// A file that cannot be read or written, or a player who is not in it.
pub fn run(args: &ScoutArgs, out: &mut dyn Write) -> Result<u8, Stop> {
    let input = Input::open(&args.file)?;
    let (place, title) = (input.place.clone(), input.title());
    let (chart, bad) = match input.content {
        Content::Chart(chart) => (*chart, 0),
        Content::Table(table) => {
            let read = read_chart(table, &args.layout.mapping()?, setup_without_players(&title));
            let read = read.map_err(|error| read_fault(&place, &error))?;
            (read.chart, read.bad.len())
        }
    };
    let player = player(&args.player, &chart, &place)?;
    let failed = |error: &dyn std::fmt::Display| Fault::new("audit", &place, error.to_string(), "Try once more.");
    let crew = Crew::new(&chart.setup, Compare::SamePart, threads_of(args.threads)).map_err(|error| failed(&error))?;
    let mut kept = CollectedShots::default();
    let stop = AtomicBool::new(false);
    let mut watch = Watch { progress: &mut |_| (), stop: &stop };
    crew.audit_chart_so_far(&chart, &mut kept, &mut watch).map_err(|error| failed(&error))?;
    let profile = profile(&chart, &kept.shots, player);
    match &args.output {
        None => out.write_all(scout::in_words(&profile, &chart.setup).as_bytes())?,
        Some(path) => {
            let made = scout::document(&profile, &chart.setup, args.paper.paper()).and_then(|doc| doc.to_pdf());
            let pdf = made.map_err(|error| failed(&error))?;
            let mut file = output::begin(path)?;
            file.write_all(&pdf).map_err(|error| output::fault(&file.explain(error)))?;
            file.finish().map_err(|error| output::fault(&error))?;
        }
    }
    if bad > 0 {
        let remedy = "`standpoint audit` says what is wrong with each.";
        complain(&line(&place, &format!("{bad} rows could not be read"), remedy));
    }
    Ok(if bad == 0 { EXIT_OK } else { EXIT_INPUT })
}

/// The player of a name or an end.
fn player(wanted: &str, chart: &Chart, place: &str) -> Result<End, Box<Fault>> {
    let by_name = [End::Near, End::Far].into_iter().find(|end| chart.setup.card(*end).name.trim() == wanted.trim());
    match (by_name, wanted) {
        (Some(end), _) => Ok(end),
        (None, "near") => Ok(End::Near),
        (None, "far") => Ok(End::Far),
        _ => {
            let names = [End::Near, End::Far].map(|end| format!("`{}`", chart.setup.card(end).name)).join(" or ");
            let what = format!("nobody in it is called `{wanted}`");
            Err(Fault::new("player", place, what, format!("Write near, far, {names}.")))
        }
    }
}
