//! Display names of the audit's groups and columns.

use std::borrow::Cow;

use standpoint_charting::{
    audit::{Direction, Outcome},
    import::Column,
    report::names,
};
use standpoint_language::text;

/// Where a shot goes, inside a sentence.
#[must_use]
pub fn direction(direction: Direction) -> &'static str {
    match direction {
        Direction::CrossCourt => text("cross-court"),
        Direction::DownTheLine => text("down the line"),
        Direction::Middle => text("through the middle"),
        Direction::InsideOut => text("inside-out"),
        Direction::InsideIn => text("inside-in"),
        Direction::ServeMiddle => text("serve to the middle"),
        Direction::ServeBody => text("serve at the body"),
        Direction::ServeWide => text("serve wide"),
    }
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
        "drop" => text("drop"),
        "lob" => text("lob"),
        "volley" => text("volley"),
        "overhead" => text("overhead"),
        "serve" => text("serve"),
        "serve_deuce" => text("serve from the deuce side"),
        "serve_ad" => text("serve from the ad side"),
        "forehand" => text("forehand"),
        "backhand" => text("backhand"),
        "cross_court" => text("cross court"),
        "down_the_line" => text("down the line"),
        "middle" => text("middle"),
        "inside_out" => text("inside out"),
        "inside_in" => text("inside in"),
        "serve_middle" => text("serve middle"),
        "serve_body" => text("serve body"),
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
        "club" => text("club"),
        "tournament" => text("tournament"),
        "pro_woman" => text("pro woman"),
        "pro_man" => text("pro man"),
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
