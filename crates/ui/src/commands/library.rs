//! The catalogue’s entries about built-in boards, and work left by a crash.

use egui::Key;

use super::{
    command::{Command, LibraryCommand},
    spec::{BUSY, Menu, SHIFT, Spec, entry},
};
use crate::theme::icons::Icon;

/// In the order of [`LibraryCommand`].
pub static ENTRIES: [Spec; 2] = [
    entry(
        Command::Library(LibraryCommand::Library),
        Menu::Board,
        "Library…",
        "Teaching boards to open, and those in a folder of your own",
    )
    .keys(SHIFT, Key::K)
    .icon(Icon::Library)
    .group()
    .when(|f| !f.busy, BUSY),
    entry(
        Command::Library(LibraryCommand::LeftWork),
        Menu::Board,
        "Recover unsaved boards…",
        "Copies that were kept when a window stopped",
    ),
];
