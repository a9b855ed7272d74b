//! The sample of a table, and the result of its mapping.

use egui::{Label, RichText, ScrollArea, Ui};
use egui_extras::{Column as Width, TableBuilder};
use standpoint_charting::import::Mapping;
use standpoint_language::{text, tr};
use standpoint_ui::theme::{Theme, style};
use standpoint_workbench::chart::sample::Sample;

/// The first rows, and the result of the mapping.
pub fn preview(sample: &Sample, ui: &mut Ui, mapping: &Mapping, theme: &Theme) {
    ui.label(RichText::new(text("First rows")).text_style(style::emphasis()));
    let used = |heading: &str| mapping.columns.values().any(|column| column.trim() == heading.trim());
    ScrollArea::horizontal().id_salt("first rows").max_height(150.0).show(ui, |ui| {
        let mut table = TableBuilder::new(ui).striped(true).vscroll(false);
        for heading in &sample.headings {
            let width = (heading.chars().count() as f32 * 8.0 + 16.0).clamp(56.0, 140.0);
            table = table.column(Width::exact(width).clip(true));
        }
        table
            .header(22.0, |mut header| {
                for heading in &sample.headings {
                    header.col(|ui| {
                        let text = RichText::new(heading).small();
                        let text = if used(heading) { text.strong() } else { text.color(*theme.ui.soft) };
                        ui.add(Label::new(text).truncate());
                    });
                }
            })
            .body(|body| {
                body.rows(20.0, sample.rows.len(), |mut row| {
                    let cells = &sample.rows[row.index()];
                    for i in 0..sample.headings.len() {
                        row.col(|ui| {
                            let cell = cells.get(i).map_or("", String::as_str);
                            ui.add(Label::new(RichText::new(cell).small()).truncate());
                        });
                    }
                });
            });
    });
    if sample.faults.is_none() {
        let (tried, bad) = (sample.tried, sample.bad);
        let text = match (&sample.first_bad, bad) {
            (Some(first), 1..) => tr!("{} of the first {} rows cannot be read so far: {}", bad, tried, first),
            _ => tr!("All of the first {} rows can be read.", tried),
        };
        let color = if bad > 0 { *theme.ui.warn } else { *theme.ui.soft };
        ui.add(Label::new(RichText::new(text).small().color(color)).wrap());
    }
}
