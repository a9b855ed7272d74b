//! Names in JSON and CSV. Stable: they do not change when types in the program are renamed.

use standpoint_geometry::{Answer, Outcome, ReplyName};

pub use standpoint_charting::report::names::{end, stroke, wing};

/// A reply.
#[must_use]
pub fn reply(name: ReplyName) -> &'static str {
    match name {
        ReplyName::DownTheLine => "down_the_line",
        ReplyName::CrossCourt => "cross_court",
        ReplyName::ShortAngle => "short_angle",
        ReplyName::RightCorner => "right_corner",
        ReplyName::LeftCorner => "left_corner",
        ReplyName::Middle => "middle",
        ReplyName::AtTheBody => "at_the_body",
        ReplyName::Lob => "lob",
        ReplyName::DropShot => "drop_shot",
        ReplyName::ServeWide => "serve_wide",
        ReplyName::ServeBody => "serve_body",
        ReplyName::ServeT => "serve_t",
    }
}

/// Outcome of a shot.
#[must_use]
pub fn outcome(answer: &Answer) -> &'static str {
    match answer.outcome {
        Outcome::Play(_) => "play",
        Outcome::Winner { .. } => "winner",
        Outcome::NoReply(_) => "no_reply",
    }
}
