//! The two faces of the side panel, and rows of tabs in general.

use egui::{Button, Ui};
use standpoint_language::text;

use crate::{
    commands::{Action, Command, Outbox, WeighCommand},
    theme::Theme,
};

/// Answering the drawn shot, or weighing it against others.
pub fn ui(ui: &mut Ui, weighing: bool, theme: &Theme, out: &mut Outbox) {
    let faces = [
        (false, text("Answer"), text("Where to stand after the shot that is drawn")),
        (true, text("Compare"), text("The shots from this contact against each other")),
    ];
    if super::row::inset(ui, theme, |ui| row(ui, theme, weighing, &faces)).is_some() {
        out.push(Action::Run(Command::Weigh(WeighCommand::Weigh)));
    }
    ui.add_space(theme.m.space.small);
}

/// Tabs of equal width; returns the one that was chosen if it is another one than now.
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
