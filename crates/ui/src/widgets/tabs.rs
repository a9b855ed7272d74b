//! The two tabs of the side panel, and rows of tabs in general.

use egui::{Button, Ui};
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
