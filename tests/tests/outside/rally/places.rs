//! Standing places for balls of a rally, after a serve and at the net, and the worth of a ball by its landing place.

use glam::{DVec2, dvec2, dvec3};
use standpoint_geometry::{Level, Play, ReadyArea, Situation, Solver, Stroke, Surface, worth::Basis};

use super::PROFESSIONAL;
use crate::{
    positions::slope,
    situations::{drive, right_handed},
};

const BASELINE: f64 = 11.885;

/// A drive between two of a level on the court of its table; the opponent waits a metre and a half behind the baseline, by
/// a quarter of the contact's offset across (receivers stand 0.14 to 0.22 m across per metre, README of the tables).
pub fn ball(level: Level, contact: DVec2, target: DVec2) -> Situation {
    let p = right_handed(level);
    let mut s = drive(p, p, contact.extend(1.0), target);
    s.conditions.surface = Surface::from_pace(37.0);
    s.opponent_place = dvec2(-0.2 * contact.x, 13.4);
    s
}

fn play(solver: &mut Solver, s: &Situation) -> Play {
    let answer = solver.solve(s).expect("can be played");
    assert_eq!(answer.basis, Basis::Solved, "the shipped table does not fit");
    answer.play().expect("is returned").clone()
}

fn behind(play: &Play) -> f64 {
    -play.spot.place.y - BASELINE
}

/// Points won by the hitter of a ball that is in.
fn won(solver: &mut Solver, s: &Situation) -> f64 {
    let chance = solver.solve(s).expect("can be played").shot.chance_in;
    solver.win(s).expect("can be played") / chance
}

/// Fails with every deviation in the message, if there are any.
#[track_caller]
pub fn nothing(off: &[String]) {
    assert!(off.is_empty(), "{} are off:\n{}", off.len(), off.join("\n"));
}

#[test]
#[ignore = "not met yet, see 'What is not met' in docs/model.md"]
fn neutral_balls_are_waited_for_one_to_two_and_a_half_metres_behind_the_baseline() {
    // Professionals stand 2.1 and 1.6 m behind it (medians of two matches of men, open tracking data), with time to recover
    // 2.6 and 2.1; after a ball across 1.7, along the line 1.3 to 2.0, through the middle 2.2 to 3.0. Balls land at 8.25 m
    // (median, `deciles.csv`).
    let (mut solver, mut off) = (Solver::new(), Vec::new());
    for (level, group) in PROFESSIONAL {
        for (from, to) in [(0.0, 0.0), (0.0, 2.0), (0.0, -2.0), (-2.0, 2.0), (2.0, -2.0), (-2.0, 0.0), (2.0, 0.0)] {
            let p = play(&mut solver, &ball(level, dvec2(from, -13.0), dvec2(to, 8.3)));
            if !(1.0..=2.5).contains(&behind(&p)) {
                off.push(format!("{group} from {from} to {to}: {:.2} m behind", behind(&p)));
            }
        }
    }
    nothing(&off);
}

#[test]
fn nobody_waits_inside_the_baseline_after_a_ball_that_leaves_time() {
    // Of professionals at the back, one in ten stands more than 0.7 m (0.1 m in the other match) inside (the same data).
    let (mut solver, mut off) = (Solver::new(), Vec::new());
    for (level, group) in PROFESSIONAL {
        for x in [-3.6, -1.8, 0.0, 1.8, 3.6] {
            for to in [-3.1, -1.5, 0.0, 1.5, 3.1] {
                for depth in [7.0, 8.3, 10.0] {
                    let p = play(&mut solver, &ball(level, dvec2(x, -12.8), dvec2(to, depth)));
                    if p.receipt.time_to_spare > 0.3 {
                        let b = behind(&p);
                        if b < -0.5 {
                            off.push(format!("{group} from {x} to {to}, {depth}: {b:.2} m behind"));
                        }
                    }
                }
            }
        }
    }
    nothing(&off);
}

