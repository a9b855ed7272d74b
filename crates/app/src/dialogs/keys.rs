//! The list of keys, made from the catalogue.

use egui::{Grid, RichText, ScrollArea, Ui};

use crate::{
    commands::{Menu, catalogue::CATALOGUE, key_names},
    theme::{Theme, style},
};

/// What the keys do on the court, beside the commands.
const ON_THE_COURT: [(&str, &str); 5] = [
    ("Tab", "Go to the next thing"),
    ("Arrows", "Move it by 0.1 m, with Shift by 0.5 m"),
    ("Delete", "Let go of what was placed by hand"),
    ("Escape", "Take a drag back"),
    ("Wheel", "Zoom around the pointer"),
];

/// The list.
pub fn ui(ui: &mut Ui, theme: &Theme) {
    ScrollArea::vertical().max_height(460.0).auto_shrink([false, true]).show(ui, |ui| {
        group(ui, theme, "On the court", ON_THE_COURT.map(|(k, v)| (k.to_owned(), v)).to_vec());
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
