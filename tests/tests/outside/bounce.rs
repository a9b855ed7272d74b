//! The bounce against the planar equations and measurements.

use glam::{DVec3, dvec3};
use standpoint_geometry::{
    Ball, BallState, BallType, Bounce, BounceRegime, INERTIA, Restitution, Surface, SurfaceKind, bounce,
};

use crate::near;

const RADIUS: f64 = 0.0335;

fn surface(friction: f64, e: f64, grip_restitution: f64) -> Surface {
    Surface { kind: SurfaceKind::Custom, friction, restitution: Restitution::constant(e), grip_restitution }
}

/// A bounce in the plane of travel, `+y`, with topspin `omega1`.
fn planar(v_x1: f64, v_y1: f64, omega1: f64, surface: &Surface) -> Bounce {
    let before = BallState {
        position: dvec3(0.0, 0.0, RADIUS),
        velocity: dvec3(0.0, v_x1, -v_y1),
        omega: dvec3(-omega1, 0.0, 0.0),
    };
    bounce(&before, surface, &Ball::new(BallType::Type2))
}

#[test]
fn a_gripping_ball_without_spin_keeps_the_exact_share_of_its_speed() {
    // Exact: no spin and e_x = 0 give 1/1.55 = 0.645 (Cross, Sports Engineering 23:9, 2020, alpha = 0.55).
    let after = planar(20.0, 12.0, 0.0, &surface(2.0, 0.75, 0.0));
    assert_eq!(after.regime, BounceRegime::Grips);
    near(after.state.velocity.y / 20.0, 1.0 / 1.55, 1e-12);
    near(after.state.velocity.y / 20.0, 0.645, 5e-4);
    // The ball rolls: the contact point has no speed along the ground.
    near(after.state.velocity.y + RADIUS * after.state.omega.x, 0.0, 1e-9);
}

#[test]
fn sliding_and_gripping_follow_the_planar_equations() {
    // Cross, Sports Engineering 23:9 (2020), eqs. 5-14, coded here as printed, topspin positive, alpha = 0.55.
    let (mut slides, mut grips, mut between) = (0, 0, 0);
    for v_x1 in [5.0, 12.0, 25.0, 40.0] {
        for v_y1 in [1.0, 4.0, 9.0, 15.0] {
            for omega1 in [-400.0, -100.0, 0.0, 90.0, 250.0, 420.0] {
                for (mu, e_y, e_x) in [(0.3, 0.7, 0.1), (0.53, 0.75, 0.135), (0.715, 0.87, 0.17), (0.9, 0.9, 0.0)] {
                    let r_omega1 = RADIUS * omega1;
                    if v_x1 <= r_omega1 {
                        continue; // The equations are written for a ball that slips forwards.
                    }
                    let got = planar(v_x1, v_y1, omega1, &surface(mu, e_y, e_x));
                    let (v_x2, omega2) = (got.state.velocity.y, -got.state.omega.x);
                    near(got.state.velocity.z, e_y * v_y1, 1e-9);
                    let tan = v_y1 / v_x1;
                    let slid_v = v_x1 * (1.0 - mu * (1.0 + e_y) * tan);
                    let slid_omega = omega1 + mu * (1.0 + e_y) * v_y1 / (INERTIA * RADIUS);
                    let gripped_v = v_x1
                        * ((1.0 - INERTIA * e_x) / (1.0 + INERTIA)
                            + INERTIA * (1.0 + e_x) / (1.0 + INERTIA) * r_omega1 / v_x1);
                    let gripped_omega =
                        ((1.0 + e_x) / (1.0 + INERTIA) * v_x1 + (INERTIA - e_x) / (1.0 + INERTIA) * r_omega1) / RADIUS;
                    if slid_v > RADIUS * slid_omega {
                        assert_eq!(got.regime, BounceRegime::Slides);
                        near(v_x2, slid_v, 1e-9);
                        near(omega2, slid_omega, 1e-6);
                        slides += 1;
                    } else {
                        assert_eq!(got.regime, BounceRegime::Grips);
                        // Just past the limit, friction cannot give the whole e_x and gives as much as it can.
                        let expected = gripped_v.max(slid_v);
                        between += u8::from(slid_v > gripped_v);
                        near(v_x2, expected, 1e-9);
                        if slid_v <= gripped_v {
                            near(omega2, gripped_omega, 1e-6);
                            grips += 1;
                        }
                    }
                }
            }
        }
    }
    assert!(slides > 50 && grips > 50 && between > 0, "{slides} {grips} {between}");
}

