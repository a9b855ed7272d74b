//! Fits figures of a player to measurements.

use glam::{DVec2, DVec3};
use standpoint_board::{PlayerCard, Units};
use standpoint_charting::{
    fit::{FitError, SpeedFit, SpreadFit, SprintFit, SprintTrial, TargetTest, fit_speed, fit_sprint, fit_target},
    stats::Estimate,
};
use standpoint_geometry::{Conditions, SolveError, Wing};
use standpoint_language::{text, tr};

use super::forms::Problem;
use crate::words;

/// Seed of the bootstrap: the same measurements give the same intervals.
const SEED: u64 = 1;
/// Distance from the start line to the first gate when none is entered, m.
const RUN_UP_M: f64 = 0.5;

/// Where the balls of a target test landed.
#[derive(Debug, Clone, PartialEq)]
pub struct Targets {
    /// Court, surface, ball and air.
    pub conditions: Conditions,
    /// Where the balls were struck.
    pub contact: DVec3,
    /// Where they were meant to land.
    pub target: DVec2,
    /// Where they landed.
    pub landings: Vec<DVec2>,
    /// Balls in the net.
    pub netted: usize,
}

/// Measurements to be fitted.
#[derive(Debug, Clone, PartialEq)]
pub enum Question {
    /// Distances and times, the run-up as typed, and metres in the unit of the distances.
    Sprints(PlayerCard, Result<Vec<(f64, f64)>, Problem>, String, f64),
    /// Readings, and metres per second in their unit.
    Speeds(PlayerCard, Wing, Result<Vec<f64>, Problem>, f64),
    /// Where the balls of a target test landed.
    Target(PlayerCard, Wing, Box<Targets>),
}

/// What came of it.
#[derive(Debug, Clone, PartialEq)]
pub enum Fitted {
    /// Nothing has been measured yet.
    Nothing,
    /// Why there is no fit.
    Problem(String),
    /// A fit.
    Found(Fit),
}

/// A fit with its kind.
#[derive(Debug, Clone, PartialEq)]
pub enum Fit {
    /// A runner.
    Sprint(SprintFit),
    /// The speed of a wing.
    Speed(Wing, SpeedFit),
    /// The spread of a wing.
    Spread(Wing, SpreadFit),
}

impl Question {
    /// Fits.
    #[must_use]
    pub fn answer(&self) -> Fitted {
        match self {
            Self::Sprints(_, Err(problem), ..) | Self::Speeds(_, _, Err(problem), _) => {
                Fitted::Problem(problem.clone())
            }
            Self::Sprints(card, Ok(pairs), run_up, unit) => sprints(card, pairs, run_up, *unit),
            Self::Speeds(_, wing, Ok(readings), unit) => {
                if readings.is_empty() {
                    return Fitted::Nothing;
                }
                let speeds: Vec<f64> = readings.iter().map(|reading| reading * unit).collect();
                found(fit_speed(&speeds).map(|fit| Fit::Speed(*wing, fit)))
            }
            Self::Target(card, wing, targets) => {
                if targets.landings.is_empty() {
                    return Fitted::Nothing;
                }
                found(target(card, *wing, targets).map(|fit| Fit::Spread(*wing, fit)))
            }
        }
    }
}

fn found(fit: Result<Fit, FitError>) -> Fitted {
    match fit {
        Ok(fit) => Fitted::Found(fit),
        Err(error) => {
            let said = match error {
                FitError::Target(aim) => {
                    let (what, remedy) = words::refusal(&SolveError::Aim(aim), Units::Metres);
                    tr!("the target cannot be reached: {}. {}", what, remedy)
                }
                other => other.to_string(),
            };
            let mut letters = said.chars();
            let first: String = letters.next().map(|c| c.to_uppercase().collect()).unwrap_or_default();
            Fitted::Problem(format!("{first}{}.", letters.as_str()))
        }
    }
}

fn sprints(card: &PlayerCard, pairs: &[(f64, f64)], run_up: &str, unit: f64) -> Fitted {
    if pairs.is_empty() {
        return Fitted::Nothing;
    }
    let run_up = match (run_up.is_empty(), run_up.replace(',', ".").parse::<f64>()) {
        (true, _) => RUN_UP_M,
        (false, Ok(typed)) if (0.0..=20.0).contains(&typed) => typed * unit,
        _ => return Fitted::Problem(tr!("`{}` is no run-up; write it like 0.5, or leave it blank.", run_up)),
    };
    let trials: Vec<SprintTrial> =
        pairs.iter().map(|(distance, time)| SprintTrial { distance: distance * unit, time: *time }).collect();
    let fit = fit_sprint(&card.player().movement, &trials, run_up, SEED).map(Fit::Sprint);
    // Told in the unit in which they were typed.
    found(fit.map_err(|error| match error {
        FitError::OutOfRange { number, found, low, high, unit: "m" } if (unit - 1.0).abs() > 1e-9 => {
            let typed = |metres: f64| (100.0 * metres / unit).round() / 100.0;
            FitError::OutOfRange { number, found: typed(found), low: typed(low), high: typed(high), unit: "ft" }
        }
        other => other,
    }))
}

fn target(card: &PlayerCard, wing: Wing, targets: &Targets) -> Result<SpreadFit, FitError> {
    let player = card.player();
    let skill = *player.wing(wing);
    let test = TargetTest {
        conditions: targets.conditions,
        player,
        wing,
        stroke: standpoint_geometry::Stroke::Topspin,
        contact: targets.contact,
        target: targets.target,
        speed: skill.speed,
        topspin: skill.topspin,
        fed_from: DVec2::new(targets.target.x, targets.conditions.court.half_length()),
    };
    fit_target(&test, &targets.landings, targets.netted)
}

