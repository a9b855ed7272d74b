//! `worth`: the worth of a ball to its striker, from everywhere.

use std::{
    io::{self, Write},
    path::PathBuf,
};

use clap::Args;
use serde::Serialize;
use standpoint_board::{Board, Units};
use standpoint_geometry::{
    End, Wing,
    worth::{Game, Games},
};
use standpoint_workbench::{
    phrases::{BASIS, bare_length, length_heading},
    solved, words,
};

use super::{
    args::{Form, Reading},
    exact,
    fault::Stop,
    json::{self, Num},
    load::{name_of, read_board},
    names,
    round::rounded,
    table::{Lean, Table},
};

/// Depths of contacts after the bounce behind the baseline, and of contacts before it from the net, m on a full court.
const DEPTHS: [f64; 11] = [-8.0, -6.0, -4.0, -3.0, -2.0, -1.0, 0.0, 1.0, 2.0, 3.0, 4.0];
const AIR_DEPTHS: [f64; 6] = [2.0, 3.0, 4.0, 5.0, 6.0, 8.0];
/// Heights, m.
const HEIGHTS: [f64; 5] = [0.3, 0.7, 1.0, 1.4, 2.0];
/// Times to spare to a proper stance, s; negative ones are reached in a lunge.
const SPARES: [f64; 5] = [-0.3, 0.0, 0.3, 0.6, 0.9];
/// Sideways places, m on a full court; to the right is positive.
const ACROSS: [f64; 7] = [-4.0, -2.5, -1.0, 0.0, 1.0, 2.5, 4.0];
const WINGS: [Wing; 2] = [Wing::Forehand, Wing::Backhand];
/// Indices into [`DEPTHS`], [`HEIGHTS`] and [`ACROSS`] of the axes that a table does not vary.
const USUAL: (usize, usize, usize) = (7, 2, 3);

/// Arguments of `worth`.
#[derive(Debug, Args)]
pub struct WorthArgs {
    /// The board whose players, court and ball it is about.
    pub file: PathBuf,
    /// JSON or CSV: every combination instead of the tables in words.
    #[command(flatten)]
    pub form: Form,
    /// Units.
    #[command(flatten)]
    pub reading: Reading,
}

/// Prints the worth of a ball.
///
/// # Errors
/// A board that cannot be read, or an answer that cannot be written.
pub fn run(args: &WorthArgs, out: &mut dyn Write) -> Result<(), Stop> {
    let board = read_board(&args.file)?;
    let matchup = solved::of_board(&board);
    exact::ensure(&matchup, "");
    let (game, _) = Games::shared().get(&matchup);
    let scale = board.court.court().half_length() / 11.885;
    let asked = Worths { board: &board, game: &game, scale, units: args.reading.units(board.units) };
    if args.form.json {
        return json::print_board(out, "worth", (&args.file, &board), asked.json());
    }
    if args.form.csv {
        return asked.csv(out);
    }
    Ok(asked.write(out)?)
}

/// One contact.
#[derive(Debug, Clone, Copy)]
struct At {
    air: bool,
    /// Behind the baseline, or from the net for a ball in the air, m.
    depth: f64,
    height: f64,
    spare: f64,
    across: f64,
    wing: Wing,
}

struct Worths<'a> {
    board: &'a Board,
    game: &'a Game,
    /// Scale of the court against a full one.
    scale: f64,
    units: Units,
}

/// The players in the order of the game.
const ENDS: [End; 2] = [End::Near, End::Far];

