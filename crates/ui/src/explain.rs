//! A figure that was clicked asks how it came about.

use egui::{Context, Id};
use standpoint_workbench::explain::Step;

/// Asks for a step, from wherever a figure stands.
pub fn ask(ctx: &Context, step: Step) {
    ctx.data_mut(|data| data.insert_temp(asked_id(), step));
}

/// The step that was asked for since the last time.
#[must_use]
pub fn asked(ctx: &Context) -> Option<Step> {
    ctx.data_mut(|data| data.remove_temp(asked_id()))
}

fn asked_id() -> Id {
    Id::unique("how a figure came about")
}
