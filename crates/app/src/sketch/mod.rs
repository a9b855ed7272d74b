//! Drawing on a page: the changes, and places as a tape measures them.

pub mod draw;
pub mod tape;
