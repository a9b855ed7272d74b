//! Sheets, pictures and moving pictures of what is on the board.
//!
//! [`offscreen_canvas`] runs the painting code of the window without a window and returns a drawing, so that
//! screen and paper cannot differ. [`drill`] lays a page out as a sheet, [`places`] and [`sequence`] describe it in
//! words, [`make`] makes the files. [`report`] is the audit on paper, [`scout`] a sheet about an
//! opponent, [`audit_files`] the audit as files.

#![cfg_attr(not(test), deny(clippy::unwrap_used))]

pub mod audit_files;
pub mod drill;
mod extent;
pub mod make;
pub mod offscreen_canvas;
pub mod pictures;
pub mod places;
pub mod report;
pub mod scout;
pub mod sequence;

/// Connects the texts of this crate and of those below it to [`standpoint_language::speak`]; until then they are English.
pub fn speak_up() {
    static ONCE: std::sync::Once = std::sync::Once::new();
    ONCE.call_once(|| {
        standpoint_language::set_translator!(standpoint_language::Catalogue);
        standpoint_canvas::speak_up();
    });
}
