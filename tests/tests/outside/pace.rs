//! Court pace.

use glam::{DVec3, dvec3};
use standpoint_geometry::{
    Ball, BallState, PACE_TEST_ANGLE, PACE_TEST_SPEED, PaceCategory, Restitution, Surface, SurfaceKind, bounce,
    court_pace_rating, pace_rating_from,
};

use crate::near;

/// A simulated pace test: friction and restitution that a laboratory would measure, and its rating.
fn simulated_test(surface: &Surface) -> (f64, f64, f64) {
    let (down, along) = PACE_TEST_ANGLE.sin_cos();
    let velocity = dvec3(0.0, along, -down) * PACE_TEST_SPEED;
    let before = BallState { position: DVec3::ZERO, velocity, omega: DVec3::ZERO };
    let after = bounce(&before, surface, &Ball::default()).state.velocity;
    let e = after.z / -velocity.z;
    let mu = (velocity.y - after.y) / (-velocity.z * (1.0 + e));
    let rating = court_pace_rating(velocity.y, velocity.z, after.y, after.z, 23.0).expect("it came down");
    (mu, e, rating)
}

#[test]
fn ratings_follow_the_formula_of_the_method() {
    // ITF method CS 01/02, computed by hand from its formula.
    for (mu, e, rating) in [(0.53, 0.75, 56.0), (0.63, 0.81, 37.0), (0.70, 0.83, 27.0), (0.80, 0.85, 14.0)] {
        near(pace_rating_from(mu, e, 23.0), rating, 1e-9);
        // The same from the speeds of a bounce at 30 m/s and 16 degrees.
        let (down, along) = PACE_TEST_ANGLE.sin_cos();
        let (v_ix, v_iy) = (30.0 * along, 30.0 * down);
        let (v_fx, v_fy) = (v_ix - mu * v_iy * (1.0 + e), e * v_iy);
        near(court_pace_rating(v_ix, v_iy, v_fx, v_fy, 23.0).expect("finite"), rating, 1e-9);
    }
}

#[test]
fn warmth_is_taken_out_of_the_rating() {
    // ITF method CS 01/02: e_T = e + 0.003 (23 - T), so ten degrees warmer add 150 x 0.03 = 4.5.
    near(pace_rating_from(0.63, 0.81, 33.0) - pace_rating_from(0.63, 0.81, 23.0), 4.5, 1e-9);
}

#[test]
fn a_ball_that_did_not_come_down_has_no_rating() {
    assert_eq!(court_pace_rating(30.0, 0.0, 20.0, 0.0, 23.0), None);
    assert_eq!(court_pace_rating(f64::NAN, 8.0, 20.0, 6.0, 23.0), None);
}

#[test]
fn categories_begin_where_the_rules_say() {
    // ITF Rules of Tennis, Appendix I: 0-29, 30-34, 35-39, 40-44, 45 and more.
    let table = [(0.0, 1), (29.0, 1), (30.0, 2), (34.0, 2), (35.0, 3), (39.0, 3), (40.0, 4), (44.0, 4), (45.0, 5)];
    for (rating, number) in table {
        assert_eq!(PaceCategory::of(rating).number(), number, "{rating}");
    }
    assert_eq!((PaceCategory::of(29.4).number(), PaceCategory::of(29.6).number()), (1, 2));
    assert_eq!((PaceCategory::of(-5.0).number(), PaceCategory::of(80.0).number()), (1, 5));
}

#[test]
fn surfaces_have_their_published_friction_and_restitution() {
    let ball = Ball::default();
    let at_test = |kind| Surface::new(kind).restitution_at(PACE_TEST_ANGLE, &ball);
    // Grass: 0.53, about 0.75 (Cross, Sports Technology 2, 2009, 112-120).
    near(Surface::new(SurfaceKind::Grass).friction, 0.53, 1e-9);
    near(at_test(SurfaceKind::Grass), 0.75, 1e-3);
    // Clay: about 0.80, about 0.9 (Cross, Sports Engineering 6, 2003, 93-109).
    near(Surface::new(SurfaceKind::Clay).friction, 0.80, 1e-9);
    near(at_test(SurfaceKind::Clay), 0.90, 1e-3);
    // Hard: 0.70-0.73, 0.95 - 0.005 x angle (Cross 2003; Cross, Sports Engineering 23:9, 2020).
    let hard = Surface::new(SurfaceKind::Hard);
    assert!((0.70..=0.73).contains(&hard.friction));
    for degrees in [5.0_f64, 16.0, 25.0, 35.0] {
        near(hard.restitution_at(degrees.to_radians(), &ball), 0.95 - 0.005 * degrees, 1e-9);
    }
    // A ball that falls straight down rebounds as in its approval: 0.729 to 0.761 (ITF ball approval).
    assert!((0.729..=0.761).contains(&hard.restitution_at(90.0_f64.to_radians(), &ball)));
    for kind in SurfaceKind::ALL {
        assert!(!Surface::new(kind).source().is_empty());
    }
}

#[test]
fn a_surface_can_be_made_for_a_rating() {
    for rating in [5.0, 20.0, 29.0, 37.0, 45.0, 56.0, 70.0] {
        near(Surface::from_pace(rating).pace_rating(), rating, 1e-9);
        near(Surface::new(SurfaceKind::Grass).with_pace(rating).pace_rating(), rating, 1e-9);
    }
}

#[test]
fn a_simulated_test_of_a_slippery_court_returns_its_friction_and_rating() {
    for friction in [0.40, 0.53, 0.60, 0.64] {
        let surface = Surface { friction, ..Surface::new(SurfaceKind::Grass) };
        let (mu, e, rating) = simulated_test(&surface);
        near(mu, friction, 1e-9);
        near(e, 0.75, 1e-9);
        near(rating, surface.pace_rating(), 1e-9);
    }
}

#[test]
fn a_simulated_test_of_a_rough_court_cannot_return_its_friction() {
    // Computed: a rigid ball stops sliding at 16 degrees once mu passes about 0.65 (e 0.9) to 0.71 (e 0.75), so clay's
    // 0.8 never comes back; the rating is computed from the numbers themselves instead.
    for (e, limit) in [(0.90, 0.65), (0.75, 0.71)] {
        let at = |friction| {
            let restitution = Restitution::constant(e);
            simulated_test(&Surface { kind: SurfaceKind::Custom, friction, restitution, grip_restitution: 0.0 }).0
        };
        near(at(2.0), limit, 5e-3);
        near(at(limit - 0.01), limit - 0.01, 1e-9);
    }
    let clay = Surface::new(SurfaceKind::Clay);
    let (mu, _, rating) = simulated_test(&clay);
    assert!(mu < 0.78 && rating > clay.pace_rating() + 2.0, "{mu} {rating}");
}
