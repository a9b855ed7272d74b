//! Players from measurements: sprints, speed-gun readings, a target test, and the habits a chart shows.
//!
//! Each fit gives the figure with an interval that holds it at 95 percent, and [`SprintFit::apply`] and its like put the
//! figure into a player's card. Measurements are from the player's usual conditions; what was not measured stays as it
//! is on the card.

mod habits;
mod speed;
mod sprint;
mod target;

pub use habits::{DirectionHabit, Habits, WingHabits};
pub use speed::{SpeedFit, fit_speed};
pub use sprint::{SprintFit, SprintTrial, fit_sprint};
pub use target::{SpreadFit, TargetTest, fit_target};

use standpoint_geometry::aim::AimError;
use standpoint_geometry::player::SprintFitError;
use standpoint_language::{text, tr};

/// Why measurements cannot be fitted.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum FitError {
    /// Too few of them.
    #[error("{}", tr!("{} {} are too few; at least {} are needed", found, text(what), wanted))]
    TooFew {
        /// What was measured.
        what: &'static str,
        /// How many there are.
        found: usize,
        /// How many it takes.
        wanted: usize,
    },
    /// One is no such measurement.
    #[error("{}", tr!("measurement {}: {} {} is outside {} to {} {}", number, found, unit, low, high, unit))]
    OutOfRange {
        /// Which, counted from 1.
        number: usize,
        /// Its value.
        found: f64,
        /// Least value allowed.
        low: f64,
        /// Greatest value allowed.
        high: f64,
        /// Unit of all three.
        unit: &'static str,
    },
    /// No runner runs like this.
    #[error(transparent)]
    Sprint(#[from] SprintFitError),
    /// The fit changes wildly with small errors of measurement.
    #[error(
        "{}",
        text("these times fit many runners alike; measure distances that lie further apart, such as 5 m and 20 m")
    )]
    Unsteady,
    /// The target cannot be played the way the test says.
    #[error("{}", tr!("the target cannot be reached: {}", .0))]
    Target(#[from] AimError),
    /// All balls landed on the same place.
    #[error("{}", text("all balls landed on the same place, which no player does; note where each one landed"))]
    NoSpread,
}

/// Checks that a measurement is finite and within its bounds.
fn checked(number: usize, found: f64, (low, high): (f64, f64), unit: &'static str) -> Result<(), FitError> {
    if (low..=high).contains(&found) { Ok(()) } else { Err(FitError::OutOfRange { number, found, low, high, unit }) }
}
