//! Names of replies, in tennis terms.

use glam::DVec2;

use crate::{court::Court, shot::stroke::Stroke, solver::answer::ReplyName};

/// Largest sideways distance from the body at which a ball is met at the body, m.
const BODY_M: f64 = 0.6;

/// Distance behind the net to which a ball's line is extended to tell its direction, m on a full court, and how far
/// from the middle it counts as through the middle there. As directions are counted in the tables of
/// `tests/data/rally`.
const FOLLOWED_M: f64 = 8.0;
const THROUGH_MIDDLE_M: f64 = 1.37;

/// The direction of a ball.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Direction {
    /// To the side across from the contact.
    Across,
    /// Along the side of the contact.
    Line,
    /// Through the middle.
    Middle,
}

/// The direction of a ball from a contact to a landing place, in the frame of its near striker; `side` is the side of the
/// contact, `+1` to the right.
#[must_use]
pub fn direction(court: &Court, contact: DVec2, landing: DVec2, side: f64) -> Direction {
    let scale = (court.half_width() / 4.115, court.half_length() / 11.885);
    let slope = (landing.x - contact.x) / (landing.y - contact.y).max(1e-6);
    let x = contact.x + slope * (FOLLOWED_M * scale.1 - contact.y);
    if x.abs() < THROUGH_MIDDLE_M * scale.0 {
        Direction::Middle
    } else if x * side > 0.0 {
        Direction::Line
    } else {
        Direction::Across
    }
}

/// Distance behind the player from which a ball counts as overhead, m.
const OVERHEAD_M: f64 = 0.5;

/// Names a reply of a far striker to a near player; all places in the frame of the near player. `first_reach_y` is where
/// the ball first is within the player's highest reach on its side.
#[must_use]
pub fn name(
    court: &Court,
    stroke: Stroke,
    contact: DVec2,
    landing: DVec2,
    met_at: DVec2,
    standing: DVec2,
    first_reach_y: f64,
) -> ReplyName {
    // A ball that comes within reach only behind the player has passed overhead, whatever the stroke.
    if first_reach_y < standing.y - OVERHEAD_M {
        return ReplyName::Lob;
    }
    match stroke {
        Stroke::Lob => return ReplyName::Lob,
        Stroke::Drop => return ReplyName::DropShot,
        Stroke::Serve => {
            let share = landing.x.abs() / court.half_width();
            return if share < 0.33 {
                ReplyName::ServeT
            } else if share > 0.62 {
                ReplyName::ServeWide
            } else {
                ReplyName::ServeBody
            };
        }
        _ => {}
    }
    if (met_at.x - standing.x).abs() < BODY_M {
        return ReplyName::AtTheBody;
    }
    let half = court.half_width();
    if court.is_through_middle(landing) {
        return ReplyName::Middle;
    }
    if court.is_central(contact) {
        return if landing.x > 0.0 { ReplyName::RightCorner } else { ReplyName::LeftCorner };
    }
    if contact.x * landing.x > 0.0 {
        return ReplyName::DownTheLine;
    }
    // A short angle lands in front of the service line and leaves over the sideline before the baseline.
    let way = landing - contact;
    let to_side = (half - landing.x.abs()) / (way.x.abs() / way.y.abs()).max(1e-9);
    let short = -landing.y < 0.6 * court.half_length();
    if short && to_side < court.half_length() + landing.y { ReplyName::ShortAngle } else { ReplyName::CrossCourt }
}
