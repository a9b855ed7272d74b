//! Version 1 of the format. It is frozen: boards of this version load for ever, see `tests/boards/v1`. Only later
//! versions are written; they take from here what has stayed the same.

pub(crate) mod convert;
pub(crate) mod layout;
mod names;
pub(crate) mod read;

pub(super) use read::read;

/// Number of this version.
pub(super) const VERSION: u32 = 1;
