//! The two tabs of the side panel, and rows of tabs in general.

use egui::{Button, TextStyle, Ui};
use standpoint_language::text;

use crate::theme::{Theme, fonts};

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
    let widest = needed(ui, tabs).into_iter().fold(0.0, f32::max);
    let count = tabs.len() as f32;
    widest * count + theme.m.space.small * (count - 1.0)
}

/// The width that each tab needs for its words.
fn needed<T>(ui: &Ui, tabs: &[(T, &str, &str)]) -> Vec<f32> {
    let font = TextStyle::Button.resolve(ui.style());
    let padding = 2.0 * ui.spacing().button_padding.x + 2.0;
    tabs.iter().map(|(_, label, _)| fonts::width(ui.painter(), label, font.clone()) + padding).collect()
}

/// Widths of tabs in a row of this width: equal ones where that leaves room for all words, else as much as each needs
/// and an equal share of the rest.
fn shared(needed: &[f32], room: f32) -> Vec<f32> {
    let count = needed.len().max(1) as f32;
    let equal = room / count;
    let spare = room - needed.iter().sum::<f32>();
    if needed.iter().all(|width| *width <= equal) || spare < 0.0 {
        return vec![equal.max(1.0); needed.len()];
    }
    needed.iter().map(|width| width + spare / count).collect()
}

/// Tabs of equal width, as long as their words allow it; returns a newly chosen one.
pub fn row<T: PartialEq + Copy>(ui: &mut Ui, theme: &Theme, current: T, tabs: &[(T, &str, &str)]) -> Option<T> {
    let mut chosen = None;
    let gap = theme.m.space.small;
    let widths = shared(&needed(ui, tabs), ui.available_width() - gap * (tabs.len() as f32 - 1.0));
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = gap;
        for ((tab, label, hint), width) in tabs.iter().zip(widths) {
            let size = [width, theme.m.control];
            let button = Button::selectable(*tab == current, *label).frame_when_inactive(true).truncate();
            if ui.add_sized(size, button).on_hover_text(*hint).clicked() && *tab != current {
                chosen = Some(*tab);
            }
        }
    });
    chosen
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_word_takes_room_from_short_ones_rather_than_being_cut_off() {
        assert_eq!(shared(&[40.0, 60.0, 50.0], 300.0), [100.0; 3]);
        let widths = shared(&[40.0, 130.0, 50.0], 300.0);
        assert!(widths.iter().zip([40.0, 130.0, 50.0]).all(|(has, needs)| *has >= needs), "{widths:?}");
        assert!((widths.iter().sum::<f32>() - 300.0).abs() < 1e-3, "{widths:?}");
        assert_eq!(shared(&[200.0, 200.0], 300.0), [150.0; 2], "where nothing helps they share it");
    }
}
