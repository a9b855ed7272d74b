//! The catalogue of commands: label, hint, shortcut, icon, menu, when it can be used and whether it is on.

use std::sync::LazyLock;

use egui::{Key, KeyboardShortcut, Modifiers};
use standpoint_language::{text, text_in};

use super::{
    BoardCommand, ChartCommand, DrawCommand, Facts, HelpCommand, LibraryCommand, LookCommand, PageCommand,
    RallyCommand, TeachCommand, ViewCommand, WeighCommand, board, chart, help, library, look, pages, rally, sketch,
    teach, view, weigh,
};
use crate::theme::icons::Icon;

/// A command, by the part of the program that carries it out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Command {
    /// The board as a whole: its files and changes of it.
    Board(BoardCommand),
    /// What is seen.
    View(ViewCommand),
    /// How it looks.
    Look(LookCommand),
    /// Help.
    Help(HelpCommand),
    /// Shots, and playing them.
    Rally(RallyCommand),
    /// Pages.
    Page(PageCommand),
    /// Shots against each other.
    Weigh(WeighCommand),
    /// What is drawn.
    Draw(DrawCommand),
    /// Boards that come with the program, and work that was left behind.
    Library(LibraryCommand),
    /// What really happened.
    Chart(ChartCommand),
    /// Showing and practising.
    Teach(TeachCommand),
}

/// The menus, in their order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Menu {
    /// Files.
    Board,
    /// Changes.
    Edit,
    /// What is drawn.
    Draw,
    /// Shots and playing them.
    Rally,
    /// Pages.
    Page,
    /// Shots against each other.
    Weigh,
    /// What really happened.
    Chart,
    /// Showing and practising.
    Teach,
    /// What is seen.
    View,
    /// How it looks.
    Look,
    /// Help.
    Help,
}

impl Menu {
    /// All menus.
    pub const ALL: [Self; 11] = [
        Self::Board,
        Self::Edit,
        Self::Draw,
        Self::Rally,
        Self::Page,
        Self::Weigh,
        Self::Chart,
        Self::Teach,
        Self::View,
        Self::Look,
        Self::Help,
    ];

    /// The menu's title.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::Board => text_in("menu", "Board"),
            Self::Edit => text_in("menu", "Edit"),
            Self::Draw => text_in("menu", "Draw"),
            Self::Rally => text_in("menu", "Rally"),
            Self::Page => text_in("menu", "Page"),
            Self::Weigh => text_in("menu", "Weigh"),
            Self::Chart => text_in("menu", "Chart"),
            Self::Teach => text_in("menu", "Teach"),
            Self::View => text_in("menu", "View"),
            Self::Look => text_in("menu", "Look"),
            Self::Help => text_in("menu", "Help"),
        }
    }
}

/// What the catalogue says about a command.
#[derive(Clone, Copy)]
pub struct Spec {
    /// The command.
    pub command: Command,
    label: &'static str,
    hint: &'static str,
    /// Its keys.
    pub shortcut: Option<KeyboardShortcut>,
    /// Other keys that do the same, for hands that are used to them.
    also: Option<KeyboardShortcut>,
    /// Its icon.
    pub icon: Option<Icon>,
    /// Where it is listed.
    pub menu: Menu,
    /// Whether a separator stands before it.
    pub opens_group: bool,
    /// Whether it can be used.
    pub enabled: fn(&Facts) -> bool,
    /// Whether it is on, for those that can be.
    pub on: Option<fn(&Facts) -> bool>,
}

pub(super) const CTRL: Modifiers = Modifiers::COMMAND;
pub(super) const CTRL_SHIFT: Modifiers = Modifiers::COMMAND.plus(Modifiers::SHIFT);
pub(super) const PLAIN: Modifiers = Modifiers::NONE;
pub(super) const SHIFT: Modifiers = Modifiers::SHIFT;

pub(super) const fn entry(command: Command, menu: Menu, label: &'static str, hint: &'static str) -> Spec {
    Spec {
        command,
        label,
        hint,
        shortcut: None,
        also: None,
        icon: None,
        menu,
        opens_group: false,
        enabled: |_| true,
        on: None,
    }
}

