//! The figures of a player and of groups of their shots.

use std::borrow::Cow;

use egui::{Button, Frame, Label, RichText, Ui};
use egui_extras::{Column as Width, TableBuilder};
use standpoint_board::Units;
use standpoint_charting::{
    report::{FIRST, Figure, GroupReport, Named, RecoveryHabit},
    stats::Estimate,
};
use standpoint_language::{mark, text, tr, whole};
use standpoint_ui::{
    theme::{Theme, style},
    widgets::{row, tabs},
};
use standpoint_workbench::{
    chart::{Act, RosterAct, names},
    words,
};

use super::ReportView;

/// The page.
pub fn ui(ui: &mut Ui, told: &ReportView<'_>, by: &mut usize, shown: &mut Option<usize>, out: &mut Vec<Act>) {
    headline(ui, told);
    findings(ui, told, shown, out);
    facts(ui, told);
    ui.add_space(told.view.theme.m.space.item);
    groups(ui, told, by);
}

/// The summary in a sentence.
fn headline(ui: &mut Ui, told: &ReportView<'_>) {
    ui.add(Label::new(RichText::new(sentence(told)).text_style(style::title())).wrap());
    ui.add_space(told.view.theme.m.space.small);
}

/// What the audit shows of this player, and what to know of them as an opponent, in a few sentences.
fn findings(ui: &mut Ui, told: &ReportView<'_>, shown: &mut Option<usize>, out: &mut Vec<Act>) {
    let theme = told.view.theme;
    let Some(audited) = told.view.audited else { return };
    if !audited.report.complete {
        row::note(ui, theme, &tr!("Stopped before the end: {} only.", words::shots(audited.report.shots as usize)));
    }
    let all = audited.report.findings.iter().enumerate();
    let own: Vec<_> = all.filter(|(_, finding)| finding.began() == told.report.began).take(FIRST).collect();
    for (i, finding) in &own {
        card(ui, theme, (*i, &finding.sentence()), shown, out);
    }
    if own.len() > 1 {
        let label = tr!("Drill sheets for all of them (PDF)…");
        if ui.button(label).clicked() {
            out.push(Act::Drills(own.iter().map(|(i, _)| *i).collect()));
        }
        ui.add_space(theme.m.space.small);
    }
    if own.is_empty() && told.report.all.judged > 0 {
        row::note(ui, theme, text("No group of shots differs beyond luck from the others."));
    }
    if !told.report.tells.is_empty() {
        ui.label(RichText::new(text("To know as an opponent")).color(*theme.ui.soft));
        for tell in told.report.tells.iter().take(FIRST) {
            ui.add(Label::new(tell.sentence()).wrap());
        }
    }
    let against = ui.button(tr!("Play against {} on the board", told.report.name));
    let hint = text("The replies on the board are weighed by where this player sent the ball in these notes");
    if against.on_hover_text(hint).clicked() {
        out.push(Act::Roster(RosterAct::Against(told.player)));
    }
    ui.add_space(theme.m.space.small);
}

/// A finding with what can be made of it.
fn card(ui: &mut Ui, theme: &Theme, (i, said): (usize, &str), shown: &mut Option<usize>, out: &mut Vec<Act>) {
    let fill = if *shown == Some(i) { *theme.ui.chosen } else { *theme.ui.raised };
    Frame::new().fill(fill).inner_margin(theme.m.space.item).corner_radius(theme.m.radius.medium).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.add(Label::new(said).wrap());
        ui.horizontal_wrapped(|ui| {
            let court = Button::new(text("Show on the court")).selected(*shown == Some(i));
            if ui.add(court).clicked() {
                *shown = if *shown == Some(i) { None } else { Some(i) };
            }
            let all = [
                (text("Drill sheet…"), text("A sheet to take to the court, as PDF"), Act::Drills(vec![i])),
                (text("Open the drill"), text("The drill as a board, to change it"), Act::OpenDrill(i)),
                (text("Rehearse"), text("These moments as a rehearsal"), Act::Rehearse(i)),
            ];
            for (label, hint, act) in all {
                if ui.button(label).on_hover_text(hint).clicked() {
                    out.push(act);
                }
            }
        });
    });
}

