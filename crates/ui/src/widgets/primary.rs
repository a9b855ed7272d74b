//! The button for what a dialog is mostly opened for.

use egui::{Button, Key, Modifiers, Ui, WidgetText};

use crate::theme::Theme;

/// The button for what a dialog is mostly opened for; Enter does the same while nothing else has the keys. Whether it is
/// to be done.
pub fn primary<'a>(ui: &mut Ui, theme: &Theme, ready: bool, label: impl Into<WidgetText> + 'a) -> bool {
    let button = Button::new(label.into()).fill(*theme.ui.chosen);
    let clicked = ui.add_enabled(ready, button).clicked();
    let free = ready && ui.memory(|memory| memory.focused().is_none());
    clicked || (free && ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Enter)))
}
