//! The shot: the situation, aiming, and the shot's quality.

pub(crate) mod aim;
pub(crate) mod quality;
pub(crate) mod situation;
pub(crate) mod stroke;
