//! The keys of commands as they are written on keyboards.

use egui::{Context, KeyboardShortcut};
use standpoint_language::text_in;

/// The keys of a shortcut: `Ctrl+Shift+PageUp`, or in German `Strg+Umschalt+Bild auf`.
#[must_use]
pub fn of(ctx: &Context, shortcut: &KeyboardShortcut) -> String {
    let all = ctx.format_shortcut(shortcut);
    let held = ctx.format_modifiers(shortcut.modifiers);
    let Some(key) = all.strip_prefix(held.as_str()) else { return all };
    let key = if held.is_empty() { key } else { key.strip_prefix('+').unwrap_or(key) };
    let held = held.split('+').filter(|name| !name.is_empty());
    held.chain([key]).map(name).collect::<Vec<_>>().join("+")
}

/// The name of a key; those of letters and figures, and the signs that some systems have, are the same everywhere.
fn name(key: &str) -> &str {
    match key {
        "Ctrl" => text_in("key", "Ctrl"),
        "Shift" => text_in("key", "Shift"),
        "Alt" => text_in("key", "Alt"),
        "Space" => text_in("key", "Space"),
        "Delete" => text_in("key", "Delete"),
        "Backspace" => text_in("key", "Backspace"),
        "PageUp" => text_in("key", "PageUp"),
        "PageDown" => text_in("key", "PageDown"),
        "Plus" => text_in("key", "Plus"),
        "Minus" => text_in("key", "Minus"),
        "Period" => text_in("key", "Period"),
        "Comma" => text_in("key", "Comma"),
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::commands::catalogue::CATALOGUE;

    #[test]
    fn in_english_keys_are_called_as_the_toolkit_calls_them() {
        let ctx = Context::default();
        for shortcut in CATALOGUE.iter().flat_map(crate::commands::Spec::shortcuts) {
            assert_eq!(of(&ctx, &shortcut), ctx.format_shortcut(&shortcut));
        }
    }
}
