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

use std::{collections::HashMap, path::Path, sync::atomic::AtomicBool, time::Instant};

use glam::{DVec2, dvec2};
use standpoint_geometry::{
    BackhandGrip, Cause, Choice, Conditions, End, Hand, Level, Player, ReceiptChoice, Settings, Shot, Situation,
    Solver, Stroke, Surface, Wing, sweep, usual_delivery, weigh,
    worth::{Behaviour, Ending, Game, Games, Matchup, PlayedStroke, Simulation},
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
    report(&group, &rows);
    answers(game, &conditions, &p);
}

/// What a coach sees: the worth of a waist-high ball by time to spare, places to wait, across against down the line.
fn answers(game: Game, conditions: &Conditions, p: &Player) {
    print!("worth of a waist-high ball from 1.2 m behind at 0.1/0.3/0.5/0.7/0.9 s:");
    for wing in [Wing::Forehand, Wing::Backhand] {
        for t in [0.1, 0.3, 0.5, 0.7, 0.9] {
            print!(" {:.2}", game.worth_at(0, [0.0, 13.1, 1.0], false, wing, t).0);
        }
        print!(" /");
    }
    println!();
    Games::shared().insert(Matchup { conditions: *conditions, players: [*p, *p] }.canonical(), game);
    let mut solver = Solver::new();
    let ball = |contact: DVec2, target: DVec2| {
        let wing = if contact.x >= 0.0 { Wing::Forehand } else { Wing::Backhand };
        let beside = if contact.x >= 0.0 { 0.8 } else { -0.8 };
        let contact = contact.extend(1.0);
        let (speed, topspin) = usual_delivery(conditions, p, wing, Stroke::Topspin, contact, target);
        Situation {
            conditions: *conditions,
            hitter_end: End::Near,
            hitter: *p,
            opponent: *p,
            hitter_place: dvec2(contact.x - beside, contact.y - 0.2),
            opponent_place: dvec2(-0.2 * contact.x, 13.4),
            hitter_pressure: 0.0,
            hitter_habits: None,
            opponent_habits: None,
            shot: Shot { contact, stroke: Stroke::Topspin, target, speed, topspin, sidespin: 0.0 },
            receipt: ReceiptChoice::Best,
            settings: Settings::default(),
        }
    };
    print!("spots (from, to: across, behind [range]; opponent wins, 2 m left, right, 3 and 5 m inside):");
    for (from, to) in
        [(0.0, 0.0), (0.0, 2.0), (0.0, -2.0), (-2.0, 2.0), (2.0, -2.0), (-3.2, 2.9), (3.2, -2.9), (3.2, 2.9)]
    {
        let s = ball(dvec2(from, -13.0), dvec2(to, 8.3));
        let answer = solver.solve(&s).expect("can be played");
        let Some(play) = answer.play() else { continue };
        let spot = play.spot;
        let at = spot.place;
        let places =
            [at - dvec2(2.0, 0.0), at + dvec2(2.0, 0.0), dvec2(at.x, -8.9), dvec2(at.x, -6.9), dvec2(at.x, -4.5)];
        let others = solver.exposures(&s, &places).expect("can be played");
        print!(
            "\n  spot {from} {to}: {:.2} {:.2} met {:.1} spare {:.2} {:.3}",
            at.x,
            -at.y - 11.885,
            play.receipt.contact.y.abs() - 11.885,
            play.receipt.time_to_spare,
            spot.exposure
        );
        for o in others {
            print!(" {:+.3}", o.exposure - spot.exposure);
        }
    }
    println!();
    if std::env::var_os("DRAGS").is_some() {
        drags(&mut solver, &ball);
    }
    let mut net: [Vec<(f64, f64)>; 2] = Default::default();
    print!("at the net after an approach:");
    for i in -7..=7 {
        let mut s = ball(dvec2(1.6, -6.8), dvec2(f64::from(i) * 0.4, 10.2));
        s.shot.stroke = Stroke::Slice;
        (s.shot.speed, s.shot.topspin) = (23.0, -125.0);
        s.settings.ready = standpoint_geometry::ReadyArea::Net;
        let answer = solver.solve(&s).expect("can be played");
        let Some(play) = answer.play() else { continue };
        let x = play.receipt.contact.x;
        net[0].push((x, play.spot.place.x));
        let line: Vec<DVec2> = (-80..=80).map(|i| dvec2(f64::from(i) * 0.05, -3.0)).collect();
        let least = solver.exposures(&s, &line).expect("can be played");
        let least = least.into_iter().min_by(|a, b| a.exposure.total_cmp(&b.exposure)).expect("places");
        net[1].push((x, least.place.x));
        print!(" {:.1}:{:.2},{:.1}/{:.2}", x, play.spot.place.x, -play.spot.place.y, least.place.x);
    }
    println!("; slopes {:.3} {:.3}", slope(&net[0]), slope(&net[1]));
    for side in [1.0, -1.0] {
        let s = ball(dvec2(3.2 * side, -12.9), dvec2(-2.9 * side, 9.6));
        let wins: Vec<f64> = weigh(
            &mut solver,
            &s,
            &[Choice::CrossCourt, Choice::DownTheLine, Choice::Middle, Choice::ShortAngle, Choice::Drop, Choice::Lob],
        )
        .iter()
        .map(|w| w.win().unwrap_or(f64::NAN))
        .collect();
        print!("corner {side}: ");
        for w in &wins {
            print!(" {w:.3}");
        }
        let mut wide = s;
        wide.opponent_place.x = -side;
        let choices = [Choice::CrossCourt, Choice::DownTheLine];
        let found = sweep(&mut solver, &wide, choices, Cause::OpponentWide, (0.0, 7.5), 15).expect("valid");
        print!("   line less across by 1 m:");
        for p in found.points.iter().step_by(2) {
            print!(" {:+.3}", p.win[1].unwrap_or(f64::NAN) - p.win[0].unwrap_or(f64::NAN));
        }
        println!();
    }
}

