//! How often a shot goes in.

use proptest::{prelude::*, sample::select};
use standpoint_geometry::{
    Delivery, Player, Room, Sensitivity, ServeSkill, Spread, Stroke, Wing, WingSkill, chance, effort, landing_spread,
    normal_cdf, skill_of, spread, with_mishits, worth::Behaviour,
};

use crate::people::player;

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
    let struck = (select(Stroke::ALL.to_vec()), wing, 3.0..75.0, -700.0..700.0);
    let state = (0.0..1.0, 0.0..1.5, 0.02..4.0, 0.3..20.0, -0.4..1.3);
    (struck, state).prop_map(|((stroke, wing, speed, topspin), (pressure, turn, height, depth, elevation))| Delivery {
        stroke,
        wing,
        speed,
        topspin,
        pressure,
        turn,
        height,
        depth,
        elevation,
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3000))]

    #[test]
    fn what_becomes_of_a_shot_adds_up(f in flight(), r in room(), s in any_spread()) {
        let c = chance(&f, &r, &s);
        for share in [c.good, c.net, c.long, c.wide] {
            prop_assert!((-1e-12..=1.0 + 1e-12).contains(&share), "{c:?}");
        }
        // Nothing is cut off: the aim clears the net, lands in, and misses less than half the time at either end.
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
        // Planted: one standard deviation of room at either side and ample room elsewhere keep 68.27 % in (the share of
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
    fn harder_costs_more_effort_and_spreads_wider(p in player(), d in delivery(), faster in 0.0..20.0f64, more in 0.0..1.0f64) {
        let b = Behaviour::default();
        let of = |d: &Delivery| spread(&b, &p, d);
        let narrow = of(&d);
        prop_assert!([narrow.up, narrow.side, narrow.speed].iter().all(|n| n.is_finite() && *n > 0.0));
        let skill = skill_of(&p, d.stroke, d.wing);
        let harder = Delivery { speed: d.speed + faster, ..d };
        prop_assert!(effort(&b, &skill, &harder) >= effort(&b, &skill, &d));
        let pressed = Delivery { pressure: (d.pressure + more).min(1.0), ..d };
        let turned = Delivery { turn: (d.turn + more).min(1.5), ..d };
        let lofted = Delivery { elevation: d.elevation + 0.5 * more, ..d };
        for wider in [harder, pressed, turned, lofted] {
            let s = of(&wider);
            prop_assert!(s.up >= narrow.up * (1.0 - 1e-12) && s.side >= narrow.side * (1.0 - 1e-12), "{wider:?}");
        }
    }

    #[test]
    fn an_awkward_contact_never_helps(
        p in player(), d in delivery(), low in 0.02..0.45f64, share in 0.0..1.0f64, high in 1.5..3.5f64, more in 0.0..3.0f64
    ) {
        // Each is at least as wide: lower than the knee, higher than the chest, a volley from further back.
        let b = Behaviour::default();
        let up = |height: f64, depth: f64| spread(&b, &p, &Delivery { height, depth, ..d }).up;
        prop_assert!(up(low * share, d.depth) >= up(low, d.depth) - 1e-12);
        prop_assert!(up(high + more, d.depth) >= up(high, d.depth) - 1e-12);
        prop_assert!(up(d.height, d.depth + more) >= up(d.height, d.depth) - 1e-12);
    }

    #[test]
    fn a_sure_hand_spreads_less_by_as_much(p in player(), d in delivery(), k in 0.2..1.0f64) {
        // Planted: the spread is proportional to the player's own figures.
        let sure = Player {
            forehand: scaled(p.forehand, k),
            backhand: scaled(p.backhand, k),
            serve: ServeSkill { spread: p.serve.spread * k, ..p.serve },
            ..p
        };
        let b = Behaviour::default();
        let (wide, narrow) = (spread(&b, &p, &d), spread(&b, &sure, &d));
        for (a, c) in [(wide.up, narrow.up), (wide.side, narrow.side), (wide.speed, narrow.speed)] {
            prop_assert!((c / a / k - 1.0).abs() < 1e-9, "{c} of {a}");
        }
    }

    #[test]
    fn mishits_cost_chances_of_an_aim_inside_and_still_add_up(f in flight(), r in room(), s in any_spread()) {
        let b = Behaviour::default();
        let (usual, all) = (chance(&f, &r, &s), with_mishits(&b, &f, &r, &s));
        prop_assert!(all.good <= usual.good + 1e-9);
        prop_assert!((all.good + all.net + all.long + all.wide - 1.0).abs() < 1e-9, "{all:?}");
    }

    #[test]
    fn a_loft_never_narrows(s in any_spread(), low in -0.5..1.4f64, more in 0.0..0.5f64) {
        let (a, b) = (s.lofted(low), s.lofted(low + more));
        prop_assert!(b.up >= a.up - 1e-15 && b.side >= a.side - 1e-15 && a.up >= s.up - 1e-15);
    }

    #[test]
    fn time_takes_pressure_away(t in -5.0..5.0f64, more in 0.001..2.0f64) {
        let b = Behaviour::default();
        prop_assert!((0.0..=1.0).contains(&b.pressure(t)) && b.pressure(t + more) <= b.pressure(t));
        prop_assert!(b.pressure(b.pressure_none).abs() < 1e-12);
    }
}

fn scaled(w: WingSkill, k: f64) -> WingSkill {
    WingSkill { spread_up: w.spread_up * k, spread_side: w.spread_side * k, ..w }
}
