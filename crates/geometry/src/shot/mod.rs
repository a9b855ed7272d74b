//! The shot: the question put to the solver, how it is aimed, and how surely it goes in.

pub(crate) mod aim;
pub(crate) mod quality;
pub(crate) mod situation;
pub(crate) mod stroke;
