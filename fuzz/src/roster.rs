//! Players of a roster: read and well, or refused with a place and a remedy.

use standpoint_board::roster::file::{from_bytes, to_text};

use super::board::refused;

/// Reads bytes as a player.
pub fn check(bytes: &[u8]) {
    let player = match from_bytes(bytes) {
        Err(report) => return refused(&report, bytes),
        Ok(player) => player,
    };
    let text = to_text(&player).unwrap_or_else(|report| panic!("what was read is written: {report}"));
    let read = from_bytes(text.as_bytes()).unwrap_or_else(|report| panic!("{report}"));
    assert_eq!(to_text(&read).as_ref(), Ok(&text));
    let _ = (player.habits(), player.card_with_habits(), player.last());
}
