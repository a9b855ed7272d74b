//! The side panel: the sections in their order.

use egui::{ScrollArea, Ui};
use standpoint_language::mark;
use standpoint_ui::{
    commands::Outbox,
    theme::{Theme, focus::Following as _},
    widgets::row,
};
use standpoint_workbench::session::Session;

use super::{answer, conditions, players, recovery, replies, side_view, situation};

/// The panel's contents in one column.
pub fn ui(ui: &mut Ui, session: &Session, theme: &Theme, out: &mut Outbox) {
    padded(ui, theme, |ui| {
        questions(ui, session, theme, out);
        answers(ui, session, theme);
        circumstances(ui, session, theme, out);
    });
}

/// The panel's contents in two columns, for below the court.
pub fn wide_ui(ui: &mut Ui, session: &Session, theme: &Theme, out: &mut Outbox) {
    padded(ui, theme, |ui| {
        ui.spacing_mut().item_spacing.x = theme.m.space.section;
        ui.columns_const(|[left, right]| {
            for column in [&mut *left, &mut *right] {
                column.spacing_mut().item_spacing.x = theme.m.space.item;
            }
            questions(left, session, theme, out);
            circumstances(left, session, theme, out);
            answers(right, session, theme);
        });
    });
}

/// Scrolled contents that leave room for the scroll bar.
fn padded(ui: &mut Ui, theme: &Theme, body: impl FnOnce(&mut Ui)) {
    ScrollArea::vertical().auto_shrink(false).show_following(ui, |ui| row::inset(ui, theme, body));
}

fn questions(ui: &mut Ui, session: &Session, theme: &Theme, out: &mut Outbox) {
    row::section(ui, theme, mark("Shot"), true, |ui| situation::ui(ui, session, theme, out));
}

fn answers(ui: &mut Ui, session: &Session, theme: &Theme) {
    // The sections stay without an answer, so that nothing jumps while the ball is dragged through a place
    // where the shot cannot be played.
    let play = session.play();
    row::section(ui, theme, mark("The opponent wins"), true, |ui| answer::ui(ui, session, theme));
    row::section(ui, theme, mark("Two best replies"), true, |ui| {
        replies::ui(ui, &session.best(), session.units(), theme)
    });
    row::section(ui, theme, mark("Recovery"), true, |ui| recovery::ui(ui, play, session, theme));
    row::section(ui, theme, mark("Over the net"), true, |ui| side_view::ui(ui, session, theme));
}

fn circumstances(ui: &mut Ui, session: &Session, theme: &Theme, out: &mut Outbox) {
    row::section(ui, theme, mark("Players"), false, |ui| players::ui(ui, session, theme, out));
    row::section(ui, theme, mark("Court, ball and air"), false, |ui| conditions::ui(ui, session, theme, out));
}
