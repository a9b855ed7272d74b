//! The players that are kept, for lists to choose from.

use std::sync::Arc;

use egui::{Context, Id};

/// A player by name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Known {
    /// The name.
    pub name: String,
    /// In how many matches it was counted where the player sends the ball.
    pub matches: usize,
}

/// The players from now on.
pub fn set(ctx: &Context, players: Arc<[Known]>) {
    ctx.data_mut(|data| data.insert_temp(id(), players));
}

/// The players as last read.
#[must_use]
pub fn players(ctx: &Context) -> Arc<[Known]> {
    ctx.data(|data| data.get_temp(id())).unwrap_or_default()
}

fn id() -> Id {
    Id::unique("names of the roster")
}
