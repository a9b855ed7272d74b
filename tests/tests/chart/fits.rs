//! Planted players are recovered from measurements of them, within the reported interval.

use glam::{DVec2, DVec3};
use standpoint_board::{PlayerCard, chart::Setup};
use standpoint_charting::fit::{FitError, SprintTrial, TargetTest, fit_speed, fit_sprint, fit_target};
use standpoint_geometry::{
    BackhandGrip, BallPhysics, BallState, Delivery, End, Hand, LAND_STEP, Level, Movement, Shot, SprintFitError,
    Stroke, Wing, aim, land, spread,
    units::{KMH, RPM},
    worth::Behaviour,
};

use crate::larkfield;

/// Pseudo-random numbers by a linear congruence.
struct Dice(u64);

impl Dice {
    fn even(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33) as f64 + 0.5) / (1u64 << 31) as f64
    }

    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.even()).sum::<f64>() - 6.0
    }
}

fn runner() -> Movement {
    Level::Club.player(Hand::Right, BackhandGrip::TwoHanded).movement
}

#[test]
fn a_runner_comes_back_from_sprints_and_the_interval_holds_them_as_often_as_it_says() {
    let planted = Movement { v_max: 7.6, tau_s: 0.84, ..runner() };
    let mut dice = Dice(3);
    let (mut held, runs) = (0, 60);
    for seed in 0..runs {
        let trials: Vec<SprintTrial> = [5.0, 10.0, 20.0]
            .into_iter()
            .flat_map(|distance| std::iter::repeat_n(distance, 3))
            .map(|distance| {
                let time = planted.sprint_time(distance + 0.5) - planted.sprint_time(0.5);
                SprintTrial { distance, time: time + 0.02 * dice.normal() }
            })
            .collect();
        let fit = fit_sprint(&runner(), &trials, 0.5, seed).unwrap();
        assert!(fit.timing_from_repeats && (fit.timing_s - 0.02).abs() < 0.02, "{fit:?}");
        assert!((fit.v_max.value - 7.6).abs() < 0.5, "{fit:?}");
        held += u32::from(fit.v_max.holds(7.6) && fit.tau_s.holds(0.84));
        // Figures that were not measured are kept.
        assert_eq!(fit.movement.reaction_s.to_bits(), runner().reaction_s.to_bits());
    }
    // Both intervals hold at once in 95 of 100; the error of timing is itself only estimated, so somewhat less.
    assert!(held * 100 >= runs as u32 * 80, "{held} of {runs}");
}

#[test]
fn the_same_sprints_and_seed_give_the_same_fit() {
    let trials = [(5.0, 1.1), (10.0, 1.85), (20.0, 3.2)].map(|(distance, time)| SprintTrial { distance, time });
    let fits = [1, 1, 2].map(|seed| fit_sprint(&runner(), &trials, 0.5, seed).unwrap());
    assert_eq!(fits[0], fits[1]);
    assert_ne!(fits[0], fits[2]);
    assert!(!fits[0].timing_from_repeats);
    let mut card = PlayerCard::of_level("Mara Quell", Level::Club);
    fits[0].apply(&mut card);
    assert_eq!(card.player().movement, fits[0].movement);
}

#[test]
fn sprints_that_tell_nothing_are_refused_with_the_reason() {
    let trial = |distance, time| SprintTrial { distance, time };
    let refused = |trials: &[SprintTrial]| fit_sprint(&runner(), trials, 0.0, 1).unwrap_err();
    assert!(matches!(refused(&[trial(5.0, 1.1)]), FitError::TooFew { found: 1, .. }));
    assert!(matches!(refused(&[trial(5.0, 1.1), trial(10.0, f64::NAN)]), FitError::OutOfRange { number: 2, .. }));
    assert_eq!(refused(&[trial(5.0, 1.1), trial(5.1, 1.2)]), FitError::Sprint(SprintFitError::TooFew));
    assert_eq!(refused(&[trial(5.0, 1.9), trial(10.0, 1.8)]), FitError::Sprint(SprintFitError::NotIncreasing));
}

#[test]
fn a_speed_comes_back_from_readings_and_a_strange_one_is_pointed_out() {
    let mut dice = Dice(9);
    let mut readings: Vec<f64> = (0..20).map(|_| (98.0 + 5.0 * dice.normal()) * KMH).collect();
    let fit = fit_speed(&readings).unwrap();
    assert!(fit.speed.holds(98.0 * KMH) && (fit.deviation / KMH - 5.0).abs() < 2.5, "{fit:?}");
    assert!(fit.strange.is_empty());
    readings.push(60.0 * KMH);
    assert_eq!(fit_speed(&readings).unwrap().strange, [20]);
    assert!(fit_speed(&readings[..2]).is_err());
    assert!(matches!(fit_speed(&[30.0, 31.0, 300.0]), Err(FitError::OutOfRange { number: 3, .. })));
    let mut card = PlayerCard::of_level("Mara Quell", Level::Club);
    fit.apply(&mut card, Wing::Backhand);
    assert!((card.player().backhand.speed - fit.speed.value).abs() < 1e-12);
}

