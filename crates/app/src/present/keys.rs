//! The keys of a presentation, with those of remote controls.

use egui::{Context, Key, Modifiers};
use standpoint_language::mark;

use super::show::Move;

const NONE: Modifiers = Modifiers::NONE;
const SHIFT: Modifiers = Modifiers::SHIFT;
const CTRL: Modifiers = Modifiers::COMMAND;

/// Keys with more modifiers first: those without accept extra ones.
const KEYS: [(Modifiers, Key, Move); 35] = [
    (SHIFT, Key::PageDown, Move::NextPage),
    (SHIFT, Key::PageUp, Move::PreviousPage),
    (SHIFT, Key::ArrowRight, Move::NextPage),
    (SHIFT, Key::ArrowLeft, Move::PreviousPage),
    (SHIFT, Key::Space, Move::Back),
    (CTRL, Key::Z, Move::TakeBack),
    (NONE, Key::PageDown, Move::Forward),
    (NONE, Key::ArrowRight, Move::Forward),
    (NONE, Key::Space, Move::Forward),
    (NONE, Key::Enter, Move::Forward),
    (NONE, Key::PageUp, Move::Back),
    (NONE, Key::ArrowLeft, Move::Back),
    (NONE, Key::Backspace, Move::Back),
    (NONE, Key::ArrowDown, Move::NextShot),
    (NONE, Key::ArrowUp, Move::PreviousShot),
    (NONE, Key::Home, Move::First),
    (NONE, Key::End, Move::Last),
    (NONE, Key::A, Move::Reveal),
    (NONE, Key::G, Move::Cover),
    (NONE, Key::B, Move::Black),
    (NONE, Key::Period, Move::Black),
    (NONE, Key::S, Move::Spotlight),
    (NONE, Key::I, Move::Draw),
    (NONE, Key::Delete, Move::Wipe),
    (NONE, Key::E, Move::Wipe),
    (NONE, Key::P, Move::Play),
    (NONE, Key::N, Move::Notes),
    (NONE, Key::H, Move::Keys),
    (NONE, Key::F1, Move::Keys),
    (NONE, Key::Questionmark, Move::Keys),
    (NONE, Key::C, Move::Colours),
    (NONE, Key::T, Move::Turn),
    (NONE, Key::V, Move::Sight),
    (NONE, Key::Escape, Move::Leave),
    (NONE, Key::BrowserBack, Move::Back),
];

/// What the overlay says about the keys, in the order a coach needs them.
pub const SAID: [(&str, &str); 13] = [
    (mark("Space, Right, Page down"), mark("next step, then next shot and page")),
    (mark("Left, Page up"), mark("back")),
    (mark("Down, Up"), mark("next shot, shot before")),
    (mark("Shift+Right, Shift+Left"), mark("next page, page before")),
    ("A, G", mark("show all, let them guess again")),
    (mark("B or ."), mark("black screen")),
    ("S", mark("spotlight")),
    ("I, E", mark("draw with the pointer, wipe it off")),
    ("P", mark("play the rally")),
    ("N", mark("notes in a window of their own")),
    ("V", mark("through the player’s eyes, from behind, from above")),
    ("C, T", mark("colours, turn the court")),
    ("Esc", mark("back to the board")),
];

/// Moves of this frame's keys, in the order of the list. A focused button keeps the keys that press it.
pub fn read(ctx: &Context) -> Vec<Move> {
    let focused = ctx.memory(egui::Memory::focused).is_some();
    let ours = |key: Key| !(focused && matches!(key, Key::Space | Key::Enter));
    let keys = KEYS.iter().filter(|(_, key, _)| ours(*key));
    ctx.input_mut(|i| keys.filter(|(held, key, _)| i.consume_key(*held, *key)).map(|(_, _, asked)| *asked).collect())
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use super::*;

    #[test]
    fn no_key_asks_for_two_things() {
        let keys: HashSet<_> = KEYS.iter().map(|(modifiers, key, _)| format!("{modifiers:?} {key:?}")).collect();
        assert_eq!(keys.len(), KEYS.len());
    }

    #[test]
    fn keys_with_modifiers_come_before_the_same_keys_without() {
        let plain = KEYS.iter().position(|(modifiers, _, _)| *modifiers == NONE).unwrap();
        assert!(KEYS[plain..].iter().all(|(modifiers, _, _)| *modifiers == NONE));
    }

    #[test]
    fn a_remote_control_finds_its_keys() {
        // Presentation remotes send these keys of the USB keyboard page (common practice, from memory).
        for key in [Key::PageDown, Key::PageUp, Key::Period, Key::B, Key::Escape] {
            assert!(KEYS.iter().any(|(modifiers, own, _)| *modifiers == NONE && *own == key), "{key:?}");
        }
    }
}
