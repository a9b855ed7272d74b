//! The fast path against the brute-force computation of the same model, on random situations.
//!
//! **Rule.** The exposures agree within 0.005, at both spots and at a place picked at random. The spots lie within 0.05 m
//! of each other. Where a valley is flat or has a twin, places further apart are as good as each other; then the brute
//! force itself must find the fast path's spot worse than its own by no more than [`AS_GOOD`], the tolerance of the
//! exposure, and such cases must be rare. Source: none from outside; the brute force is the plain computation of `docs/model.md`.

use glam::DVec2;
use standpoint_geometry::{
    oracle::{Fineness, Oracle},
    situation::Situation,
    solver::{SolveError, Solver},
};

use crate::situations::Seeded;

/// Spots that the brute force judges this close to each other are equally good.
const AS_GOOD: f64 = 0.005;
/// The greatest share of situations in which the rule for flat valleys may be needed.
const FLAT_SHARE: f64 = 0.08;

/// How the two computations differ on one situation.
#[derive(Debug, Clone, Copy)]
struct Difference {
    /// Between the spots, m.
    distance: f64,
    /// Fast exposure at its spot less the brute force's at its own.
    exposure: f64,
    /// Fast exposure at a place picked at random less the brute force's there.
    elsewhere: f64,
    /// What the brute force finds the fast spot worse than its own.
    worse: f64,
}

fn compare(solver: &mut Solver, situation: &Situation, random: &mut Seeded) -> Option<Difference> {
    let answer = match solver.solve(situation) {
        Ok(answer) => answer,
        Err(SolveError::Aim(_)) => return None,
        Err(invalid) => panic!("{invalid}"),
    };
    let oracle = Oracle::new(situation, Fineness::default()).expect("what one can aim the other can");
    assert_eq!(oracle.is_some(), answer.play().is_some(), "a winner for one of them only: {situation:?}");
    let (oracle, play) = (oracle?, answer.play()?);
    let best = oracle.solve().spot;
    let field = &play.field;
    let size = DVec2::new((field.columns - 1) as f64, (field.rows - 1) as f64) * field.step;
    let place = field.origin + size * DVec2::new(random.between(0.1, 0.9), random.between(0.1, 0.9));
    let fast = solver.exposures(situation, &[place]).expect("solved before")[0].exposure;
    Some(Difference {
        distance: play.spot.place.distance(best.place),
        exposure: play.spot.exposure - best.exposure,
        elsewhere: fast - oracle.exposure(place),
        worse: oracle.exposure(play.spot.place) - best.exposure,
    })
}

/// Compares situations that follow from a seed until `rounds` of them could be compared.
fn run(seed: u64, rounds: usize) -> Vec<(Situation, Difference)> {
    let (mut random, mut solver) = (Seeded(seed), Solver::new());
    let mut found = Vec::new();
    while found.len() < rounds {
        let situation = random.situation();
        if let Some(difference) = compare(&mut solver, &situation, &mut random) {
            found.push((situation, difference));
        }
    }
    found
}

#[expect(clippy::print_stdout, reason = "the distribution is what this test measures")]
fn quantiles(name: &str, values: impl Iterator<Item = f64>) {
    let mut v: Vec<f64> = values.map(f64::abs).collect();
    v.sort_by(f64::total_cmp);
    let at = |share: f64| v[((v.len() - 1) as f64 * share) as usize];
    println!("{name}: median {:.5}, 90 % {:.5}, 99 % {:.5}, most {:.5}", at(0.5), at(0.9), at(0.99), at(1.0));
}

/// Two hundred situations unless `STANDPOINT_ORACLE_ROUNDS` asks for another number; `STANDPOINT_ORACLE_SEED` for others.
#[test]
#[expect(clippy::print_stdout, reason = "the distribution is what this test measures")]
fn the_fast_path_finds_what_brute_force_finds() {
    let wanted = |name, usual: usize| std::env::var(name).ok().and_then(|v| v.parse().ok()).unwrap_or(usual);
    let (rounds, seed) = (wanted("STANDPOINT_ORACLE_ROUNDS", 200), wanted("STANDPOINT_ORACLE_SEED", 1) as u64);
    let threads = std::thread::available_parallelism().map_or(1, usize::from).min(8);
    let found: Vec<(Situation, Difference)> = std::thread::scope(|scope| {
        let workers: Vec<_> = (0..threads)
            .map(|worker| {
                scope.spawn(move || {
                    let streams = (0..STREAMS).filter(|s| s % threads == worker);
                    streams.flat_map(|s| run(seed * 1000 + s as u64, rounds.div_ceil(STREAMS))).collect::<Vec<_>>()
                })
            })
            .collect();
        workers.into_iter().flat_map(|w| w.join().expect("no panic")).collect()
    });
    println!("{} situations", found.len());
    quantiles("distance of the spots, m", found.iter().map(|f| f.1.distance));
    quantiles("exposure at the spots", found.iter().map(|f| f.1.exposure));
    quantiles("exposure anywhere", found.iter().map(|f| f.1.elsewhere));
    let flat = found.iter().filter(|f| f.1.distance > 0.05).count();
    println!("{flat} with flat or twin valleys");
    for (situation, d) in &found {
        if d.distance > 0.05 {
            println!("{d:?} {:?} {:?}", situation.shot.stroke, situation.settings.ready);
        }
    }
    for (situation, d) in &found {
        assert!(d.exposure.abs() <= 0.005 && d.elsewhere.abs() <= 0.005, "{d:?} {situation:?}");
        assert!(d.distance <= 0.05 || d.worse <= AS_GOOD, "{d:?} {situation:?}");
    }
    assert!(flat as f64 <= FLAT_SHARE * found.len() as f64);
}

/// Independent streams of random situations, so that the same ones are compared whatever the number of cores.
const STREAMS: usize = 8;
