//! Catalogue entry of a command: label, hint, shortcut, icon, menu, conditions of being enabled and on.

use egui::{Key, KeyboardShortcut, Modifiers};
use standpoint_language::{mark, text, text_in};

use super::{Facts, command::Command};
use crate::theme::icons::Icon;

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
    /// Comparing shots.
    Compare,
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
        Self::Compare,
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
            Self::Compare => text_in("menu", "Compare"),
            Self::Chart => text_in("menu", "Chart"),
            Self::Teach => text_in("menu", "Teach"),
            Self::View => text_in("menu", "View"),
            Self::Look => text_in("menu", "Appearance"),
            Self::Help => text_in("menu", "Help"),
        }
    }
}

/// Reasons that several commands share.
pub(super) const BUSY: &str = mark("A dialog for files is open: close it first");
pub(super) const NO_SHOTS: &str = mark("Note or import a shot in the match analysis first");
pub(super) const NO_REPORT: &str = mark("Make the positioning report in the match analysis first");
pub(super) const NO_CHOICE: &str = mark("Select a mark on the court first");

/// Catalogue entry of a command.
#[derive(Clone, Copy)]
pub struct Spec {
    /// The command.
    pub command: Command,
    pub(super) label: &'static str,
    pub(super) hint: &'static str,
    /// Its keys.
    pub shortcut: Option<KeyboardShortcut>,
    /// Alternative keys, by habit.
    also: Option<KeyboardShortcut>,
    /// Its icon.
    pub icon: Option<Icon>,
    /// Where it is listed.
    pub menu: Menu,
    /// Whether a separator stands before it.
    pub opens_group: bool,
    /// Whether it can be used.
    pub enabled: fn(&Facts) -> bool,
    why_not: &'static str,
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
        why_not: "",
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

    /// Why it cannot be used, in the language that is spoken; nothing when it can.
    #[must_use]
    pub fn why_not(&self, facts: &Facts) -> Option<&'static str> {
        if (self.enabled)(facts) {
            return None;
        }
        let only_busy = facts.busy && (self.enabled)(&Facts { busy: false, ..facts.clone() });
        Some(text(if only_busy { BUSY } else { self.why_not }))
    }

    /// Its name in English.
    #[must_use]
    pub fn english_label(&self) -> &'static str {
        self.label
    }

    /// Label and hint in English, found by search in any language.
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

    /// Lets it be used only then, and says what is amiss otherwise.
    pub(super) const fn when(mut self, enabled: fn(&Facts) -> bool, why_not: &'static str) -> Self {
        self.enabled = enabled;
        self.why_not = why_not;
        self
    }

    pub(super) const fn on(mut self, on: fn(&Facts) -> bool) -> Self {
        self.on = Some(on);
        self
    }
}
