//! The names of the players that are kept, for lists to choose from.

use std::sync::Arc;

use egui::{Context, Id};

/// The names from now on.
pub fn set(ctx: &Context, names: Arc<[String]>) {
    ctx.data_mut(|data| data.insert_temp(id(), names));
}

/// The names as last read.
#[must_use]
pub fn names(ctx: &Context) -> Arc<[String]> {
    ctx.data(|data| data.get_temp(id())).unwrap_or_default()
}

fn id() -> Id {
    Id::unique("names of the roster")
}
