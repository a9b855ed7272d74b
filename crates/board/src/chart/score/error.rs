//! States that cannot occur in a match.

use standpoint_language::{text, tr};

/// Why something was not counted.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ScoreError {
    /// A point after the last one.
    #[error("{}", text("the match is over"))]
    MatchOver,
    /// A serve while the ball is in play, or after the point.
    #[error("{}", text("no serve is due: the ball is in play or the point is over"))]
    NoServeDue,
    /// A score that is not written as one.
    #[error("{}", tr!("`{}` is not a score", found))]
    NotAScore {
        /// Text found.
        found: String,
    },
    /// A set that cannot have ended like this.
    #[error("{}", tr!("set {} cannot have ended {}", set, found))]
    NoSuchSet {
        /// Its number, counted from 1.
        set: usize,
        /// The stated result.
        found: String,
    },
    /// Games that are impossible while the set goes on.
    #[error("{}", tr!("a set that goes on cannot stand {}", found))]
    NoSuchGames {
        /// The stated score.
        found: String,
    },
    /// Points that are impossible while the game goes on.
    #[error("{}", tr!("a game that goes on cannot stand {}", found))]
    NoSuchPoints {
        /// The stated score.
        found: String,
    },
}

impl ScoreError {
    /// What to do about it.
    #[must_use]
    pub fn remedy(&self) -> String {
        match self {
            Self::MatchOver => text("Check how many sets the match has, or begin another session.").to_owned(),
            Self::NoServeDue => text("End the point first.").to_owned(),
            Self::NotAScore { .. } => {
                text("Write the finished sets, the games and the points, the near player first: 6-4 2-3 40-30.")
                    .to_owned()
            }
            Self::NoSuchSet { .. } | Self::NoSuchGames { .. } | Self::NoSuchPoints { .. } => {
                text("Check the score and how the match is played.").to_owned()
            }
        }
    }
}
