//! The whole chain: every quantity of an answer, and what the player's own figures do to the exposure.

use glam::{DVec2, dvec2};
use proptest::prelude::*;
use standpoint_geometry::{
    answer::{Answer, Outcome, Play},
    compare::{Choice, weigh, win_chance},
    player::{Movement, Player, Reach, WingSkill},
    quality::quality,
    situation::Situation,
    solver::{SolveError, Solver},
};

use crate::people::{drive, situation};

fn numbers(play: &Play) -> Vec<f64> {
    let mut all = vec![play.receipt.time, play.receipt.time_to_spare, play.receipt.pressure];
    all.extend(play.receipt.contact.to_array());
    all.extend([play.wedge.left, play.wedge.right, play.wedge.width(), play.bisector.azimuth, play.bisector.offset]);
    for at in [play.spot, play.middle, play.recovery.reached] {
        all.extend([at.place.x, at.place.y, at.exposure]);
    }
    let run = &play.recovery;
    all.extend([run.distance, run.available, run.needed, run.short_by, run.extra_exposure]);
    for reply in &play.best {
        all.extend([reply.speed, reply.topspin, reply.elevation, reply.azimuth, reply.chance_in, reply.exposure]);
        all.extend([reply.landing.x, reply.landing.y, reply.landing_time, reply.time_to_spare]);
        all.extend(reply.met_at.to_array());
        all.extend(reply.path.iter().flat_map(|p| [p.time, p.point.x, p.point.y, p.point.z]));
    }
    all.extend(play.contours.iter().flat_map(|c| &c.rings).flatten().flat_map(|p| [p.x, p.y]));
    all.extend(play.field.values.iter().map(|v| f64::from(*v)));
    all
}

fn finite(answer: &Answer) -> bool {
    let shot = &answer.shot;
    let mut all = vec![shot.elevation, shot.azimuth, shot.speed, shot.apex, shot.chance_in];
    all.extend([shot.net.time, shot.net.x, shot.net.height, shot.net.net_height, shot.net.clearance]);
    all.extend([shot.landing.time, shot.landing.place.x, shot.landing.place.y, shot.landing.speed, shot.landing.angle]);
    all.extend(shot.path.iter().flat_map(|p| [p.time, p.point.x, p.point.y, p.point.z]));
    all.extend(&shot.bounces);
    match &answer.outcome {
        Outcome::Winner { late_by, closest } => all.extend([*late_by, closest.x, closest.y, closest.z]),
        Outcome::NoReply(receipt) => all.extend([receipt.time, receipt.contact.x, receipt.time_to_spare]),
        Outcome::Play(play) => all.extend(numbers(play)),
    }
    if let Some(play) = &answer.returner {
        all.extend(numbers(play));
    }
    all.iter().all(|n| n.is_finite())
}

/// Standing places all over the near half.
fn places() -> Vec<DVec2> {
    (0..40).map(|i| dvec2(f64::from(i % 8) * 1.2 - 4.2, f64::from(i / 8) * -2.6 - 4.0)).collect()
}

/// The exposure of the same places with another hitter.
pub fn exposures(solver: &mut Solver, s: &Situation, hitter: Player) -> Vec<f64> {
    let at = solver.exposures(&Situation { hitter, ..*s }, &places());
    at.unwrap_or_default().iter().map(|place| place.exposure).collect()
}

/// The hot loop computes in `f32`.
pub const SLACK: f64 = 2e-5;
/// The spot is found to half a point in a thousand.
pub const SPOT_SLACK: f64 = 5e-4;
/// No aim into the net goes in more often than this.
const INTO_THE_NET: f64 = 0.5;

/// A player who reacts later.
pub fn later(p: Player, by: f64) -> Player {
    Player { movement: Movement { reaction_s: p.movement.reaction_s + by, ..p.movement }, ..p }
}

/// A player who reaches farther.
pub fn reaching_farther(p: Player, by: f64) -> Player {
    let r = p.reach;
    Player { reach: Reach { forehand: r.forehand + by, backhand: r.backhand + by, ahead: r.ahead + by, ..r }, ..p }
}

