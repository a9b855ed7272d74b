//! Players, balls and shots from the whole valid range.

use glam::{DVec2, DVec3};
use proptest::{prelude::*, sample::select};
use standpoint_geometry::{
    Air, BackhandGrip, Ball, BallType, Conditions, Court, End, FlightLaw, Hand, Movement, NetPosts, Player, Reach,
    ReadyArea, ReceiptChoice, ServeSkill, Settings, Shot, Situation, Stage, Stroke, Surface, SurfaceKind, WingSkill,
};

pub fn movement() -> impl Strategy<Value = Movement> {
    (0.0..1.5, 1.0..12.0, 0.05..4.0, 1.0..4.0, 0.0..2.0).prop_map(
        |(reaction_s, v_max, tau_s, backward_factor, follow)| Movement {
            reaction_s,
            v_max,
            tau_s,
            backward_factor,
            follow_through_s: follow,
        },
    )
}

pub fn skill() -> impl Strategy<Value = WingSkill> {
    (5.0..60.0, 0.0..600.0, 0.001..0.3, 0.001..0.3).prop_map(|(speed, topspin, spread_up, spread_side)| WingSkill {
        speed,
        topspin,
        spread_up,
        spread_side,
    })
}

pub fn player() -> impl Strategy<Value = Player> {
    let reach = (0.3..3.5, 0.3..3.5, 0.1..3.5, 1.0..4.0);
    let hand = select(vec![Hand::Right, Hand::Left]);
    let grip = select(vec![BackhandGrip::OneHanded, BackhandGrip::TwoHanded]);
    let serve = (10.0..75.0, 10.0..75.0, 0.5..4.0, -600.0..600.0, 0.001..0.3);
    (hand, grip, 1..=2u8, movement(), reach, skill(), skill(), serve).prop_map(
        |(hand, grip, bounces, movement, r, forehand, backhand, s)| Player {
            hand,
            grip,
            bounces,
            movement,
            reach: Reach { forehand: r.0, backhand: r.1, ahead: r.2, overhead: r.3 },
            forehand,
            backhand,
            serve: ServeSkill { first_speed: s.0, second_speed: s.1, height: s.2, topspin: s.3, spread: s.4 },
        },
    )
}

pub fn conditions() -> impl Strategy<Value = Conditions> {
    let court = (select(Stage::ALL.to_vec()), select(vec![NetPosts::SinglesSticks, NetPosts::DoublesPosts]));
    let law = select(vec![FlightLaw::Constant, FlightLaw::SpinDependent]);
    let air = (-30.0..60.0, -450.0..6000.0);
    (court, select(SurfaceKind::ALL.to_vec()), select(BallType::ALL.to_vec()), air, law).prop_map(
        |((stage, posts), kind, ball, (temperature_c, altitude_m), law)| Conditions {
            court: Court::new(stage, posts),
            surface: Surface::new(kind),
            ball: Ball::new(ball),
            air: Air { temperature_c, altitude_m },
            law,
        },
    )
}

/// A place near the ground at one end, as shares of the half court and its run-off.
fn place() -> impl Strategy<Value = (f64, f64)> {
    (-1.0..1.0, 0.02..1.0)
}

fn at(court: &Court, (across, along): (f64, f64), end: End) -> DVec2 {
    end.turn2(DVec2::new(across * court.site_half_width(), -along * court.site_half_length()))
}

/// Any valid situation; many of its shots cannot be played.
pub fn situation() -> impl Strategy<Value = Situation> {
    let shot =
        (place(), 0.03..3.5, select(Stroke::ALL.to_vec()), (-0.9..0.9f64, 0.05..0.95f64), 3.0..75.0, -700.0..700.0);
    let around = (place(), place(), 0.0..=1.0, proptest::option::of(place()), -300.0..300.0);
    let settings = (0.3..0.95, 0.001..0.3, select(vec![ReadyArea::Anywhere, ReadyArea::Back, ReadyArea::Net]));
    let end = select(vec![End::Near, End::Far]);
    (conditions(), player(), player(), shot, around, settings, end).prop_map(
        |(conditions, hitter, opponent, shot, around, (edge_chance, zone_tolerance, ready), end)| {
            let court = &conditions.court;
            let (contact, height, stroke, (across, along), speed, topspin) = shot;
            let (hitter_place, opponent_place, hitter_pressure, receipt, sidespin) = around;
            let other = end.other();
            let target = other.turn2(DVec2::new(across * court.half_width(), -along * court.half_length()));
            Situation {
                conditions,
                hitter_end: end,
                hitter,
                opponent,
                hitter_place: at(court, hitter_place, end),
                opponent_place: at(court, opponent_place, other),
                hitter_pressure,
                hitter_habits: None,
                opponent_habits: None,
                shot: Shot {
                    contact: at(court, contact, end).extend(height),
                    stroke,
                    target,
                    speed,
                    topspin,
                    sidespin,
                },
                receipt: receipt.map_or(ReceiptChoice::Best, |p| ReceiptChoice::Near(at(court, p, other))),
                settings: Settings { edge_chance, zone_tolerance, ready },
            }
        },
    )
}

/// The opponent with figures that meet most balls; slow players and short reaches meet few.
pub fn meeting_most(opponent: Player) -> Player {
    Player {
        bounces: 1,
        movement: Movement { reaction_s: 0.2, v_max: 7.0, tau_s: 0.8, ..opponent.movement },
        reach: Reach { forehand: 1.8, backhand: 1.6, ahead: 0.7, overhead: 2.8 },
        forehand: WingSkill { speed: 28.0, topspin: 200.0, spread_up: 0.03, spread_side: 0.03 },
        backhand: WingSkill { speed: 26.0, topspin: 180.0, spread_up: 0.035, spread_side: 0.03 },
        ..opponent
    }
}

/// A full court, with everything else as usual.
pub fn usual_conditions() -> Conditions {
    Conditions {
        court: Court::new(Stage::Full, NetPosts::SinglesSticks),
        surface: Surface::default(),
        ball: Ball::default(),
        air: Air::default(),
        law: FlightLaw::default(),
    }
}

/// A drive from the back of a full court that can nearly always be played.
pub fn drive() -> impl Strategy<Value = Situation> {
    let shot = (-3.5..3.5f64, 11.0..13.5f64, 0.6..1.3, -3.2..3.2, 7.5..10.8, 22.0..30.0, 150.0..300.0);
    (player(), player(), shot, -3.0..3.0).prop_map(|(hitter, opponent, s, stands)| Situation {
        conditions: usual_conditions(),
        hitter_end: End::Near,
        hitter,
        opponent: meeting_most(opponent),
        hitter_place: DVec2::new(s.0 - 0.7, -s.1),
        opponent_place: DVec2::new(stands, 12.8),
        hitter_pressure: 0.0,
        hitter_habits: None,
        opponent_habits: None,
        shot: Shot {
            contact: DVec3::new(s.0, -s.1, s.2),
            stroke: Stroke::Topspin,
            target: DVec2::new(s.3, s.4),
            speed: s.5,
            topspin: s.6,
            sidespin: 0.0,
        },
        receipt: ReceiptChoice::Best,
        settings: Settings::default(),
    })
}
