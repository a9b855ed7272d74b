//! Choices made in dialogs.

use std::sync::Arc;

use standpoint_board::{Board, recovery_copy::Left};

/// The answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unsaved {
    /// Save them first.
    Save,
    /// Let them go.
    Discard,
}

/// Choice about a crash copy.
#[derive(Debug, Clone, PartialEq)]
pub enum LeftChoice {
    /// It is put on the board.
    Restore(Box<Left>),
    /// It is removed for ever.
    Discard(Box<Left>),
}

/// What is to be done.
#[derive(Debug, Clone, PartialEq)]
pub enum ConflictChoice {
    /// Work on a copy that has no file yet.
    Copy,
    /// Open the file here too.
    Both,
    /// Save under another name.
    SaveAs,
    /// Overwrite the file.
    Over,
    /// Open the file, and discard the work here.
    Reopen,
}

/// A board that was picked; it opens as a copy without a file.
#[derive(Debug, Clone, PartialEq)]
pub struct Pick {
    /// The board.
    pub board: Arc<Board>,
}