/// Where the player recovers to, and what that costs.
pub fn sentence(told: &ReportView<'_>) -> String {
    let recovery = &told.report.recovery;
    let what = match recovery.habit {
        RecoveryHabit::TooFew => {
            return text("Too few shots that count to say where this player recovers to").to_owned();
        }
        RecoveryHabit::Middle => text("Recovers to the middle, whatever the ball"),
        RecoveryHabit::Spot => text("Recovers to where the model says"),
        RecoveryHabit::Between => text("Recovers between the middle and where the model says"),
    };
    let cost = told.report.all.avoidable.mean.unwrap_or_default();
    tr!("{}; that gives away {} points in 100", what, words::decimal(100.0 * cost, 1))
}

fn facts(ui: &mut Ui, told: &ReportView<'_>) {
    let (theme, all, units) = (told.view.theme, &told.report.all, told.view.units);
    let mut figure = |label: &str, value: String| row::figure(ui, theme, label, &value);
    figure(text("Shots, of which judged"), format!("{}, {}", counted(all.shots), counted(all.judged)));
    figure(text("Left-right, from the best place in reach"), spread(&all.across, text("right"), text("left"), units));
    figure(text("Depth"), spread(&all.along, text("too deep"), text("too far forward"), units));
    figure(text("Points given away"), tr!("{} points in 100", plus_minus(&all.avoidable, 100.0, 1)));
    let time = |figure: &Figure| figure.mean.map_or_else(|| row::NOTHING.to_owned(), words::seconds);
    figure(text("Spot in reach"), all.reachable.map_or_else(|| row::NOTHING.to_owned(), shared));
    figure(text("Time there was, time needed"), format!("{}, {}", time(&all.available_s), time(&all.needed_s)));
    if let Some(share) = told.report.recovery.share {
        figure(text("Of the way from the middle to that place"), shared(share));
    }
    if let (Some(own), Some(model)) = (told.report.ready.player, told.report.ready.model) {
        let said = tr!("{} ± {}; model {}", two(own.value), two(own.high - own.value), two(model.value));
        figure(text("Metres to the other side for each metre the opponent is wide"), said);
    }
    let left = [
        (all.winners + all.no_reply, text("not returned by the model's opponent")),
        (all.missed, text("missed")),
        (all.not_seen, text("nobody seen standing")),
        (all.not_playable, text("no flight found")),
    ];
    let left: Vec<String> =
        left.iter().filter(|(count, _)| *count > 0).map(|(count, what)| format!("{count} {what}")).collect();
    if !left.is_empty() {
        row::note(ui, theme, &tr!("Not judged: {}.", left.join(", ")));
    }
    let assumed = told.report.assumed;
    let filled =
        [(assumed.speed, text("speeds")), (assumed.met, text("meeting points")), (assumed.height, text("heights"))];
    let filled: Vec<String> =
        filled.iter().filter(|(count, _)| *count > 0).map(|(count, what)| format!("{count} {what}")).collect();
    if !filled.is_empty() {
        row::note(ui, theme, &tr!("Filled in by the model: {}.", filled.join(", ")));
    }
    row::note(
        ui,
        theme,
        text("Estimates of a model for these two players; intervals at 95 %. A qualified coach decides."),
    );
}

fn counted(count: u64) -> String {
    whole(count as usize)
}

fn two(value: f64) -> String {
    words::decimal(value, 2)
}

/// A mean with half its interval.
fn plus_minus(figure: &Figure, factor: f64, figures: usize) -> String {
    match (figure.mean, figure.high) {
        (Some(mean), Some(high)) => {
            format!("{} ± {}", words::decimal(mean * factor, figures), words::decimal((high - mean) * factor, figures))
        }
        (Some(mean), None) => words::decimal(mean * factor, figures),
        _ => row::NOTHING.to_owned(),
    }
}

