//! What must hold for any bytes whatever that Standpoint is given to read.
//!
//! Each module has one function `check`, which panics where something does not hold. The fuzz targets feed them random
//! bytes; the tests of the workspace include these files and feed them what fuzzing has kept in `corpus`.

pub mod board;
pub mod chart;
pub mod roster;
pub mod season;
pub mod table;
