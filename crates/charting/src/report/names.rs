//! Names in reports. Stable: they do not change when types in the program are renamed.

use standpoint_geometry::{End, Hand, Level, Stroke, Wing};

use crate::audit::{Assumed, Direction, FromSide, Miss, Outcome};

/// The end at which a player began.
#[must_use]
pub fn end(end: End) -> &'static str {
    match end {
        End::Near => "near",
        End::Far => "far",
    }
}

/// A racket hand.
#[must_use]
pub fn hand(hand: Hand) -> &'static str {
    match hand {
        Hand::Right => "right",
        Hand::Left => "left",
    }
}

/// A wing.
#[must_use]
pub fn wing(wing: Wing) -> &'static str {
    match wing {
        Wing::Forehand => "forehand",
        Wing::Backhand => "backhand",
    }
}

/// A stroke.
#[must_use]
pub fn stroke(stroke: Stroke) -> &'static str {
    match stroke {
        Stroke::Topspin => "topspin",
        Stroke::Flat => "flat",
        Stroke::Slice => "slice",
        Stroke::Drop => "drop",
        Stroke::Lob => "lob",
        Stroke::Volley => "volley",
        Stroke::Overhead => "overhead",
        Stroke::Serve => "serve",
    }
}

/// A direction.
#[must_use]
pub fn direction(direction: Direction) -> &'static str {
    match direction {
        Direction::CrossCourt => "cross_court",
        Direction::DownTheLine => "down_the_line",
        Direction::Middle => "middle",
        Direction::InsideOut => "inside_out",
        Direction::InsideIn => "inside_in",
        Direction::ServeMiddle => "serve_middle",
        Direction::ServeBody => "serve_body",
        Direction::ServeWide => "serve_wide",
    }
}

/// A side of the court.
#[must_use]
pub fn side(side: FromSide) -> &'static str {
    match side {
        FromSide::Left => "left",
        FromSide::Middle => "middle",
        FromSide::Right => "right",
    }
}

/// A level; `custom` for figures entered by hand.
#[must_use]
pub fn level(level: Option<Level>) -> &'static str {
    match level {
        None => "custom",
        Some(Level::RedJunior) => "red_junior",
        Some(Level::OrangeJunior) => "orange_junior",
        Some(Level::GreenJunior) => "green_junior",
        Some(Level::JuniorGirl) => "junior_girl",
        Some(Level::JuniorBoy) => "junior_boy",
        Some(Level::Improver) => "improver",
        Some(Level::Club) => "club",
        Some(Level::Tournament) => "tournament",
        Some(Level::ProWoman) => "pro_woman",
        Some(Level::ProMan) => "pro_man",
        Some(Level::Wheelchair) => "wheelchair",
    }
}

/// The level of this name, with any separator between words.
#[must_use]
pub fn level_named(name: &str) -> Option<Level> {
    let plain = |name: &str| name.replace(['-', ' '], "_").to_lowercase();
    Level::ALL.into_iter().find(|known| level(Some(*known)) == plain(name))
}

/// The outcome of a shot.
#[must_use]
pub fn outcome(outcome: &Outcome) -> &'static str {
    match outcome {
        Outcome::Judged(_) => "judged",
        Outcome::Winner => "winner",
        Outcome::NoReply => "no_reply",
        Outcome::Missed(Miss::Net) => "net",
        Outcome::Missed(Miss::Long) => "long",
        Outcome::Missed(Miss::Wide) => "wide",
        Outcome::NotSeen => "not_seen",
        Outcome::NotPlayable(_) => "not_playable",
    }
}

/// What was filled in, joined by `+`.
#[must_use]
pub fn assumed(assumed: &Assumed) -> String {
    let parts = [
        ("stroke", assumed.stroke),
        ("wing", assumed.wing),
        ("height", assumed.height),
        ("landing", assumed.landing),
        ("speed", assumed.speed),
        ("met", assumed.met),
        ("opponent", assumed.opponent),
        ("time", assumed.time),
    ];
    let names: Vec<&str> = parts.iter().filter(|(_, was)| *was).map(|(name, _)| *name).collect();
    names.join("+")
}
