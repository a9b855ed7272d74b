//! The whole chain: every quantity of an answer, and the effect of the player's own figures on the worth.

use glam::{DVec2, dvec2};
use proptest::{prelude::*, sample::select};
use standpoint_geometry::{
    Answer, BackhandGrip, Choice, Hand, Level, Movement, Outcome, Place, Play, Player, Reach, ReceiptChoice, Situation,
    SolveError, Solver, Wing, WingSkill, quality, weigh,
    worth::{Game, matchup, stand_in},
};

use crate::people::{drive, situation};

fn numbers(play: &Play) -> Vec<f64> {
    let mut all = vec![play.receipt.time, play.receipt.time_to_spare, play.receipt.pressure];
    all.extend(play.receipt.contact.to_array());
    all.extend([play.depth_range.0, play.depth_range.1]);
    all.extend([play.wedge.left, play.wedge.right, play.wedge.width(), play.bisector.azimuth, play.bisector.offset]);
    for at in [play.spot, play.middle, play.recovery.reached] {
        all.extend([at.place.x, at.place.y, at.exposure]);
    }
    let run = &play.recovery;
    all.extend([run.distance, run.available, run.needed, run.short_by, run.extra_exposure]);
    for reply in &play.best {
        all.extend([reply.speed, reply.topspin, reply.elevation, reply.azimuth, reply.chance_in, reply.exposure]);
        all.extend([reply.landing.x, reply.landing.y, reply.landing_time, reply.time_to_spare]);
        all.extend([reply.share, reply.wins_outright]);
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

/// Standing places over the whole near half.
fn places() -> Vec<DVec2> {
    (0..40).map(|i| dvec2(f64::from(i % 8) * 1.2 - 4.2, f64::from(i / 8) * -2.6 - 4.0)).collect()
}

/// Places around the spot of a situation, no further than a step or two from it; none when there is no spot. Further
/// away the worth is rough: replies chosen only against a badly placed player are left out.
fn about_the_spot(solver: &mut Solver, s: &Situation) -> Vec<DVec2> {
    let answer = solver.solve(s).ok();
    let spot = answer.as_ref().and_then(Answer::play).map(|play| play.spot.place);
    let around = (0..25).map(|i| dvec2(f64::from(i % 5) - 2.0, f64::from(i / 5) - 2.0));
    spot.map_or_else(Vec::new, |spot| around.map(|step| spot + step).collect())
}

/// The exposure of the places about the situation's spot, with another hitter.
fn exposures(solver: &mut Solver, s: &Situation, hitter: Player) -> Vec<f64> {
    let places = about_the_spot(solver, s);
    let at = solver.exposures(&Situation { hitter, ..*s }, &places);
    at.unwrap_or_default().iter().map(|place| place.exposure).collect()
}

/// Allowed loss from better legs or arms, in points won: opponents do not always choose what is best, and replies that
/// are hardly ever chosen are left out of an answer. As large as the tolerance of the recovery zone, within which a
/// board shows no difference.
const SLACK: f64 = 0.035;
/// How much better another place of the spot's area may be: the spot is the centre of a zone, weighted over 0.01 and
/// drawn to where players usually wait.
pub const SPOT_SLACK: f64 = 0.025;
/// One step of the byte that stores a worth, with its neighbours' shares.
const STORED: f32 = 0.004;

/// The exposure of the places about a situation's spot, in another situation.
fn of_others(solver: &mut Solver, s: &Situation, other: &Situation) -> Vec<f64> {
    let places = about_the_spot(solver, s);
    solver.exposures(other, &places).unwrap_or_default().iter().map(|place| place.exposure).collect()
}

/// The largest rise of the worth from one list to the other, over the same places.
fn rise(before: &[f64], after: &[f64]) -> f64 {
    before.iter().zip(after).map(|(a, b)| b - a).fold(-1.0, f64::max)
}

/// Places at the net when the spot is there, else those at the back (divided at the service line, `docs/model.md`).
pub fn of_its_area(solver: &mut Solver, s: &Situation, play: &Play) -> Vec<Place> {
    let area = if play.at_net { -4.8..-1.2 } else { -16.8..-10.9 };
    let places: Vec<DVec2> = places().into_iter().filter(|p| area.contains(&p.y)).collect();
    solver.exposures(s, &places).unwrap_or_default()
}

/// The player with a longer reaction.
fn later(p: Player, by: f64) -> Player {
    Player { movement: Movement { reaction_s: p.movement.reaction_s + by, ..p.movement }, ..p }
}

/// The player with a longer reach.
fn reaching_farther(p: Player, by: f64) -> Player {
    let r = p.reach;
    Player { reach: Reach { forehand: r.forehand + by, backhand: r.backhand + by, ahead: r.ahead + by, ..r }, ..p }
}

/// The same situation with the opponent's contact held, so that only the effect of the player's figures there is
/// compared.
fn held(s: &Situation, solver: &mut Solver) -> Option<Situation> {
    let contact = solver.meeting(s).ok()?.receipt()?.contact;
    Some(Situation { receipt: ReceiptChoice::Near(contact.truncate()), ..*s })
}

/// The situation with the opponent's spread scaled by this factor.
fn wilder(s: &Situation, by: f64) -> Situation {
    let wild = |w: WingSkill| WingSkill {
        spread_up: (w.spread_up * by).min(0.3),
        spread_side: (w.spread_side * by).min(0.3),
        ..w
    };
    let o = s.opponent;
    Situation { opponent: Player { forehand: wild(o.forehand), backhand: wild(o.backhand), ..o }, ..*s }
}

/// A drive between two players of one level, so that the answer uses that level's own rally.
fn among_equals() -> impl Strategy<Value = Situation> {
    let level = select(vec![Level::Club, Level::Tournament, Level::ProWoman, Level::ProMan]);
    let hand = || select(vec![Hand::Right, Hand::Left]);
    (drive(), level, hand(), hand()).prop_map(|(s, level, own, other)| Situation {
        hitter: level.player(own, BackhandGrip::TwoHanded),
        opponent: level.player(other, BackhandGrip::TwoHanded),
        ..s
    })
}

/// The rally of the men's level.
fn men() -> Game {
    stand_in(&matchup(Level::ProMan)).0
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

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
                let win = solver.win(&s).unwrap();
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
    fn the_spot_is_no_worse_than_any_other_place_of_its_area(s in drive()) {
        let mut solver = Solver::new();
        let Ok(answer) = solver.solve(&s) else { return Ok(()) };
        let Some(play) = answer.play() else { return Ok(()) };
        for at in of_its_area(&mut solver, &s, play) {
            prop_assert!((0.0..=1.0).contains(&at.exposure));
            prop_assert!(at.exposure >= play.spot.exposure - SPOT_SLACK, "{at:?} against {:?}", play.spot);
        }
    }

    #[test]
    fn the_spot_is_worth_what_the_same_place_is_when_asked_for(s in drive()) {
        let mut solver = Solver::new();
        let Ok(answer) = solver.solve(&s) else { return Ok(()) };
        let Some(play) = answer.play() else { return Ok(()) };
        let at = solver.exposures(&s, &[play.spot.place]).unwrap();
        prop_assert!((at[0].exposure - play.spot.exposure).abs() < 1e-3, "{at:?} against {:?}", play.spot);
    }

    #[test]
    fn whoever_reacts_later_loses_no_fewer_points_about_the_spot(s in among_equals(), by in 0.01..0.6f64) {
        let mut solver = Solver::new();
        let Some(s) = held(&s, &mut solver) else { return Ok(()) };
        let (a, b) = (exposures(&mut solver, &s, s.hitter), exposures(&mut solver, &s, later(s.hitter, by)));
        prop_assert!(rise(&b, &a) <= SLACK, "{} fewer", rise(&b, &a));
    }

    #[test]
    fn whoever_reaches_farther_loses_no_more_points_about_the_spot(s in among_equals(), more in 0.0..1.0f64) {
        let mut solver = Solver::new();
        let Some(s) = held(&s, &mut solver) else { return Ok(()) };
        let (a, b) = (exposures(&mut solver, &s, s.hitter), exposures(&mut solver, &s, reaching_farther(s.hitter, more)));
        prop_assert!(rise(&a, &b) <= SLACK, "{} more", rise(&a, &b));
    }

    #[test]
    fn whoever_runs_faster_loses_no_more_points_about_the_spot(s in among_equals(), share in 1.0..1.08f64) {
        let mut solver = Solver::new();
        let Some(s) = held(&s, &mut solver) else { return Ok(()) };
        // A gain in speed so small that the same level stands in for both.
        let fast = Movement { v_max: s.hitter.movement.v_max * share, ..s.hitter.movement };
        let (a, b) = (exposures(&mut solver, &s, s.hitter), exposures(&mut solver, &s, Player { movement: fast, ..s.hitter }));
        prop_assert!(rise(&a, &b) <= SLACK, "{} more", rise(&a, &b));
    }

    #[test]
    fn a_wilder_opponent_takes_no_more_points(s in among_equals(), by in 1.0..3.0f64) {
        let mut solver = Solver::new();
        let Some(s) = held(&s, &mut solver) else { return Ok(()) };
        let (a, b) = (exposures(&mut solver, &s, s.hitter), of_others(&mut solver, &s, &wilder(&s, by)));
        prop_assert!(rise(&a, &b) <= SLACK, "{} more", rise(&a, &b));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(8))]

    #[test]
    fn more_time_to_spare_never_lowers_the_worth(x in -5.0..5.0f32, depth in 1.5..17.0f32, height in 0.2..2.1f32, backhand: bool) {
        let game = men();
        let wing = if backhand { Wing::Backhand } else { Wing::Forehand };
        for air in [false, true] {
            let depth = if air { depth.min(9.0) } else { depth };
            let mut before = 0.0;
            for step in -8..=22 {
                let (worth, place) = game.worth_at(0, [x, depth, height], air, wing, step as f32 * 0.05);
                prop_assert!((0.0..=1.0).contains(&worth) && place.iter().all(|p| p.is_finite()));
                prop_assert!(worth >= before - STORED, "{worth} after {before} with {} s", step as f32 * 0.05);
                before = worth;
            }
        }
    }
}

/// Drives are mostly playable and returned, so that properties of drives cover many cases.
#[test]
fn most_drives_can_be_played_and_are_returned() {
    use proptest::{strategy::ValueTree as _, test_runner::TestRunner};
    let (mut runner, mut solver) = (TestRunner::deterministic(), Solver::new());
    let returned = (0..40).filter(|_| {
        let s = drive().new_tree(&mut runner).unwrap().current();
        !exposures(&mut solver, &s, s.hitter).is_empty()
    });
    let returned = returned.count();
    assert!(returned > 20, "{returned} of 40");
}
