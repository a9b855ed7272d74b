//! Notes that are not saved, when they are about to be given up: what was to be done, and what becomes of them.

use std::path::PathBuf;

/// What was to be done.
#[derive(Debug, Clone, PartialEq)]
pub enum Then {
    /// The window closes.
    Quit,
    /// Another chart is opened.
    Open(PathBuf),
}

/// What becomes of the notes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotesChoice {
    /// They are saved first.
    Save,
    /// They are given up.
    Discard,
}
