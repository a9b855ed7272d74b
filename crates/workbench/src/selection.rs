//! The selection: a shot, and the marks chosen on its page.

use standpoint_board::marks::MarkId;

/// The shot that is being looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Selection {
    /// Page of the board.
    pub page: usize,
    /// Shot of the rally.
    pub shot: usize,
}

/// The selected shot and marks.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Chosen {
    /// The shot.
    pub at: Selection,
    /// The chosen marks of its page.
    pub marks: Vec<MarkId>,
}

impl From<Selection> for Chosen {
    fn from(at: Selection) -> Self {
        Self { at, marks: Vec::new() }
    }
}
