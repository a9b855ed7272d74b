//! The catalogue’s entries about help.

use egui::Key;
use standpoint_language::mark;

use super::{
    command::{Command, HelpCommand},
    spec::{CTRL, Menu, PLAIN, SHIFT, Spec, entry},
};
use crate::theme::icons::Icon;

/// In the order of [`HelpCommand`].
pub static ENTRIES: [Spec; 5] = [
    entry(
        Command::Help(HelpCommand::Guide),
        Menu::Help,
        "Guide",
        "Read the guide and the other documents, here in the window",
    )
    .keys(SHIFT, Key::F1),
    entry(
        Command::Help(HelpCommand::Finder),
        Menu::Help,
        "Find a command…",
        "Type a few letters of what should be done",
    )
    .keys(CTRL, Key::K)
    .icon(Icon::Search),
    entry(
        Command::Help(HelpCommand::How),
        Menu::Help,
        "How the figures came about",
        "Every step of the computation for this shot",
    )
    .keys(PLAIN, Key::F2)
    .when(|f| !f.chart.open, mark("It explains a shot of the board: close the match analysis first")),
    entry(Command::Help(HelpCommand::Shortcuts), Menu::Help, "Keys", "List all keys")
        .keys(PLAIN, Key::F1)
        .icon(Icon::Keyboard),
    entry(Command::Help(HelpCommand::Hints), Menu::Help, "Show the hints again", "Show the hints of the first start"),
];
