//! The keys of the room.

use egui::Key;
use standpoint_board::chart::score::{Ending, Miss};
use standpoint_charting::notebook::Notebook;
use standpoint_geometry::{Stroke, Wing};
use standpoint_workbench::chart::Act;

/// The letters of the kinds of stroke.
pub const STROKES: [(Key, Stroke); 8] = [
    (Key::T, Stroke::Topspin),
    (Key::G, Stroke::Flat),
    (Key::S, Stroke::Slice),
    (Key::D, Stroke::Drop),
    (Key::L, Stroke::Lob),
    (Key::V, Stroke::Volley),
    (Key::O, Stroke::Overhead),
    (Key::R, Stroke::Serve),
];
/// The letters of the wings.
pub const WINGS: [(Key, Wing); 2] = [(Key::F, Wing::Forehand), (Key::B, Wing::Backhand)];
/// Keys for "not seen", the end of the point, and the other end.
pub const SKIP: Key = Key::N;
/// The point is over.
pub const END: Key = Key::E;
/// The cursor goes to the other end.
pub const OTHER_END: Key = Key::X;

/// Select the previous shot, and the next one.
pub const BESIDE: [(Key, bool); 2] = [(Key::PageUp, false), (Key::PageDown, true)];
/// Go to the next place of the selected shot.
pub const NEXT_PLACE: Key = Key::M;
/// Insert the next shot after the selected one; with Shift before it.
pub const INSERT: Key = Key::I;

/// What a key means while a match is noted live.
#[must_use]
pub fn live(notes: &Notebook, key: Key) -> Option<Act> {
    let ended = notes.asks_for_error().is_some();
    Some(match key {
        Key::Enter => Act::NotReturned,
        Key::Minus => Act::Missed(Miss::Net),
        Key::Plus | Key::Equals => Act::Missed(Miss::Long),
        Key::Slash => Act::Missed(Miss::Wide),
        Key::Num0 if ended => Act::ErrorWas(Ending::ForcedError),
        Key::Num0 => Act::Skip,
        Key::Period if ended => Act::ErrorWas(Ending::UnforcedError),
        Key::Period => Act::Let,
        OTHER_END if notes.due_serve().is_some() => Act::SwapServer,
        _ => return None,
    })
}

/// The keys that it is asked about.
pub const LIVE: [Key; 8] =
    [Key::Enter, Key::Minus, Key::Plus, Key::Equals, Key::Slash, Key::Num0, Key::Period, OTHER_END];