fn test_of(setup: &Setup, contact: DVec3) -> TargetTest {
    TargetTest {
        conditions: setup.board(Vec::new()).conditions(),
        player: setup.card(End::Near).player(),
        wing: Wing::Forehand,
        stroke: Stroke::Topspin,
        contact,
        target: DVec2::new(-2.6, 9.4),
        speed: 84.0 * KMH,
        topspin: 1000.0 * RPM,
        fed_from: DVec2::new(0.0, 11.0),
    }
}

/// Balls struck with launch errors, flown one by one: their landing places, and the number that do not clear the net.
fn struck(test: &TargetTest, up: f64, side: f64, balls: usize, dice: &mut Dice) -> (Vec<DVec2>, usize) {
    let c = &test.conditions;
    let physics = BallPhysics::new(&c.ball, &c.air, c.law);
    let (contact, target, speed, topspin) = (test.contact, test.target, test.speed, test.topspin);
    let shot = Shot { contact, stroke: test.stroke, target, speed, topspin, sidespin: 0.0 };
    let aimed = aim(&c.court, &physics, &shot).unwrap();
    let mut player = test.player;
    (player.forehand.spread_up, player.forehand.spread_side) = (up, side);
    let from = contact.truncate();
    let turn = (test.fed_from - from).normalize().dot((target - from).normalize()).acos();
    let delivery = Delivery {
        stroke: test.stroke,
        wing: test.wing,
        speed,
        topspin,
        pressure: 0.0,
        turn,
        height: contact.z,
        depth: -contact.y,
        elevation: aimed.elevation,
    };
    let behaviour = Behaviour::default();
    let usual = spread(&behaviour, &player, &delivery);
    let (mut landings, mut netted) = (Vec::new(), 0);
    for _ in 0..balls {
        // Clean strokes: target tests leave out the mishits.
        let errors = usual;
        let start = BallState::launch(
            contact,
            speed * (1.0 + errors.speed * dice.normal()),
            aimed.elevation + errors.up * dice.normal(),
            aimed.azimuth + errors.side * dice.normal(),
            topspin,
            0.0,
        );
        let landed = land(&physics, start, LAND_STEP).unwrap();
        match landed.net {
            Some(net) if net.point.z - physics.radius >= c.court.net_height(net.point.x) => {
                landings.push(landed.state.position.truncate());
            }
            _ => netted += 1,
        }
    }
    (landings, netted)
}

#[test]
#[ignore = "not met yet, see 'What is not met' in docs/model.md"]
fn a_spread_comes_back_from_many_balls_flown_one_by_one() {
    let setup = larkfield(Level::Club);
    // A flat drive close over the net, so that some balls do not clear it.
    let close = TargetTest { speed: 100.0 * KMH, topspin: 500.0 * RPM, ..test_of(&setup, DVec3::new(2.6, -11.9, 1.0)) };
    let test = TargetTest { target: DVec2::new(-2.0, 8.6), ..close };
    let (up, side) = (1.5f64.to_radians(), 2.2f64.to_radians());
    let (landings, netted) = struck(&test, up, side, 3000, &mut Dice(17));
    assert!(netted > 3, "{netted}");
    let fit = fit_target(&test, &landings, netted).unwrap();
    assert!((fit.spread_up.value / up - 1.0).abs() < 0.06, "{} {up}", fit.spread_up.value);
    assert!((fit.spread_side.value / side - 1.0).abs() < 0.06, "{} {side}", fit.spread_side.value);
}

#[test]
#[ignore = "not met yet, see 'What is not met' in docs/model.md"]
fn ten_balls_tell_a_spread_within_the_interval() {
    let setup = larkfield(Level::Club);
    let test = test_of(&setup, DVec3::new(2.6, -11.9, 1.0));
    let (up, side) = (1.3f64.to_radians(), 2.0f64.to_radians());
    let mut dice = Dice(23);
    let (mut held_up, mut held_side) = (0, 0);
    for _ in 0..100 {
        let (landings, netted) = struck(&test, up, side, 10, &mut dice);
        let fit = fit_target(&test, &landings, netted).unwrap();
        held_up += u32::from(fit.spread_up.holds(up));
        held_side += u32::from(fit.spread_side.holds(side));
        assert!(fit.spread_up.high > 1.5 * fit.spread_up.low, "ten balls cannot tell more");
    }
    assert!(held_up >= 88 && held_side >= 88, "{held_up} {held_side}");
}

#[test]
fn a_target_test_that_tells_nothing_is_refused_with_the_reason() {
    let setup = larkfield(Level::Club);
    let mut test = test_of(&setup, DVec3::new(2.6, -11.9, 1.0));
    let some = vec![DVec2::new(-2.0, 9.0); 6];
    assert!(matches!(fit_target(&test, &some[..3], 0), Err(FitError::TooFew { found: 3, .. })));
    assert!(matches!(fit_target(&test, &some, 0), Err(FitError::NoSpread)));
    test.speed = 20.0 * KMH;
    let spread: Vec<DVec2> = (0..6).map(|i| DVec2::new(-2.0, 8.0 + f64::from(i) * 0.3)).collect();
    assert!(matches!(fit_target(&test, &spread, 0), Err(FitError::Target(_))));
}
