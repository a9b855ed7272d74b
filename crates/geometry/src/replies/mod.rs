//! What a reply is called, which way it goes, and how often a player was seen to send it there.

pub(crate) mod habits;
pub(crate) mod naming;
