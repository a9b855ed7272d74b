//! Player figures from measurements: typed forms and their fits.

pub mod fits;
pub mod forms;
