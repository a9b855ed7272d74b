//! Progress over the weeks: a chart and figures by theme.

use std::collections::BTreeMap;

use egui::{Grid, RichText, ScrollArea, Ui};
use egui_plot::{Line, MarkerShape, PlotPoints, Points};
use standpoint_board::rehearse::{
    Attempt, History, Item, Question, Theme,
    progress::{self, Week},
    schedule,
};
use standpoint_language::{decimal, text, text_in, tr};
use standpoint_ui::{
    theme::{Theme as Look, style},
    widgets::plot as plots,
};

/// The page.
pub fn ui(ui: &mut Ui, history: &History, now: u64, theme: &Look) {
    ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
        ui.set_max_width(ui.available_width() - theme.m.space.edge);
        if history.attempts.is_empty() {
            ui.label(text(
                "Nothing has been answered yet. After a few answers this page shows how it goes from week to week.",
            ));
            return;
        }
        let weeks = progress::weeks(history, |_| true);
        ui.label(RichText::new(text("Points by week")).text_style(style::title()));
        plot(ui, &weeks, theme);
        ui.add_space(theme.m.space.section);
        ui.label(RichText::new(text("By theme")).text_style(style::title()));
        table(ui, history, theme);
        ui.add_space(theme.m.space.section);
        ui.label(RichText::new(text("What comes again")).text_style(style::title()));
        ui.label(boxes(history, now));
    });
}

fn plot(ui: &mut Ui, weeks: &[Week], theme: &Look) {
    let points: Vec<[f64; 2]> = weeks.iter().map(|week| [week.number as f64 + 1.0, week.mean]).collect();
    let last = points.last().map_or(1.0, |point| point[0]);
    let height = (ui.available_height() * 0.45).clamp(160.0, 420.0);
    let plot = plots::still("rehearsal progress", height)
        .include_x(0.5)
        .include_x(last.max(4.0) + 0.5)
        .include_y(0.0)
        .include_y(100.0)
        .x_axis_label(text("week"))
        .y_axis_label(text("points of 100"))
        .x_grid_spacer(egui_plot::uniform_grid_spacer(|_| [1.0, 4.0, 12.0]));
    let response = plot.show(ui, |plot| {
        plot.line(Line::new("mean", PlotPoints::from(points.clone())).color(*theme.ui.accent).width(2.4));
        plot.points(
            Points::new("weeks", points.clone()).shape(MarkerShape::Circle).radius(4.5).color(*theme.ui.accent),
        );
    });
    let said = weeks.iter().map(|week| {
        let (number, mean) = (week.number + 1, decimal(week.mean, 0));
        tr!("week {0}: {1} in {n} answer" | "week {0}: {1} in {n} answers" % week.answers, number, mean)
    });
    let said = said.collect::<Vec<_>>().join(", ");
    plots::say(ui, response.response.id, text("Plot of the points by week"), &said);
}

/// Answers, mean of the first and of the last week for each theme.
fn table(ui: &mut Ui, history: &History, theme: &Look) {
    Grid::new("rehearsal themes").num_columns(5).spacing(egui::vec2(theme.m.space.section, 2.0)).show(ui, |ui| {
        for head in ["", text("answers"), text_in("judged", "right"), text("first week"), text("last week")] {
            ui.label(RichText::new(head).color(*theme.ui.soft));
        }
        ui.end_row();
        for drawn in Theme::ALL {
            row(ui, drawn.label(), history, |attempt| progress::is_of(attempt, drawn));
        }
        row(ui, text("Own boards"), history, |attempt| matches!(attempt.item, Item::Board { .. }));
        row(ui, text("Which shot, all themes"), history, |attempt| attempt.question == Question::Shot);
    });
}

fn row(ui: &mut Ui, label: &str, history: &History, wanted: impl Fn(&Attempt) -> bool) {
    let weeks = progress::weeks(history, wanted);
    let (Some(first), Some(last)) = (weeks.first(), weeks.last()) else { return };
    let answers: usize = weeks.iter().map(|week| week.answers).sum();
    let right: f64 = weeks.iter().map(|week| week.right * week.answers as f64).sum::<f64>() / answers as f64;
    ui.label(label);
    ui.label(answers.to_string());
    ui.label(format!("{} %", decimal(100.0 * right, 0)));
    ui.label(decimal(first.mean, 0));
    ui.label(decimal(last.mean, 0));
    ui.end_row();
}

/// Number of questions due in each Leitner box.
fn boxes(history: &History, now: u64) -> String {
    let mut waiting: BTreeMap<usize, usize> = BTreeMap::new();
    let mut due = 0;
    for standing in schedule::standings(history).values() {
        *waiting.entry(standing.place).or_default() += 1;
        due += usize::from(standing.due <= now);
    }
    let said = waiting.iter().map(|(place, count)| match place {
        0 => tr!("{} at once", count),
        1 => tr!("{} after a day", count),
        2 => tr!("{} after 3 days", count),
        3 => tr!("{} after a week", count),
        _ => tr!("{} after 3 weeks", count),
    });
    tr!("{} to be tried again now. All that wait: {}.", due, said.collect::<Vec<_>>().join(", "))
}
