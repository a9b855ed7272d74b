//! Strokes: their scatter, their misses, and the effect on the choice of target.

use glam::{DVec2, dvec2, dvec3};
use standpoint_geometry::{
    BallPhysics, BallState, Choice, Delivery, LAND_STEP, Level, Situation, Solver, Stroke, Surface, Wing, aim, land,
    quality, spread, weigh, worth::Behaviour,
};

use crate::situations::{drive, right_handed};

/// The reply to a cross-court ball on one wing: struck 3 m beside the middle to `x`, `depth` beyond the net.
fn from_wing(level: Level, wing: Wing, x: f64, depth: f64) -> Situation {
    let p = right_handed(level);
    let side = if wing == Wing::Forehand { 1.0 } else { -1.0 };
    let mut s = drive(p, p, dvec3(side * 3.0, -12.6, 0.95), dvec2(side * x, depth));
    s.conditions.surface = Surface::from_pace(37.0);
    s.opponent_place = dvec2(-side * 3.5, 12.8);
    s
}

#[test]
fn down_the_line_is_missed_more_often_than_cross_court_by_the_published_ratio() {
    // Unforced-error rates cross-court against down the line, open charts of professional matches: men
    // forehand 9.4/14.0 = 1.49, backhand 9.0/18.6 = 2.07; women 11.4/17.6 = 1.54, 10.6/19.9 = 1.88. The rates themselves
    // include balls struck under pressure and are about twice those of the undisturbed rally ball here, so ratios are
    // compared. Targets: 8.55 m deep and 1.4 m inside the sideline (median landing 8.3 m, open ball tracking).
    for (level, wing, published) in [
        (Level::ProMan, Wing::Forehand, 1.49),
        (Level::ProMan, Wing::Backhand, 2.07),
        (Level::ProWoman, Wing::Forehand, 1.54),
        (Level::ProWoman, Wing::Backhand, 1.88),
    ] {
        let miss = |x: f64| 1.0 - quality(&from_wing(level, wing, x, 8.55)).expect("playable").chance.good;
        let ratio = miss(2.7) / miss(-2.7);
        assert!((ratio / published - 1.0).abs() < 0.15, "{level:?} {wing:?}: {ratio:.2} instead of {published}");
    }
}

/// Pseudo-random numbers from a seed (splitmix64, public domain), uniform and normally distributed.
struct Random(u64);

impl Random {
    fn uniform(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }

    /// Box & Muller, Annals of Mathematical Statistics 29 (1958) 610.
    fn normal(&mut self) -> f64 {
        let (u, v) = (1.0 - self.uniform(), self.uniform());
        (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * v).cos()
    }
}

/// Strikes a situation's ball repeatedly with its launch errors: landing places of those over the net, and the share
/// that goes in.
fn struck_often(s: &Situation, wing: Wing, rounds: usize) -> (Vec<DVec2>, f64) {
    let physics = BallPhysics::new(&s.conditions.ball, &s.conditions.air, s.conditions.law);
    let court = s.conditions.court;
    let aimed = aim(&court, &physics, &s.shot).expect("playable");
    let contact = s.shot.contact.truncate();
    let (back, way) = ((s.opponent_place - contact).normalize(), (s.shot.target - contact).normalize());
    let delivery = Delivery {
        stroke: s.shot.stroke,
        wing,
        speed: s.shot.speed,
        topspin: s.shot.topspin,
        pressure: 0.0,
        turn: back.dot(way).clamp(-1.0, 1.0).acos(),
        height: s.shot.contact.z,
        depth: -s.shot.contact.y,
        elevation: aimed.elevation,
    };
    let behaviour = Behaviour::default();
    let usual = spread(&behaviour, &s.hitter, &delivery);
    let mut random = Random(7);
    let mut landed = Vec::new();
    let mut good = 0;
    for _ in 0..rounds {
        // A few strokes are mishits, with three times the spread.
        let spread = usual.scaled(if random.uniform() < behaviour.mishits { 3.0 } else { 1.0 });
        let speed = s.shot.speed * (1.0 + spread.speed * random.normal());
        let elevation = aimed.elevation + spread.up * random.normal();
        let azimuth = aimed.azimuth + spread.side * random.normal();
        let ball = BallState::launch(s.shot.contact, speed, elevation, azimuth, s.shot.topspin, 0.0);
        let Some(l) = land(&physics, ball, LAND_STEP) else { continue };
        if l.net.is_none_or(|n| n.point.z - physics.radius < court.net_height(n.point.x)) {
            continue;
        }
        let place = l.state.position.truncate();
        landed.push(place);
        good += usize::from(court.contains_singles(place) && place.y > 0.0);
    }
    (landed, good as f64 / rounds as f64)
}

