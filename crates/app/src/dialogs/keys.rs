//! The list of keys, made from the catalogue.

use egui::{Grid, RichText, ScrollArea, Ui};
use standpoint_language::{text, text_in};
use standpoint_ui::{
    commands::{Menu, catalogue::CATALOGUE, key_names},
    theme::{Theme, style},
};

/// Keys on the court that are not commands.
fn on_the_court() -> [(&'static str, &'static str); 5] {
    [
        (text_in("key", "Tab"), text("Go to the next thing")),
        (text_in("key", "Arrows"), text("Move it by 0.1 m, with Shift by 0.5 m")),
        (text_in("key", "Delete"), text("Let go of what was placed by hand")),
        (text_in("key", "Escape"), text("Take a drag back")),
        (text_in("key", "Wheel"), text("Zoom around the pointer")),
    ]
}

/// The list.
pub fn ui(ui: &mut Ui, theme: &Theme) {
    let height = (ui.ctx().content_rect().height() - 140.0).clamp(160.0, 720.0);
    ScrollArea::vertical().max_height(height).auto_shrink([false, true]).show(ui, |ui| {
        group(ui, theme, text("On the court"), on_the_court().map(|(keys, what)| (keys.to_owned(), what)).to_vec());
        for menu in Menu::ALL {
            let lines = CATALOGUE
                .iter()
                .filter(|spec| spec.menu == menu)
                .filter_map(|spec| spec.shortcut.map(|shortcut| (key_names::of(ui.ctx(), &shortcut), spec.label())));
            let lines = lines.collect();
            group(ui, theme, menu.label(), lines);
        }
    });
}

fn group(ui: &mut Ui, theme: &Theme, title: &str, lines: Vec<(String, &str)>) {
    ui.label(RichText::new(title).text_style(style::emphasis()));
    Grid::new(title).num_columns(2).min_col_width(140.0).show(ui, |ui| {
        for (keys, what) in lines {
            ui.label(RichText::new(keys).color(*theme.ui.accent));
            ui.label(what);
            ui.end_row();
        }
    });
    ui.add_space(theme.m.space.item);
}
