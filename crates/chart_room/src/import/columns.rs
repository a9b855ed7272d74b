//! Assignment of the file's columns.

use egui::{ComboBox, RichText, ScrollArea, Ui};
use standpoint_charting::import::{Column, Mapping};
use standpoint_language::{mark, text};
use standpoint_ui::{
    theme::{Theme, focus::Following as _},
    widgets::list,
};
use standpoint_workbench::chart::{names, sample::Sample};

/// Placeholder without a column.
const NONE: &str = "–";

/// Groups of columns, required ones first.
const GROUPS: [(&str, &[Column]); 4] = [
    (
        mark("Where the ball and the hitter were"),
        &[
            Column::ContactX,
            Column::ContactY,
            Column::ContactHeight,
            Column::LandingX,
            Column::LandingY,
            Column::MetX,
            Column::MetY,
            Column::StoodX,
            Column::StoodY,
        ],
    ),
    (
        mark("Rally and stroke"),
        &[
            Column::Session,
            Column::Point,
            Column::ChangedEnds,
            Column::Hitter,
            Column::Stroke,
            Column::Wing,
            Column::Speed,
            Column::Topspin,
            Column::Time,
        ],
    ),
    (
        mark("More, where it is known"),
        &[
            Column::MetTime,
            Column::HitterX,
            Column::HitterY,
            Column::OpponentX,
            Column::OpponentY,
            Column::HitterLevel,
            Column::HitterHand,
            Column::OpponentLevel,
            Column::OpponentHand,
        ],
    ),
    (
        mark("The match"),
        &[
            Column::Date,
            Column::Server,
            Column::Side,
            Column::Serve,
            Column::Call,
            Column::Winner,
            Column::Ending,
            Column::Miss,
            Column::Score,
            Column::VideoOffset,
        ],
    ),
];

/// Groups side by side where there is room; the others go below.
const BESIDE: usize = 3;

/// Width of the name of a thing, points.
const NAME: f32 = 128.0;

/// The list; the groups beside each other where there is room.
pub fn ui(ui: &mut Ui, sample: &Sample, mapping: &mut Mapping, theme: &Theme) {
    let height = (ui.ctx().content_rect().height() - 436.0).clamp(120.0, 380.0);
    ScrollArea::vertical().id_salt("columns").max_height(height).auto_shrink([false, true]).show_following(ui, |ui| {
        let wide = ui.available_width() > BESIDE as f32 * (NAME + 150.0);
        ui.columns(if wide { BESIDE } else { 1 }, |parts| {
            for (i, (title, columns)) in GROUPS.into_iter().enumerate() {
                let ui = &mut parts[if wide { i.min(BESIDE - 1) } else { 0 }];
                ui.label(RichText::new(text(title)).small().color(*theme.ui.soft));
                for column in columns {
                    line(ui, *column, sample, mapping, theme);
                }
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
        let label = super::label(ui, shown, NAME, theme).on_hover_text(text(column.meaning()));
        let combo = ComboBox::from_id_salt(("column", column.name()))
            .width(116.0)
            .truncate()
            .selected_text(chosen.as_deref().unwrap_or(NONE).to_owned())
            .show_ui(ui, |ui| {
                let mut entries = Vec::new();
                if !must {
                    let none = ui.selectable_label(chosen.is_none(), NONE);
                    if none.clicked() {
                        mapping.columns.remove(&column);
                    }
                    entries.push(none);
                }
                for heading in sample.headings.iter().filter(|heading| !heading.trim().is_empty()) {
                    let heading = heading.trim();
                    let entry = ui.selectable_label(chosen.as_deref() == Some(heading), heading);
                    if entry.clicked() {
                        mapping.columns.insert(column, heading.to_owned());
                    }
                    entries.push(entry);
                }
                list::arrows(ui, &entries);
            });
        combo.response.labelled_by(label.id).on_hover_text(text(column.meaning()));
        if let Some(heading) = mapping.columns.get(&column) {
            let example = sample.example(heading);
            ui.add(egui::Label::new(RichText::new(example).small().color(*theme.ui.soft)).truncate());
        }
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_column_can_be_chosen_once() {
        for column in Column::ALL {
            let shown = GROUPS.iter().flat_map(|(_, columns)| columns.iter()).filter(|c| **c == column).count();
            assert_eq!(shown, 1, "{}", column.name());
        }
        assert_eq!(GROUPS.iter().map(|(_, columns)| columns.len()).sum::<usize>(), Column::ALL.len());
        assert!(Column::REQUIRED.iter().all(|column| GROUPS[0].1.contains(column)));
    }
}
