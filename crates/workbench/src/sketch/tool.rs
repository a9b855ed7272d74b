//! The drawing tools in the order of the tool bar.

use standpoint_language::text;

/// A drawing tool.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Tool {
    /// Chooses and moves marks.
    Select,
    /// A line drawn by hand.
    Pen,
    /// A solid arrow.
    BallWay,
    /// A dashed arrow.
    PlayerWay,
    /// Words.
    Words,
    /// A cone.
    Cone,
    /// A ball basket.
    Basket,
    /// A person with a letter.
    Person,
    /// A rectangle.
    Zone,
    /// An ellipse.
    Oval,
    /// Takes marks away.
    Eraser,
}

impl Tool {
    /// All tools in the order of the tool bar.
    pub const ALL: [Self; 11] = [
        Self::Select,
        Self::BallWay,
        Self::PlayerWay,
        Self::Pen,
        Self::Words,
        Self::Cone,
        Self::Basket,
        Self::Person,
        Self::Zone,
        Self::Oval,
        Self::Eraser,
    ];

    /// What it does.
    #[must_use]
    pub fn hint(self) -> &'static str {
        match self {
            Self::Select => {
                text("Click or drag round marks to select them, Shift adds; drag or arrows move, Shift+D duplicates")
            }
            Self::Pen => text("Draw; Escape returns to the hand"),
            Self::BallWay | Self::PlayerWay => text("Drag from start to head, then pull the middle to bend it"),
            Self::Words => text("Click where the text begins"),
            Self::Cone | Self::Basket | Self::Person => text("Click to place, or move with the arrows and press Enter"),
            Self::Zone | Self::Oval => text("Drag from corner to corner"),
            Self::Eraser => text("Drag over what should go"),
        }
    }
}