impl Worths<'_> {
    fn depths(&self, air: bool) -> Vec<f64> {
        let all = if air { &AIR_DEPTHS[..] } else { &DEPTHS[..] };
        all.iter().map(|depth| depth * self.scale).collect()
    }

    fn across(&self) -> Vec<f64> {
        ACROSS.iter().map(|x| x * self.scale).collect()
    }

    /// The striker's chance to win, and the other player's best place: across, behind their baseline.
    fn worth(&self, striker: usize, at: &At) -> (f64, [f64; 2]) {
        let half = self.board.court.court().half_length();
        let from_net = if at.air { at.depth } else { half + at.depth };
        let contact = [at.across as f32, from_net as f32, at.height as f32];
        let (worth, [x, depth]) = self.game.worth_at(striker, contact, at.air, at.wing, at.spare as f32);
        (f64::from(worth), [f64::from(x), f64::from(depth) - half])
    }

    /// Every combination for a player, those after the bounce first.
    fn all(&self) -> Vec<At> {
        let mut all = Vec::new();
        for air in [false, true] {
            for depth in self.depths(air) {
                for height in HEIGHTS {
                    for spare in SPARES {
                        for across in self.across() {
                            all.extend(WINGS.map(|wing| At { air, depth, height, spare, across, wing }));
                        }
                    }
                }
            }
        }
        all
    }

    fn write(&self, out: &mut dyn Write) -> io::Result<()> {
        writeln!(out, "{}", self.board.title)?;
        writeln!(
            out,
            "Chance of the one who strikes to win the point, in 100, with the other one where it hurts most\n"
        )?;
        for (striker, end) in ENDS.into_iter().enumerate() {
            if striker > 0 {
                writeln!(out)?;
            }
            writeln!(out, "{} ({} end)", name_of(self.board, end), words::end(end))?;
            self.by_depth(out, striker)?;
            self.by_height(out, striker)?;
            self.by_place(out, striker)?;
            self.in_the_air(out, striker)?;
        }
        writeln!(
            out,
            "\nTo spare: seconds more than it takes to stand properly; a ball with less than none is reached in a lunge."
        )?;
        writeln!(out, "{BASIS}")
    }

    fn usual(&self) -> At {
        let (depth, height, across) = USUAL;
        At {
            air: false,
            depth: DEPTHS[depth] * self.scale,
            height: HEIGHTS[height],
            spare: 0.6,
            across: ACROSS[across] * self.scale,
            wing: Wing::Forehand,
        }
    }

    /// A table whose columns are the times to spare.
    fn by_time(&self, out: &mut dyn Write, striker: usize, first: &str, rows: &[(String, At)]) -> io::Result<()> {
        let mut table = Table::new(&[Lean::Right; 1 + SPARES.len()]);
        let spares = SPARES.map(|s| words::decimal(s, 1));
        let mut heading = vec![first];
        heading.extend(spares.iter().map(String::as_str));
        table.heading(&heading);
        for (name, at) in rows {
            let mut cells = vec![name.clone()];
            cells.extend(SPARES.map(|spare| words::points(self.worth(striker, &At { spare, ..*at }).0)));
            table.row(cells);
        }
        table.write(out)
    }

    fn by_depth(&self, out: &mut dyn Write, striker: usize) -> io::Result<()> {
        let usual = self.usual();
        let high = words::length(usual.height, self.units);
        writeln!(out, "\nBy depth behind the baseline and seconds to spare: forehand in the middle, {high} high")?;
        let row = |depth: f64| (bare_length(depth, 1, self.units), At { depth, ..usual });
        let rows: Vec<_> = self.depths(false).into_iter().map(row).collect();
        self.by_time(out, striker, length_heading(self.units), &rows)
    }

    fn by_height(&self, out: &mut dyn Write, striker: usize) -> io::Result<()> {
        let usual = self.usual();
        let behind = words::length(usual.depth, self.units);
        writeln!(out, "\nBy height and seconds to spare: forehand in the middle, {behind} behind the baseline")?;
        let rows = HEIGHTS.map(|height| (bare_length(height, 1, self.units), At { height, ..usual }));
        self.by_time(out, striker, length_heading(self.units), &rows)
    }

    fn by_place(&self, out: &mut dyn Write, striker: usize) -> io::Result<()> {
        let usual = self.usual();
        let (behind, high) = (words::length(usual.depth, self.units), words::length(usual.height, self.units));
        writeln!(out, "\nBy sideways place, left of the middle negative: {behind} behind the baseline, {high} high")?;
        let mut table = Table::new(&[Lean::Right; 5]);
        table.heading(&["", "forehand", "backhand", "forehand", "backhand"]);
        table.heading(&[length_heading(self.units), "0.0 s", "0.0 s", "0.6 s", "0.6 s"]);
        for across in self.across() {
            let mut cells = vec![bare_length(across, 1, self.units)];
            for spare in [0.0, 0.6] {
                let at = |wing| At { across, spare, wing, ..usual };
                cells.extend(WINGS.map(|wing| words::points(self.worth(striker, &at(wing)).0)));
            }
            table.row(cells);
        }
        table.write(out)
    }

    fn in_the_air(&self, out: &mut dyn Write, striker: usize) -> io::Result<()> {
        writeln!(out, "\nBefore the bounce, by depth from the net and height: forehand in the middle, 0.3 s to spare")?;
        let mut table = Table::new(&[Lean::Right; 1 + HEIGHTS.len()]);
        let heights = HEIGHTS.map(|h| bare_length(h, 1, self.units));
        let mut heading = vec![length_heading(self.units)];
        heading.extend(heights.iter().map(String::as_str));
        table.heading(&heading);
        for depth in self.depths(true) {
            let mut cells = vec![bare_length(depth, 1, self.units)];
            let at = |height| At { air: true, depth, height, spare: 0.3, ..self.usual() };
            cells.extend(HEIGHTS.map(|height| words::points(self.worth(striker, &at(height)).0)));
            table.row(cells);
        }
        table.write(out)
    }

    fn csv(&self, out: &mut dyn Write) -> Result<(), Stop> {
        let mut csv = csv::Writer::from_writer(out);
        csv.write_record([
            "striker",
            "before_bounce",
            "wing",
            "contact_across",
            "contact_depth",
            "contact_height",
            "time_to_spare",
            "win",
            "other_across",
            "other_depth",
        ])?;
        for (striker, end) in ENDS.into_iter().enumerate() {
            for at in self.all() {
                let (worth, other) = self.worth(striker, &at);
                let figure = |value: f64| rounded(value).to_string();
                csv.write_record([
                    words::end(end).to_owned(),
                    if at.air { "yes" } else { "no" }.to_owned(),
                    names::wing(at.wing).to_owned(),
                    figure(at.across),
                    figure(at.depth),
                    figure(at.height),
                    figure(at.spare),
                    figure(worth),
                    figure(other[0]),
                    figure(other[1]),
                ])?;
            }
        }
        Ok(csv.flush()?)
    }

    fn json(&self) -> Body {
        let nums = |values: &[f64]| values.iter().copied().map(Num).collect::<Vec<_>>();
        let strikers = ENDS.into_iter().enumerate().map(|(striker, end)| StrikerJson {
            end: words::end(end),
            name: name_of(self.board, end),
            after_bounce: self.grids(striker, false),
            before_bounce: self.grids(striker, true),
        });
        Body {
            contact_depth: nums(&self.depths(false)),
            contact_depth_before_bounce: nums(&self.depths(true)),
            contact_height: nums(&HEIGHTS),
            time_to_spare: nums(&SPARES),
            contact_across: nums(&self.across()),
            strikers: strikers.collect(),
        }
    }

    fn grids(&self, striker: usize, air: bool) -> Grids {
        let grid = |wing: Wing| -> Vec<Vec<Vec<Vec<Num>>>> {
            let across = self.across();
            let of = |depth: f64, height: f64, spare: f64| {
                let win =
                    |across: &f64| self.worth(striker, &At { air, depth, height, spare, across: *across, wing }).0;
                across.iter().map(|x| Num(win(x))).collect()
            };
            let heights =
                |depth: f64| HEIGHTS.iter().map(|h| SPARES.iter().map(|s| of(depth, *h, *s)).collect()).collect();
            self.depths(air).into_iter().map(heights).collect()
        };
        Grids { forehand: grid(Wing::Forehand), backhand: grid(Wing::Backhand) }
    }
}

#[derive(Debug, Serialize)]
struct Body {
    contact_depth: Vec<Num>,
    contact_depth_before_bounce: Vec<Num>,
    contact_height: Vec<Num>,
    time_to_spare: Vec<Num>,
    contact_across: Vec<Num>,
    strikers: Vec<StrikerJson>,
}

#[derive(Debug, Serialize)]
struct StrikerJson {
    end: &'static str,
    name: String,
    after_bounce: Grids,
    before_bounce: Grids,
}

/// Chances to win by depth, height, time to spare and sideways place, in this order.
#[derive(Debug, Serialize)]
struct Grids {
    forehand: Vec<Vec<Vec<Vec<Num>>>>,
    backhand: Vec<Vec<Vec<Vec<Num>>>>,
}
