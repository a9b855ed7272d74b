//! The columns a chart is read from.

use serde::{Deserialize, Serialize};
use standpoint_language::mark;

/// Content of a column.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Column {
    /// The day, match or set; any text.
    Session,
    /// The point; consecutive rows with the same text here belong together.
    Point,
    /// Whether the players had changed ends: yes or no.
    ChangedEnds,
    /// Who struck the ball: near or far.
    Hitter,
    /// Contact, across.
    ContactX,
    /// Contact, along.
    ContactY,
    /// Contact, height of the ball.
    ContactHeight,
    /// Landing, across.
    LandingX,
    /// Landing, along.
    LandingY,
    /// Where the opponent met the ball, across.
    MetX,
    /// Where the opponent met the ball, along.
    MetY,
    /// Where the hitter stood when the opponent met the ball, across.
    StoodX,
    /// Where the hitter stood when the opponent met the ball, along.
    StoodY,
    /// Where the hitter's body was at the contact, across.
    HitterX,
    /// Where the hitter's body was at the contact, along.
    HitterY,
    /// Where the opponent was at the contact, across.
    OpponentX,
    /// Where the opponent was at the contact, along.
    OpponentY,
    /// Kind of stroke.
    Stroke,
    /// Forehand or backhand.
    Wing,
    /// Speed off the racket.
    Speed,
    /// Topspin, rpm; backspin is negative.
    Topspin,
    /// Time of the contact, s.
    Time,
    /// Time when the opponent met the ball, s.
    MetTime,
    /// Level of the hitter.
    HitterLevel,
    /// Racket hand of the hitter.
    HitterHand,
    /// Level of the opponent.
    OpponentLevel,
    /// Racket hand of the opponent.
    OpponentHand,
    /// The date of the session.
    Date,
    /// Who serves.
    Server,
    /// The side of the serve.
    Side,
    /// First or second serve.
    Serve,
    /// What was called of the serve.
    Call,
    /// Who won the point.
    Winner,
    /// How the point ended.
    Ending,
    /// Where the last ball went that was missed.
    Miss,
    /// The score before the point.
    Score,
    /// Seconds to add to the times for the position in the video.
    VideoOffset,
}

impl Column {
    /// All columns, in the order they are listed and written.
    pub const ALL: [Self; 37] = [
        Self::Session,
        Self::Point,
        Self::ChangedEnds,
        Self::Hitter,
        Self::ContactX,
        Self::ContactY,
        Self::ContactHeight,
        Self::LandingX,
        Self::LandingY,
        Self::MetX,
        Self::MetY,
        Self::StoodX,
        Self::StoodY,
        Self::HitterX,
        Self::HitterY,
        Self::OpponentX,
        Self::OpponentY,
        Self::Stroke,
        Self::Wing,
        Self::Speed,
        Self::Topspin,
        Self::Time,
        Self::MetTime,
        Self::HitterLevel,
        Self::HitterHand,
        Self::OpponentLevel,
        Self::OpponentHand,
        Self::Date,
        Self::Server,
        Self::Side,
        Self::Serve,
        Self::Call,
        Self::Winner,
        Self::Ending,
        Self::Miss,
        Self::Score,
        Self::VideoOffset,
    ];

    /// Columns that every file has to have.
    pub const REQUIRED: [Self; 4] = [Self::ContactX, Self::ContactY, Self::LandingX, Self::LandingY];

