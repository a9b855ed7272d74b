//! Places in words, as a player sees them.

use glam::DVec2;
use standpoint_board::Units;
use standpoint_geometry::{Court, End};
use standpoint_language::{text, tr};

use super::length;

/// Closer than this to a line or a middle, a place counts as on it, m.
const ON_IT: f64 = 0.05;

/// Where to stand, as the player at `end` sees it facing the net.
#[must_use]
pub fn stand(place: DVec2, end: End, court: &Court, units: Units) -> String {
    let (across, along) = place_parts(place, end, court, units);
    tr!("Stand {}, {}", across, along)
}

/// A place, as the player at `end` sees it facing the net.
#[must_use]
pub fn place(place: DVec2, end: End, court: &Court, units: Units) -> String {
    let (across, along) = place_parts(place, end, court, units);
    format!("{across}, {along}")
}

fn place_parts(place: DVec2, end: End, court: &Court, units: Units) -> (String, String) {
    (across(place, end, court, units), depth(-end.turn2(place).y, court, units))
}

/// How far from the middle a place is, as the player at `end` sees it facing the net.
pub(crate) fn across(place: DVec2, end: End, court: &Court, units: Units) -> String {
    let seen = end.turn2(place);
    let behind = -seen.y - court.half_length();
    if seen.x.abs() < ON_IT {
        text("in the middle").to_owned()
    } else {
        let aside = length(seen.x.abs(), units);
        match (seen.x > 0.0, behind > -2.0) {
            (true, true) => tr!("{} right of the centre mark", aside),
            (false, true) => tr!("{} left of the centre mark", aside),
            (true, false) => tr!("{} right of the middle", aside),
            (false, false) => tr!("{} left of the middle", aside),
        }
    }
}

/// A depth on a player's own half, from the nearest line that helps.
fn depth(from_net: f64, court: &Court, units: Units) -> String {
    let behind = from_net - court.half_length();
    if behind.abs() < ON_IT {
        return text("on the baseline").to_owned();
    }
    if behind > 0.0 {
        return tr!("{} behind the baseline", length(behind, units));
    }
    match court.service_line {
        Some(line) if from_net > line => {
            if -behind < from_net - line {
                tr!("{} inside the baseline", length(-behind, units))
            } else {
                tr!("{} behind the service line", length(from_net - line, units))
            }
        }
        _ => tr!("{} from the net", length(from_net, units)),
    }
}
