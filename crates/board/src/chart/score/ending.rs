//! How a point ended.

use serde::Serialize;
use standpoint_language::mark;

/// Where a ball went that was missed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Miss {
    /// In the net.
    Net,
    /// Beyond the baseline (or the service line).
    Long,
    /// Beside the court (or the service box).
    Wide,
}

impl Miss {
    /// All, in the order they are listed.
    pub const ALL: [Self; 3] = [Self::Net, Self::Long, Self::Wide];
}

/// How a point ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Ending {
    /// A serve that was in and that the receiver did not touch.
    Ace,
    /// Any other ball that was in and that the opponent did not touch.
    Winner,
    /// An error under pressure.
    ForcedError,
    /// An error without need.
    UnforcedError,
    /// Two faults in a row (Rule 24 a).
    DoubleFault,
}

impl Ending {
    /// All, in the order they are listed.
    pub const ALL: [Self; 5] = [Self::Ace, Self::Winner, Self::ForcedError, Self::UnforcedError, Self::DoubleFault];

    /// Name; to be translated.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::Ace => mark("ace"),
            Self::Winner => mark("winner"),
            Self::ForcedError => mark("forced error"),
            Self::UnforcedError => mark("unforced error"),
            Self::DoubleFault => mark("double fault"),
        }
    }
}