#[test]
#[ignore = "not met yet, see 'What is not met' in docs/model.md"]
fn the_landing_ellipse_of_advanced_players_has_the_published_size_and_shape() {
    // 95 % ellipses of 38.8-55.5 m2 down the line, longer in depth than sideways: sigma depth x sigma side 2.1-2.9 m2
    // (Delgado-Garcia et al., IJRSS 1(2), 2019).
    let s = from_wing(Level::Tournament, Wing::Forehand, 2.6, 9.6);
    let (landed, _) = struck_often(&s, Wing::Forehand, 20_000);
    let n = landed.len() as f64;
    let mean = landed.iter().sum::<DVec2>() / n;
    let square = landed.iter().map(|p| (*p - mean) * (*p - mean)).sum::<DVec2>() / n;
    let (side, depth) = (square.x.sqrt(), square.y.sqrt());
    assert!(depth > side, "depth {depth:.2}, side {side:.2}");
    assert!((2.1..=2.9).contains(&(depth * side)), "depth {depth:.2} x side {side:.2} = {:.2} m2", depth * side);
}

#[test]
fn the_chance_in_is_that_of_striking_the_ball_over_and_over() {
    for (level, wing, x, depth) in [
        (Level::Club, Wing::Forehand, -2.5, 8.5),
        (Level::Club, Wing::Backhand, 3.0, 9.5),
        (Level::Tournament, Wing::Forehand, 3.2, 9.0),
        (Level::ProMan, Wing::Backhand, -3.3, 10.0),
    ] {
        let s = from_wing(level, wing, x, depth);
        let told = quality(&s).expect("playable").chance.good;
        let (_, found) = struck_often(&s, wing, 20_000);
        assert!((told - found).abs() < 0.04, "{level:?} {wing:?}: told {told:.3}, found {found:.3}");
    }
}

#[test]
fn the_best_target_moves_inward_as_the_spread_grows() {
    // Optimal targets move inward as execution error grows (Chan et al., J. Quant. Anal. Sports 18, 2022, 127).
    let mut solver = Solver::new();
    let mut best_margin = |factor: f64| {
        let mut s = from_wing(Level::Tournament, Wing::Forehand, 2.7, 8.6);
        // The opponent is in the middle, so that no target is out of reach.
        s.opponent_place = dvec2(0.6, 12.7);
        for wing in [&mut s.hitter.forehand, &mut s.hitter.backhand] {
            wing.spread_up *= factor;
            wing.spread_side *= factor;
        }
        (0..=30)
            .map(|i| 0.1 + f64::from(i) * 0.1)
            .filter_map(|margin| Some((margin, solver.worth(&s, dvec2(4.115 - margin, 8.6)).expect("valid")?.win)))
            .max_by(|a, b| a.1.total_cmp(&b.1))
            .expect("a target")
            .0
    };
    let margins = [0.4, 0.8, 1.6].map(&mut best_margin);
    assert!(margins[0] < margins[1] && margins[1] < margins[2], "{margins:?}");
}

