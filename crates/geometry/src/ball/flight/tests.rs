use glam::dvec3;
use proptest::prelude::*;

use super::*;

fn physics(law: FlightLaw) -> BallPhysics {
    BallPhysics::new(&Ball::default(), &Air::default(), law)
}

/// A launch as numbers, so that it can be mirrored.
#[derive(Debug, Clone, Copy)]
struct Struck {
    contact: DVec3,
    speed: f64,
    elevation: f64,
    azimuth: f64,
    topspin: f64,
    sidespin: f64,
}

impl Struck {
    fn state(self) -> BallState {
        BallState::launch(self.contact, self.speed, self.elevation, self.azimuth, self.topspin, self.sidespin)
    }
}

prop_compose! {
    fn struck()(
        x in -6.0..6.0, y in -16.0..16.0, z in 0.0..3.5, speed in 0.0..70.0, elevation in -1.5..1.5,
        azimuth in -3.2..3.2, topspin in -600.0..600.0, sidespin in -400.0..400.0,
    ) -> Struck {
        Struck { contact: dvec3(x, y, z), speed, elevation, azimuth, topspin, sidespin }
    }
}

fn law() -> impl Strategy<Value = FlightLaw> {
    prop_oneof![Just(FlightLaw::Constant), Just(FlightLaw::SpinDependent)]
}

fn finite(state: &BallState) -> bool {
    state.position.is_finite() && state.velocity.is_finite() && state.omega.is_finite()
}

proptest! {
    #[test]
    fn every_flight_is_finite_and_ends_on_the_ground(struck in struck(), law in law()) {
        let physics = physics(law);
        let arc = fly(&physics, struck.state(), FlyOptions::default());
        prop_assert_eq!(arc.end(), ArcEnd::Ground);
        prop_assert!(finite(&arc.end_state()));
        let ground = physics.radius.min(struck.contact.z);
        prop_assert!((arc.end_state().position.z - ground).abs() < 1e-9);
        prop_assert!(arc.apex().point.z >= struck.contact.z - 1e-12);
        for i in 0..=40 {
            let t = arc.end_time() * f64::from(i) / 40.0;
            prop_assert!(finite(&arc.state(t)));
            prop_assert!(arc.position(t).z >= ground - 1e-6);
        }
    }

    #[test]
    fn a_mirrored_launch_flies_the_mirrored_path(struck in struck(), law in law()) {
        let physics = physics(law);
        let mirrored = Struck {
            contact: struck.contact * dvec3(-1.0, 1.0, 1.0),
            azimuth: -struck.azimuth,
            sidespin: -struck.sidespin,
            ..struck
        };
        let (a, b) = (land(&physics, struck.state(), 0.02), land(&physics, mirrored.state(), 0.02));
        let (a, b) = (a.expect("lands"), b.expect("lands"));
        prop_assert!((a.time - b.time).abs() < 1e-12);
        prop_assert!(a.state.position.distance(b.state.position * dvec3(-1.0, 1.0, 1.0)) < 1e-10);
    }

    #[test]
    fn half_a_turn_of_the_launch_turns_the_path(struck in struck(), law in law()) {
        let physics = physics(law);
        let turned = Struck {
            contact: struck.contact * dvec3(-1.0, -1.0, 1.0),
            azimuth: struck.azimuth + std::f64::consts::PI,
            ..struck
        };
        let (a, b) = (land(&physics, struck.state(), 0.02), land(&physics, turned.state(), 0.02));
        let (a, b) = (a.expect("lands"), b.expect("lands"));
        prop_assert!((a.time - b.time).abs() < 1e-10);
        prop_assert!(a.state.position.distance(b.state.position * dvec3(-1.0, -1.0, 1.0)) < 1e-8);
    }

    #[test]
    fn the_air_never_adds_energy(struck in struck(), law in law()) {
        let physics = physics(law);
        let mut state = struck.state();
        for _ in 0..100 {
            let next = state.advanced(&physics, 0.01);
            prop_assert!(next.specific_energy() <= state.specific_energy() + 1e-9 * (1.0 + state.specific_energy().abs()));
            state = next;
        }
    }

    #[test]
    fn landing_without_the_path_is_landing_with_it(struck in struck(), law in law()) {
        let physics = physics(law);
        let landed = land(&physics, struck.state(), DEFAULT_STEP).expect("lands");
        let arc = fly(&physics, struck.state(), FlyOptions::default());
        prop_assert_eq!(landed.state, arc.end_state());
        let net = arc.crossing_y(0.0);
        prop_assert_eq!(landed.net.is_some(), net.is_some());
        if let (Some(a), Some(b)) = (landed.net, net) {
            prop_assert!((a.time - b.time).abs() < 1e-12 && a.point.distance(b.point) < 1e-10);
        }
    }

    #[test]
    fn the_step_for_aiming_is_within_a_tenth_of_a_millimetre(
        struck in struck(), speed in 8.0..60.0, elevation in -0.3..0.9, topspin in -350.0..450.0, law in law(),
    ) {
        let physics = physics(law);
        let struck = Struck { speed, elevation, topspin, ..struck };
        let coarse = land(&physics, struck.state(), LAND_STEP).expect("lands");
        let fine = land(&physics, struck.state(), 0.002).expect("lands");
        prop_assert!(coarse.state.position.distance(fine.state.position) < 1e-4);
        prop_assert!((coarse.time - fine.time).abs() < 1e-5);
    }
}

