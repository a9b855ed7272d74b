//! Result of an import, and every row that could not be read.

use std::path::PathBuf;

use egui::{Label, RichText, TextEdit, Ui};
use egui_extras::{Column as Width, TableBuilder};
use standpoint_charting::import::Imported;
use standpoint_language::{text, tr, whole};
use standpoint_ui::{
    commands::{Action, Outbox},
    theme::{Theme, style},
};
use standpoint_workbench::{
    chart::{Act, ChartFile},
    words,
};

/// The counts, and the list of bad rows with a place to save it to.
pub fn ui(ui: &mut Ui, imported: &Imported, list: &mut String, said: Option<&str>, theme: &Theme, out: &mut Outbox) {
    let (rows, bad) = (imported.rows, imported.bad.len());
    let points = imported.chart.points.len();
    let (rows, shots) = (words::rows(rows as usize), words::shots(imported.chart.shots()));
    let summary = tr!("{0}: {1} in one point" | "{0}: {1} in {2} points" % points, rows, shots, whole(points));
    ui.label(RichText::new(summary).text_style(style::emphasis()));
    if !imported.unused.is_empty() {
        let names = imported.unused.join(", ");
        let unread = tr!("Nothing is read from: {}", names);
        ui.add(Label::new(RichText::new(unread).small().color(*theme.ui.soft)).wrap());
    }
    ui.add_space(theme.m.space.item);
    if bad == 0 {
        ui.label(text("Every row could be read."));
        ui.add_space(theme.m.space.group);
        return;
    }
    let told = tr!("1 row could not be read" | "{n} rows could not be read" % bad);
    ui.label(RichText::new(told).text_style(style::emphasis()).color(*theme.ui.bad));
    table(ui, imported, theme);
    ui.add_space(theme.m.space.small);
    ui.horizontal(|ui| {
        let field = TextEdit::singleline(list)
            .align(egui::Align2::LEFT_CENTER)
            .desired_width((ui.available_width() - 110.0).max(120.0));
        ui.add(field).accessible_name(text("Where the list goes"));
        let ready = !list.trim().is_empty();
        if ui.add_enabled(ready, egui::Button::new(text("Save the list"))).clicked() {
            out.push(Action::Chart(Act::File(ChartFile::BadRows, PathBuf::from(list.trim()))));
        }
    });
    if let Some(said) = said {
        ui.add(Label::new(RichText::new(said).small()).wrap());
    }
    ui.add_space(theme.m.space.group);
}

/// Height of a row of the table: a reason and its remedy in two lines.
const ROW: f32 = 40.0;

/// Line, column, reason and remedy of everything that is wrong.
fn table(ui: &mut Ui, imported: &Imported, theme: &Theme) {
    let faults: Vec<(u64, &str, String)> = imported
        .bad
        .iter()
        .flat_map(|row| {
            let fault =
                |fault: &'_ standpoint_charting::import::CellFault| format!("{}. {}", fault.kind, fault.kind.remedy());
            row.faults.iter().map(move |of| (row.line, of.column.as_str(), fault(of)))
        })
        .collect();
    let height = (ui.ctx().content_rect().height() - 380.0).clamp(120.0, 320.0);
    TableBuilder::new(ui)
        .striped(true)
        .max_scroll_height(height)
        .column(Width::exact(64.0))
        .column(Width::exact(120.0).clip(true))
        .column(Width::remainder().clip(true))
        .header(22.0, |mut header| {
            for title in [text("Line"), text("Column"), text("What is wrong, and what to do")] {
                header.col(|ui| {
                    ui.label(RichText::new(title).small().color(*theme.ui.soft));
                });
            }
        })
        .body(|body| {
            body.rows(ROW, faults.len(), |mut row| {
                let (line, column, why) = &faults[row.index()];
                row.col(|ui| {
                    ui.label(line.to_string());
                });
                row.col(|ui| {
                    ui.add(Label::new(*column).truncate());
                });
                row.col(|ui| {
                    ui.add(Label::new(RichText::new(why).small()).wrap()).on_hover_text(why);
                });
            });
        });
}