impl Spec {
    /// Its name, in the language that is spoken.
    #[must_use]
    pub fn label(&self) -> &'static str {
        text(self.label)
    }

    /// What it does, in a sentence in the language that is spoken.
    #[must_use]
    pub fn hint(&self) -> &'static str {
        text(self.hint)
    }

    /// Its name in English.
    #[must_use]
    pub fn english_label(&self) -> &'static str {
        self.label
    }

    /// Its name and what it does in English, by which it is found in any language.
    #[must_use]
    pub fn english(&self) -> (&'static str, &'static str) {
        (self.label, self.hint)
    }

    pub(super) const fn keys(mut self, modifiers: Modifiers, key: Key) -> Self {
        self.shortcut = Some(KeyboardShortcut::new(modifiers, key));
        self
    }

    pub(super) const fn also(mut self, modifiers: Modifiers, key: Key) -> Self {
        self.also = Some(KeyboardShortcut::new(modifiers, key));
        self
    }

    /// All its keys.
    pub fn shortcuts(&self) -> impl Iterator<Item = KeyboardShortcut> {
        self.shortcut.into_iter().chain(self.also)
    }

    pub(super) const fn icon(mut self, icon: Icon) -> Self {
        self.icon = Some(icon);
        self
    }

    pub(super) const fn group(mut self) -> Self {
        self.opens_group = true;
        self
    }

    pub(super) const fn when(mut self, enabled: fn(&Facts) -> bool) -> Self {
        self.enabled = enabled;
        self
    }

    pub(super) const fn on(mut self, on: fn(&Facts) -> bool) -> Self {
        self.on = Some(on);
        self
    }
}

/// The catalogue: one list for each part of the window. Plain letters
/// work while no text is being typed.
pub static CATALOGUE: LazyLock<Vec<Spec>> = LazyLock::new(|| {
    [
        &board::ENTRIES[..],
        &view::ENTRIES,
        &look::ENTRIES,
        &help::ENTRIES,
        &rally::ENTRIES,
        &pages::ENTRIES,
        &weigh::ENTRIES,
        &sketch::ENTRIES,
        &library::ENTRIES,
        &chart::ENTRIES,
        &teach::ENTRIES,
    ]
    .concat()
});

impl Command {
    /// What the catalogue says about this command.
    #[must_use]
    pub fn spec(self) -> &'static Spec {
        // Each list is in the order of its enum, which a test checks.
        match self {
            Self::Board(command) => &board::ENTRIES[command as usize],
            Self::View(command) => &view::ENTRIES[command as usize],
            Self::Look(command) => &look::ENTRIES[command as usize],
            Self::Help(command) => &help::ENTRIES[command as usize],
            Self::Rally(command) => &rally::ENTRIES[command as usize],
            Self::Page(command) => &pages::ENTRIES[command as usize],
            Self::Weigh(command) => &weigh::ENTRIES[command as usize],
            Self::Draw(command) => &sketch::ENTRIES[command as usize],
            Self::Library(command) => &library::ENTRIES[command as usize],
            Self::Chart(command) => &chart::ENTRIES[command as usize],
            Self::Teach(command) => &teach::ENTRIES[command as usize],
        }
    }
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use super::*;

    #[test]
    fn every_command_stands_where_it_is_looked_up() {
        for spec in CATALOGUE.iter() {
            assert_eq!(spec.command.spec().command, spec.command, "{}", spec.label);
        }
    }

    #[test]
    fn no_two_commands_share_their_keys_or_their_name() {
        let mut keys = HashSet::new();
        let mut labels = HashSet::new();
        for spec in CATALOGUE.iter() {
            assert!(labels.insert(spec.label.to_lowercase()), "{} twice", spec.label);
            if let Some(shortcut) = spec.shortcut {
                assert!(keys.insert(format!("{shortcut:?}")), "{} has keys of another command", spec.label);
            }
        }
    }

    #[test]
    fn no_command_takes_a_key_that_moves_or_leaves_a_thing_on_the_court() {
        let taken = [
            Key::ArrowUp,
            Key::ArrowDown,
            Key::ArrowLeft,
            Key::ArrowRight,
            Key::Tab,
            Key::Escape,
            Key::Delete,
            Key::Enter,
        ];
        for spec in CATALOGUE.iter() {
            let free = |s: KeyboardShortcut| s.modifiers != PLAIN || !taken.contains(&s.logical_key);
            assert!(spec.shortcut.is_none_or(free), "{}", spec.label);
        }
    }

    #[test]
    fn every_command_has_a_hint_that_is_a_sentence_without_a_stop() {
        for spec in CATALOGUE.iter() {
            assert!(spec.hint.len() > 5 && !spec.hint.ends_with('.'), "{}", spec.label);
        }
    }
}