#[test]
fn both_laws_are_finite_without_spin_and_with_any_spin() {
    for law in [FlightLaw::Constant, FlightLaw::SpinDependent] {
        for s in [0.0, 1e-300, 1e-12, 0.1, 1.0, 100.0, MAX_SPIN_PARAMETER] {
            assert!(law.drag_coefficient(s).is_finite() && law.lift_coefficient(s).is_finite(), "{law:?} at {s}");
        }
        assert!(law.lift_coefficient(0.0).abs() < 1e-15);
    }
    assert!((FlightLaw::SpinDependent.drag_coefficient(0.0) - 0.508).abs() < 1e-15);
}

#[test]
fn topspin_bends_down_and_sidespin_to_the_left_in_every_direction() {
    let physics = physics(FlightLaw::SpinDependent);
    for i in 0..12 {
        let azimuth = f64::from(i) * 0.5;
        let from = |topspin, sidespin| {
            let s = BallState::launch(dvec3(0.0, 0.0, 1.0), 30.0, 0.0, azimuth, topspin, sidespin);
            physics.acceleration(s.velocity, s.omega)
        };
        let (plain, top, side) = (from(0.0, 0.0), from(200.0, 0.0), from(0.0, 200.0));
        assert!(top.z < plain.z - 1.0);
        let left = dvec3(-azimuth.cos(), azimuth.sin(), 0.0);
        assert!(side.dot(left) > plain.dot(left) + 1.0);
        assert!((side.z - plain.z).abs() < 1e-9);
    }
}

#[test]
fn a_ball_at_rest_falls_and_a_ball_on_the_ground_stays() {
    let physics = physics(FlightLaw::SpinDependent);
    let rest = BallState { position: dvec3(0.0, 0.0, 1.0), velocity: DVec3::ZERO, omega: dvec3(0.0, 0.0, 50.0) };
    let landed = land(&physics, rest, 0.02).expect("falls");
    assert!(landed.time > 0.4 && finite(&landed.state));
    let still = BallState { position: dvec3(0.0, 0.0, physics.radius), ..rest };
    let arc = fly(&physics, still, FlyOptions::default());
    assert_eq!((arc.end(), arc.end_time()), (ArcEnd::Ground, 0.0));
    assert_eq!(arc.position(3.0), still.position);
    assert_eq!(arc.apex().point, still.position);
}

#[test]
fn a_small_hop_from_the_ground_comes_back_to_it() {
    let vacuum = BallPhysics { density: 0.0, ..physics(FlightLaw::Constant) };
    for up in [1e-6, 1e-3, 0.05, 0.0980665, 0.5, 4.0] {
        let start =
            BallState { position: dvec3(0.0, 0.0, vacuum.radius), velocity: dvec3(1.0, 0.0, up), omega: DVec3::ZERO };
        let landed = land(&vacuum, start, 0.02).expect("comes back");
        let exact = 2.0 * up / GRAVITY;
        assert!((landed.time - exact).abs() < 1e-6, "{up}: {} instead of {exact}", landed.time);
    }
}

#[test]
fn the_time_limit_cuts_a_flight() {
    let start = BallState::launch(dvec3(0.0, 0.0, 1.0), 20.0, 1.0, 0.0, 0.0, 0.0);
    let arc = fly(&physics(FlightLaw::Constant), start, FlyOptions { max_time: 0.333, ..FlyOptions::default() });
    assert_eq!(arc.end(), ArcEnd::TimeLimit);
    assert!((arc.end_time() - 0.333).abs() < 1e-12);
}

#[test]
fn numbers_that_are_not_finite_end_without_a_landing() {
    let bad = BallState { position: DVec3::NAN, velocity: DVec3::ONE, omega: DVec3::ZERO };
    assert_eq!(land(&physics(FlightLaw::SpinDependent), bad, f64::NAN).map(|l| l.time), None);
}
