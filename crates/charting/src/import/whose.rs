//! Names of players in cells.

use standpoint_board::chart::ends::Ends;
use standpoint_geometry::End;

/// A player of a cell: at an end of the court, or by where they began.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Whose {
    At(End),
    Began(End),
}

impl Whose {
    /// Words allowed in cells and mappings.
    pub const NAMES: [(&'static str, Self); 4] = [
        ("near", Self::At(End::Near)),
        ("far", Self::At(End::Far)),
        ("near_player", Self::Began(End::Near)),
        ("far_player", Self::Began(End::Far)),
    ];

    /// The player's end.
    pub fn end(self, ends: Ends) -> End {
        match self {
            Self::At(end) => end,
            Self::Began(player) => ends.began(player),
        }
    }
}
