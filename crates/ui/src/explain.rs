//! Requests for the explanation of a figure.

use egui::{Context, Id};
use standpoint_workbench::explain::ExplainStep;

/// Requests a step, from any figure.
pub fn ask(ctx: &Context, step: ExplainStep) {
    ctx.data_mut(|data| data.insert_temp(asked_id(), step));
}

/// The step requested since the last call.
#[must_use]
pub fn asked(ctx: &Context) -> Option<ExplainStep> {
    ctx.data_mut(|data| data.remove_temp(asked_id()))
}

fn asked_id() -> Id {
    Id::unique("how a figure came about")
}
