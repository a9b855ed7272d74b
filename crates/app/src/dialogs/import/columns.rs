//! For each thing that is read, the column of the file that holds it.

use egui::{ComboBox, RichText, ScrollArea, Ui};
use standpoint_board::chart::import::{Column, Mapping};
use standpoint_language::text;

use super::Sample;
use crate::{chart::names, theme::Theme};

/// What stands where no column is chosen.
const NONE: &str = "–";

/// The list; in two rows of columns where there is room.
pub fn ui(ui: &mut Ui, sample: &Sample, mapping: &mut Mapping, theme: &Theme) {
    let height = (ui.ctx().content_rect().height() - 470.0).clamp(120.0, 340.0);
    ScrollArea::vertical().id_salt("columns").max_height(height).auto_shrink([false, true]).show(ui, |ui| {
        let wide = ui.available_width() > 640.0;
        let half = if wide { Column::ALL.len().div_ceil(2) } else { Column::ALL.len() };
        ui.columns(if wide { 2 } else { 1 }, |parts| {
            for (i, column) in Column::ALL.into_iter().enumerate() {
                line(&mut parts[i / half], column, sample, mapping, theme);
            }
        });
    });
}

fn line(ui: &mut Ui, column: Column, sample: &Sample, mapping: &mut Mapping, theme: &Theme) {
    ui.horizontal(|ui| {
        let must = Column::REQUIRED.contains(&column);
        let name = names::column(column);
        let chosen = mapping.columns.get(&column).cloned();
        let shown = RichText::new(if must { format!("{name} *") } else { name.to_owned() });
        let missing = must && chosen.is_none();
        let shown = if missing { shown.color(*theme.ui.warn) } else { shown };
        let label = ui
            .allocate_ui_with_layout(
                egui::vec2(124.0, theme.m.control),
                egui::Layout::left_to_right(egui::Align::Center),
                |ui| {
                    ui.set_min_width(124.0);
                    ui.label(shown).on_hover_text(text(column.meaning()))
                },
            )
            .inner;
        let combo = ComboBox::from_id_salt(("column", column.name()))
            .width(130.0)
            .selected_text(chosen.as_deref().unwrap_or(NONE).to_owned())
            .show_ui(ui, |ui| {
                if !must && ui.selectable_label(chosen.is_none(), NONE).clicked() {
                    mapping.columns.remove(&column);
                }
                for heading in sample.headings.iter().filter(|heading| !heading.trim().is_empty()) {
                    let heading = heading.trim();
                    if ui.selectable_label(chosen.as_deref() == Some(heading), heading).clicked() {
                        mapping.columns.insert(column, heading.to_owned());
                    }
                }
            });
        combo.response.labelled_by(label.id).on_hover_text(text(column.meaning()));
        if let Some(heading) = mapping.columns.get(&column) {
            let example = sample.example(heading);
            ui.add(egui::Label::new(RichText::new(example).small().color(*theme.ui.soft)).truncate());
        }
    });
}