/// A situation whose opponent misses by so many times as much, upwards and sideways.
fn wilder(s: &Situation, up: f64, side: f64) -> Situation {
    let wild = |w: WingSkill| WingSkill {
        spread_up: (w.spread_up * up).min(0.3),
        spread_side: (w.spread_side * side).min(0.3),
        ..w
    };
    let o = s.opponent;
    Situation { opponent: Player { forehand: wild(o.forehand), backhand: wild(o.backhand), ..o }, ..*s }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(120))]

    #[test]
    fn every_valid_situation_has_a_finite_answer_or_a_reason(s in situation()) {
        prop_assert_eq!(s.validate(), vec![]);
        let mut solver = Solver::new();
        match solver.solve(&s) {
            Ok(answer) => {
                prop_assert!(finite(&answer), "{answer:?}");
                prop_assert!((0.0..=1.0).contains(&answer.shot.chance_in));
                let own = quality(&s);
                prop_assert!(own.is_ok_and(|q| q.vertical_window().is_finite() && q.lateral_window().is_finite()));
                let win = win_chance(answer.shot.chance_in, &answer);
                prop_assert!((0.0..=1.0).contains(&win), "{win}");
            }
            Err(SolveError::Aim(_)) => {}
            Err(SolveError::Invalid(problems)) => prop_assert!(false, "{problems:?}"),
        }
        for weighed in weigh(&mut solver, &s, &[Choice::AsDrawn, Choice::CrossCourt, Choice::Lob]) {
            prop_assert!(weighed.win().is_none_or(|win| (0.0..=1.0).contains(&win)));
        }
    }

    #[test]
    fn the_spot_is_no_worse_than_any_other_place(s in drive()) {
        let mut solver = Solver::new();
        let Ok(answer) = solver.solve(&s) else { return Ok(()) };
        let Some(play) = answer.play() else { return Ok(()) };
        for at in exposures(&mut solver, &s, s.hitter) {
            prop_assert!((0.0..=1.0).contains(&at));
            prop_assert!(at >= play.spot.exposure - SPOT_SLACK, "{at} is less than {} at the spot", play.spot.exposure);
        }
    }

    #[test]
    fn whoever_reacts_later_loses_no_fewer_points_anywhere(s in drive(), by in 0.01..0.6f64) {
        let mut solver = Solver::new();
        let (a, b) = (exposures(&mut solver, &s, s.hitter), exposures(&mut solver, &s, later(s.hitter, by)));
        prop_assert!(a.iter().zip(&b).all(|(a, b)| *b >= *a - SLACK), "{a:?} {b:?}");
    }

    #[test]
    fn whoever_reaches_farther_loses_no_more_points_anywhere(s in drive(), more in 0.0..1.0f64) {
        let mut solver = Solver::new();
        let (a, b) = (exposures(&mut solver, &s, s.hitter), exposures(&mut solver, &s, reaching_farther(s.hitter, more)));
        prop_assert!(a.iter().zip(&b).all(|(a, b)| *b <= *a + SLACK), "{a:?} {b:?}");
    }

    #[test]
    fn an_opponent_wilder_sideways_takes_no_more_points(s in drive(), k in 1.0..3.0f64) {
        let mut solver = Solver::new();
        let wilder = wilder(&s, 1.0, k);
        let (a, b) = (exposures(&mut solver, &s, s.hitter), exposures(&mut solver, &wilder, s.hitter));
        prop_assert!(a.iter().zip(&b).all(|(a, b)| *b <= *a + SLACK), "{a:?} {b:?}");
    }

    /// Whoever aims into the net, as an aim at full speed from a low contact may be, misses it by luck, and the more often
    /// the wilder the stroke; but never more than every other time. Nothing that costs more than that can cost more still.
    #[test]
    fn a_wilder_opponent_takes_more_points_only_with_aims_into_the_net(s in drive(), k in 1.0..3.0f64) {
        let mut solver = Solver::new();
        let wilder = wilder(&s, k, k);
        let (a, b) = (exposures(&mut solver, &s, s.hitter), exposures(&mut solver, &wilder, s.hitter));
        prop_assert!(a.iter().zip(&b).all(|(a, b)| *b <= a.max(INTO_THE_NET) + SLACK), "{a:?} {b:?}");
    }
}

/// What is said of drives is said of many.
#[test]
fn most_drives_can_be_played_and_are_returned() {
    use proptest::{strategy::ValueTree as _, test_runner::TestRunner};
    let (mut runner, mut solver) = (TestRunner::deterministic(), Solver::new());
    let returned = (0..100).filter(|_| {
        let s = drive().new_tree(&mut runner).unwrap().current();
        !exposures(&mut solver, &s, s.hitter).is_empty()
    });
    let returned = returned.count();
    assert!(returned > 50, "{returned} of 100");
}
