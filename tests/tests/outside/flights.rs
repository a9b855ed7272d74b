//! Eighty flights integrated with a general-purpose library: SciPy 1.17.1, DOP853, rtol 1e-11, atol 1e-12, on the
//! equations of the flight in three dimensions. Mass 0.0577 kg, radius 0.0335 m, g 9.80665 m/s2.

use glam::dvec3;
use standpoint_geometry::{
    Air, ArcEnd, Ball, BallPhysics, BallState, BallType, DEFAULT_STEP, FlightLaw, FlyOptions, LAND_STEP, fly, land,
    units::{DEG, RPM},
};

use crate::near;

struct Reference {
    physics: BallPhysics,
    launch: BallState,
    density: f64,
    /// Time, x, z.
    net: Option<[f64; 3]>,
    land_time: f64,
    /// x, y.
    land: [f64; 2],
    land_speed: f64,
    land_angle_deg: f64,
    apex: f64,
}

fn references() -> Vec<Reference> {
    let text = include_str!("../../data/flights.csv");
    let flights: Vec<_> = text.lines().skip(1).map(parse).collect();
    assert_eq!(flights.len(), 80);
    flights
}

fn parse(line: &str) -> Reference {
    let fields: Vec<&str> = line.split(',').collect();
    let number = |i: usize| fields[i].parse::<f64>().unwrap_or_else(|_| panic!("field {i} of {line}"));
    let law = match fields[0] {
        "constant" => FlightLaw::Constant,
        "spin" => FlightLaw::SpinDependent,
        other => panic!("unknown law {other}"),
    };
    let air = Air { temperature_c: number(1), altitude_m: number(2) };
    Reference {
        physics: BallPhysics::new(&Ball::new(BallType::Type2), &air, law),
        launch: BallState::launch(
            dvec3(number(3), number(4), number(5)),
            number(6),
            number(7) * DEG,
            number(8) * DEG,
            number(9) * RPM,
            number(10) * RPM,
        ),
        density: number(11),
        net: (!fields[12].is_empty()).then(|| [number(12), number(13), number(14)]),
        land_time: number(15),
        land: [number(16), number(17)],
        land_speed: number(18),
        land_angle_deg: number(19),
        apex: number(20),
    }
}

/// Tolerance: a hundredth of a millimetre, a hundred times finer than anything the program shows.
const LENGTH: f64 = 1e-5;
const TIME: f64 = 1e-6;

#[test]
fn the_reference_ball_and_air_are_ours() {
    for reference in references() {
        near(reference.physics.mass, 0.0577, 1e-12);
        near(reference.physics.radius, 0.0335, 1e-12);
        near(reference.physics.density, reference.density, 1e-8);
    }
}

#[test]
fn eighty_reference_flights_cross_the_net_land_and_peak_where_they_should() {
    for reference in references() {
        let arc = fly(&reference.physics, reference.launch, FlyOptions::default());
        assert_eq!(arc.end(), ArcEnd::Ground);
        let net = arc.crossing_y(0.0);
        assert_eq!(net.is_some(), reference.net.is_some());
        if let (Some(net), Some([time, x, z])) = (net, reference.net) {
            near(net.time, time, TIME);
            near(net.point.x, x, LENGTH);
            near(net.point.z, z, LENGTH);
        }
        near(arc.end_time(), reference.land_time, TIME);
        let end = arc.end_state();
        near(end.position.x, reference.land[0], LENGTH);
        near(end.position.y, reference.land[1], LENGTH);
        near(end.speed(), reference.land_speed, 1e-5);
        near(end.descent_angle().to_degrees(), reference.land_angle_deg, 1e-4);
        near(arc.apex().point.z, reference.apex, LENGTH);
    }
}

#[test]
fn the_same_flights_land_there_without_keeping_the_path() {
    // The step for aiming has a tolerance of a tenth of a millimetre.
    for (step, length, time) in [(DEFAULT_STEP, LENGTH, TIME), (LAND_STEP, 1e-4, 1e-5)] {
        for reference in references() {
            let landed = land(&reference.physics, reference.launch, step).expect("it lands");
            near(landed.time, reference.land_time, time);
            near(landed.state.position.x, reference.land[0], length);
            near(landed.state.position.y, reference.land[1], length);
            assert_eq!(landed.net.is_some(), reference.net.is_some());
            if let (Some(net), Some([_, x, z])) = (landed.net, reference.net) {
                near(net.point.x, x, length);
                near(net.point.z, z, length);
            }
        }
    }
}

#[test]
fn the_curve_between_the_steps_is_the_flight() {
    // Compared with the same flight at steps twenty times finer, at times that are nodes of neither.
    for reference in references() {
        let coarse = fly(&reference.physics, reference.launch, FlyOptions::default());
        let fine = fly(&reference.physics, reference.launch, FlyOptions { step: 1e-3, ..FlyOptions::default() });
        for i in 0..100 {
            let time = coarse.end_time() * (f64::from(i) + 0.37) / 100.0;
            near(coarse.position(time).distance(fine.position(time)), 0.0, LENGTH);
            near(coarse.velocity(time).distance(fine.velocity(time)), 0.0, 1e-3);
        }
    }
}
