//! Fits the usual speed of a wing to speed-gun readings.

use standpoint_geometry::Wing;
use standpoint_language::mark;

use super::{FitError, checked};
use crate::stats::{Estimate, Moments};
use standpoint_board::player_card::PlayerCard;

/// Distance from the median, in usual distances, beyond which a reading is most likely of another stroke or another
/// ball.
const STRANGE: f64 = 3.5;
/// Median distance from the median of normally distributed readings, in standard deviations.
const NORMAL_MEDIAN_DISTANCE: f64 = 0.6745;

/// The speed of a wing from readings.
#[derive(Debug, Clone, PartialEq)]
pub struct SpeedFit {
    /// Mean speed off the racket, m/s.
    pub speed: Estimate,
    /// Standard deviation from ball to ball, m/s.
    pub deviation: f64,
    /// Indices of readings that look like another stroke; they count all the same.
    pub strange: Vec<usize>,
}

impl SpeedFit {
    /// Writes the speed to a player's card.
    pub fn apply(&self, card: &mut PlayerCard, wing: Wing) {
        let player = card.make_custom();
        let skill = match wing {
            Wing::Forehand => &mut player.forehand,
            Wing::Backhand => &mut player.backhand,
        };
        skill.speed = self.speed.value;
    }
}

/// Mean and interval of at least three readings, m/s off the racket.
///
/// A gun reads the speed along its beam: held beside the line of the ball, it reads less by the cosine of the angle.
///
/// # Errors
/// Fewer than three readings, or an impossible one.
pub fn fit_speed(readings: &[f64]) -> Result<SpeedFit, FitError> {
    if readings.len() < 3 {
        return Err(FitError::TooFew { what: mark("readings"), found: readings.len(), wanted: 3 });
    }
    for (i, reading) in readings.iter().enumerate() {
        checked(i + 1, *reading, (5.0, 60.0), "m/s")?;
    }
    let moments = Moments::of(readings.iter().copied());
    let too_few = FitError::TooFew { what: mark("readings"), found: readings.len(), wanted: 3 };
    let (speed, deviation) = moments.interval().zip(moments.deviation()).ok_or(too_few)?;
    let center = median(readings.to_vec());
    let usual = median(readings.iter().map(|reading| (reading - center).abs()).collect()) / NORMAL_MEDIAN_DISTANCE;
    // Readings are whole numbers; a difference of half a kilometre per hour is no deviation.
    let usual = usual.max(0.15);
    let strange = |i: &usize| (readings[*i] - center).abs() > STRANGE * usual;
    Ok(SpeedFit { speed, deviation, strange: (0..readings.len()).filter(strange).collect() })
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    let half = values.len() / 2;
    if values.len() % 2 == 1 { values[half] } else { 0.5 * (values[half - 1] + values[half]) }
}
