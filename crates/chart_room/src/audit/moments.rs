//! The costliest moments, each of which opens as a board.

use egui::{Button, Frame, Label, RichText, Ui};
use standpoint_charting::audit::AuditedShot;
use standpoint_language::{text, tr};
use standpoint_ui::{
    theme::style,
    widgets::{ends, row},
};
use standpoint_workbench::{
    chart::{Act, names},
    words,
};

use super::ReportView;

/// The page.
pub fn ui(ui: &mut Ui, told: &ReportView<'_>, chosen: &mut Option<usize>, out: &mut Vec<Act>) {
    let theme = told.view.theme;
    row::note(ui, theme, text("What cost this player most, by the model. A moment opens as a board to teach from."));
    let moments = costliest(told);
    if moments.is_empty() {
        ui.label(text("No place cost anything."));
    }
    for (i, (index, shot)) in moments.into_iter().enumerate() {
        let fill = if *chosen == Some(index) { *theme.ui.chosen } else { *theme.ui.raised };
        let frame = Frame::new().fill(fill).inner_margin(theme.m.space.item).corner_radius(theme.m.radius.medium);
        frame.show(ui, |ui| {
            let words = |ui: &mut Ui| {
                ui.with_layout(egui::Layout::top_down(egui::Align::Min), |ui| {
                    let title = format!("{}. {}", i + 1, shot.title());
                    ui.add(Label::new(RichText::new(title).text_style(style::emphasis())).truncate());
                    ui.add(Label::new(RichText::new(describe(told, shot)).small().color(*theme.ui.soft)).wrap());
                });
            };
            ends::row(ui, index, words, |ui| {
                if ui.add(Button::new(text("Show")).selected(*chosen == Some(index))).clicked() {
                    *chosen = if *chosen == Some(index) { None } else { Some(index) };
                }
                if ui.add(Button::new(text("Open as a board"))).clicked() {
                    out.push(Act::Open(Box::new(shot.clone())));
                }
            });
        });
    }
}

/// The costliest shots of the player with their places in the list.
fn costliest<'a>(told: &'a ReportView<'_>) -> Vec<(usize, &'a AuditedShot)> {
    let cost = |shot: &AuditedShot| shot.judged().map_or(0.0, |judged| judged.avoidable);
    let own = |(_, shot): &(usize, &AuditedShot)| shot.began == told.player && cost(shot) > 0.0;
    let mut all: Vec<(usize, &AuditedShot)> = told.shots.iter().enumerate().filter(own).collect();
    all.sort_by(|(_, a), (_, b)| cost(b).total_cmp(&cost(a)));
    all.truncate(standpoint_charting::audit::findings::COSTLIEST);
    all
}

fn describe(told: &ReportView<'_>, shot: &AuditedShot) -> String {
    let Some(judged) = shot.judged() else { return String::new() };
    let (across, along) = judged.from_goal();
    let units = told.view.units;
    let length = |metres: f64| words::fine_length(metres.abs(), units);
    let side = |metres: f64, right: bool| {
        if right { tr!("{} too far right", length(metres)) } else { tr!("{} too far left", length(metres)) }
    };
    tr!(
        "{}: {}, {} {}; {} points in 100 given away",
        names::struck(shot.stroke, shot.direction),
        side(across, across > 0.0),
        length(along),
        if along > 0.0 { text("too deep") } else { text("too far forward") },
        words::decimal(100.0 * judged.avoidable, 1)
    )
}
