//! How often a shot goes in, and what a ball is worth.

use proptest::{prelude::*, sample::select};
use standpoint_geometry::{
    court::{Court, NetPosts, Stage},
    exposure::{quality, reach_share, value},
    player::Wing,
    scatter::{Delivery, Room, Sensitivity, Spread, chance, effort, landing_spread, normal_cdf, pressure, spread},
    situation::Stroke,
};

use crate::people::skill;

/// A flight that clears the net.
fn flight() -> impl Strategy<Value = Sensitivity> {
    let net = (0.0..2.0, 1.0..25.0, 0.0..0.2);
    let landing = (2.0..30.0, -5.0..60.0, 0.0..2.0, 0.0..std::f64::consts::FRAC_PI_2);
    (net, landing).prop_map(|((clearance, net_up, net_speed), (range, range_up, range_speed, turn))| Sensitivity {
        clearance,
        net_up,
        net_speed,
        range,
        range_up,
        range_speed,
        along: turn.cos(),
        across: turn.sin(),
    })
}

/// An aim inside the court.
fn room() -> impl Strategy<Value = Room> {
    (0.0..12.0, 0.0..8.0, 0.0..8.0).prop_map(|(deep, left, right)| Room { deep, left, right })
}

fn any_spread() -> impl Strategy<Value = Spread> {
    (0.0005..0.3, 0.0005..0.3, 0.0..3.0).prop_map(|(up, side, speed)| Spread { up, side, speed })
}

