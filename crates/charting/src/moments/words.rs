//! Title of a moment.

use standpoint_language::{text, tr};

use super::Moment;
use standpoint_board::chart::model::Setup;

/// One line: the point, the score before it, who serves, who wins and how.
#[must_use]
pub fn title(moment: &Moment, setup: &Setup) -> String {
    let label = if moment.label.is_empty() { (moment.point + 1).to_string() } else { moment.label.clone() };
    let point = match moment.shot {
        None => tr!("Point {}", label),
        Some(shot) => tr!("Point {}, shot {}", label, shot + 1),
    };
    let mut parts = vec![point];
    if !moment.score.is_empty() {
        parts.push(moment.score.clone());
    }
    if let Some(server) = moment.server {
        parts.push(tr!("{} serves", setup.card(server).name));
    }
    let ending = moment.ending.map(|ending| text(ending.label()));
    match (moment.winner, ending) {
        (Some(winner), Some(ending)) => parts.push(tr!("{} wins: {}", setup.card(winner).name, ending)),
        (Some(winner), None) => parts.push(tr!("{} wins", setup.card(winner).name)),
        (None, Some(ending)) => parts.push(ending.to_owned()),
        (None, None) => {}
    }
    parts.join(" · ")
}
