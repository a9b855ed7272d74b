//! The two tabs of the side panel, and rows of tabs in general.

use egui::{Button, TextStyle, Ui};
use standpoint_language::text;

use crate::theme::Theme;

/// Answering the drawn shot, or comparing it with others; returns a newly chosen mode.
pub fn ui(ui: &mut Ui, comparing: bool, theme: &Theme) -> Option<bool> {
    let faces = [
        (false, text("Answer"), text("Where to stand after the shot that is drawn")),
        (true, text("Compare"), text("The shots from this contact against each other")),
    ];
    let chosen = super::row::inset(ui, theme, |ui| row(ui, theme, comparing, &faces));
    ui.add_space(theme.m.space.small);
    chosen
}

/// The width at which tabs of equal width show all of their words.
#[must_use]
pub fn width<T>(ui: &Ui, theme: &Theme, tabs: &[(T, &str, &str)]) -> f32 {
    let font = TextStyle::Button.resolve(ui.style());
    let wide = |label: &str| ui.painter().layout_no_wrap(label.to_owned(), font.clone(), *theme.ui.ink).size().x;
    let widest = tabs.iter().map(|(_, label, _)| wide(label)).fold(0.0, f32::max);
    let padding = 2.0 * ui.spacing().button_padding.x + 2.0;
    let count = tabs.len() as f32;
    (widest + padding) * count + theme.m.space.small * (count - 1.0)
}

/// Tabs of equal width; returns a newly chosen one.
pub fn row<T: PartialEq + Copy>(ui: &mut Ui, theme: &Theme, current: T, tabs: &[(T, &str, &str)]) -> Option<T> {
    let mut chosen = None;
    let gap = theme.m.space.small;
    let width = (ui.available_width() - gap * (tabs.len() as f32 - 1.0)) / tabs.len() as f32;
    let size = [width.max(1.0), theme.m.control];
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = gap;
        for (tab, label, hint) in tabs {
            let button = Button::selectable(*tab == current, *label).frame_when_inactive(true).truncate();
            if ui.add_sized(size, button).on_hover_text(*hint).clicked() && *tab != current {
                chosen = Some(*tab);
            }
        }
    });
    chosen
}
