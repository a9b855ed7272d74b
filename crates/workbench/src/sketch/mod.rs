//! Drawing on a page: the changes, the tools, and places as a tape measures them.

pub mod draw;
pub mod tape;
pub mod tool;