/// How far the spot moves while the target is dragged in steps of a tenth of a metre.
fn drags(solver: &mut Solver, ball: &dyn Fn(DVec2, DVec2) -> Situation) {
    let start = Instant::now();
    let mut moves: Vec<(f64, f64, DVec2, DVec2)> = Vec::new();
    let mut answers = 0;
    for contact in [dvec2(0.0, -13.0), dvec2(3.2, -12.6), dvec2(-3.2, -12.6), dvec2(1.0, -9.5)] {
        let across: Vec<DVec2> = (0..=62).map(|i| dvec2(f64::from(i) * 0.1 - 3.1, 9.0)).collect();
        let along: Vec<DVec2> = (0..=48).map(|i| dvec2(2.0, 6.0 + f64::from(i) * 0.1)).collect();
        for line in [across, along] {
            let spots: Vec<Option<(DVec2, bool)>> = line
                .iter()
                .map(|to| {
                    answers += 1;
                    let answer = solver.solve(&ball(contact, *to)).expect("can be played");
                    answer.play().map(|p| (p.spot.place, p.at_net))
                })
                .collect();
            for (pair, to) in spots.windows(2).zip(&line) {
                if let [Some(a), Some(b)] = pair
                    && a.1 == b.1
                {
                    let by = (a.0 - b.0).abs();
                    moves.push((by.x, by.y, contact, *to));
                }
            }
        }
    }
    let time = start.elapsed().as_secs_f64() * 1e3 / f64::from(answers);
    let n = moves.len() as f64;
    let most = |f: fn(&(f64, f64, DVec2, DVec2)) -> f64| moves.iter().copied().max_by(|a, b| f(a).total_cmp(&f(b)));
    println!(
        "drag by 0.1 m: {:.3} over 0.1 m sideways, {:.3} over 0.3 m in depth; most {:?} and {:?}; {time:.2} ms an answer",
        moves.iter().filter(|m| m.0 > 0.1).count() as f64 / n,
        moves.iter().filter(|m| m.1 > 0.3).count() as f64 / n,
        most(|m| m.0),
        most(|m| m.1)
    );
}

/// One stroke with what the tables ask of it.
struct Row<'a> {
    s: &'a PlayedStroke,
    own_way: f32,
    next: Option<&'a PlayedStroke>,
    last: Option<&'a PlayedStroke>,
}

