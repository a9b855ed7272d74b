//! The catalogue of commands: the lists of all parts of the program, one after the other.

use std::sync::LazyLock;

use super::{
    board, chart, command::Command, compare, help, library, look, pages, rally, sketch, spec::Spec, teach, view,
};

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
        &compare::ENTRIES,
        &sketch::ENTRIES,
        &library::ENTRIES,
        &chart::ENTRIES,
        &teach::ENTRIES,
    ]
    .concat()
});

impl Command {
    /// The catalogue entry of this command.
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
            Self::Compare(command) => &compare::ENTRIES[command as usize],
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

    use egui::{Key, KeyboardShortcut};

    use super::{super::spec::PLAIN, *};

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