/// A signed error in words, with half its interval.
fn spread(figure: &Figure, above: &str, below: &str, units: Units) -> String {
    let Some(mean) = figure.mean else { return row::NOTHING.to_owned() };
    let half = figure.high.map_or_else(String::new, |high| format!(" ± {}", words::fine_length(high - mean, units)));
    format!("{}{half} {}", words::fine_length(mean.abs(), units), if mean < 0.0 { below } else { above })
}

/// A share with its interval.
fn shared(share: Estimate) -> String {
    let percent = |value: f64| words::decimal(100.0 * value, 0);
    tr!("{} % ({} to {})", percent(share.value), percent(share.low), percent(share.high))
}

/// The tables, one at a time.
fn groups(ui: &mut Ui, told: &ReportView<'_>, by: &mut usize) {
    let titles = [text("Stroke"), text("Wing"), text("Direction"), text("Struck from"), text("Level"), text("Session")];
    let choices: Vec<(usize, &str, &str)> =
        titles.iter().enumerate().map(|(i, name)| (i, *name, text("Figures by this"))).collect();
    if let Some(chosen) = tabs::row(ui, told.view.theme, *by, &choices) {
        *by = chosen;
    }
    match told.report.tables.get(*by) {
        Some(of) => table(ui, told, &of.groups, names::group),
        // Session names of the user are not translated.
        None => table(ui, told, &told.report.sessions, |name| Cow::Owned(name.to_owned())),
    }
}

const TITLES: [&str; 8] = [
    " ",
    mark("shots"),
    mark("judged"),
    mark("left-right"),
    mark("depth"),
    mark("given away in 100"),
    mark("in reach"),
    mark("to the middle"),
];

fn table(ui: &mut Ui, told: &ReportView<'_>, rows: &[Named], name: impl Fn(&str) -> Cow<'static, str>) {
    let theme = told.view.theme;
    let (factor, unit, figures) = words::length_unit(told.view.units);
    let first = (ui.available_width() - 7.0 * 72.0 - theme.m.space.section).max(96.0);
    let mut table = TableBuilder::new(ui)
        .striped(true)
        .vscroll(false)
        .cell_layout(egui::Layout::left_to_right(egui::Align::Center))
        .column(Width::exact(first).clip(true));
    for _ in 1..TITLES.len() {
        table = table.column(Width::exact(64.0));
    }
    let right = egui::Layout::right_to_left(egui::Align::Center);
    let body = table.header(36.0, |mut header| {
        for (i, title) in TITLES.iter().enumerate() {
            header.col(|ui| {
                let unit = match i {
                    3 | 4 => format!(", {unit}"),
                    6 | 7 => ", %".to_owned(),
                    _ => String::new(),
                };
                ui.with_layout(right, |ui| {
                    let text = RichText::new(format!("{}{unit}", text(title))).small().color(*theme.ui.soft);
                    ui.add(Label::new(text).wrap());
                });
            });
        }
    });
    body.body(|body| {
        body.rows(24.0, rows.len(), |mut row| {
            let named = &rows[row.index()];
            row.col(|ui| {
                ui.add(Label::new(name(&named.name)).truncate());
            });
            for cell in cells(&named.group, factor, figures) {
                row.col(|ui| {
                    ui.with_layout(right, |ui| ui.label(cell));
                });
            }
        });
    });
}

fn cells(of: &GroupReport, factor: f64, figures: usize) -> [String; 7] {
    let length =
        |figure: &Figure| figure.mean.map_or_else(String::new, |mean| words::decimal(mean / factor, figures.max(2)));
    let share = |share: Option<Estimate>| share.map_or_else(String::new, |s| words::decimal(100.0 * s.value, 0));
    [
        counted(of.shots),
        counted(of.judged),
        length(&of.across),
        length(&of.along),
        of.avoidable.mean.map_or_else(String::new, |mean| words::decimal(100.0 * mean, 1)),
        share(of.reachable),
        share(of.to_the_middle),
    ]
}
