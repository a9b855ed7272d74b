//! Replies: their names, their ways, and a player's habits in choosing them.

pub(crate) mod habits;
pub(crate) mod naming;
