//! The working state of the program without a window: the open board with its history and live answer, the notes of a
//! match, the settings, and all wording.
//!
//! * [`document`] holds the board and its notes under one history; [`session`] holds the document and its answer.
//! * [`edit`] lists the changes of the board, [`arrange`] those of its order, [`sketch`] those of marks.
//! * [`chart`] has the notes of a match, their files and their audit.
//! * [`solved`] keeps solved games on disk and solves the game of the open board on its own thread.
//! * [`compare`] compares shots on its own threads.
//! * [`wanted`] describes an export, [`rehearsal`] how a rehearsal begins.
//! * [`words`] formats figures and places, [`standing`] where to stand, [`replying`] replies;
//!   [`headline`], [`habits`], [`elsewhere`], [`explain`], [`compare_words`] and [`phrases`] make sentences. Painters and panels take
//!   their wording from here.

#![cfg_attr(not(test), deny(clippy::unwrap_used))]

pub mod arrange;
pub mod chart;
pub mod compare;
pub mod compare_words;
pub mod document;
pub mod edit;
pub mod elsewhere;
pub mod explain;
pub mod habits;
pub mod headline;
pub mod phrases;
pub mod played;
pub mod rehearsal;
pub mod replying;
pub mod selection;
pub mod session;
pub mod settings;
pub mod sketch;
pub mod solved;
pub mod standing;
pub mod strokes;
pub mod wanted;
pub mod why;
pub mod words;

/// Connects the texts of this crate and of those below it to [`standpoint_language::speak`]; until then they are English.
pub fn speak_up() {
    static ONCE: std::sync::Once = std::sync::Once::new();
    ONCE.call_once(|| {
        standpoint_language::set_translator!(standpoint_language::Catalogue);
        standpoint_charting::speak_up();
        standpoint_sheet::speak_up();
    });
}
