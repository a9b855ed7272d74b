//! Drawing on a page: changes, tools, and places as measured by tape.

pub mod draw;
pub mod tape;
pub mod tool;
