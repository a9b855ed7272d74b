//! How a rehearsal begins.

use standpoint_board::rehearse::Theme as Topic;

/// How a rehearsal begins.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Begin {
    /// One theme only.
    pub theme: Option<Topic>,
    /// First seed; the time of day without one.
    pub seed: Option<u64>,
    /// Whether the shots of the board are rehearsed.
    pub board: bool,
}