#[test]
#[ignore = "not met yet, see 'What is not met' in docs/model.md"]
fn a_server_who_stays_back_waits_by_the_baseline() {
    // Common practice, no source: the server lands inside after the serve and steps back to the baseline.
    let (mut solver, mut off) = (Solver::new(), Vec::new());
    for (level, group) in PROFESSIONAL {
        let p = right_handed(level);
        for side in [1.0, -1.0] {
            for (target, second) in [(0.4, false), (2.0, false), (3.6, false), (2.4, true)] {
                let mut s = ball(level, dvec2(side * 0.8, -11.92), dvec2(-side * target, 5.4));
                s.shot.stroke = Stroke::Serve;
                s.shot.contact.z = p.serve.height;
                (s.shot.speed, s.shot.topspin) = match second {
                    false => (p.serve.first_speed, p.serve.topspin / 3.0),
                    true => (p.serve.second_speed, p.serve.topspin),
                };
                s.hitter_place = dvec2(side * 0.6, -12.2);
                s.opponent_place = dvec2(-side * 3.3, 13.2);
                s.settings.ready = ReadyArea::Back;
                let answer = solver.solve(&s).expect("legal");
                let Some(p) = answer.play() else { continue };
                let b = behind(p);
                if b.abs() > 1.0 {
                    off.push(format!("{group} from {side} to {target}, second {second}: {b:.2} m behind"));
                }
            }
        }
    }
    nothing(&off);
}

/// An approach from a short ball, down the line or across, to a hurried opponent; the hitter goes to the net.
fn approach(level: Level, to: f64) -> Situation {
    let mut s = ball(level, dvec2(1.6, -6.8), dvec2(to, 10.2));
    s.shot.stroke = Stroke::Slice;
    (s.shot.speed, s.shot.topspin) = (23.0, -125.0);
    s.settings.ready = ReadyArea::Net;
    s
}

#[test]
fn at_the_net_one_stands_on_the_balls_side_two_and_a_half_to_four_and_a_half_metres_from_it() {
    // The middle of what can be reached lies on the ball's side in front of the landing depth: 0.1 to 0.4 m per metre by
    // geometry; a racket and an arm's length for the pass, room for the lob: common practice, no source.
    let (mut solver, mut off) = (Solver::new(), Vec::new());
    for (level, group) in PROFESSIONAL {
        let mut points = Vec::new();
        for i in -7..=7 {
            let p = play(&mut solver, &approach(level, f64::from(i) * 0.4));
            let away = -p.spot.place.y;
            if !(2.5..=4.5).contains(&away) {
                off.push(format!("{group} to {:.1}: {away:.2} m from the net", f64::from(i) * 0.4));
            }
            points.push((p.receipt.contact.x, p.spot.place.x));
        }
        let along = slope(&points);
        if !(0.1..=0.4).contains(&along) {
            off.push(format!("{group}: {along:.3} m to the ball's side per metre"));
        }
    }
    nothing(&off);
}

#[test]
fn a_slow_short_ball_costs_and_a_deep_one_pays() {
    // Hitters win 0.423 with a slow ball at 4 to 6 m, 0.552 with one at 8 to 9 m and 0.575 with one at 10 to 11 m
    // (`landed_by_depth.csv`; the slow ball from the same data).
    let (mut solver, mut off) = (Solver::new(), Vec::new());
    for (level, group) in PROFESSIONAL {
        for to in [-1.8, 0.0, 1.8] {
            let of = |depth: f64| ball(level, dvec2(0.0, -13.0), dvec2(to, depth));
            let mut slow = of(6.0);
            slow.shot.speed = 22.0;
            let [slow, medium, deep] = [slow, of(8.3), of(10.5)].map(|s| won(&mut solver, &s));
            if slow > medium - 0.08 || deep <= medium {
                off.push(format!("{group} to {to}: slow {slow:.3}, medium {medium:.3}, deep {deep:.3}"));
            }
        }
    }
    nothing(&off);
}