    /// Its name, which a heading may use directly.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Session => "session",
            Self::Point => "point",
            Self::ChangedEnds => "changed_ends",
            Self::Hitter => "hitter",
            Self::ContactX => "contact_x",
            Self::ContactY => "contact_y",
            Self::ContactHeight => "contact_height",
            Self::LandingX => "landing_x",
            Self::LandingY => "landing_y",
            Self::MetX => "met_x",
            Self::MetY => "met_y",
            Self::StoodX => "stood_x",
            Self::StoodY => "stood_y",
            Self::HitterX => "hitter_x",
            Self::HitterY => "hitter_y",
            Self::OpponentX => "opponent_x",
            Self::OpponentY => "opponent_y",
            Self::Stroke => "stroke",
            Self::Wing => "wing",
            Self::Speed => "speed",
            Self::Topspin => "topspin",
            Self::Time => "time",
            Self::MetTime => "met_time",
            Self::HitterLevel => "hitter_level",
            Self::HitterHand => "hitter_hand",
            Self::OpponentLevel => "opponent_level",
            Self::OpponentHand => "opponent_hand",
            Self::Date => "date",
            Self::Server => "server",
            Self::Side => "side",
            Self::Serve => "serve",
            Self::Call => "call",
            Self::Winner => "winner",
            Self::Ending => "ending",
            Self::Miss => "miss",
            Self::Score => "score",
            Self::VideoOffset => "video_offset",
        }
    }

    /// Description for a dialog; to be translated.
    #[must_use]
    pub fn meaning(self) -> &'static str {
        match self {
            Self::Session => mark("the day, match or set"),
            Self::Point => mark("the point; rows of one point follow each other"),
            Self::ChangedEnds => mark("whether the players had changed ends: yes or no"),
            Self::Hitter => mark("who struck the ball: near or far"),
            Self::ContactX => mark("where the ball was struck, left-right"),
            Self::ContactY => mark("where the ball was struck, in depth"),
            Self::ContactHeight => mark("how high the ball was struck"),
            Self::LandingX => mark("where the ball landed, left-right"),
            Self::LandingY => mark("where the ball landed, in depth"),
            Self::MetX => mark("where the opponent met the ball, left-right"),
            Self::MetY => mark("where the opponent met the ball, in depth"),
            Self::StoodX => mark("where the hitter stood when the opponent met the ball, left-right"),
            Self::StoodY => mark("where the hitter stood when the opponent met the ball, in depth"),
            Self::HitterX => mark("where the hitter was at the contact, left-right"),
            Self::HitterY => mark("where the hitter was at the contact, in depth"),
            Self::OpponentX => mark("where the opponent was at the contact, left-right"),
            Self::OpponentY => mark("where the opponent was at the contact, in depth"),
            Self::Stroke => mark("kind of stroke"),
            Self::Wing => mark("forehand or backhand"),
            Self::Speed => mark("speed off the racket"),
            Self::Topspin => mark("topspin in rpm, backspin negative"),
            Self::Time => mark("time of the contact in seconds"),
            Self::MetTime => mark("time when the opponent met the ball in seconds"),
            Self::HitterLevel => mark("level of the hitter"),
            Self::HitterHand => mark("racket hand of the hitter"),
            Self::OpponentLevel => mark("level of the opponent"),
            Self::OpponentHand => mark("racket hand of the opponent"),
            Self::Date => mark("the date of the session, such as 2026-05-03"),
            Self::Server => mark("who serves: near or far"),
            Self::Side => mark("the side of the serve: deuce or ad"),
            Self::Serve => mark("first or second serve"),
            Self::Call => mark("what was called of the serve: in, fault or let"),
            Self::Winner => mark("who won the point: near or far"),
            Self::Ending => mark("how the point ended: ace, winner, forced error, unforced error or double fault"),
            Self::Miss => mark("where the last ball went that was missed: net, long or wide"),
            Self::Score => mark("the score before the point, such as 6-4 2-3 40-30"),
            Self::VideoOffset => mark("seconds to add to the times for the position in the video"),
        }
    }

    /// The column with this name, whatever its capitals, blanks and dashes.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        let wanted = plain(name);
        Self::ALL.into_iter().find(|column| plain(column.name()) == wanted)
    }

    pub(super) fn index(self) -> usize {
        self as usize
    }
}

/// A word in lower case without separators.
pub(super) fn plain(word: &str) -> String {
    word.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_column_is_found_by_its_name_however_it_is_written() {
        for (i, column) in Column::ALL.into_iter().enumerate() {
            assert_eq!(column.index(), i);
            assert_eq!(Column::named(column.name()), Some(column));
            assert_eq!(Column::named(&column.name().to_uppercase().replace('_', " ")), Some(column));
            assert!(!column.meaning().is_empty());
        }
        assert_eq!(Column::named("contact"), None);
    }
}
