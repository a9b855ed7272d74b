//! The chart room: noting a match, auditing it, and measuring players.
//!
//! The room replaces the board while it is open. Notes are in the board's document or in a file of their own; long work
//! runs on threads.

#![cfg_attr(not(test), deny(clippy::unwrap_used))]

pub mod audit;
mod clock;
mod court;
mod digits;
mod edit;
pub mod import;
mod keys;
pub mod leave;
mod live;
pub mod measure;
mod note;
mod note_bits;
mod pad;
mod points;
mod questions;
mod room;
pub mod season;
mod told;

pub use room::{OfBoard, Room};

/// Connects the texts of this crate and of those below it to [`standpoint_language::speak`]; until then they are English.
pub fn speak_up() {
    static ONCE: std::sync::Once = std::sync::Once::new();
    ONCE.call_once(|| {
        standpoint_language::set_translator!(standpoint_language::Catalogue);
        standpoint_canvas::speak_up();
    });
}
