//! Fits top speed and time constant to sprint times, with intervals from timing errors.

use standpoint_geometry::{Movement, SprintFitError};
use standpoint_language::mark;

use super::{FitError, checked};
use crate::stats::{Estimate, Moments};
use standpoint_board::dice::Dice;
use standpoint_board::player_card::PlayerCard;

/// Default timing error of one sprint, used with too few repeats to estimate it, s: one standard deviation, light gates
/// and the runner together. From memory.
pub const USUAL_TIMING_S: f64 = 0.04;
/// Tolerance for sprints over the same distance, m.
const SAME_DISTANCE_M: f64 = 0.25;
/// Repeats beyond the first needed to estimate the timing error.
const TELLING_REPEATS: u64 = 3;
/// Number of bootstrap fits.
const RESAMPLES: usize = 400;

/// One timed sprint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SprintTrial {
    /// Distance from the first gate, m.
    pub distance: f64,
    /// Time, s.
    pub time: f64,
}

/// A runner fitted to sprints.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SprintFit {
    /// The movement with the fitted top speed and time constant.
    pub movement: Movement,
    /// Top speed, m/s.
    pub v_max: Estimate,
    /// Time constant, s.
    pub tau_s: Estimate,
    /// Timing error behind the intervals, s.
    pub timing_s: f64,
    /// Whether the error was estimated from repeats; otherwise it is the usual one.
    pub timing_from_repeats: bool,
}

impl SprintFit {
    /// Writes the fit to a player's card.
    pub fn apply(&self, card: &mut PlayerCard) {
        let movement = &mut card.make_custom().movement;
        (movement.v_max, movement.tau_s) = (self.v_max.value, self.tau_s.value);
    }
}

/// Fits a runner to sprints from a standing start, several distances and any number of repeats.
///
/// `run_up` is the distance between the starting line and the first gate, m. All other figures are kept from `base`.
/// The intervals come from a parametric bootstrap with this seed.
///
/// # Errors
/// See [`FitError`].
pub fn fit_sprint(base: &Movement, trials: &[SprintTrial], run_up: f64, seed: u64) -> Result<SprintFit, FitError> {
    if trials.len() < 2 {
        return Err(FitError::TooFew { what: mark("sprints"), found: trials.len(), wanted: 2 });
    }
    for (i, trial) in trials.iter().enumerate() {
        checked(i + 1, trial.distance, (1.0, 100.0), "m")?;
        checked(i + 1, trial.time, (0.2, 60.0), "s")?;
    }
    let means = by_distance(trials);
    let splits: Vec<(f64, f64)> = means.iter().map(|(distance, times)| (*distance, mean(times))).collect();
    let movement = base.fitted_to_splits(&splits, run_up)?;
    let freedom: u64 = means.iter().map(|(_, times)| times.count - 1).sum();
    let timing_from_repeats = freedom >= TELLING_REPEATS;
    let timing_s = if timing_from_repeats {
        let squares = means.iter().filter_map(|(_, times)| Some(times.deviation()?.powi(2) * (times.count - 1) as f64));
        (squares.sum::<f64>() / freedom as f64).sqrt()
    } else {
        USUAL_TIMING_S
    };
    let mut dice = Dice::new(seed);
    let mut fits: Vec<Movement> = Vec::with_capacity(RESAMPLES);
    for _ in 0..RESAMPLES {
        let measured = means.iter().map(|(distance, times)| {
            let error = timing_s / (times.count as f64).sqrt() * dice.normal();
            (*distance, mean(times) + error)
        });
        let measured: Vec<(f64, f64)> = measured.collect();
        match base.fitted_to_splits(&measured, run_up) {
            Ok(fit) => fits.push(fit),
            Err(SprintFitError::OutOfRange | SprintFitError::NotIncreasing) => {}
            Err(other) => return Err(other.into()),
        }
    }
    if fits.len() < RESAMPLES * 3 / 4 {
        return Err(FitError::Unsteady);
    }
    let interval = |value: f64, of: fn(&Movement) -> f64| {
        let mut all: Vec<f64> = fits.iter().map(of).collect();
        all.sort_by(f64::total_cmp);
        let at = |part: f64| all[((all.len() - 1) as f64 * part).round() as usize];
        Estimate { value, low: at(0.025).min(value), high: at(0.975).max(value) }
    };
    Ok(SprintFit {
        movement,
        v_max: interval(movement.v_max, |fit| fit.v_max),
        tau_s: interval(movement.tau_s, |fit| fit.tau_s),
        timing_s,
        timing_from_repeats,
    })
}

/// The times over each distance, shortest first.
fn by_distance(trials: &[SprintTrial]) -> Vec<(f64, Moments)> {
    let mut sorted = trials.to_vec();
    sorted.sort_by(|a, b| a.distance.total_cmp(&b.distance));
    let mut means: Vec<(f64, Moments)> = Vec::new();
    for trial in sorted {
        match means.last_mut() {
            Some((distance, times)) if trial.distance - *distance < SAME_DISTANCE_M => times.add(trial.time),
            _ => means.push((trial.distance, Moments::of([trial.time]))),
        }
    }
    means
}

fn mean(times: &Moments) -> f64 {
    times.mean().unwrap_or_default()
}
