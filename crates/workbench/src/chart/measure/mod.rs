//! Players from measurements: what is typed, and what it gives.

pub mod fits;
pub mod forms;
