//! `presets`: the levels of play with their figures and where those come from.

use std::io::Write;

use clap::Args;
use serde::Serialize;
use standpoint_board::Units;
use standpoint_geometry::{BackhandGrip, Hand, Level, Player, WingSkill, units::RPM};
use standpoint_workbench::{
    phrases::{bare_length, length_heading},
    words,
};

use super::{
    args::{Form, Reading},
    fault::Stop,
    json::{Num, print_general},
    table::{Lean, Table},
};

/// Arguments of `presets`.
#[derive(Debug, Args)]
pub struct PresetsArgs {
    /// JSON or CSV.
    #[command(flatten)]
    pub form: Form,
    /// Units.
    #[command(flatten)]
    pub reading: Reading,
}

/// One level for programs.
#[derive(Debug, Serialize)]
struct LevelRow {
    level: String,
    label: &'static str,
    bounces: u8,
    top_speed: Num,
    time_constant: Num,
    reaction: Num,
    reach_forehand: Num,
    reach_backhand: Num,
    reach_overhead: Num,
    forehand_speed: Num,
    forehand_topspin_rad_s: Num,
    forehand_spread_up_deg: Num,
    forehand_spread_side_deg: Num,
    backhand_speed: Num,
    backhand_topspin_rad_s: Num,
    backhand_spread_up_deg: Num,
    backhand_spread_side_deg: Num,
    first_serve_speed: Num,
    second_serve_speed: Num,
    serve_height: Num,
    basis: &'static str,
}

/// The player of a level that the table is about.
fn player(level: Level) -> Player {
    level.player(Hand::Right, BackhandGrip::TwoHanded)
}

/// The name of a level in board files: the one the program gives it.
fn name(level: Level) -> String {
    format!("{level:?}")
}

fn row(level: Level) -> LevelRow {
    let p = player(level);
    let spread = |radians: f64| Num(radians.to_degrees());
    LevelRow {
        level: name(level),
        label: words::level(level),
        bounces: p.bounces,
        top_speed: Num(p.movement.v_max),
        time_constant: Num(p.movement.tau_s),
        reaction: Num(p.movement.reaction_s),
        reach_forehand: Num(p.reach.forehand),
        reach_backhand: Num(p.reach.backhand),
        reach_overhead: Num(p.reach.overhead),
        forehand_speed: Num(p.forehand.speed),
        forehand_topspin_rad_s: Num(p.forehand.topspin),
        forehand_spread_up_deg: spread(p.forehand.spread_up),
        forehand_spread_side_deg: spread(p.forehand.spread_side),
        backhand_speed: Num(p.backhand.speed),
        backhand_topspin_rad_s: Num(p.backhand.topspin),
        backhand_spread_up_deg: spread(p.backhand.spread_up),
        backhand_spread_side_deg: spread(p.backhand.spread_side),
        first_serve_speed: Num(p.serve.first_speed),
        second_serve_speed: Num(p.serve.second_speed),
        serve_height: Num(p.serve.height),
        basis: level.basis(),
    }
}

/// Lists the levels.
///
/// # Errors
/// When the list cannot be written.
pub fn run(args: &PresetsArgs, out: &mut dyn Write) -> Result<(), Stop> {
    if args.form.json {
        #[derive(Serialize)]
        struct Body {
            levels: Vec<LevelRow>,
        }
        return print_general(out, "presets", Body { levels: Level::ALL.map(row).into() });
    }
    if args.form.csv {
        let mut csv = csv::Writer::from_writer(out);
        for level in Level::ALL {
            csv.serialize(row(level))?;
        }
        return Ok(csv.flush()?);
    }
    Ok(words_of(out, args.reading.units(Units::Metres))?)
}

fn words_of(out: &mut dyn Write, units: Units) -> std::io::Result<()> {
    let (per_unit, speed) = words::speed_unit(units);
    let length = length_heading(units);
    let mut table = Table::new(&[
        Lean::Left,
        Lean::Left,
        Lean::Right,
        Lean::Right,
        Lean::Right,
        Lean::Right,
        Lean::Right,
        Lean::Right,
        Lean::Right,
        Lean::Right,
    ]);
    table.heading(&[
        "level",
        "in a board",
        "runs",
        "reacts",
        "reach",
        "overhead",
        "forehand",
        "backhand",
        "serves",
        "spread",
    ]);
    table.heading(&[
        "",
        "",
        "m/s",
        "s",
        length,
        length,
        &format!("{speed}, rpm"),
        &format!("{speed}, rpm"),
        speed,
        "fh/bh °",
    ]);
    let whole = |value: f64| words::decimal(value, 0);
    let wing = |w: &WingSkill| format!("{} {:>4}", whole(w.speed / per_unit), whole(w.topspin / RPM));
    for level in Level::ALL {
        let p = player(level);
        let spread = |w: &WingSkill| words::decimal(w.spread_up.to_degrees(), 1);
        table.row(vec![
            words::level(level).to_owned(),
            name(level),
            words::decimal(p.movement.v_max, 1),
            words::decimal(p.movement.reaction_s, 2),
            bare_length(p.reach.forehand, 2, units),
            bare_length(p.reach.overhead, 2, units),
            wing(&p.forehand),
            wing(&p.backhand),
            format!("{}/{}", whole(p.serve.first_speed / per_unit), whole(p.serve.second_speed / per_unit)),
            format!("{}/{}", spread(&p.forehand), spread(&p.backhand)),
        ]);
    }
    table.write(out)?;
    writeln!(out, "\nWhat the figures rest on")?;
    let mut basis = Table::new(&[Lean::Left, Lean::Left]);
    for level in Level::ALL {
        basis.row(vec![words::level(level).to_owned(), level.basis().to_owned()]);
    }
    basis.write(out)?;
    writeln!(
        out,
        "\nRuns: top speed. Reach: to the forehand, lunging. Spread: up and down, of a usual stroke with time."
    )
}
