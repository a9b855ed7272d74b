//! Simulated points in words.

use std::io::{self, Write};

use standpoint_board::Units;
use standpoint_workbench::{
    phrases::{bare_length, length_heading},
    words,
};

use super::{
    SimulateArgs,
    count::{Figures, Serving, Spread, Way},
};
use crate::{
    json::Num,
    table::{Lean, Table},
};

const R: Lean = Lean::Right;
const L: Lean = Lean::Left;

/// Writes everything that was counted.
pub fn write(
    out: &mut dyn Write,
    args: &SimulateArgs,
    title: &str,
    names: &[String; 2],
    figures: &Figures,
    units: Units,
) -> io::Result<()> {
    writeln!(out, "{title}")?;
    writeln!(
        out,
        "{} points between {} and {}, {} strokes, played by the model with seed {}\n",
        args.points, names[0], names[1], figures.strokes, args.seed
    )?;
    serving(out, names, figures)?;
    points(out, figures)?;
    directions(out, figures)?;
    spreads(out, figures, units)?;
    writeln!(out, "\nThe rally: from the third stroke on. Figures come from a model, not from matches.")
}

/// A figure of a player's serve.
type OfServing = fn(&Serving) -> Option<Num>;

/// A share in 100, or a dash where nothing was counted.
fn hundredths(share: Option<Num>) -> String {
    share.map_or_else(|| "—".to_owned(), |share| words::decimal(share.0 * 100.0, 1))
}

fn serving(out: &mut dyn Write, names: &[String; 2], figures: &Figures) -> io::Result<()> {
    let mut table = Table::new(&[L, R, R]);
    table.heading(&["Serve, in 100", &names[0], &names[1]]);
    let both = &figures.serving;
    table.row(vec!["points served".to_owned(), both[0].points.to_string(), both[1].points.to_string()]);
    let lines: [(&str, OfServing); 8] = [
        ("won", |s| s.won),
        ("first serves in", |s| s.first_in),
        ("won when the first is in", |s| s.won_on_first),
        ("won on the second", |s| s.won_on_second),
        ("aces, of first serves in", |s| s.aces_of_first_in),
        ("first serves in not returned", |s| s.first_in_unreturned),
        ("second serves in not returned", |s| s.second_in_unreturned),
        ("double faults, of second serves", |s| s.double_faults_of_second),
    ];
    for (name, figure) in lines {
        table.row(vec![name.to_owned(), hundredths(figure(&both[0])), hundredths(figure(&both[1]))]);
    }
    table.write(out)
}

fn points(out: &mut dyn Write, figures: &Figures) -> io::Result<()> {
    let mut table = Table::new(&[L, R]);
    let (lengths, endings, net) = (&figures.lengths, &figures.endings, &figures.net);
    table.heading(&["Points, in 100", ""]);
    let lines = [
        ("1 to 4 strokes", Some(lengths.to_4)),
        ("5 to 8 strokes", Some(lengths.to_8)),
        ("9 strokes or more", Some(lengths.more)),
        ("end with an ace", Some(endings.ace)),
        ("with another winner", Some(endings.winner)),
        ("with a double fault", Some(endings.double_fault)),
        ("in the net", Some(endings.net)),
        ("long", Some(endings.long)),
        ("wide", Some(endings.wide)),
        ("with a player at the net", net.share_of_points),
        ("of these, won by who came in", net.won),
    ];
    for (name, share) in lines {
        table.row(vec![name.to_owned(), hundredths(share)]);
    }
    writeln!(out)?;
    table.write(out)?;
    writeln!(out, "  A point has {} good strokes on average.", words::decimal(lengths.mean.0, 1))
}

fn directions(out: &mut dyn Write, figures: &Figures) -> io::Result<()> {
    let rally = &figures.rally;
    let mut table = Table::new(&[L, R, R, R]);
    table.heading(&["Groundstrokes of the rally, in 100", "share", "go in", "win the point"]);
    for direction in &figures.directions {
        let name = match direction.way {
            Way::Cross => "cross-court",
            Way::Line => "down the line",
            Way::Middle => "from a side to the middle",
            Way::CentreToSide => "from the centre to a side",
            Way::CentreToMiddle => "from the centre to the middle",
        };
        let [share, goes_in, wins] = [direction.share, direction.goes_in, direction.wins].map(hundredths);
        table.row(vec![name.to_owned(), share, goes_in, wins]);
    }
    writeln!(out)?;
    table.write(out)?;
    writeln!(
        out,
        "  Of {} groundstrokes {} in 100 go in, {} are not touched, {} are forehands; {} balls are volleyed.",
        rally.groundstrokes,
        hundredths(rally.goes_in),
        hundredths(rally.untouched),
        hundredths(rally.forehands),
        rally.before_bounce
    )
}

fn spreads(out: &mut dyn Write, figures: &Figures, units: Units) -> io::Result<()> {
    let unit = length_heading(units);
    let mut table = Table::new(&[L, R, R, R]);
    table.heading(&["Groundstrokes of the rally: 10, 50 and 90 in 100 lie below", unit, unit, unit]);
    let lines: [(&str, Option<Spread>); 5] = [
        ("land, from the net", figures.landing_depth),
        ("land, from the centre", figures.landing_aside),
        ("struck, behind the baseline", figures.contact_depth),
        ("struck, from the centre", figures.contact_aside),
        ("struck, above the ground", figures.contact_height),
    ];
    for (name, spread) in lines {
        let mut cells = vec![name.to_owned()];
        match spread {
            Some(s) => cells.extend([s.p10, s.p50, s.p90].map(|v| bare_length(v.0, 2, units))),
            None => cells.push("—".to_owned()),
        }
        table.row(cells);
    }
    writeln!(out)?;
    table.write(out)
}