#[test]
fn no_tangential_restitution_is_the_older_slide_or_roll_model() {
    // Brody 1984: the case e_x = 0; a gripping ball rolls away.
    for omega1 in [-300.0, 0.0, 200.0] {
        let after = planar(15.0, 12.0, omega1, &surface(0.9, 0.8, 0.0));
        assert_eq!(after.regime, BounceRegime::Grips);
        near(after.state.velocity.y + RADIUS * after.state.omega.x, 0.0, 1e-9);
    }
}

#[test]
fn measured_bounces_come_out_within_their_scatter() {
    // Cross, American Journal of Physics 70 (2002) 482, Table II: 60 cm drop on a tilted surface, no spin; ratio of the
    // speeds along the surface and vertical restitution. Low speeds: 20 % allowed. Emery and acrylic grip at both
    // angles; the friction of wood follows from its sliding bounce at 20 degrees, and must give the one at 45.
    let speed = (2.0_f64 * 9.806_65 * 0.60).sqrt();
    let wood = (1.0 - 0.84) / (1.80 * 20.0_f64.to_radians().tan());
    let table = [
        (20.0, wood, 0.84, 0.80, BounceRegime::Slides),
        (45.0, wood, 0.60, 0.73, BounceRegime::Slides),
        (20.0, 0.8, 0.60, 0.84, BounceRegime::Grips),
        (45.0, 0.8, 0.63, 0.79, BounceRegime::Grips),
        (20.0, 0.715, 0.62, 0.74, BounceRegime::Grips),
        (45.0, 0.715, 0.68, 0.79, BounceRegime::Grips),
    ];
    for (degrees, mu, ratio, e, regime) in table {
        let (v_y1, v_x1) = (f64::to_radians(degrees).sin() * speed, f64::to_radians(degrees).cos() * speed);
        let after = planar(v_x1, v_y1, 0.0, &surface(mu, e, 0.135));
        near(after.state.velocity.y / v_x1, ratio, 0.2 * ratio);
        near(after.state.velocity.z / v_y1, e, 1e-9);
        if degrees < 30.0 {
            assert_eq!(after.regime, regime, "{degrees} {mu}");
        }
    }
}

#[test]
fn a_bounce_is_continuous_where_sliding_turns_into_gripping() {
    for grip_restitution in [0.0, 0.135] {
        let surface = surface(0.7, 0.8, grip_restitution);
        let mut last: Option<DVec3> = None;
        let (mut slid, mut gripped) = (false, false);
        for i in 0..4000 {
            let angle = 0.05 + 0.5 * f64::from(i) / 4000.0;
            let after = planar(30.0 * angle.cos(), 30.0 * angle.sin(), 100.0, &surface);
            slid |= after.regime == BounceRegime::Slides;
            gripped |= after.regime == BounceRegime::Grips;
            if let Some(last) = last {
                near(after.state.velocity.distance(last), 0.0, 0.02);
            }
            last = Some(after.state.velocity);
        }
        assert!(slid && gripped);
    }
}

#[test]
fn sidespin_about_the_vertical_is_left_alone() {
    let before = BallState {
        position: dvec3(0.0, 0.0, RADIUS),
        velocity: dvec3(0.0, 20.0, -8.0),
        omega: dvec3(-100.0, 0.0, 150.0),
    };
    let after = bounce(&before, &surface(0.7, 0.8, 0.1), &Ball::default()).state;
    near(after.omega.z, 150.0, 1e-12);
    near(after.velocity.x, 0.0, 1e-12);
}

#[test]
fn spin_across_the_travel_kicks_the_ball_aside() {
    // A ball that spins about its direction of travel (+y), over to the right, kicks to the right (+x).
    let before = BallState {
        position: dvec3(0.0, 0.0, RADIUS),
        velocity: dvec3(0.0, 20.0, -8.0),
        omega: dvec3(0.0, 200.0, 0.0),
    };
    let after = bounce(&before, &surface(0.7, 0.8, 0.1), &Ball::default()).state;
    assert!(after.velocity.x > 0.5, "{}", after.velocity.x);
}
