//! `simulate`: points played by the model between the players of a board.

mod count;
mod play;
mod rows;
mod text;

use std::{io::Write, path::PathBuf};

use clap::Args;
use serde::Serialize;
use standpoint_geometry::{End, worth::Games};
use standpoint_workbench::solved;

use self::count::Figures;
use super::{
    args::Reading,
    exact,
    fault::{Fault, Stop},
    json,
    load::{name_of, read_board},
    output,
};

/// Most points: limited by memory.
const MOST_POINTS: u32 = 200_000;
/// The players in the order of the game.
const ENDS: [End; 2] = [End::Near, End::Far];

/// Arguments of `simulate`.
#[derive(Debug, Args)]
pub struct SimulateArgs {
    /// The board whose players play, on its court and with its ball.
    pub file: PathBuf,
    /// How many points are played: 1 to 200000. The serve changes hands after every six.
    #[arg(long, value_name = "N", default_value_t = 4000, value_parser = clap::value_parser!(u32).range(1..=i64::from(MOST_POINTS)))]
    pub points: u32,
    /// Which points: the same number gives the same points, on any machine and with any number of cores.
    #[arg(long, value_name = "S", default_value_t = 1)]
    pub seed: u64,
    /// Print JSON in SI units.
    #[arg(long)]
    pub json: bool,
    /// Write every stroke here as well, as CSV: the columns of a chart, and who won the point and how it ended.
    #[arg(long, value_name = "FILE")]
    pub rows: Option<PathBuf>,
    /// Units.
    #[command(flatten)]
    pub reading: Reading,
}

/// Plays the points and counts.
///
/// # Errors
/// A board that cannot be read, a court without service boxes, or an answer that cannot be written.
pub fn run(args: &SimulateArgs, out: &mut dyn Write) -> Result<(), Stop> {
    let board = read_board(&args.file)?;
    if board.court.court().service_line.is_none() {
        return Err(no_boxes(args).into());
    }
    // Opened before anything is computed, so that a file that cannot be written is reported at once.
    let file = args.rows.as_deref().map(output::begin).transpose()?;
    let matchup = solved::of_board(&board);
    exact::ensure(&matchup, "");
    let (game, _) = Games::shared().get(&matchup);
    let Some(strokes) = play::points(&game, args.points, args.seed, exact::threads()) else {
        return Err(no_boxes(args).into());
    };
    if let Some(mut file) = file {
        if let Err(error) = rows::write(&strokes, &board, &mut file) {
            return Err(output::fault(&file.explain(error)).into());
        }
        file.finish().map_err(|error| output::fault(&error))?;
    }
    let court = board.court.court();
    let figures = Figures::new(&strokes, &court);
    if args.json {
        let players = ENDS.map(|end| (super::names::end(end), name_of(&board, end)));
        return json::print_board(out, "simulate", (&args.file, &board), Body::new(args, players, &figures));
    }
    let names = ENDS.map(|end| name_of(&board, end));
    Ok(text::write(out, args, &board.title, &names, &figures, args.reading.units(board.units))?)
}

fn no_boxes(args: &SimulateArgs) -> Box<Fault> {
    let what = "this court has no service boxes, so no point can be served on it";
    Fault::new("no_service_box", &args.file.display().to_string(), what, "Choose a larger court on the board.")
}

#[derive(Debug, Serialize)]
struct Body<'a> {
    points: u32,
    seed: u64,
    players: [PlayerJson; 2],
    #[serde(flatten)]
    figures: &'a Figures,
}

#[derive(Debug, Serialize)]
struct PlayerJson {
    end: &'static str,
    name: String,
}

impl<'a> Body<'a> {
    fn new(args: &SimulateArgs, players: [(&'static str, String); 2], figures: &'a Figures) -> Self {
        let players = players.map(|(end, name)| PlayerJson { end, name });
        Self { points: args.points, seed: args.seed, players, figures }
    }
}
