//! `moments`: the points of a chart in its video, for any video player.

use std::{io::Write, path::PathBuf};

use clap::Args;
use standpoint_board::chart::{Chart, score};
use standpoint_charting::{
    import::read_chart,
    moments::{Around, Moments, chapters, of_points, title, write_csv},
};

use super::{
    EXIT_INPUT, EXIT_OK,
    audit::{Content, Input, LayoutArgs, read_fault, setup_without_players},
    complain,
    fault::{Fault, Stop, line},
    output,
};

/// Arguments of `moments`.
#[derive(Debug, Args)]
pub struct MomentsArgs {
    /// A chart, a board that one is kept with, a CSV file, or `-` for what is piped in.
    pub file: PathBuf,
    /// Write a table of all sessions instead of WebVTT chapters of one.
    #[arg(long)]
    pub csv: bool,
    /// The session whose video it is, where there are several.
    #[arg(long, value_name = "NAME")]
    pub session: Option<String>,
    /// Write it here; the file takes its place only when it is complete.
    #[arg(long, short, value_name = "FILE")]
    pub output: Option<PathBuf>,
    /// How a CSV file is read.
    #[command(flatten)]
    pub layout: LayoutArgs,
}

/// Writes the moments of a chart.
///
/// # Errors
/// A file that cannot be read or written, or several sessions where one is needed.
pub fn run(args: &MomentsArgs, out: &mut dyn Write) -> Result<u8, Stop> {
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
    let mut moments = of_points(&chart, &score::log::log(&chart), 0..chart.points.len(), Around::default());
    if let Some(session) = &args.session {
        moments.list.retain(|moment| moment.session == *session);
    }
    let text = if args.csv { table(&moments, &chart)? } else { vtt(&moments, &chart, &place)? };
    match &args.output {
        None => out.write_all(&text)?,
        Some(path) => {
            let mut file = output::begin(path)?;
            file.write_all(&text).map_err(|error| output::fault(&file.explain(error)))?;
            file.finish().map_err(|error| output::fault(&error))?;
        }
    }
    for (index, why) in &moments.missing {
        complain(&line(&format!("{place}: point {}", index + 1), &why.to_string(), &why.remedy()));
    }
    if bad > 0 {
        let remedy = "`standpoint audit` says what is wrong with each.";
        complain(&line(&place, &format!("{bad} rows could not be read"), remedy));
    }
    Ok(if bad == 0 && moments.missing.is_empty() { EXIT_OK } else { EXIT_INPUT })
}

fn table(moments: &Moments, chart: &Chart) -> Result<Vec<u8>, Stop> {
    let mut text = Vec::new();
    write_csv(moments, &chart.setup, &mut text)?;
    Ok(text)
}

/// Chapters of one video: each session has one of its own.
fn vtt(moments: &Moments, chart: &Chart, place: &str) -> Result<Vec<u8>, Stop> {
    let sessions = moments.sessions();
    if sessions.len() > 1 {
        let what = format!("there are several sessions, each with a video of its own: {}", sessions.join(", "));
        return Err(
            Fault::new("session", place, what, "Name one with --session, or ask for a table with --csv.").into()
        );
    }
    Ok(chapters(moments.list.iter().map(|moment| (moment, title(moment, &chart.setup)))).into_bytes())
}
