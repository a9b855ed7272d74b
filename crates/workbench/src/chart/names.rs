//! Display names of the audit's groups and columns.

use std::borrow::Cow;

use standpoint_board::chart::Setup;
use standpoint_charting::{
    audit::{Direction, Outcome},
    import::Column,
    report::names,
};
use standpoint_geometry::Stroke;
use standpoint_language::text;

use crate::words;

/// Where a shot goes, inside a sentence.
#[must_use]
pub fn direction(direction: Direction) -> &'static str {
    match direction {
        Direction::CrossCourt => text("cross-court"),
        Direction::DownTheLine => text("down the line"),
        Direction::Middle => text("through the middle"),
        Direction::InsideOut => text("inside-out"),
        Direction::InsideIn => text("inside-in"),
        Direction::ServeMiddle => text("serve down the T"),
        Direction::ServeBody => text("serve at the body"),
        Direction::ServeWide => text("serve wide"),
    }
}

/// A shot in a table: `Topspin drive, cross-court`, `Serve wide`.
#[must_use]
pub fn struck(stroke: Stroke, way: Direction) -> String {
    match way {
        Direction::ServeMiddle => text("Serve down the T").to_owned(),
        Direction::ServeBody => text("Serve at the body").to_owned(),
        Direction::ServeWide => text("Serve wide").to_owned(),
        way => format!("{}, {}", words::stroke(stroke), direction(way)),
    }
}

/// The same from the names of reports for programs, inside a sentence: `topspin, cross-court`, `serve wide`.
#[must_use]
pub fn struck_named(stroke: &str, way: &str) -> String {
    if way.starts_with("serve_") {
        return group(way).into_owned();
    }
    format!("{}, {}", group(stroke), group(way))
}

/// What came of a shot that was not judged.
#[must_use]
pub fn outcome(outcome: &Outcome) -> Cow<'static, str> {
    group(names::outcome(outcome))
}

/// A group by the name it has in reports for programs; other words stay as they are.
#[must_use]
pub fn group(name: &str) -> Cow<'static, str> {
    Cow::Borrowed(match name {
        "topspin" => text("topspin"),
        "flat" => text("flat"),
        "slice" => text("slice"),
        "drop" => text("drop shot"),
        "lob" => text("lob"),
        "volley" => text("volley"),
        "overhead" => text("overhead"),
        "serve" => text("serve"),
        "serve_deuce" => text("serve from the deuce side"),
        "serve_ad" => text("serve from the ad side"),
        "forehand" => text("forehand"),
        "backhand" => text("backhand"),
        "cross_court" => text("cross-court"),
        "down_the_line" => text("down the line"),
        "middle" => text("middle"),
        "inside_out" => text("inside-out"),
        "inside_in" => text("inside-in"),
        "serve_middle" => text("serve down the T"),
        "serve_body" => text("serve at the body"),
        "serve_wide" => text("serve wide"),
        "left" => text("left"),
        "right" => text("right"),
        "custom" => text("custom"),
        "red_junior" => text("red junior"),
        "orange_junior" => text("orange junior"),
        "green_junior" => text("green junior"),
        "junior_girl" => text("junior girl"),
        "junior_boy" => text("junior boy"),
        "improver" => text("improver"),
        "club" => text("club player"),
        "tournament" => text("competitive adult"),
        "pro_woman" => text("professional, women"),
        "pro_man" => text("professional, men"),
        "wheelchair" => text("wheelchair"),
        "winner" => text("winner"),
        "no_reply" => text("no reply"),
        "net" => text("net"),
        "long" => text("long"),
        "wide" => text("wide"),
        "not_seen" => text("not seen"),
        "not_playable" => text("not playable"),
        other => return Cow::Owned(other.replace('_', " ")),
    })
}

/// What a word of a column means, in the words of people.
#[must_use]
pub fn value(column: Column, name: &str, setup: &Setup) -> String {
    match (column, name) {
        (_, "near") => text("the player at the near end").to_owned(),
        (_, "far") => text("the player at the far end").to_owned(),
        (_, "near_player") => setup.near.name.clone(),
        (_, "far_player") => setup.far.name.clone(),
        (Column::Serve, "first") => text("first").to_owned(),
        (Column::Serve, "second") => text("second").to_owned(),
        (Column::Call, "in") => text("good").to_owned(),
        (Column::Call, "fault") => text("fault").to_owned(),
        (Column::Call, "let") => text("let").to_owned(),
        (Column::Side, "deuce") => text("deuce side").to_owned(),
        (Column::Side, "ad") => text("ad side").to_owned(),
        (Column::Ending, "ace") => text("ace").to_owned(),
        (Column::Ending, "forced error") => text("forced error").to_owned(),
        (Column::Ending, "unforced error") => text("unforced error").to_owned(),
        (Column::Ending, "double fault") => text("double fault").to_owned(),
        (Column::ChangedEnds, "yes") => text("yes").to_owned(),
        (Column::ChangedEnds, "no") => text("no").to_owned(),
        _ => group(name).into_owned(),
    }
}

/// Display name of a table column.
#[must_use]
pub fn column(column: Column) -> &'static str {
    match column {
        Column::Session => text("session"),
        Column::Point => text("point"),
        Column::ChangedEnds => text("changed ends"),
        Column::Hitter => text("hitter"),
        Column::ContactX => text("contact x"),
        Column::ContactY => text("contact y"),
        Column::ContactHeight => text("contact height"),
        Column::LandingX => text("landing x"),
        Column::LandingY => text("landing y"),
        Column::MetX => text("met x"),
        Column::MetY => text("met y"),
        Column::StoodX => text("stood x"),
        Column::StoodY => text("stood y"),
        Column::HitterX => text("hitter x"),
        Column::HitterY => text("hitter y"),
        Column::OpponentX => text("opponent x"),
        Column::OpponentY => text("opponent y"),
        Column::Stroke => text("stroke"),
        Column::Wing => text("wing"),
        Column::Speed => text("speed"),
        Column::Topspin => text("topspin"),
        Column::Time => text("time"),
        Column::MetTime => text("met time"),
        Column::HitterLevel => text("hitter level"),
        Column::HitterHand => text("hitter hand"),
        Column::OpponentLevel => text("opponent level"),
        Column::OpponentHand => text("opponent hand"),
        Column::Date => text("date"),
        Column::Server => text("server"),
        Column::Side => text("side of the serve"),
        Column::Serve => text("serve number"),
        Column::Call => text("call"),
        Column::Winner => text("point winner"),
        Column::Ending => text("how it ended"),
        Column::Miss => text("where it was missed"),
        Column::Score => text("score"),
        Column::VideoOffset => text("video offset"),
    }
}
