//! Look, widgets and vocabulary, below every panel.
//!
//! * [`theme`] turns the tokens of `assets` into colours, sizes and icons.
//! * [`commands`] is the vocabulary: the catalogue of commands, and the actions that panels send. It
//!   is plain data; `app` carries it out.
//! * [`widgets`] are the building blocks of panels and dialogs.
//! * [`transform`] maps the court to the screen, [`explain`] carries requests for explanations.

#![cfg_attr(not(test), deny(clippy::unwrap_used))]

pub mod commands;
pub mod explain;
pub mod roster;
pub mod theme;
pub mod transform;
pub mod widgets;

/// Connects the texts of this crate and of those below it to [`standpoint_language::speak`]; until then they are English.
pub fn speak_up() {
    static ONCE: std::sync::Once = std::sync::Once::new();
    ONCE.call_once(|| {
        standpoint_language::set_translator!(standpoint_language::Catalogue);
        standpoint_workbench::speak_up();
    });
}
