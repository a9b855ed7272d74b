//! The computation behind Standpoint: from a struck ball to the place to stand.
//!
//! ```
//! use glam::{dvec2, dvec3};
//! use standpoint_geometry::{
//!     Air, BackhandGrip, Ball, BallType, Conditions, Court, End, FlightLaw, Hand, Level, NetPosts, ReceiptChoice, Settings,
//!     Shot, Situation, Stage, Stroke, Surface, SurfaceKind, solve,
//!     units::{KMH, RPM},
//! };
//!
//! // A club player at the near end drives a forehand from the right corner across the court.
//! let player = Level::Club.player(Hand::Right, BackhandGrip::TwoHanded);
//! let situation = Situation {
//!     conditions: Conditions {
//!         court: Court::new(Stage::Full, NetPosts::SinglesSticks),
//!         surface: Surface::new(SurfaceKind::Hard),
//!         ball: Ball::new(BallType::Type2),
//!         air: Air { temperature_c: 20.0, altitude_m: 0.0 },
//!         law: FlightLaw::SpinDependent,
//!     },
//!     hitter_end: End::Near,
//!     hitter: player,
//!     opponent: player,
//!     hitter_place: dvec2(2.4, -12.4),
//!     opponent_place: dvec2(-0.6, 12.8),
//!     hitter_pressure: 0.0,
//!     hitter_habits: None,
//!     opponent_habits: None,
//!     shot: Shot {
//!         contact: dvec3(3.2, -12.4, 0.9),
//!         stroke: Stroke::Topspin,
//!         target: dvec2(-2.9, 9.6),
//!         speed: 95.0 * KMH,
//!         topspin: 1900.0 * RPM,
//!         sidespin: 0.0,
//!     },
//!     receipt: ReceiptChoice::Best,
//!     settings: Settings::default(),
//! };
//! let answer = solve(&situation)?;
//! let play = answer.play().expect("the opponent meets it");
//! // Right of the middle, behind the baseline: cross-court leaves a short way.
//! assert!(play.spot.place.x > 0.1 && play.spot.place.y < -11.0, "{:?}", play.spot);
//! assert!(play.recovery.distance < 3.5);
//! # Ok::<(), standpoint_geometry::SolveError>(())
//! ```
//!
//! # Conventions
//!
//! * **Frame.** The origin lies on the ground under the middle of the net. `x` points to the right and `y` forward
//!   as the *near* player faces the net, so the near half has `y < 0`; `z` points up. The far player is computed by
//!   the same code after the half-turn `(x, y) -> (-x, -y)`, see [`Turn`].
//! * **Units.** Metres, seconds, radians, kilograms, and what follows from them. Names carry the unit where it is not
//!   one of these. Conversions to everyday units are in [`units`].
//! * **Places and displacements.** Both are [`glam`] vectors; a field or argument named `place`, `contact`, `target`
//!   or `point` is a place in the frame above, everything else is a displacement.
//! * **Azimuth** 0 points towards `+y` and turns towards `+x`. **Elevation** is positive upwards.
//! * **Spin.** Topspin is positive, backspin negative; sidespin turns about `+z` and curves the ball to the left.
//! * **Precision.** `f64` everywhere, except inside the look-ahead of [`worth`], which is `f32`: a thousandth of a
//!   second and a millimetre are far inside its seven digits, and twice as many lanes fit a register.
//! * **Outcomes** are enums. No function returns NaN for finite input; input that is not finite is refused by
//!   [`Situation::validate`].
//!
//! This crate uses no window, no file, no clock and no source of randomness without a seed. Only the solve of a rally
//! uses threads, as many as it is given.
//!
//! # The chain
//!
//! [`aim`] turns a target into a launch, [`fly_path`] computes the ball's path, `interception` finds where the opponent
//! meets it, [`worth`] plays the rally on from there, `stand` finds the zone where the opponent wins least, and
//! [`Solver`] combines them and keeps their buffers; [`solve`] does so once. Further questions to a [`Solver`] (the
//! worth of another shot, place or plan) are in `questions`.
//!
//! The worth of a ball is computed in one place, [`worth`]: spot, zone, replies, meeting point, comparison of shots,
//! aim map and simulated points all use it.

mod ball;
mod court;
mod interception;
#[cfg(feature = "oracle")]
pub mod oracle;
mod player;
mod questions;
mod replies;
mod shot;
mod solver;
mod stand;
pub mod units;
pub mod worth;

pub use ball::{
    Ball, BallType,
    air::Air,
    bounce::{Bounce, BounceRegime, INERTIA, Path, bounce, fly_path},
    flight::{
        Arc, ArcEnd, BallPhysics, BallState, Coefficients, Crossing, DEFAULT_STEP, FlightLaw, FlyOptions, LAND_STEP,
        Landed, MAX_TIME, fly, land, land_with,
    },
};
pub use court::{
    Court, CourtLine, LineName, NetPosts, RUN_OFF_INTERNATIONAL, RUN_OFF_RECREATIONAL, Rect2, RunOff, Side, Stage,
    frame::{End, Turn},
    surface::{
        PACE_REFERENCE_RESTITUTION, PACE_TEST_ANGLE, PACE_TEST_SPEED, PaceCategory, Restitution, Surface, SurfaceKind,
        court_pace_rating, pace_rating_from,
    },
};
pub use interception::coverage::{Mover, SOFT_REACH_M};
pub use player::{
    BackhandGrip, Hand, Movement, Player, Reach, ServeSkill, SprintFitError, Stride, Wing, WingSkill,
    presets::Level,
    scatter::{
        Chance, Delivery, Room, Sensitivity, Spread, chance, effort, landing_spread, normal_cdf, skill_of, spread,
        with_mishits,
    },
};
pub use questions::{
    aim_map::{AimMap, AimWorth, aim_map},
    compare::{Choice, Difference, Pace, Weighed, difference, to_weaker_wing, weigh},
    judge_place::{Judgement, Meeting, Run, Verdict, meeting},
    net_play::{NetPosition, as_approach, ring},
    plan::{Next, Planned},
    play_on::{Continuation, PlayedOn},
    sweep::{Cause, Sweep, SweepPoint, sweep},
    what_if::WhatIf,
};
pub use replies::{
    habits::{HabitCase, ReplyHabits, Third, Way},
    naming::{Direction, direction},
};
pub use shot::{
    aim::{Aim, AimError, ArcChoice, TOLERANCE, aim, usual_delivery},
    quality::{Quality, quality},
    situation::{Conditions, Problem, ReadyArea, ReceiptChoice, Settings, Shot, Situation},
    stroke::Stroke,
};
pub use solver::{
    SolveError, Solver,
    answer::{
        Answer, Bisector, Contour, Field, HabitUsed, Interception, Landing, NetCrossing, Outcome, PathPoint, Place,
        Play, Recovery, Reply, ReplyName, ShotFlight, Wedge,
    },
    solve,
};
pub use stand::contours::contours;
