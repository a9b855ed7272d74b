//! What a reply is called, in the words of the trade.

use glam::DVec2;

use crate::{answer::ReplyName, court::Court, situation::Stroke};

/// Within this distance of the court's long axis a contact counts as central, as a share of half the width.
const CENTRAL: f64 = 0.2;
/// Landings within this share of half the width from the long axis are through the middle.
const MIDDLE: f64 = 0.3;
/// A ball met within this distance sideways of the body is at it, m.
const BODY_M: f64 = 0.6;

/// Behind the player by this much, m, to count as overhead.
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
    // A ball that comes down within reach only behind the player has passed overhead, whatever the stroke.
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
    if landing.x.abs() < MIDDLE * half {
        return ReplyName::Middle;
    }
    if contact.x.abs() < CENTRAL * half {
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
