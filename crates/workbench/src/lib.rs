//! What is worked with, without a window: the board being worked on with its history and live answer, the notes of a
//! match, the settings, and all that is said of them.
//!
//! * [`session`] holds the board, its history and the answer; [`edit`] lists the changes of the board, [`arrange`] those
//!   of its order, [`sketch`] those of what is drawn.
//! * [`chart`] holds the notes of a match, their files and their audit.
//! * [`solved`] keeps solved games on disk and solves that of the board in view on a thread of its own.
//! * [`weigh`] weighs shots against each other on threads of its own.
//! * [`wanted`] says which sheet or picture is asked for, [`rehearsal`] how a rehearsal begins.
//! * [`words`] says figures and places as a coach would, [`standing`] where to stand, [`replying`] what a reply does;
//!   [`headline`], [`elsewhere`], [`explain`], [`compare_words`] and [`phrases`] put them in sentences. Painters and panels take their words from here.

#![cfg_attr(not(test), deny(clippy::unwrap_used))]

pub mod arrange;
pub mod chart;
pub mod compare_words;
pub mod edit;
pub mod elsewhere;
pub mod explain;
pub mod headline;
pub mod phrases;
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
pub mod weigh;
pub mod why;
pub mod words;

/// Lets the texts of this crate and of those below it follow [`standpoint_language::speak`]; until then they are English.
pub fn speak_up() {
    static ONCE: std::sync::Once = std::sync::Once::new();
    ONCE.call_once(|| {
        standpoint_language::set_translator!(standpoint_language::Catalogue);
        standpoint_charting::speak_up();
        standpoint_sheet::speak_up();
    });
}
