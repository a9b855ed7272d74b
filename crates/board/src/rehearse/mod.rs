//! Rehearsing: situations to find the place for, how well it was found, and when each comes again.
//!
//! * [`theme`] and [`exercise`] make situations: drawn by a seed, or taken from a board.
//! * [`mod@place`] judges where somebody wants to stand, [`choose`] asks for the better shot, [`score`] says how good it was.
//! * [`schedule`] brings back what went wrong sooner than what went well.
//! * [`history`] remembers; [`mod@file`] and [`log`] keep it in a file as safe as a board. [`progress`] sums it up.
//!
//! Nothing here knows a clock: the time is always given, in seconds since the beginning of 1970.

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
