//! Sprinting, reaching and recovering.

use glam::{DVec2, DVec3, dvec2, dvec3};
use proptest::prelude::*;
use standpoint_geometry::{End, Movement, Mover, Player, Reach, SOFT_REACH_M, Turn, ring};

use crate::{
    mirrored,
    people::{movement, player},
};

fn point() -> impl Strategy<Value = DVec3> {
    (-8.0..8.0, -18.0..0.0, 0.03..4.5).prop_map(|(x, y, z)| dvec3(x, y, z))
}

fn place() -> impl Strategy<Value = DVec2> {
    (-8.0..8.0, -18.0..0.0).prop_map(|(x, y)| dvec2(x, y))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn sprint_time_and_distance_undo_each_other(m in movement(), d in 0.0..60.0f64) {
        let t = m.sprint_time(d);
        prop_assert!(t.is_finite() && t >= 0.0);
        prop_assert!((m.sprint_distance(t) - d).abs() < 1e-6, "{} after {t} s instead of {d}", m.sprint_distance(t));
        // The time lies between that at top speed all the way and `tau_s` more, as exp(-t / tau) lies in 0 to 1.
        prop_assert!(t >= d / m.v_max - 1e-9 && t <= d / m.v_max + m.tau_s + 1e-9);
    }

    #[test]
    fn a_longer_way_takes_longer_and_a_longer_time_goes_farther(m in movement(), d in 0.0..40.0f64, more in 0.001..20.0f64) {
        prop_assert!(m.sprint_time(d + more) > m.sprint_time(d));
        prop_assert!(m.sprint_distance(d + more) > m.sprint_distance(d));
        let stride = m.stride();
        prop_assert!(stride.time(d + more) > stride.time(d), "{stride:?}");
        prop_assert!(stride.distance(d + more) > stride.distance(d), "{stride:?}");
    }

    #[test]
    fn the_closed_form_is_finite_undoes_itself_and_is_exact_at_its_two_marks(m in movement(), d in 0.0..40.0f64) {
        let stride = m.stride();
        let t = stride.time(d);
        prop_assert!(t.is_finite() && t >= 0.0);
        prop_assert!((stride.distance(t) - d).abs() < 1e-6, "{stride:?}");
        for mark in [1.5, 6.0] {
            prop_assert!((stride.time(mark) - m.sprint_time(mark)).abs() < 1e-9);
        }
    }

    #[test]
    fn a_faster_sprinter_is_nowhere_later(m in movement(), more in 0.01..3.0f64, sooner in 0.5..1.0f64, d in 0.0..20.0f64) {
        let faster = Movement { v_max: m.v_max + more, ..m };
        prop_assert!(faster.sprint_time(d) <= m.sprint_time(d) + 1e-9);
        let livelier = Movement { tau_s: m.tau_s * sooner, ..m };
        prop_assert!(livelier.sprint_time(d) <= m.sprint_time(d) + 1e-9);
        prop_assert!(faster.stride().time(d) <= m.stride().time(d) + 1e-9, "{} {}", faster.stride().time(d), m.stride().time(d));
    }

    #[test]
    fn sprint_splits_lead_back_to_the_sprinter_they_come_from(v_max in 4.0..10.0f64, tau_s in 0.4..1.6f64) {
        let planted = Movement { reaction_s: 0.2, v_max, tau_s, backward_factor: 1.3, follow_through_s: 0.2 };
        let splits = [3.0, 5.0, 10.0, 20.0].map(|d| (d, planted.sprint_time(d)));
        let start = Movement { v_max: 6.0, tau_s: 1.0, ..planted };
        let found = start.fitted_to_splits(&splits, 0.0).unwrap();
        prop_assert!((found.v_max - v_max).abs() < 1e-3 && (found.tau_s - tau_s).abs() < 1e-3, "{found:?}");
    }

    #[test]
    fn reaching_is_the_same_in_the_mirror_and_from_the_other_end(p in player(), place in place(), point in point()) {
        let time = Mover::new(&p, End::Near).time_needed(place, point);
        let mirror = Mover::new(&p.mirrored(), End::Near);
        let there = mirror.time_needed(mirrored(place), dvec3(-point.x, point.y, point.z));
        let turned = Mover::new(&p, End::Far).time_needed(-place, End::Far.turn3(point));
        for other in [there, turned] {
            prop_assert_eq!(time.is_some(), other.is_some());
            prop_assert!((time.unwrap_or(0.0) - other.unwrap_or(0.0)).abs() < 1e-12);
        }
        prop_assert!(time.is_none_or(|t| t.is_finite() && t >= p.movement.reaction_s));
    }

    #[test]
    fn whoever_reacts_later_is_later_by_as_much(p in player(), place in place(), point in point(), later in 0.0..1.0f64) {
        let slow = Player { movement: Movement { reaction_s: p.movement.reaction_s + later, ..p.movement }, ..p };
        let time = |p: &Player| Mover::new(p, End::Near).time_needed(place, point);
        prop_assert_eq!(time(&p).is_some(), time(&slow).is_some());
        if let (Some(a), Some(b)) = (time(&p), time(&slow)) {
            prop_assert!((b - a - later).abs() < 1e-12);
        }
    }

    #[test]
    fn a_longer_reach_is_never_farther_off(
        p in player(), place in place(), point in point(), more in (0.0..1.0f64, 0.0..1.0f64, 0.0..1.0f64, 0.0..1.0f64)
    ) {
        let r = p.reach;
        let longer = Reach {
            forehand: r.forehand + more.0,
            backhand: r.backhand + more.1,
            ahead: r.ahead + more.2,
            overhead: r.overhead + more.3,
        };
        let long = Player { reach: longer, ..p };
        let distance = |p: &Player| Mover::new(p, End::Near).distance(place, point);
        match (distance(&p), distance(&long)) {
            (Some(a), Some(b)) => prop_assert!(b <= a + 1e-12, "{b} instead of {a}"),
            (Some(_), None) => prop_assert!(false, "what was low enough is not too high for a longer reach"),
            (None, _) => {}
        }
    }

    #[test]
    fn a_step_towards_the_ball_brings_it_closer(p in player(), place in place(), point in point(), share in 0.0..0.9f64) {
        let mover = Mover::new(&p, End::Near);
        let closer = place + (point.truncate() - place) * share;
        if let (Some(a), Some(b)) = (mover.distance(place, point), mover.distance(closer, point)) {
            prop_assert!(b <= a + 1e-9, "{b} after the step, {a} before");
            prop_assert!(a > 0.0 && b > 0.0 && a.is_finite());
        }
    }

    #[test]
    fn a_ball_at_the_end_of_the_reach_costs_half_the_soft_corner(side in 0.3..3.5f64, facing in prop::bool::ANY) {
        // Planted: straight to the side, between shoelaces and shoulder, the distance left is 0 before the corner is
        // softened.
        let end = if facing { End::Near } else { End::Far };
        let reach = Reach { forehand: side, backhand: side, ahead: 0.5, overhead: 3.0 };
        let p = Player { reach, ..standpoint_geometry::Level::Club.player(
            standpoint_geometry::Hand::Right, standpoint_geometry::BackhandGrip::TwoHanded) };
        let left = Mover::new(&p, end).distance(DVec2::ZERO, dvec3(side, 0.0, 1.0)).unwrap();
        prop_assert!((left - 0.5 * SOFT_REACH_M).abs() < 1e-9, "{left}");
    }

    #[test]
    fn a_ring_of_reach_is_closed_finite_and_grows_with_the_run(p in player(), place in place(), run in 0.0..5.0f64) {
        let mover = Mover::new(&p, End::Near);
        let turn = Turn::new(End::Near, false);
        let (near, far) = (ring(&mover, place, run, turn), ring(&mover, place, run + 1.0, turn));
        prop_assert!(near.iter().chain(&far).all(|p| p.is_finite()));
        prop_assert!(near[0].distance(near[near.len() - 1]) < 1e-9);
        for (a, b) in near.iter().zip(&far) {
            prop_assert!(b.distance(place) > a.distance(place));
        }
    }
}
