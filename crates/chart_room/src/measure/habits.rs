//! Habits of a player from a chart.

use egui::{Label, RichText, Ui};
use egui_extras::{Column as Width, TableBuilder};
use standpoint_charting::{fit::DirectionHabit, report::HabitReport, stats::Estimate};
use standpoint_geometry::End;
use standpoint_language::{mark, text, tr};
use standpoint_ui::{theme::style, widgets::row};
use standpoint_workbench::{chart::names, words};

use super::MeasureView;

const TITLES: [&str; 5] =
    [mark("direction"), mark("shots"), mark("share, %"), mark("missed, %"), mark("scatter left-right and in depth")];

/// The page.
pub fn ui(ui: &mut Ui, view: &MeasureView<'_>, player: End) {
    let theme = view.theme;
    let report = view.report.and_then(|report| report.players.iter().find(|p| p.began == words::end(player)));
    let Some(report) = report else {
        row::note(ui, theme, text("Make a positioning report first: shot patterns are counted there."));
        return;
    };
    for habit in &report.habits {
        let title = format!("{}, {}", words_of(&names::group(habit.stroke)), words::shots(habit.shots as usize));
        ui.label(RichText::new(title).text_style(style::title()));
        table(ui, habit, view);
        ui.add_space(theme.m.space.item);
    }
    row::note(
        ui,
        theme,
        text(
            "Shares with their interval at 95 %. Scatter holds intention and error, so the player's own spread is at most this. \
         The model weighs every reply, whatever a player's habits, so there is nothing here to put into the player: use it to \
         choose what to train, and the target test for the spread.",
        ),
    );
}

fn words_of(stroke: &str) -> String {
    let mut letters = stroke.chars();
    letters.next().map(|c| c.to_uppercase().collect::<String>() + letters.as_str()).unwrap_or_default()
}

fn table(ui: &mut Ui, habit: &HabitReport, view: &MeasureView<'_>) {
    let mut table = TableBuilder::new(ui)
        .id_salt(habit.stroke)
        .vscroll(false)
        .striped(true)
        .cell_layout(egui::Layout::left_to_right(egui::Align::Center))
        .column(Width::remainder().clip(true))
        .column(Width::exact(50.0));
    for width in [100.0, 92.0, 112.0] {
        table = table.column(Width::exact(width));
    }
    let right = egui::Layout::right_to_left(egui::Align::Center);
    let body = table.header(36.0, |mut header| {
        for (i, title) in TITLES.iter().enumerate() {
            header.col(|ui| {
                let label = Label::new(RichText::new(text(title)).small().color(*view.theme.ui.soft)).wrap();
                if i == 0 {
                    ui.add(label)
                } else {
                    ui.with_layout(right, |ui| ui.add(label)).inner
                };
            });
        }
    });
    body.body(|body| {
        body.rows(24.0, habit.directions.len(), |mut line| {
            let of = &habit.directions[line.index()];
            line.col(|ui| {
                ui.label(names::direction(of.direction));
            });
            for cell in cells(of, view) {
                line.col(|ui| {
                    ui.with_layout(right, |ui| ui.label(cell));
                });
            }
        });
    });
}

fn cells(of: &DirectionHabit, view: &MeasureView<'_>) -> [String; 4] {
    let percent = |share: Estimate| {
        let number = |value: f64| words::decimal(100.0 * value, 0);
        tr!("{} ({} to {})", number(share.value), number(share.low), number(share.high))
    };
    let (unit, name, _) = words::length_unit(view.units);
    let metres = |value: f64| words::decimal(value / unit, 1);
    let scatter = of.scatter.map_or_else(
        || row::NOTHING.to_owned(),
        |(across, along)| tr!("{} by {} {}", metres(across), metres(along), name),
    );
    [of.shots.to_string(), percent(of.share), percent(of.missed), scatter]
}
