//! Where to aim: the map, the best place and what it takes.

use egui::{ProgressBar, Ui};
use standpoint_canvas::compare::aim::state;
use standpoint_geometry::{AimWorth, Shot};
use standpoint_language::{mark, text, tr};
use standpoint_ui::{
    commands::{Action, Command, CompareCommand, Outbox},
    widgets::row,
};
use standpoint_workbench::{
    compare::{Comparison, state::Change, words as said},
    session::Session,
    words,
};

use super::CompareView;
use crate::panels::compare::detail;

/// Result of the map, for the headline.
#[must_use]
pub fn sentence(session: &Session, comparison: &Comparison) -> (String, String) {
    let fresh = comparison.chart().filter(|_| comparison.scheduler().map_is_fresh());
    let (Some(chart), Some(spec)) = (fresh, session.shot()) else {
        return (text("Looking where to aim …").to_owned(), String::new());
    };
    let (end, court, units) = (session.hitter_end(), session.court(), session.units());
    let middle = chart.at(said::middle_target(&spec.shot, end, &court));
    let place = tr!("Aim {}", said::aim_place(chart.best, end, &court, units));
    // The place only; its worth is in the line below.
    let win = words::points(chart.win);
    let mut worth = match middle.map(words::points) {
        Some(middle) if middle == win => tr!("Wins {} in 100, no more than in the middle", win),
        Some(middle) => tr!("Wins {0} in 100, against {1} in the middle", win, middle),
        None => tr!("Wins {} in 100", win),
    };
    if let Some(drawn) = chart.at(spec.shot.target).map(words::points) {
        worth = tr!("{0}; the shot as drawn wins {1}", worth, drawn);
    }
    if comparison.state().to_middle {
        worth = tr!("{}, recovering to the middle", worth);
    }
    (place, worth)
}

/// The part of the panel.
pub fn ui(ui: &mut Ui, view: CompareView<'_>, out: &mut Outbox) {
    row::section(ui, view.theme, mark("Where to aim"), true, |ui| {
        switches(ui, view, out);
        let part = view.comparison.scheduler().map_part();
        ui.add(ProgressBar::new(part as f32).desired_height(8.0).corner_radius(4.0));
        row::note(ui, view.theme, &said::capital(&state(view.comparison)));
        ui.add_space(view.theme.m.space.small);
        best(ui, view, out);
    });
    row::note(
        ui,
        view.theme,
        text(
            "Every target is tried with the stroke and spin that are drawn, slower where the speed does not drop in. \
             The lightest ground wins most points; the pointer says how many.",
        ),
    );
}

fn switches(ui: &mut Ui, view: CompareView<'_>, out: &mut Outbox) {
    let mut shown = view.layers.aim;
    if ui.checkbox(&mut shown, text("Show the map on the court")).changed() {
        out.push(Action::Run(Command::Compare(CompareCommand::ShowAim)));
    }
    let mut to_middle = view.comparison.state().to_middle;
    if ui.checkbox(&mut to_middle, text("Recover to the middle instead")).changed() {
        out.push(Action::Compare(Change::ToMiddle(to_middle)));
    }
}

/// The best place with its figures, and what can be done with it.
fn best(ui: &mut Ui, view: CompareView<'_>, out: &mut Outbox) {
    let session = view.session;
    let chart = view.comparison.chart().filter(|_| view.comparison.scheduler().map_is_fresh());
    let found = chart.and_then(|chart| Some((chart, view.comparison.scheduler().map()?.worth_near(chart.best)?)));
    let units = session.units();
    let other = view.comparison.scheduler().map().and_then(|map| map.chart(!view.comparison.state().to_middle));
    let of = |figure: &dyn Fn(&AimWorth) -> String| {
        found.as_ref().map_or_else(|| row::NOTHING.to_owned(), |(_, worth)| figure(worth))
    };
    let win = found.as_ref().map_or_else(|| row::NOTHING.to_owned(), |(chart, _)| words::points(chart.win));
    row::figure(ui, view.theme, text("The best aim wins in 100"), &win);
    row::figure(ui, view.theme, text("Make rate"), &of(&|worth| words::percent(worth.chance_in)));
    row::figure(ui, view.theme, text("Struck at"), &of(&|worth| words::speed(worth.speed, units)));
    let label = if view.comparison.state().to_middle {
        text("With the best recovery")
    } else {
        text("Recovering to the middle")
    };
    let beside = other.map_or_else(|| row::NOTHING.to_owned(), |chart| words::points(chart.win));
    row::figure(ui, view.theme, label, &beside);
    ui.horizontal(|ui| {
        let aim = ui.add_enabled(found.is_some(), egui::Button::new(text("Aim there")));
        let button = ui.add_enabled(found.is_some(), egui::Button::new(text("Compare it with others")));
        let (Some((chart, worth)), Some(spec)) = (found, session.shot()) else { return };
        if aim.on_hover_text(text("The shot on the board goes to the best place")).clicked() {
            detail::use_shot(Shot { target: chart.best, speed: worth.speed, sidespin: 0.0, ..spec.shot }, out);
        }
        if button.on_hover_text(text("Put a target there and compare it")).clicked() {
            out.push(Action::Compare(Change::AddTarget(Some(chart.best))));
            out.push(Action::Run(Command::Compare(CompareCommand::CompareShots)));
        }
    });
}
