//! The catalogue's entries about showing the board to others and practising with it.

use egui::Key;

use super::catalogue::{Command, Menu, PLAIN, Spec, entry};
use crate::theme::icons::Icon;

/// Showing and practising.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "label and hint of each stand in the catalogue")]
pub enum TeachCommand {
    Present,
    Rehearse,
}

/// In the order of [`TeachCommand`].
pub static ENTRIES: [Spec; 2] = [
    entry(
        Command::Teach(TeachCommand::Present),
        Menu::Teach,
        "Present",
        "Show the board on the whole screen, step by step, for a projector",
    )
    .keys(PLAIN, Key::F5)
    .icon(Icon::Present),
    entry(
        Command::Teach(TeachCommand::Rehearse),
        Menu::Teach,
        "Rehearse",
        "Find the place, or the shot, yourself, and see what yours opens",
    )
    .keys(PLAIN, Key::F6)
    .icon(Icon::Rehearse),
];
