//! Panels read the board and its answer, and send actions.

pub mod answer;
pub mod compare;
pub mod conditions;
mod habits;
pub mod headline;
pub mod pages;
pub mod players;
pub mod rally;
pub mod recovery;
pub mod replies;
pub mod side;
pub mod side_view;
pub mod situation;
pub mod status;
pub mod tools;

use egui::Response;
use standpoint_ui::{
    commands::{Action, Outbox},
    widgets::row::Changed,
};
use standpoint_workbench::edit::{Edit, Gesture};

/// Sends what a person did to a control as a change of the board.
fn edited<T>(changed: Changed<T>, out: &mut Outbox, edit: impl FnOnce(T) -> Edit) -> Response {
    out.extend(changed.value.map(|value| Action::Edit(edit(value))));
    if changed.ended {
        out.push(Action::Gesture(Gesture::Seal));
    }
    changed.response
}
