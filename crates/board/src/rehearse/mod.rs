//! Rehearsal: exercises, scores, and the schedule of repetitions.
//!
//! * [`theme`] and [`exercise`] make situations: drawn by a seed, or taken from a board.
//! * [`mod@place`] judges a place to stand, [`choose`] asks for the better shot, [`score`] rates both.
//! * [`schedule`] repeats wrong answers sooner than right ones.
//! * [`history`] has the answers; [`mod@file`] and [`log`] keep them in a file as safe as a board. [`progress`] sums
//!   them up.
//!
//! There is no clock: callers give the time, in seconds since the beginning of 1970.

pub mod choose;
pub mod exercise;
pub mod file;
pub mod history;
pub mod log;
pub mod place;
pub mod progress;
pub mod schedule;
pub mod score;
pub mod theme;

pub use exercise::{Exercise, Item, Trainee};
pub use history::{Attempt, History, Question};
pub use theme::Theme;
