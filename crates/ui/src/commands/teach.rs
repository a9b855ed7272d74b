//! The catalogue's entries about presenting and rehearsing.

use egui::Key;

use super::{
    command::{Command, TeachCommand},
    spec::{Menu, PLAIN, Spec, entry},
};
use crate::theme::icons::Icon;

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
