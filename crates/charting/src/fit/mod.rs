//! Players from measurements: sprints, speed-gun readings, a target test, and the habits a chart shows.
//!
//! Each fit gives the figure with an interval that holds it at 95 percent; [`SprintFit::apply`] and its like write the
//! figure to a player's card. Measurements are from the player's usual conditions; figures that were not measured stay
//! as they are on the card.

mod habits;
mod speed;
mod sprint;
mod target;

pub use habits::{DirectionHabit, Habits, WingHabits};
pub use speed::{SpeedFit, fit_speed};
pub use sprint::{SprintFit, SprintTrial, fit_sprint};
pub use target::{SpreadFit, TargetTest, fit_target};

use standpoint_geometry::{AimError, SprintFitError};
use standpoint_language::{decimal, text, tr};

/// Why measurements cannot be fitted.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum FitError {
    /// Too few of them.
    #[error("{}", tr!("{} {} are too few; at least {} are needed", found, text(what), wanted))]
    TooFew {
        /// Kind of measurement.
        what: &'static str,
        /// Number found.
        found: usize,
        /// Number needed.
        wanted: usize,
    },
    /// A measurement is not valid.
    #[error(
        "{}",
        tr!("measurement {}: {} {} is outside {} to {} {}", number, short(*found), unit, short(*low), short(*high), unit)
    )]
    OutOfRange {
        /// Number of the measurement, counted from 1.
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
    /// No runner fits these times.
    #[error("{}", no_runner(*.0))]
    Sprint(#[from] SprintFitError),
    /// The fit changes strongly with small errors of measurement.
    #[error(
        "{}",
        text("these times fit many runners alike; measure distances that lie further apart, such as 5 m and 20 m")
    )]
    Unsteady,
    /// The target cannot be played with the test's stroke.
    #[error("{}", tr!("the target cannot be reached: {}", .0))]
    Target(#[from] AimError),
    /// All balls landed on the same place.
    #[error("{}", text("all balls landed on the same place, which no player does; note where each one landed"))]
    NoSpread,
}

/// A problem of the sprints and its remedy; geometry's own message is English only.
fn no_runner(error: SprintFitError) -> &'static str {
    match error {
        SprintFitError::TooFew => {
            text("two sprint distances at least 0.5 m apart are needed, for example 5 m and 20 m")
        }
        SprintFitError::NotPositive => text("every sprint distance and time must be a positive number"),
        SprintFitError::NotIncreasing => text("sprint times must grow with the distance; check that none are swapped"),
        SprintFitError::OutOfRange => {
            text("no sprint of 2 to 12 m/s top speed fits these times; check the units (metres, seconds)")
        }
    }
}

/// A number with its decimals, three at most.
fn short(value: f64) -> String {
    decimal(value, value.to_string().split_once('.').map_or(0, |(_, decimals)| decimals.len().min(3)))
}

/// Checks that a measurement is finite and within its bounds.
fn checked(number: usize, found: f64, (low, high): (f64, f64), unit: &'static str) -> Result<(), FitError> {
    if (low..=high).contains(&found) { Ok(()) } else { Err(FitError::OutOfRange { number, found, low, high, unit }) }
}
