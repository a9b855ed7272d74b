//! Why a shot cannot be played, in words.

use standpoint_board::Units;
use standpoint_geometry::{AimError, Problem, SolveError};
use standpoint_language::{decimal, text, tr};

use super::{fine_length, length};

/// Why a shot cannot be played, and what helps.
#[must_use]
pub fn refusal(error: &SolveError, units: Units) -> (String, String) {
    let aim = match error {
        SolveError::Invalid(problems) => {
            let said: Vec<String> = problems.iter().map(problem).collect();
            return (said.join("; "), text("Put the shot right on the board").to_owned());
        }
        SolveError::Aim(aim) => aim,
    };
    let (what, remedy) = match aim {
        AimError::ContactBeyondNet => (text("the contact is beyond the net").to_owned(), text("Move the contact back")),
        AimError::TargetNotBeyondNet => {
            (text("the target is on the hitter’s side").to_owned(), text("Move the target over the net"))
        }
        AimError::Net { by } => {
            let what = tr!("into the net by {}", fine_length(*by, units));
            (what, text("Hit slower, with more topspin, higher or deeper"))
        }
        AimError::TooSlow { short_by } => {
            (tr!("too slow by {}", length(*short_by, units)), text("Hit faster or aim shorter"))
        }
        AimError::Long { by } => (tr!("long by {}", fine_length(*by, units)), text("Aim shorter")),
        AimError::Wide { by } => (tr!("wide by {}", fine_length(*by, units)), text("Aim inside the sideline")),
        AimError::ServeFromInside { by } => (
            tr!("the server stands {} inside the court", fine_length(*by, units)),
            text("Put the server behind the baseline"),
        ),
        AimError::ServeFromBeside => (
            text("the server stands beside the half to serve from").to_owned(),
            text("Stand between the centre mark and the sideline, on the side of the contact"),
        ),
        AimError::NoServiceBox => {
            (text("this court has no service boxes").to_owned(), text("Choose another stroke or a larger court"))
        }
        AimError::VolleyFromBehind { by } => (
            tr!("a volley from {} behind the baseline", fine_length(*by, units)),
            text("Move in, or let the ball bounce and choose a drive"),
        ),
        AimError::OverheadTooLow { height } => {
            (tr!("an overhead at {}", fine_length(*height, units)), text("Raise the contact, or choose a volley"))
        }
        AimError::TooFast => (text("too fast for so short a target").to_owned(), text("Hit slower or aim deeper")),
    };
    (what, remedy.to_owned())
}

/// A figure of the board that cannot be computed with: `contact height: 9 is outside 0.02 to 4 m`.
fn problem(problem: &Problem) -> String {
    let Problem { field, value, low, high, unit } = problem;
    // As many figures as each has, three at most.
    let figures = |value: f64| value.to_string().split_once('.').map_or(0, |(_, behind)| behind.len().min(3));
    let number = |value: &f64| {
        let rounded = if value.is_finite() { (value * 1e3).round() / 1e3 } else { *value };
        decimal(rounded, figures(rounded))
    };
    tr!("{0}: {1} is outside {2} to {3} {4}", figure(field), number(value), number(low), number(high), unit)
}

/// What a person calls a figure of the situation; the figures of the model behind it keep their names.
fn figure(field: &'static str) -> &'static str {
    match field {
        "shot.contact.x" => text("contact, left-right"),
        "shot.contact.y" => text("contact, depth"),
        "shot.contact.z" => text("contact height"),
        "shot.target.x" => text("target, left-right"),
        "shot.target.y" => text("target, depth"),
        "shot.speed" => text("speed"),
        "shot.topspin" => text("spin"),
        "shot.sidespin" => text("side spin"),
        "hitter_place.x" => text("hitter, left-right"),
        "hitter_place.y" => text("hitter, depth"),
        "opponent_place.x" => text("opponent, left-right"),
        "opponent_place.y" => text("opponent, depth"),
        "receipt.x" => text("opponent's contact, left-right"),
        "receipt.y" => text("opponent's contact, depth"),
        "air.temperature_c" => text("temperature"),
        "air.altitude_m" => text("altitude"),
        other => other,
    }
}
