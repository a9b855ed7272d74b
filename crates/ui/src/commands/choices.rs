//! What is chosen in the dialogs.

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

/// What becomes of a copy.
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
    /// Save over what is there.
    Over,
    /// Open what is there, and give up what is here.
    Reopen,
}

/// A board that was picked; it opens as a copy without a file.
#[derive(Debug, Clone, PartialEq)]
pub struct Pick {
    /// The board.
    pub board: Arc<Board>,
}
