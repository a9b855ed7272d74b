//! The primary button of a dialog.

use egui::{Button, Key, Modifiers, Ui, WidgetText};

use crate::theme::Theme;

/// The primary button of a dialog; Enter presses it while nothing else has the focus. Returns whether it is
/// to be done.
pub fn primary<'a>(ui: &mut Ui, theme: &Theme, ready: bool, label: impl Into<WidgetText> + 'a) -> bool {
    let button = Button::new(label.into()).fill(*theme.ui.chosen);
    let clicked = ui.add_enabled(ready, button).clicked();
    let free = ready && ui.memory(|memory| memory.focused().is_none());
    clicked || (free && ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Enter)))
}
