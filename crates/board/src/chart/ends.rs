//! The ends of the court that the players of a chart are at.

use standpoint_geometry::End;

/// At which ends the players are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Ends {
    /// At the ends where they began.
    #[default]
    AsBegun,
    /// At the other ends.
    Changed,
}

impl Ends {
    /// The other position.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::AsBegun => Self::Changed,
            Self::Changed => Self::AsBegun,
        }
    }

    /// The card of the player at an end: that of the player who began there, or at the other one.
    #[must_use]
    pub fn began(self, end: End) -> End {
        match self {
            Self::AsBegun => end,
            Self::Changed => end.other(),
        }
    }
}
