//! The fast look-ahead compared with the slow one, which shares none of its shortcuts, on random situations.
//!
//! **Rule.** At the fast spot the worth agrees within 0.02, and the slow spot lies within 0.3 m of the fast one or is no more
//! than 0.005 better, which is what a flat valley leaves open. No source from outside: the reference is the plain computation
//! of `docs/model.md`.

use glam::{dvec2, dvec3};
use standpoint_geometry::{
    BackhandGrip, Hand, Level, Play, Player, ReadyArea, Situation, Solver, Stroke, Surface, Wing,
    oracle::{Fineness, Oracle},
    usual_delivery,
};

use crate::situations::{Seeded, drive};

const WORTH: f64 = 0.02;
const DISTANCE: f64 = 0.3;
const FLAT: f64 = 0.005;
/// Independent streams of random situations, so that the same ones are compared whatever the number of cores.
const STREAMS: u64 = 4;

/// A ball of a rally between two of the levels that the rally was calibrated for, in play from the back.
fn rally_ball(r: &mut Seeded) -> Situation {
    let level = r.pick(&[Level::ProMan, Level::ProWoman, Level::Tournament]);
    let player = |hand| -> Player { level.player(hand, BackhandGrip::TwoHanded) };
    let (hitter, opponent) = (player(r.pick(&[Hand::Right, Hand::Left])), player(r.pick(&[Hand::Right, Hand::Left])));
    let contact = dvec3(r.between(-3.6, 3.6), -r.between(9.0, 14.0), r.between(0.5, 1.4));
    let mut s = drive(hitter, opponent, contact, dvec2(r.between(-3.3, 3.3), r.between(6.0, 10.8)));
    s.conditions.surface = Surface::from_pace(37.0);
    s.shot.stroke = r.pick(&[Stroke::Topspin, Stroke::Topspin, Stroke::Topspin, Stroke::Slice]);
    (s.shot.speed, s.shot.topspin) =
        usual_delivery(&s.conditions, &hitter, Wing::Forehand, s.shot.stroke, contact, s.shot.target);
    s.opponent_place = dvec2(r.between(-2.5, 2.5), r.between(12.0, 14.0));
    // The slow search covers one valley only.
    s.settings.ready = ReadyArea::Back;
    s
}

#[derive(Debug, Clone, Copy)]
struct Difference {
    distance: f64,
    /// Fast worth at the fast spot less the slow one there.
    worth: f64,
    /// How much worse the fast spot is than the slow one, by the slow path.
    worse: f64,
}

fn compare(s: &Situation, play: &Play) -> Option<Difference> {
    let mut oracle = Oracle::new(s, Fineness::default()).expect("what one can aim the other can")?;
    oracle.settle(play.recovery.reached.place);
    let best = oracle.spot(play.spot.place);
    let there = oracle.exposure(play.spot.place);
    Some(Difference {
        distance: play.spot.place.distance(best.place),
        worth: play.spot.exposure - there,
        worse: there - best.exposure,
    })
}

fn run(seed: u64, rounds: usize) -> Vec<(Situation, Difference)> {
    let (mut random, mut solver) = (Seeded(seed), Solver::new());
    let mut found = Vec::new();
    while found.len() < rounds {
        let s = rally_ball(&mut random);
        let Ok(answer) = solver.solve(&s) else { continue };
        let Some(play) = answer.play() else { continue };
        found.extend(compare(&s, play).map(|d| (s, d)));
    }
    found
}

#[expect(clippy::print_stdout, reason = "the distribution is what this test measures")]
fn quantiles(name: &str, values: impl Iterator<Item = f64>) {
    let mut v: Vec<f64> = values.map(f64::abs).collect();
    v.sort_by(f64::total_cmp);
    let at = |share: f64| v[((v.len() - 1) as f64 * share) as usize];
    println!("{name}: median {:.4}, 90 % {:.4}, most {:.4}", at(0.5), at(0.9), at(1.0));
}

/// A hundred situations unless `STANDPOINT_ORACLE_ROUNDS` asks for another number; `STANDPOINT_ORACLE_SEED` for others.
#[test]
#[ignore = "not met yet, see 'What is not met' in docs/model.md"]
fn the_fast_path_finds_what_the_slow_one_finds() {
    let wanted = |name, usual: usize| std::env::var(name).ok().and_then(|v| v.parse().ok()).unwrap_or(usual);
    let (rounds, seed) = (wanted("STANDPOINT_ORACLE_ROUNDS", 100), wanted("STANDPOINT_ORACLE_SEED", 1) as u64);
    let threads = std::thread::available_parallelism().map_or(1, usize::from).min(STREAMS as usize) as u64;
    let found: Vec<(Situation, Difference)> = std::thread::scope(|scope| {
        let each = rounds.div_ceil(STREAMS as usize);
        let workers: Vec<_> = (0..threads)
            .map(|worker| {
                scope.spawn(move || {
                    let streams = (0..STREAMS).filter(|s| s % threads == worker);
                    streams.flat_map(|s| run(seed * 1000 + s, each)).collect::<Vec<_>>()
                })
            })
            .collect();
        workers.into_iter().flat_map(|w| w.join().expect("no panic")).collect()
    });
    quantiles("distance of the spots, m", found.iter().map(|f| f.1.distance));
    quantiles("worth at the fast spot", found.iter().map(|f| f.1.worth));
    quantiles("fast spot worse than the slow one", found.iter().map(|f| f.1.worse));
    let off: Vec<String> = found
        .iter()
        .filter(|(_, d)| d.worth.abs() > WORTH || (d.distance > DISTANCE && d.worse > FLAT))
        .map(|(s, d)| {
            format!(
                "{d:?}: {:?} from {:.2} to {:.2}, opponent at {:.2}",
                s.shot.stroke, s.shot.contact, s.shot.target, s.opponent_place
            )
        })
        .collect();
    assert!(off.is_empty(), "{} of {}:\n{}", off.len(), found.len(), off.join("\n"));
}
