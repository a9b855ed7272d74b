//! Two shots ahead: what comes back after the ticked shots, and what to play then.

use egui::{Button, RichText, Ui, vec2};
use standpoint_language::{mark, text};
use standpoint_ui::{
    commands::{Action, Outbox},
    theme::style,
    widgets::row,
};
use standpoint_workbench::{
    compare::{
        plan,
        scheduler::{PlanOf, Row},
        state::Change,
        task::Kind,
        words as said,
    },
    edit::Gesture,
};

use super::{CompareView, bits};

/// The section.
pub fn ui(ui: &mut Ui, view: CompareView<'_>, out: &mut Outbox) {
    let beside = view.comparison.beside();
    if beside.is_empty() {
        return;
    }
    row::section(ui, view.theme, mark("Two shots ahead"), true, |ui| {
        make(ui, view, out);
        for (rank, row) in beside.iter().enumerate() {
            if row.weighed().is_some_and(|w| w.result.is_ok()) {
                ui.push_id(row.item, |ui| after(ui, rank, row, view, out));
            }
        }
        if !view.comparison.scheduler().is_answered(Kind::Plan) {
            super::working(ui, view.theme);
        }
        row::note(
            ui,
            view.theme,
            text("The likeliest replies, and the best shot against each, from where both players are then."),
        );
    });
}

/// The button that puts the line shown on the court onto the page: over the lines, so that it keeps its place.
fn make(ui: &mut Ui, view: CompareView<'_>, out: &mut Outbox) {
    let edit = view.comparison.shown_plan().and_then(|(of, reply)| plan::rally(of, reply));
    let hint =
        text("The line that is marked comes onto the page, in place of the shots after this one; undo takes it back");
    if ui.add_enabled(edit.is_some(), Button::new(text("Make a rally of it"))).on_hover_text(hint).clicked()
        && let Some(edit) = edit
    {
        out.push(Action::Gesture(Gesture::Seal));
        out.push(Action::Edit(edit));
        out.push(Action::Gesture(Gesture::Seal));
    }
}

/// What follows one of the shots.
fn after(ui: &mut Ui, rank: usize, row: &Row, view: CompareView<'_>, out: &mut Outbox) {
    let Some(plan) = view.comparison.scheduler().plan(row.item) else { return };
    ui.horizontal(|ui| {
        bits::badge(ui, Some(rank), view.theme);
        ui.label(RichText::new(said::label(row.item)).text_style(style::emphasis()));
    });
    if plan.replies.is_empty() {
        row::note(ui, view.theme, text("Nothing comes back."));
    }
    for reply in 0..plan.replies.len() {
        ui.push_id(reply, |ui| line(ui, plan, reply, view, out));
    }
}

fn line(ui: &mut Ui, plan: &PlanOf, reply: usize, view: CompareView<'_>, out: &mut Outbox) {
    let sentence = plan::sentence(&plan.replies[reply], &plan.situation);
    let shown = view.comparison.shown_plan().is_some_and(|(of, i)| of.item == plan.item && i == reply);
    let button = Button::selectable(shown, sentence.as_str()).wrap().min_size(vec2(ui.available_width(), bits::LINE));
    let mut button = ui.add(button);
    // One that is shown already needs no hint.
    if !shown {
        button = button.on_hover_text(text("Show it on the court"));
    }
    button.widget_info(|| egui::WidgetInfo::selected(egui::Role::Button, true, shown, sentence.as_str()));
    if button.clicked() {
        out.push(Action::Compare(Change::Plan(plan.item, reply)));
    }
}
