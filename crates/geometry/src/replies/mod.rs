//! What a reply is called and which way it goes.

pub(crate) mod naming;
