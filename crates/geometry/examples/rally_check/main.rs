//! Plays points by the model and prints every figure beside the published one.
//!
//! `cargo run --release -p standpoint-geometry --example rally_check -- [men|women] [points=4000] [seed=1] [key=value ...]`
//! where a key is a constant of [`Behaviour`]. The published tables lie in `tests/data/rally`.

#![allow(
    clippy::print_stdout,
    clippy::expect_used,
    clippy::too_many_arguments,
    reason = "a tool that prints tables, or fails"
)]

mod answers;
mod report;
mod tables;

use std::{sync::atomic::AtomicBool, time::Instant};

use standpoint_geometry::{
    BackhandGrip, Hand, Level, Player, Surface,
    worth::{Behaviour, Game, PlayedStroke, Simulation},
};

macro_rules! setters {
    ($($field:ident),* ; $($pair:ident),*) => {
        fn set(b: &mut Behaviour, key: &str, value: f64) -> bool {
            match key {
                $(stringify!($field) => b.$field = num(value),)*
                $(concat!(stringify!($pair), "_up") => b.$pair.0 = value,
                  concat!(stringify!($pair), "_side") => b.$pair.1 = value,)*
                _ => return false,
            }
            true
        }
    };
}
trait Number {
    fn read(v: f64) -> Self;
}
impl Number for f64 {
    fn read(v: f64) -> Self {
        v
    }
}
impl Number for f32 {
    fn read(v: f64) -> Self {
        v as f32
    }
}
fn num<T: Number>(v: f64) -> T {
    T::read(v)
}
setters!(temperature, meeting_temperature, zone_width, reach_centre, reach_half_width, lunge, lunge_air, stance_beside, stance_ahead,
    stance_slack, depth_read, brake_speed, brake, backward, rise_cost, rise_until, pressure_half, pressure_width,
    pressure_none, pressure_spread, effort_free, effort_cost, skill_spread, pressure_slow, speed_spread, low_spread, high_spread, mishits,
    volley_home, volley_depth, volley_low, serve_spread, recovery, ready, prior_slice, prior_lob, prior_drop; turn_forehand, turn_backhand);

fn main() {
    let mut group = "men".to_owned();
    let (mut points, mut seed, mut pace) = (4000_u32, 1_u64, 37.0);
    let mut b = Behaviour::default();
    let mut serve = (1.0, 1.0, 1.0);
    let (mut dump, mut threads, mut wide) = (None, 2, 1.0);
    for arg in std::env::args().skip(1) {
        match arg.split_once('=') {
            None => group = arg,
            Some(("points", v)) => points = v.parse().expect("points"),
            Some(("seed", v)) => seed = v.parse().expect("seed"),
            Some(("pace", v)) => pace = v.parse().expect("pace"),
            Some(("threads", v)) => threads = v.parse().expect("threads"),
            Some(("spread", v)) => serve.0 = v.parse().expect("spread"),
            Some(("first", v)) => serve.1 = v.parse().expect("first"),
            Some(("sprint", v)) => serve.2 = v.parse().expect("sprint"),
            Some(("wide", v)) => wide = v.parse().expect("wide"),
            Some(("dump", v)) => dump = Some(v.to_owned()),
            Some((k, v)) => assert!(set(&mut b, k, v.parse().expect(k)), "no constant {k}"),
        }
    }
    let level = Level::ALL.into_iter().find(|l| standpoint_geometry::worth::file_name(*l) == group);
    let level = level.unwrap_or(if group == "women" { Level::ProWoman } else { Level::ProMan });
    let mut p: Player = level.player(Hand::Right, BackhandGrip::TwoHanded);
    for wing in [&mut p.forehand, &mut p.backhand] {
        (wing.spread_up, wing.spread_side) = (wing.spread_up * wide, wing.spread_side * wide);
    }
    p.serve.spread *= serve.0;
    p.serve.first_speed *= serve.1;
    p.movement.v_max *= serve.2;
    let mut conditions = standpoint_geometry::worth::matchup(level).conditions;
    conditions.surface = Surface::from_pace(pace);
    let start = Instant::now();
    let mut game = Game::new(&conditions, [&p, &p], &b, 0.48);
    game.settle(threads, &AtomicBool::new(false));
    println!(
        "solved in {:.1} s, {} rounds, last change {:.4}",
        start.elapsed().as_secs_f64(),
        game.rounds,
        game.change
    );
    let start = Instant::now();
    let rows: Vec<PlayedStroke> = std::thread::scope(|scope| {
        let parts: Vec<_> = (0..threads as u32)
            .map(|k| {
                let game = &game;
                scope.spawn(move || {
                    let mut rows = Vec::new();
                    let mut sim = Simulation::new(game, seed.wrapping_mul(1000) + u64::from(k));
                    for n in (k..points).step_by(threads) {
                        sim.point(n, (n / 6 % 2) as usize, n % 2 == 1, &mut rows);
                    }
                    rows
                })
            })
            .collect();
        parts.into_iter().flat_map(|t| t.join().expect("a thread")).collect()
    });
    println!("{points} points in {:.1} s, {} strokes", start.elapsed().as_secs_f64(), rows.len());
    if let Some(file) = dump {
        std::fs::write(file, rows.iter().map(|r| format!("{r:?}\n")).collect::<String>()).expect("dump");
    }
    report::report(&group, &rows);
    answers::answers(game, &conditions, &p);
}
