//! The computation behind Standpoint: from a struck ball to the place to stand.
//!
//! # Conventions
//!
//! * **Frame.** The origin lies on the ground under the middle of the net. `x` points to the right and `y` forward
//!   as the *near* player faces the net, so the near half has `y < 0`; `z` points up. The far player is computed by
//!   the same code after the half-turn `(x, y) -> (-x, -y)`, see [`frame`].
//! * **Units.** Metres, seconds, radians, kilograms, and what follows from them. Names carry the unit where it is not
//!   one of these. Conversions for people live in [`units`].
//! * **Places and displacements.** Both are [`glam`] vectors; a field or argument named `place`, `contact`, `target`
//!   or `point` is a place in the frame above, everything else is a displacement.
//! * **Azimuth** 0 points towards `+y` and turns towards `+x`. **Elevation** is positive upwards.
//! * **Spin.** Topspin is positive, backspin negative; sidespin turns about `+z` and curves the ball to the left.
//! * **Precision.** `f64` everywhere, except inside the hot loop of [`coverage`], which is `f32`: a thousandth of a
//!   second and a millimetre are far inside its seven digits, and twice as many lanes fit a register.
//! * **Outcomes** are enums. No function returns NaN for finite input; input that is not finite is refused by
//!   [`situation::Situation::validate`].
//!
//! This crate knows no window, no file, no clock and no source of randomness without a seed. Only the solve of a rally
//! uses threads, as many as it is given.
//!
//! # The chain
//!
//! [`aim`] turns a target into a launch, [`flight`] and [`bounce`] carry the ball, `interception` finds where the opponent
//! meets it, [`worth`] plays the rally on from there, `stand` finds the zone where the opponent wins least, and
//! [`solver::Solver`] puts it together and keeps its buffers; [`solver::solve`] does so once.
//!
//! What a ball is worth stands in one place, [`worth`]: spot, zone, replies, meeting point, comparison of shots, aim map
//! and simulated points all read it.

pub mod aim;
pub mod aim_map;
pub mod air;
pub mod answer;
pub mod ball;
pub mod best_aim;
pub mod bounce;
pub mod compare;
pub mod contours;
pub mod court;
pub mod coverage;
pub mod flight;
pub mod frame;
pub mod habits;
mod interception;
pub mod judge_place;
pub mod naming;
pub mod net_play;
#[cfg(feature = "oracle")]
pub mod oracle;
pub mod plan;
pub mod play_on;
pub mod player;
pub mod presets;
pub mod quality;
mod reach;
pub mod scatter;
pub mod situation;
pub mod solver;
mod stand;
pub mod surface;
pub mod sweep;
pub mod units;
pub mod what_if;
pub mod worth;
