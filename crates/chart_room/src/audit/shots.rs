//! Every shot of the player, row by row.

use egui::{Label, RichText, Sense, Ui};
use egui_extras::{Column as Width, TableBuilder};
use standpoint_charting::audit::AuditedShot;
use standpoint_language::{mark, text, tr};
use standpoint_workbench::{chart::names, words};

use super::ReportView;

const TITLES: [&str; 7] = [
    mark("point, shot"),
    mark("left-right"),
    mark("depth"),
    mark("against the spot"),
    mark("given away"),
    mark("available"),
    mark("needed"),
];

/// Width of a column of figures, height of their titles, and of a row: two lines, so that every shot can be told from others.
const FIGURE: f32 = 62.0;
const HEADER: f32 = 50.0;
const ROW: f32 = 38.0;

/// The page: a click shows the shot on the court.
pub fn ui(ui: &mut Ui, told: &ReportView<'_>, chosen: &mut Option<usize>) {
    let theme = told.view.theme;
    let (factor, unit, _) = words::length_unit(told.view.units);
    let own: Vec<usize> = (0..told.shots.len()).filter(|i| told.shots[*i].began == told.player).collect();
    let mut table = TableBuilder::new(ui)
        .striped(true)
        .sense(Sense::click())
        .auto_shrink([false, false])
        .cell_layout(egui::Layout::left_to_right(egui::Align::Center))
        .column(Width::remainder().at_least(80.0).clip(true));
    for _ in 1..TITLES.len() {
        table = table.column(Width::exact(FIGURE));
    }
    let right = egui::Layout::right_to_left(egui::Align::Center);
    let body = table.header(HEADER, |mut header| {
        for (i, title) in TITLES.iter().enumerate() {
            header.col(|ui| {
                let text = match i {
                    1 | 2 => format!("{}, {unit}", text(title)),
                    3 | 4 => tr!("{} in 100", text(title)),
                    5 | 6 => format!("{}, s", text(title)),
                    _ => text(title).to_owned(),
                };
                let label = Label::new(RichText::new(text).small().color(*theme.ui.soft)).wrap();
                if i == 0 {
                    ui.add(label)
                } else {
                    ui.with_layout(right, |ui| ui.add(label)).inner
                };
            });
        }
    });
    body.body(|body| {
        body.rows(ROW, own.len(), |mut row| {
            let index = own[row.index()];
            let shot = &told.shots[index];
            row.set_selected(*chosen == Some(index));
            row.col(|ui| {
                ui.vertical(|ui| {
                    ui.spacing_mut().item_spacing.y = 0.0;
                    let title = Label::new(shot.title()).truncate().selectable(false);
                    ui.add(title).on_hover_text(shot.title());
                    let how = format!("{} · {}", outcome(shot), names::struck(shot.stroke, shot.direction));
                    let how = RichText::new(how).small().color(*theme.ui.soft);
                    ui.add(Label::new(how).truncate().selectable(false));
                });
            });
            for cell in cells(shot, factor) {
                row.col(|ui| {
                    ui.with_layout(right, |ui| ui.add(Label::new(cell).selectable(false)));
                });
            }
            if row.response().clicked() {
                *chosen = if *chosen == Some(index) { None } else { Some(index) };
            }
        });
    });
}

/// Outcome of a shot, and whether the spot was in reach.
fn outcome(shot: &AuditedShot) -> String {
    match shot.judged() {
        Some(judged) if judged.to_the_middle == Some(true) => text("middle").to_owned(),
        Some(judged) if judged.reachable => text("in reach").to_owned(),
        Some(_) => text("out of reach").to_owned(),
        None => names::outcome(&shot.outcome).into_owned(),
    }
}

fn cells(shot: &AuditedShot, factor: f64) -> [String; 6] {
    let Some(judged) = shot.judged() else { return Default::default() };
    let (across, along) = judged.from_goal();
    let length = |metres: f64| words::decimal(metres / factor, 2);
    let points = |share: f64| words::decimal(100.0 * share, 1);
    let seconds = |time: f64| words::decimal(time, 2);
    [
        length(across),
        length(along),
        points(judged.extra),
        points(judged.avoidable),
        seconds(judged.available),
        seconds(judged.needed),
    ]
}
