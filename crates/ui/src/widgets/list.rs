//! The arrows in a list that drops down: they stay in it, and what they reach is brought into sight.

use egui::{EventFilter, Key, Modifiers, Response, Ui};

/// Lets the arrows, Home and End go through the entries of a list, which are told in their order.
pub fn arrows(ui: &Ui, entries: &[Response]) {
    if entries.is_empty() {
        return;
    }
    let focused = entries.iter().position(Response::has_focus);
    if let Some(entry) = focused {
        let filter = EventFilter { vertical_arrows: true, ..EventFilter::default() };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(entries[entry].id, filter));
    }
    let Some(next) = ui.input_mut(|input| {
        let mut pressed = |key| input.consume_key(Modifiers::NONE, key);
        let last = entries.len() - 1;
        let next = if pressed(Key::ArrowDown) {
            focused.map_or(0, |entry| (entry + 1).min(last))
        } else if pressed(Key::ArrowUp) {
            focused.map_or(last, |entry| entry.saturating_sub(1))
        } else if pressed(Key::Home) {
            0
        } else if pressed(Key::End) {
            last
        } else {
            return None;
        };
        Some(next)
    }) else {
        return;
    };
    entries[next].request_focus();
    entries[next].scroll_to_me(None);
}