/// A figure with its interval: `6.4 m/s (6.1 to 6.7)`.
fn describe(of: Estimate, figures: usize, unit: &str) -> String {
    let number = |value: f64| words::decimal(value, figures);
    tr!("{} {} ({} to {})", number(of.value), unit, number(of.low), number(of.high))
}

fn degrees(of: Estimate) -> String {
    describe(of.scaled(1.0_f64.to_degrees()), 2, "°").replace(" °", "°")
}

impl Fit {
    /// Each figure with its label.
    #[must_use]
    pub fn lines(&self, units: Units) -> Vec<(String, String)> {
        let line = |label: &str, value: String| (label.to_owned(), value);
        let (unit, name) = words::distance_unit(units);
        match self {
            Self::Sprint(fit) => {
                vec![
                    line(text("Top speed"), describe(fit.v_max, 2, "m/s")),
                    line(text("Acceleration"), describe(fit.tau_s, 2, "s")),
                ]
            }
            Self::Speed(wing, fit) => {
                let (unit, name) = words::speed_unit(units);
                let label = match wing {
                    Wing::Forehand => text("Usual forehand speed"),
                    Wing::Backhand => text("Usual backhand speed"),
                };
                vec![
                    line(label, describe(fit.speed.scaled(1.0 / unit), 1, name)),
                    line(text("From ball to ball"), format!("± {} {name}", words::decimal(fit.deviation / unit, 1))),
                ]
            }
            Self::Spread(_, fit) => vec![
                line(text("Spread up and down"), degrees(fit.spread_up)),
                line(text("Spread to the sides"), degrees(fit.spread_side)),
                line(text("Landed beyond the target"), describe(fit.too_long.scaled(1.0 / unit), 2, name)),
                line(text("Landed right of it"), describe(fit.too_right.scaled(1.0 / unit), 2, name)),
            ],
        }
    }

    /// Notes and warnings that belong to the fit.
    #[must_use]
    pub fn notes(&self, units: Units) -> Vec<String> {
        let mut notes = vec![
            text("In brackets the interval that holds the true figure in 95 of 100 such measurements.").to_owned(),
        ];
        match self {
            Self::Sprint(fit) => {
                notes.push(text("Acceleration is the time to 63 % of top speed: the shorter, the quicker.").to_owned());
                notes.push(if fit.timing_from_repeats {
                    tr!("One timing was good to {} s, as the repeats show.", words::decimal(fit.timing_s, 2))
                } else {
                    tr!("Taken that one timing is good to {} s; repeats would tell.", words::decimal(fit.timing_s, 2))
                });
            }
            Self::Speed(_, fit) if !fit.strange.is_empty() => {
                let places: Vec<String> = fit.strange.iter().map(|i| (i + 1).to_string()).collect();
                notes.push(tr!("Looks like another stroke: reading {}. It counts all the same.", places.join(", ")));
            }
            Self::Speed(..) => {}
            Self::Spread(_, fit) => {
                let _ = units;
                notes.push(tr!("From {} landings and {} balls in the net.", fit.landed, fit.netted));
            }
        }
        notes
    }

    /// Puts the figures into a card.
    pub fn apply(&self, card: &mut PlayerCard) {
        match self {
            Self::Sprint(fit) => fit.apply(card),
            Self::Speed(wing, fit) => fit.apply(card, *wing),
            Self::Spread(wing, fit) => fit.apply(card, *wing),
        }
    }
}

#[cfg(test)]
mod tests {
    use standpoint_geometry::Level;

    use super::*;

    #[test]
    fn a_planted_runner_is_found_in_metres_and_in_feet() {
        let card = PlayerCard::of_level("Mara Quell", Level::Club);
        let movement = card.player().movement;
        let pairs: Vec<(f64, f64)> = [5.0, 10.0, 20.0]
            .map(|distance| (distance, movement.sprint_time(distance + 0.5) - movement.sprint_time(0.5)))
            .to_vec();
        let foot = standpoint_geometry::units::FOOT;
        let feet = pairs.iter().map(|(distance, time)| (distance / foot, *time)).collect();
        for question in [
            Question::Sprints(card.clone(), Ok(pairs), String::new(), 1.0),
            Question::Sprints(card.clone(), Ok(feet), (0.5 / foot).to_string(), foot),
        ] {
            let Fitted::Found(Fit::Sprint(fit)) = question.answer() else { panic!() };
            assert!((fit.v_max.value - movement.v_max).abs() < 0.05, "{fit:?}");
        }
        // A value out of range is reported in the unit that was typed, and never in inches.
        let short = Question::Sprints(card.clone(), Ok(vec![(1.0, 0.3), (30.0, 1.9)]), String::new(), foot);
        let Fitted::Problem(problem) = short.answer() else { panic!() };
        assert!(problem.contains(" ft") && !problem.contains(" m "), "{problem}");
        let none = Question::Sprints(card.clone(), Ok(Vec::new()), String::new(), 1.0);
        assert_eq!(none.answer(), Fitted::Nothing);
        let one = Question::Sprints(card, Ok(vec![(5.0, 1.1)]), String::new(), 1.0);
        assert!(matches!(one.answer(), Fitted::Problem(problem) if problem.contains("too few")));
    }
}