#[test]
#[ignore = "not met yet, see 'What is not met' in docs/model.md"]
fn an_approach_pays_more_down_the_line_than_across_unless_the_other_wing_is_clearly_weaker() {
    // Common practice, no source; 62 % of approaches down the line that led to a volley were won (open charts of
    // professional matches).
    let mut solver = Solver::new();
    let p = right_handed(Level::Tournament);
    let approach = |x: f64| {
        let mut s = drive(p, p, dvec3(1.6, -7.4, 1.0), dvec2(x, 10.2));
        s.conditions.surface = Surface::from_pace(37.0);
        s.shot.stroke = Stroke::Slice;
        (s.shot.speed, s.shot.topspin) = (22.5, -125.0);
        s.opponent_place = dvec2(0.0, 12.6);
        standpoint_geometry::as_approach(&s)
    };
    let mut win = |s: &Situation| weigh(&mut solver, s, &[Choice::AsDrawn])[0].win().expect("playable");
    let (line, cross) = (win(&approach(2.7)), win(&approach(-2.7)));
    assert!(line > cross + 0.02, "line {line:.3}, cross {cross:.3}");
    // The backhand of a right-handed opponent is on the line's side here; the forehand, across, is made the weak wing.
    let weak = |x: f64| {
        let mut s = approach(x);
        s.opponent.forehand.speed *= 0.6;
        s.opponent.forehand.spread_up *= 2.0;
        s.opponent.forehand.spread_side *= 2.0;
        s
    };
    let (line, cross) = (win(&weak(2.7)), win(&weak(-2.7)));
    assert!(cross > line, "against a weak forehand: line {line:.3}, cross {cross:.3}");
}

#[test]
fn bad_requests_get_a_reason() {
    // ITF Rules of Tennis, Rule 16: the server stands behind the baseline.
    let p = right_handed(Level::Club);
    let mut serve = drive(p, p, dvec3(1.0, -11.4, 2.5), dvec2(-2.0, 5.0));
    serve.shot.stroke = Stroke::Serve;
    serve.hitter_place = dvec2(0.8, -11.0);
    let mut solver = Solver::new();
    let told = solver.solve(&serve).expect_err("from inside").to_string();
    assert!(told.contains("behind the baseline"), "{told}");
    let mut volley = drive(p, p, dvec3(1.0, -12.9, 1.0), dvec2(-2.0, 8.0));
    volley.shot.stroke = Stroke::Volley;
    let told = solver.solve(&volley).expect_err("from behind").to_string();
    assert!(told.contains("volley"), "{told}");
}

#[test]
fn the_receiver_of_a_first_serve_waits_behind_the_baseline_between_wide_and_the_t() {
    // Common practice, no source: on the line that halves the angle between the wide serve and the one down the middle,
    // one to three metres behind the baseline. Time from serve to return: median 0.80 s (open positions of one
    // final of professional men on a hard court).
    let mut solver = Solver::new();
    for level in [Level::Club, Level::Tournament, Level::ProWoman, Level::ProMan] {
        let p = right_handed(level);
        let mut s = drive(p, p, dvec3(1.0, -11.6, p.serve.height), dvec2(-2.0, 5.4));
        s.conditions.surface = Surface::from_pace(37.0);
        s.shot.stroke = Stroke::Serve;
        (s.shot.speed, s.shot.topspin) = (p.serve.first_speed, p.serve.topspin / 3.0);
        s.hitter_place = dvec2(0.8, -12.1);
        s.opponent_place = dvec2(-3.2, 12.9);
        let answer = solver.solve(&s).expect("legal");
        let spot = answer.returner.as_ref().expect("a serve").spot.place;
        assert!((0.3..=4.5).contains(&(spot.y - 11.885)), "{level:?}: {spot}");
        assert!((-4.6..=-2.2).contains(&spot.x), "{level:?}: {spot}");
        let time = answer.play().expect("returned").receipt.time;
        if level == Level::ProMan {
            assert!((0.65..=0.95).contains(&time), "{time:.2} s");
        }
        // Nobody volleys a serve (Rule 19 of the same rules: the ball must bounce first).
        assert!(answer.play().expect("returned").receipt.bounces >= 1);
    }
}