fn delivery() -> impl Strategy<Value = Delivery> {
    let wing = select(vec![Wing::Forehand, Wing::Backhand]);
    (select(Stroke::ALL.to_vec()), wing, 3.0..75.0, -700.0..700.0, 0.0..1.0, 0.0..1.5, 0.02..4.0).prop_map(
        |(stroke, wing, speed, topspin, pressure, turn, height)| Delivery {
            stroke,
            wing,
            speed,
            topspin,
            pressure,
            turn,
            height,
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3000))]

    #[test]
    fn what_becomes_of_a_shot_adds_up(f in flight(), r in room(), s in any_spread()) {
        let c = chance(&f, &r, &s);
        for share in [c.good, c.net, c.long, c.wide] {
            prop_assert!((-1e-12..=1.0 + 1e-12).contains(&share), "{c:?}");
        }
        // An aim that clears the net and lands in misses less than half the time at either end, so nothing is cut off.
        prop_assert!((c.good + c.net + c.long + c.wide - 1.0).abs() < 1e-9, "{c:?}");
    }

    #[test]
    fn a_wider_spread_never_helps_an_aim_inside(f in flight(), r in room(), s in any_spread(), k in 1.0..4.0f64) {
        let narrow = chance(&f, &r, &s).good;
        let all = Spread { up: s.up * k, side: s.side * k, speed: s.speed * k };
        for wide in [all, Spread { up: s.up * k, ..s }, Spread { side: s.side * k, ..s }, Spread { speed: s.speed * k, ..s }] {
            let good = chance(&f, &r, &wide).good;
            prop_assert!(good <= narrow + 1e-7, "{good} instead of {narrow} with {wide:?}");
        }
    }

    #[test]
    fn more_room_never_harms(f in flight(), r in room(), s in any_spread(), more in 0.0..3.0f64) {
        let before = chance(&f, &r, &s);
        let higher = chance(&Sensitivity { clearance: f.clearance + more, ..f }, &r, &s);
        prop_assert!(higher.net <= before.net + 1e-12 && higher.good >= before.good - 1e-12);
        for room in [Room { deep: r.deep + more, ..r }, Room { left: r.left + more, ..r }, Room { right: r.right + more, ..r }] {
            prop_assert!(chance(&f, &room, &s).good >= before.good - 1e-12);
        }
    }

    #[test]
    fn left_and_right_count_the_same(f in flight(), r in room(), s in any_spread()) {
        let mirror = Room { left: r.right, right: r.left, ..r };
        prop_assert!((chance(&f, &r, &s).good - chance(&f, &mirror, &s).good).abs() < 1e-12);
        let (depth, side) = landing_spread(&f, &s);
        prop_assert!(depth.is_finite() && side.is_finite() && depth > 0.0 && side > 0.0);
    }

    #[test]
    fn one_spread_to_either_side_misses_a_third_of_the_time(f in flight(), s in any_spread()) {
        // Planted: with all the room in the world but one standard deviation at either side, 68.27 % stay in (the share of
        // a normal distribution within one standard deviation).
        let f = Sensitivity { clearance: 1e3, ..f };
        let (_, side) = landing_spread(&f, &s);
        let c = chance(&f, &Room { deep: 1e6, left: side, right: side }, &s);
        prop_assert!((c.good - 0.682_689).abs() < 1e-4, "{}", c.good);
    }

    #[test]
    fn the_normal_share_is_symmetric_and_rises(z in -4.9..4.9f64, more in 0.0..1.0f64) {
        prop_assert!((normal_cdf(z) + normal_cdf(-z) - 1.0).abs() < 1e-12);
        prop_assert!(normal_cdf(z + more) >= normal_cdf(z));
    }

    #[test]
    fn harder_costs_more_effort_and_spreads_wider(w in skill(), d in delivery(), faster in 0.0..20.0f64, more in 0.0..1.0f64) {
        let narrow = spread(&w, &d);
        prop_assert!([narrow.up, narrow.side, narrow.speed].iter().all(|n| n.is_finite() && *n > 0.0));
        let harder = Delivery { speed: d.speed + faster, ..d };
        prop_assert!(effort(&w, &harder) >= effort(&w, &d));
        let pressed = Delivery { pressure: (d.pressure + more).min(1.0), ..d };
        let turned = Delivery { turn: (d.turn + more).min(1.5), ..d };
        for wider in [harder, pressed, turned] {
            let s = spread(&w, &wider);
            prop_assert!(s.up >= narrow.up * (1.0 - 1e-12) && s.side >= narrow.side * (1.0 - 1e-12), "{wider:?}");
        }
    }

    #[test]
    fn a_loft_never_narrows(s in any_spread(), low in -0.5..1.4f64, more in 0.0..0.5f64) {
        let (a, b) = (s.lofted(low), s.lofted(low + more));
        prop_assert!(b.up >= a.up - 1e-15 && b.side >= a.side - 1e-15 && a.up >= s.up - 1e-15);
    }

    #[test]
    fn time_takes_pressure_away_and_gives_quality(t in -5.0..5.0f64, more in 0.001..2.0f64) {
        prop_assert!((0.0..=1.0).contains(&pressure(t)) && pressure(t + more) <= pressure(t));
        prop_assert!((0.0..=1.0).contains(&quality(t)) && quality(t + more) > quality(t));
    }

    #[test]
    fn a_ball_is_worth_no_more_from_deeper(depth in 0.0..25.0f64, more in 0.0..5.0f64, height in 0.0..4.0f64, bounced: bool) {
        for stage in Stage::ALL {
            let court = Court::new(stage, NetPosts::SinglesSticks);
            let worth = value(&court, depth, height, bounced);
            prop_assert!((0.05..=0.95).contains(&worth));
            prop_assert!(value(&court, depth + more, height, bounced) <= worth + 1e-12);
        }
    }

    #[test]
    fn a_reach_is_a_share_and_ends_overhead(height in 0.0..5.0f64, overhead in 1.0..4.0f64, more in 0.0..1.0f64) {
        let share = reach_share(height, overhead);
        prop_assert!((0.0..=1.0).contains(&share));
        prop_assert!((share <= 0.0) == (height > overhead));
        prop_assert!(reach_share(height, overhead + more) >= share - 1e-12);
    }
}
