//! What is being looked at: a shot, and the marks chosen on its page.

use standpoint_board::marks::MarkId;

/// The shot that is being looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Selection {
    /// Page of the board.
    pub page: usize,
    /// Shot of the rally.
    pub shot: usize,
}

/// What is being looked at, and the marks chosen there.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Chosen {
    /// The shot.
    pub at: Selection,
    /// The marks of its page.
    pub marks: Vec<MarkId>,
}

impl From<Selection> for Chosen {
    fn from(at: Selection) -> Self {
        Self { at, marks: Vec::new() }
    }
}
