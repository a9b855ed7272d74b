use glam::dvec3;
use proptest::prelude::*;

use super::*;
use crate::{
    ball::{air::Air, flight::FlightLaw},
    court::surface::{Restitution, SurfaceKind},
};

const RADIUS: f64 = 0.0335;

fn surface(friction: f64, e: f64, grip_restitution: f64) -> Surface {
    Surface { kind: SurfaceKind::Custom, friction, restitution: Restitution::constant(e), grip_restitution }
}

fn energy(state: &BallState) -> f64 {
    0.5 * state.velocity.length_squared() + 0.5 * INERTIA * RADIUS * RADIUS * state.omega.length_squared()
}

prop_compose! {
    fn arriving()(
        vx in -50.0..50.0, vy in -50.0..50.0, vz in -30.0..0.0, wx in -600.0..600.0, wy in -600.0..600.0,
        wz in -600.0..600.0,
    ) -> BallState {
        BallState { position: dvec3(0.0, 0.0, RADIUS), velocity: dvec3(vx, vy, vz), omega: dvec3(wx, wy, wz) }
    }
}

prop_compose! {
    fn any_surface()(mu in 0.0..1.5, e in 0.0..1.0, e_x in 0.0..1.0) -> Surface { surface(mu, e, e_x) }
}

proptest! {
    #[test]
    fn a_bounce_is_finite_goes_up_and_adds_no_energy(before in arriving(), surface in any_surface()) {
        let after = bounce(&before, &surface, &Ball::default()).state;
        prop_assert!(after.velocity.is_finite() && after.omega.is_finite());
        prop_assert!(after.velocity.z >= 0.0);
        prop_assert!(energy(&after) <= energy(&before) * (1.0 + 1e-12) + 1e-12);
        let e = surface.restitution.at(0.0);
        prop_assert!((after.velocity.z + e * before.velocity.z).abs() < 1e-9);
        prop_assert!((after.omega.z - before.omega.z).abs() < 1e-12);
    }

    #[test]
    fn a_mirrored_bounce_is_the_mirrored_bounce(before in arriving(), surface in any_surface()) {
        // Spin is an axial vector: the mirror x -> -x keeps its x and turns the others round.
        let mirror = |s: &BallState| BallState {
            position: s.position,
            velocity: s.velocity * dvec3(-1.0, 1.0, 1.0),
            omega: s.omega * dvec3(1.0, -1.0, -1.0),
        };
        let a = mirror(&bounce(&before, &surface, &Ball::default()).state);
        let b = bounce(&mirror(&before), &surface, &Ball::default()).state;
        prop_assert!(a.velocity.distance(b.velocity) < 1e-12 && a.omega.distance(b.omega) < 1e-9);
    }

    #[test]
    fn a_bounce_is_the_same_in_every_direction(before in arriving(), surface in any_surface(), turn in -3.0..3.0) {
        let turned = |v: DVec3| DVec3::new(
            v.x * f64::cos(turn) - v.y * f64::sin(turn), v.x * f64::sin(turn) + v.y * f64::cos(turn), v.z,
        );
        let a = bounce(&before, &surface, &Ball::default()).state;
        let start = BallState { velocity: turned(before.velocity), omega: turned(before.omega), ..before };
        let b = bounce(&start, &surface, &Ball::default()).state;
        prop_assert!(turned(a.velocity).distance(b.velocity) < 1e-9 && turned(a.omega).distance(b.omega) < 1e-6);
    }

    #[test]
    fn a_little_more_friction_changes_the_bounce_a_little(before in arriving(), surface in any_surface()) {
        let more = Surface { friction: surface.friction + 1e-6, ..surface };
        let a = bounce(&before, &surface, &Ball::default()).state;
        let b = bounce(&before, &more, &Ball::default()).state;
        prop_assert!(a.velocity.distance(b.velocity) < 1e-4);
    }

    #[test]
    fn a_path_bounces_lower_each_time_and_joins_up(speed in 10.0..50.0, elevation in -0.1..0.8, topspin in -200.0..400.0) {
        let (air, ball, surface) = (Air::default(), Ball::default(), Surface::default());
        let physics = BallPhysics::new(&ball, &air, FlightLaw::default());
        let start = BallState::launch(dvec3(0.0, -11.0, 1.0), speed, elevation, 0.1, topspin, 20.0);
        let path = fly_path(&physics, &surface, &ball, start, 2, FlyOptions::default());
        prop_assert_eq!((path.arcs.len(), path.bounces.len()), (3, 3));
        for (i, &(time, point)) in path.bounces.iter().enumerate() {
            prop_assert!(path.position(time - 1e-9).distance(point) < 1e-6);
            prop_assert!(path.position(time + 1e-9).distance(point) < 1e-6);
            prop_assert_eq!(path.bounces_by(time - 1e-9), i);
        }
        prop_assert!((path.end_time() - path.bounces[2].0).abs() < 1e-12);
        prop_assert!(path.arcs[0].apex().point.z > path.arcs[1].apex().point.z || elevation < 0.2);
        prop_assert!(path.arcs[1].apex().point.z > path.arcs[2].apex().point.z);
    }
}

#[test]
fn a_ball_dropped_without_spin_comes_straight_back() {
    let before = BallState { position: dvec3(1.0, 2.0, RADIUS), velocity: dvec3(0.0, 0.0, -5.0), omega: DVec3::ZERO };
    let after = bounce(&before, &surface(0.7, 0.8, 0.1), &Ball::default()).state;
    assert!(after.velocity.distance(dvec3(0.0, 0.0, 4.0)) < 1e-12);
    assert!(after.omega.length() < 1e-12);
}

#[test]
fn a_ball_at_rest_stays_at_rest() {
    let before = BallState { position: DVec3::ZERO, velocity: DVec3::ZERO, omega: DVec3::ZERO };
    let after = bounce(&before, &Surface::default(), &Ball::default());
    assert_eq!(after.state, before);
}

#[test]
fn a_path_flown_again_in_old_memory_is_the_same_path() {
    let (ball, surface) = (Ball::default(), Surface::default());
    let physics = BallPhysics::new(&ball, &Air::default(), FlightLaw::default());
    let start = |speed| BallState::launch(dvec3(0.0, -11.0, 1.0), speed, 0.2, 0.1, 200.0, 20.0);
    let fresh = fly_path(&physics, &surface, &ball, start(25.0), 1, FlyOptions::default());
    let mut reused = fly_path(&physics, &surface, &ball, start(40.0), 2, FlyOptions::default());
    reused.refly(&physics, &surface, &ball, start(25.0), 1, FlyOptions::default());
    assert_eq!(fresh, reused);
}
