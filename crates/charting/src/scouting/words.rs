//! Habits in words.

use standpoint_geometry::Way;
use standpoint_language::{decimal, text, tr};

use super::case::Case;
use super::tell::Tell;
use crate::insight;
use standpoint_board::chart::score::{CourtSide, ServeNumber};

/// A habit as a sentence, with certainty and number of shots.
#[must_use]
pub fn sentence(tell: &Tell) -> String {
    let tenth = |share: f64| decimal(10.0 * share, 0);
    let hundred = |share: f64| decimal(100.0 * share, 0);
    tr!(
        "{}: {} {} times in 10 ({} to {} in 100), {} in 100 elsewhere; {} of {} shots",
        case(&tell.case),
        way(&tell.case, tell.way),
        tenth(tell.share.value),
        hundred(tell.share.low),
        hundred(tell.share.high),
        hundred(tell.elsewhere),
        tell.counted,
        tell.shots
    )
}

fn way(case: &Case, way: Way) -> &'static str {
    match (case, way) {
        (Case::Rally { .. }, Way::Across) => text("goes cross-court"),
        (Case::Rally { .. }, Way::Middle) => text("goes through the middle"),
        (Case::Rally { .. }, Way::Line) => text("goes down the line"),
        (Case::Serve { .. }, Way::Across) => text("serves wide"),
        (Case::Serve { .. }, Way::Middle) => text("serves at the body"),
        (Case::Serve { .. }, Way::Line) => text("serves to the T"),
    }
}

/// A case in words.
#[must_use]
pub fn case(case: &Case) -> String {
    let said: Vec<&str> = match case {
        Case::Rally { wing, side, pressure } => {
            let (wing, side, pressure) =
                (wing.map(insight::wing), side.map(insight::side), pressure.map(insight::pressure));
            [wing, side, pressure].into_iter().flatten().collect()
        }
        Case::Serve { side, number } => {
            let number = match number {
                None => text("Serve"),
                Some(ServeNumber::First) => text("First serve"),
                Some(ServeNumber::Second) => text("Second serve"),
            };
            let side = side.map(|side| match side {
                CourtSide::Deuce => text("from the deuce side"),
                CourtSide::Ad => text("from the ad side"),
            });
            std::iter::once(number).chain(side).collect()
        }
    };
    if said.is_empty() { text("All strokes").to_owned() } else { said.join(", ") }
}