/// Spots while the target moves in steps of a tenth of a metre.
fn spots(
    solver: &mut Solver,
    level: Level,
    contact: DVec2,
    targets: impl Iterator<Item = DVec2>,
) -> Vec<(DVec2, Play)> {
    targets.map(|target| (target, play(solver, &ball(level, contact, target)))).collect()
}

/// The furthest that the spot moves sideways and in depth while a target is dragged in steps of a tenth of a metre, where it
/// stays at the back or at the net, with the situation of each.
fn furthest_moves() -> [(f64, String); 2] {
    let mut solver = Solver::new();
    let mut furthest = [(0.0, String::new()), (0.0, String::new())];
    for (level, group) in PROFESSIONAL {
        for contact in [dvec2(0.0, -13.0), dvec2(3.2, -12.6), dvec2(-3.2, -12.6), dvec2(1.0, -9.5)] {
            let across = (0..=62).map(|i| dvec2(f64::from(i) * 0.1 - 3.1, 9.0));
            let along = (0..=48).map(|i| dvec2(2.0, 6.0 + f64::from(i) * 0.1));
            for line in [spots(&mut solver, level, contact, across), spots(&mut solver, level, contact, along)] {
                for pair in line.windows(2) {
                    let ((from, a), (_, b)) = (&pair[0], &pair[1]);
                    if a.at_net != b.at_net {
                        continue;
                    }
                    let moved = (a.spot.place - b.spot.place).abs();
                    for (furthest, by) in furthest.iter_mut().zip([moved.x, moved.y]) {
                        if by > furthest.0 {
                            *furthest = (by, format!("{group} from {contact} to {from}: {by:.3} m"));
                        }
                    }
                }
            }
        }
    }
    furthest
}

#[test]
fn a_tenth_of_a_metre_moves_the_spot_by_no_more_than_that_sideways() {
    // No outside source: while the target is dragged, the spot must not jump.
    let [sideways, _] = furthest_moves();
    assert!(sideways.0 <= 0.1, "{}", sideways.1);
}

#[test]
#[ignore = "not met yet, see 'What is not met' in docs/model.md"]
fn a_tenth_of_a_metre_moves_the_spot_by_no_more_than_three_in_depth() {
    // The same.
    let [_, depth] = furthest_moves();
    assert!(depth.0 <= 0.3, "{}", depth.1);
}

#[test]
#[ignore = "not met yet, see 'What is not met' in docs/model.md"]
fn two_metres_off_the_spot_does_not_lose_the_point() {
    // Balls that land 7 to 9 m from the opponent's last contact win 0.662, those within 5 m 0.52 to 0.54
    // (`landed_by_distance_from_opponents_last_contact.csv`): being that far out of place costs at most 15 points in 100, so
    // a step or two cost less.
    let (mut solver, mut off) = (Solver::new(), Vec::new());
    for (level, group) in PROFESSIONAL {
        for to in [-2.0, 0.0, 2.0] {
            let s = ball(level, dvec2(0.0, -13.0), dvec2(to, 8.3));
            let p = play(&mut solver, &s);
            let beside = [-2.0, 2.0].map(|dx| p.spot.place + dvec2(dx, 0.0));
            for at in solver.exposures(&s, &beside).expect("can be played") {
                let more = at.exposure - p.spot.exposure;
                if !(0.0..=0.15).contains(&more) {
                    off.push(format!("{group} to {to}: {more:.3} more at {:.2}", at.place));
                }
            }
        }
    }
    nothing(&off);
}

#[test]
fn a_volley_is_struck_where_a_player_at_the_net_stands() {
    // Contacts of volleys lie 5.5 to 9 m inside the baseline in most cases (`volley_by_contact_depth.csv`).
    let mut solver = Solver::new();
    let mut s = ball(Level::ProMan, dvec2(0.0, -12.6), dvec2(1.0, 8.5));
    s.shot.contact = dvec3(0.0, -12.6, 1.0);
    s.opponent_place = dvec2(0.3, 3.2);
    let met = play(&mut solver, &s).receipt;
    assert_eq!(met.bounces, 0);
    assert!((1.5..=6.4).contains(&met.contact.y), "{}", met.contact);
}