fn report(group: &str, rows: &[PlayedStroke]) {
    let half = 11.885_f32;
    let mut all = Vec::new();
    for (i, s) in rows.iter().enumerate() {
        let same = |j: usize| rows.get(j).filter(|r| r.point == s.point);
        let last = i.checked_sub(1).and_then(same);
        let own = i.checked_sub(2).and_then(same);
        let own_way = own
            .filter(|o| o.striker == s.striker)
            .map_or(-1.0, |o| ((o.contact[0] - s.contact[0]).powi(2) + (o.contact[1] - s.contact[1]).powi(2)).sqrt());
        all.push(Row { s, own_way, next: same(i + 1), last });
    }
    let ground: Vec<&Row<'_>> = all.iter().filter(|r| r.s.number >= 3 && r.s.serve == 0 && !r.s.air).collect();
    let volley: Vec<&Row<'_>> = all.iter().filter(|r| r.s.number >= 3 && r.s.serve == 0 && r.s.air).collect();
    let good = |r: &Row<'_>| matches!(r.s.ending, Ending::Returned | Ending::Untouched);
    let share = |rows: &[&Row<'_>], f: &dyn Fn(&Row<'_>) -> bool| {
        rows.iter().filter(|r| f(r)).count() as f64 / rows.len().max(1) as f64
    };

    // Points.
    let points: std::collections::BTreeSet<u32> = rows.iter().map(|r| r.point).collect();
    let n = points.len() as f64;
    let firsts: Vec<&Row<'_>> = all.iter().filter(|r| r.s.serve == 1).collect();
    let seconds: Vec<&Row<'_>> = all.iter().filter(|r| r.s.serve == 2).collect();
    let first_in: Vec<&Row<'_>> = firsts.iter().copied().filter(|r| good(r)).collect();
    let won = |rows: &[&Row<'_>]| share(rows, &|r| r.s.won);
    let unreturned = |rows: &[&Row<'_>]| {
        share(rows, &|r| r.next.is_none_or(|n| !matches!(n.ending, Ending::Returned | Ending::Untouched)))
    };
    let published = table("points.csv");
    let p =
        |c: &str| published.iter().find(|r| r["group"] == group).map_or(f64::NAN, |r| r[c].parse().unwrap_or(f64::NAN));
    let line = |name: &str, sim: f64, real: f64| {
        println!("  {name:<44} {sim:>7.3}  published {real:>7.3}  {:+.3}", sim - real)
    };
    println!("points");
    let server_won = all
        .iter()
        .filter(|r| r.s.number == 1 && r.s.server == r.s.striker && (r.s.serve == 2 || (good(r))))
        .filter(|r| r.s.won)
        .count() as f64
        / n;
    line("serve points won", server_won, p("serve_points_won"));
    line("first serves in", share(&firsts, &good), p("first_in"));
    line("won on first", won(&first_in), p("win_on_first"));
    line("won on second", won(&seconds), p("win_on_second_incl_df"));
    line("aces per first in", share(&first_in, &|r| r.s.ending == Ending::Untouched), p("ace_rate_first_in"));
    line("first not returned", unreturned(&first_in), p("unreturned_first_in"));
    let second_in: Vec<&Row<'_>> = seconds.iter().copied().filter(|r| good(r)).collect();
    line("second not returned", unreturned(&second_in), p("unreturned_second_in"));
    line("double faults per second", 1.0 - share(&seconds, &good), p("double_fault_per_second"));
    // Lengths: strokes that count, that is without a last one that misses? Published: shots of the rally with the serve.
    let mut lengths: HashMap<u32, u32> = HashMap::new();
    for r in rows {
        let good = matches!(r.ending, Ending::Returned | Ending::Untouched);
        let l = lengths.entry(r.point).or_default();
        *l = (*l).max(if good || r.number == 1 { r.number } else { r.number - 1 });
    }
    let lens = table("rally_length.csv");
    let q = |c: &str| {
        lens.iter()
            .find(|r| r["group"] == group && r["serve"] == "all")
            .map_or(f64::NAN, |r| r[c].parse().unwrap_or(f64::NAN))
    };
    let count = |a: u32, b: u32| lengths.values().filter(|l| **l >= a && **l <= b).count() as f64 / n;
    line("strokes 1-4", count(0, 4), q("s1_4"));
    line("strokes 5-8", count(5, 8), q("s5_8"));
    line("strokes 9+", count(9, 9999), q("s9p"));
    line("1", count(0, 1), q("s1"));
    line("2", count(2, 2), q("s2"));
    line("3", count(3, 3), q("s3"));
    line("4", count(4, 4), q("s4"));

    println!(
        "rally strokes: {} ground, {} volleys ({:.3} of all; published 0.035)",
        ground.len(),
        volley.len(),
        volley.len() as f64 / (ground.len() + volley.len()) as f64
    );
    line("ground: won by the striker", won(&ground), 0.480);
    line("ground: goes in", share(&ground, &good), if group == "men" { 0.863 } else { 0.846 });
    let errors: Vec<&Row<'_>> = ground.iter().copied().filter(|r| !good(r)).collect();
    line("errors into the net", share(&errors, &|r| r.s.ending == Ending::Net), 0.44);
    line("errors long", share(&errors, &|r| r.s.ending == Ending::Long), 0.26);
    line("errors wide", share(&errors, &|r| r.s.ending == Ending::Wide), 0.24);
    line("untouched winners per ground stroke", share(&ground, &|r| r.s.ending == Ending::Untouched), 0.055);

    let depth = |r: &Row<'_>| f64::from(r.s.contact[1] - half);
    let curve = |name: &str, file: &str, column: &str, rows: &[&Row<'_>], x: &dyn Fn(&Row<'_>) -> f64| {
        compare(name, group, file, column, rows, x, &|r| r.s.won, &good);
    };
    curve("ground by contact depth", "ground_by_contact_depth.csv", "depth_bin", &ground, &depth);
    let calm: Vec<&Row<'_>> = ground
        .iter()
        .copied()
        .filter(|r| r.own_way >= 0.0 && r.own_way < 3.0 && r.s.available > 1.2 && r.s.contact[0].abs() < 3.0)
        .collect();
    curve("unhurried by contact depth", "unpressured_ground_by_contact_depth.csv", "depth_bin", &calm, &depth);
    curve("ground by contact height", "ground_by_contact_height.csv", "height_bin", &ground, &|r| {
        f64::from(r.s.contact[2])
    });
    curve("ground by time available", "ground_by_time_available.csv", "time_bin", &ground, &|r| {
        f64::from(r.s.available)
    });
    curve("ground by sideways place", "ground_by_contact_lateral.csv", "lat_bin", &ground, &|r| {
        f64::from(r.s.contact[0].abs())
    });
    let moved: Vec<&Row<'_>> = ground.iter().copied().filter(|r| r.own_way >= 0.0).collect();
    curve("ground by own way", "ground_by_distance_between_own_contacts.csv", "disp_bin", &moved, &|r| {
        f64::from(r.own_way)
    });
    curve("volleys by contact height", "volley_by_contact_height.csv", "height_bin", &volley, &|r| {
        f64::from(r.s.contact[2])
    });
    curve("volleys by contact depth", "volley_by_contact_depth.csv", "depth_bin", &volley, &depth);
    let back = |r: &Row<'_>| r.s.contact[1] > half - 2.0;
    let landed: Vec<&Row<'_>> = ground.iter().copied().filter(|r| good(r) && back(r)).collect();
    let both: Vec<&Row<'_>> =
        landed.iter().copied().filter(|r| r.last.is_none_or(|l| l.contact[1] > half - 2.0)).collect();
    let hitter = |name: &str, file: &str, column: &str, rows: &[&Row<'_>], x: &dyn Fn(&Row<'_>) -> f64| {
        compare(name, group, file, column, rows, x, &|r| r.s.won, &|r| r.s.ending != Ending::Untouched);
    };
    hitter("hitter wins by landing depth", "landed_by_depth.csv", "land_bin", &both, &|r| f64::from(r.s.landing[1]));
    hitter("hitter wins by landing sideways", "landed_by_lateral.csv", "ly_bin", &both, &|r| {
        f64::from(r.s.landing[0].abs())
    });
    hitter("hitter wins by speed", "landed_by_speed.csv", "v_bin", &both, &|r| f64::from(r.s.speed));
    let off = |r: &Row<'_>| r.last.map_or(0.0, |l| f64::from((l.contact[0] + r.s.landing[0]).abs()));
    hitter("hitter wins by distance off", "landed_by_distance_from_opponents_last_contact.csv", "off_bin", &both, &off);
    println!("slow and short");
    for (a, b, low, high, real) in
        [(4.0, 6.0, 0.0, 24.0, 0.423), (6.0, 7.0, 0.0, 24.0, 0.397), (6.0, 7.0, 33.0, 99.0, 0.606)]
    {
        let rows: Vec<&Row<'_>> = both
            .iter()
            .copied()
            .filter(|r| r.s.landing[1] > a && r.s.landing[1] <= b && r.s.speed > low && r.s.speed <= high)
            .collect();
        line(&format!("lands {a}-{b} m at {low}-{high} m/s: {} balls", rows.len()), won(&rows), real);
    }
    println!("next contact depth by landing depth");
    for (a, b, real) in
        [(4.0, 5.0, -0.5), (5.0, 6.0, 0.5), (6.0, 7.0, 1.0), (8.0, 9.0, 1.4), (10.0, 11.0, 1.95), (11.0, 12.0, 2.3)]
    {
        let mut next: Vec<f64> = both
            .iter()
            .filter(|r| r.s.landing[1] > a && r.s.landing[1] <= b)
            .filter_map(|r| r.next)
            .map(|n| f64::from(n.contact[1] - half))
            .collect();
        line(&format!("landing {a}-{b} m: {} balls", next.len()), quantile(&mut next, 0.5), real);
    }

    println!("directions");
    let mut kinds: HashMap<&str, Vec<&Row<'_>>> = HashMap::new();
    for r in &ground {
        kinds.entry(direction(r.s)).or_default().push(r);
    }
    let published = table("direction.csv");
    for d in ["cross", "line", "middle", "from_centre_to_side", "from_centre_to_middle"] {
        let rows = kinds.get(d).map_or(&[][..], Vec::as_slice);
        let get = |c: &str| {
            published
                .iter()
                .find(|r| r["group"] == group && r["dir"] == d)
                .map_or(f64::NAN, |r| r[c].parse().unwrap_or(f64::NAN))
        };
        let total: f64 =
            published.iter().filter(|r| r["group"] == group).filter_map(|r| r["N"].parse::<f64>().ok()).sum();
        println!(
            "  {d:<24} share {:.3} ({:.3})  in {:.3} ({:.3})  won {:.3} ({:.3})",
            rows.len() as f64 / ground.len() as f64,
            get("N") / total,
            share(rows, &good),
            get("p_in"),
            won(rows),
            get("p_win")
        );
    }
    println!("deciles 5/10/50/90/95 (published)");
    let deciles = table("deciles.csv");
    let quant = |name: &str, mut v: Vec<f64>| {
        let real = |c: &str| {
            deciles
                .iter()
                .find(|r| r["group"] == group && r["quantity"] == name)
                .map_or(f64::NAN, |r| r[c].parse().unwrap_or(f64::NAN))
        };
        let mut out = format!("  {name:<36}");
        for (c, q) in
            [("p5", 0.05), ("p10", 0.1), ("p30", 0.3), ("p50", 0.5), ("p70", 0.7), ("p90", 0.9), ("p95", 0.95)]
        {
            out += &format!(" {:.2} ({:.2})", quantile(&mut v, q), real(c));
        }
        println!("{out}");
    };
    let ins: Vec<&Row<'_>> = ground.iter().copied().filter(|r| good(r)).collect();
    quant("landing depth from net", ins.iter().map(|r| f64::from(r.s.landing[1])).collect());
    quant("landing |x| lateral", ins.iter().map(|r| f64::from(r.s.landing[0].abs())).collect());
    quant("net clearance above net", ins.iter().map(|r| f64::from(r.s.clearance)).collect());
    quant("contact depth behind baseline", ins.iter().map(|r| depth(r)).collect());
    quant("contact height", ins.iter().map(|r| f64::from(r.s.contact[2])).collect());
    quant("contact |lateral|", ins.iter().map(|r| f64::from(r.s.contact[0].abs())).collect());
    quant("time available in (est.)", ins.iter().map(|r| f64::from(r.s.available)).collect());
    quant("initial speed m/s (est.)", ins.iter().map(|r| f64::from(r.s.speed)).collect());
    quant("own displacement", ins.iter().filter(|r| r.own_way >= 0.0).map(|r| f64::from(r.own_way)).collect());
    // Standing: where the other player is at a ground stroke struck from the back, the other not at the net.
    let stands: Vec<&Row<'_>> = ground.iter().copied().filter(|r| back(r) && r.s.other[1] > 8.0).collect();
    let mut v: Vec<f64> = stands.iter().map(|r| f64::from(r.s.other[1] - half)).collect();
    println!(
        "  standing 10/50/90 % behind the baseline: {:.2} {:.2} {:.2}  published -0.7/2.1/3.4 and -0.1/1.6/3.4",
        quantile(&mut v, 0.1),
        quantile(&mut v, 0.5),
        quantile(&mut v, 0.9)
    );
    let xs: Vec<(f64, f64)> = stands.iter().map(|r| (f64::from(r.s.contact[0]), f64::from(r.s.other[0]))).collect();
    println!(
        "  slope of standing against the striker's sideways place (cross-court side): {:.3}  published 0.14-0.22",
        slope(&xs)
    );
    // Both frames: the far player's x is the negative of the near one's, so equal signs mean the cross-court side.

    let net = net_points(&all);
    let published = table("net_points.csv");
    let r = published.iter().find(|r| r["group"] == group && r["definition"] == "either").expect("either");
    println!(
        "net: {:.3} of points with a return struck (published {}), won {:.3} ({})",
        net.0, r["share_of_points_with_a_player_at_net"], net.1, r["p_win_at_net"]
    );
    let mut strokes: HashMap<String, usize> = HashMap::new();
    for r in &ground {
        *strokes.entry(format!("{:?}", r.s.stroke)).or_default() += 1;
    }
    println!(
        "strokes: {strokes:?}, forehands {:.3}",
        share(&ground, &|r| r.s.wing == standpoint_geometry::Wing::Forehand)
    );
    let model: f64 = ground.iter().map(|r| f64::from(r.s.worth)).sum::<f64>() / ground.len() as f64;
    println!("mean worth by the model {model:.3}");
}

fn net_points(all: &[Row<'_>]) -> (f64, f64) {
    let mut by: HashMap<u32, Vec<&PlayedStroke>> = HashMap::new();
    for r in all {
        by.entry(r.s.point).or_default().push(r.s);
    }
    let (mut points, mut at_net, mut players, mut won) = (0, 0, 0, 0);
    for strokes in by.values() {
        if !strokes.iter().any(|s| s.number == 2) {
            continue;
        }
        points += 1;
        let mut any = false;
        for p in 0..2 {
            let near = |s: &&&PlayedStroke| s.striker == p && s.serve == 0 && (s.air || s.contact[1] < 6.4);
            if let Some(s) = strokes.iter().find(near) {
                any = true;
                players += 1;
                won += i32::from(s.won);
            }
        }
        at_net += i32::from(any);
    }
    (f64::from(at_net) / f64::from(points), f64::from(won) / f64::from(players))
}

/// The line from the contact through the crossing at the net, carried on to 8 m behind the net.
fn direction(s: &PlayedStroke) -> &'static str {
    let u = (s.contact[1] + 8.0) / (s.contact[1] + s.landing[1]);
    let x = s.contact[0] + u * (s.landing[0] - s.contact[0]);
    let middle = x.abs() < 1.37;
    if s.contact[0].abs() < 1.0 {
        if middle { "from_centre_to_middle" } else { "from_centre_to_side" }
    } else if middle {
        "middle"
    } else if x * s.contact[0] > 0.0 {
        "line"
    } else {
        "cross"
    }
}

fn slope(xy: &[(f64, f64)]) -> f64 {
    let n = xy.len() as f64;
    let (mx, my) = (xy.iter().map(|p| p.0).sum::<f64>() / n, xy.iter().map(|p| p.1).sum::<f64>() / n);
    xy.iter().map(|p| (p.0 - mx) * (p.1 - my)).sum::<f64>() / xy.iter().map(|p| (p.0 - mx).powi(2)).sum::<f64>()
}

fn quantile(v: &mut [f64], q: f64) -> f64 {
    v.sort_by(f64::total_cmp);
    if v.is_empty() { f64::NAN } else { v[((v.len() - 1) as f64 * q).round() as usize] }
}

/// Prints a curve beside the published one and how far they lie apart over the middle eight tenths of the strokes.
fn compare(
    name: &str,
    group: &str,
    file: &str,
    column: &str,
    rows: &[&Row<'_>],
    x: &dyn Fn(&Row<'_>) -> f64,
    win: &dyn Fn(&Row<'_>) -> bool,
    second: &dyn Fn(&Row<'_>) -> bool,
) {
    let published = table(file);
    let bins: Vec<&HashMap<String, String>> = published.iter().filter(|r| r["group"] == group).collect();
    let total: f64 = bins.iter().filter_map(|r| r["N"].parse::<f64>().ok()).sum();
    let (mut before, mut weight, mut apart) = (0.0, 0.0, 0.0);
    let mut points = Vec::new();
    let mut text = String::new();
    for bin in bins {
        let (a, b) = bin[column].trim_matches(['(', ']']).split_once(", ").expect("a bin");
        let (a, b): (f64, f64) = (a.parse().expect("low"), b.parse().expect("high"));
        let n: f64 = bin["N"].parse().expect("N");
        let middle = before + n / 2.0;
        before += n;
        let inside: Vec<&&Row<'_>> = rows.iter().filter(|r| (a..b).contains(&x(r))).collect();
        let m = inside.len() as f64;
        let sim = inside.iter().filter(|r| win(r)).count() as f64 / m;
        let sim2 = inside.iter().filter(|r| second(r)).count() as f64 / m;
        let get = |c: &str| bin.get(c).and_then(|v| v.parse::<f64>().ok());
        let real = get("p_win").or(get("p_hitter_wins")).unwrap_or(f64::NAN);
        let real2 = get("p_in").or(get("share_untouched_winner").map(|v| 1.0 - v)).unwrap_or(f64::NAN);
        let core = middle > 0.1 * total && middle < 0.9 * total;
        let mark = if core { '*' } else { ' ' };
        text += &format!(
            "   {mark}{a:>6.2}..{b:<6.2} n {:.3} ({:.3})  won {sim:.3} ({real:.3})  {sim2:.3} ({real2:.3})\n",
            m / rows.len() as f64,
            n / total
        );
        if core && m > 0.0 {
            weight += n;
            apart += n * (sim - real).abs();
            points.push(((a + b) / 2.0, sim, real, n));
        }
    }
    let fit = |y: fn(&(f64, f64, f64, f64)) -> f64| {
        let w: f64 = points.iter().map(|p| p.3).sum();
        let (mx, my) =
            (points.iter().map(|p| p.3 * p.0).sum::<f64>() / w, points.iter().map(|p| p.3 * y(p)).sum::<f64>() / w);
        points.iter().map(|p| p.3 * (p.0 - mx) * (y(p) - my)).sum::<f64>()
            / points.iter().map(|p| p.3 * (p.0 - mx).powi(2)).sum::<f64>()
    };
    println!(
        "{name}: mean difference {:.3}; slope {:+.3} (published {:+.3})",
        apart / weight,
        fit(|p| p.1),
        fit(|p| p.2)
    );
    if std::env::var_os("QUIET").is_none() {
        print!("{text}");
    }
}

/// A table of the published figures: one map a row.
fn table(name: &str) -> Vec<HashMap<String, String>> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/data/rally").join(name);
    let text = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    let split = |line: &str| {
        let (mut cells, mut quoted) = (vec![String::new()], false);
        for c in line.chars() {
            match c {
                '"' => quoted = !quoted,
                ',' if !quoted => cells.push(String::new()),
                c => cells.last_mut().expect("one").push(c),
            }
        }
        cells
    };
    let mut lines = text.lines();
    let header = split(lines.next().expect("a header"));
    lines.map(|l| header.iter().cloned().zip(split(l)).collect()).collect()
}
