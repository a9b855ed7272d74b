//! Unsaved notes that are about to be discarded: the action that waits, and the person's choice.

use std::path::PathBuf;

/// What was to be done.
#[derive(Debug, Clone, PartialEq)]
pub enum Then {
    /// The window closes.
    Quit,
    /// Another chart is opened.
    Open(PathBuf),
}

/// The person's choice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotesChoice {
    /// They are saved first.
    Save,
    /// They are given up.
    Discard,
}
