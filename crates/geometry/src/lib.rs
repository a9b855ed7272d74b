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
//! This crate knows no window, no file, no clock and no source of randomness.
//!
//! # The chain
//!
//! [`aim`] turns a target into a launch, [`flight`] and [`bounce`] carry the ball, [`receipt`] finds where the
//! opponent meets it, `replies` lists what the opponent can do from there, [`coverage`] and [`exposure`] judge a
//! standing place, `spot` finds the best one and [`recovery`] tells whether the hitter gets there.
//! [`solver::Solver`] runs it all and keeps its buffers; [`solver::solve`] does so once.

pub mod aim;
pub mod aim_map;
pub mod air;
pub mod answer;
mod atlas;
pub mod ball;
pub mod bounce;
pub mod compare;
pub mod contours;
pub mod court;
pub mod coverage;
pub mod exposure;
pub mod flight;
pub mod frame;
mod judge;
pub mod judge_place;
mod legs;
mod minimax;
pub mod naming;
pub mod net_play;
pub mod oracle;
pub mod player;
mod points;
pub mod presets;
pub mod quality;
pub mod receipt;
pub mod recovery;
mod repertoire;
mod replies;
pub mod scatter;
pub mod situation;
pub mod solver;
mod spot;
pub mod surface;
pub mod sweep;
pub mod units;
pub mod what_if;
pub mod worth;
