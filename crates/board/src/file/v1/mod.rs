//! Version 1 of the format. It is frozen: boards of this version load for ever, see `tests/boards/v1`.

mod convert;
mod layout;
mod names;
mod read;

pub(super) use convert::tidy_shot;
pub(super) use layout::BoardFile;
pub(super) use read::read;

/// Number of this version.
pub(super) const VERSION: u32 = 1;
