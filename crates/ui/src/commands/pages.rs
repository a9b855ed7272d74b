//! The catalogue's entries about pages.

use egui::Key;
use standpoint_language::mark;

use super::{
    command::{Command, PageCommand},
    spec::{CTRL, CTRL_SHIFT, Menu, PLAIN, Spec, entry},
};
use crate::theme::icons::Icon;

/// In the order of [`PageCommand`].
pub static ENTRIES: [Spec; 10] = [
    entry(Command::Page(PageCommand::NextPage), Menu::Page, "Next page", "Turn to the page after this one")
        .keys(PLAIN, Key::PageDown)
        .when(|f| f.rally.at.page + 1 < f.rally.pages, mark("This is the last page")),
    entry(Command::Page(PageCommand::PreviousPage), Menu::Page, "Previous page", "Turn to the page before this one")
        .keys(PLAIN, Key::PageUp)
        .when(|f| f.rally.at.page > 0, mark("This is the first page")),
    entry(Command::Page(PageCommand::AddPage), Menu::Page, "Add a page", "Put a new page with one shot after this one")
        .keys(CTRL_SHIFT, Key::N)
        .icon(Icon::Add)
        .group(),
    entry(
        Command::Page(PageCommand::AddPattern),
        Menu::Page,
        "Add a pattern page…",
        "Choose a ready rally, as it is or mirrored",
    )
    .keys(PLAIN, Key::I)
    .icon(Icon::Pattern),
    entry(
        Command::Page(PageCommand::PageWords),
        Menu::Page,
        "Title, notes and cues…",
        "Write what the page is about and what to say on court",
    )
    .keys(PLAIN, Key::F4)
    .icon(Icon::Notes),
    entry(Command::Page(PageCommand::DuplicatePage), Menu::Page, "Duplicate the page", "Put a copy after this page")
        .keys(CTRL_SHIFT, Key::D)
        .icon(Icon::Duplicate),
    entry(Command::Page(PageCommand::DeletePage), Menu::Page, "Delete the page", "Take this page off the board")
        .keys(CTRL_SHIFT, Key::Backspace)
        .icon(Icon::Bin)
        .when(|f| f.rally.pages > 1, mark("It is the only page of the board")),
    entry(Command::Page(PageCommand::PageUp), Menu::Page, "Move the page up", "Exchange this page with the one before")
        .keys(CTRL_SHIFT, Key::PageUp)
        .group()
        .when(|f| f.rally.at.page > 0, mark("This is the first page")),
    entry(
        Command::Page(PageCommand::PageDown),
        Menu::Page,
        "Move the page down",
        "Exchange this page with the one after",
    )
    .keys(CTRL_SHIFT, Key::PageDown)
    .when(|f| f.rally.at.page + 1 < f.rally.pages, mark("This is the last page")),
    entry(Command::Page(PageCommand::ShowPages), Menu::View, "Pages", "Show or hide the pages at the left")
        .keys(CTRL, Key::P)
        .icon(Icon::Pages)
        .on(|f| f.parts.pages),
];
