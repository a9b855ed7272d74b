//! Version 1 of the format. It is frozen: boards of this version stay loadable, see `tests/boards/v1`. Only later
//! versions are written; they reuse the unchanged parts of this one.

pub(crate) mod convert;
pub(crate) mod layout;
mod names;
pub(crate) mod read;

pub(super) use read::read;

/// Number of this version.
pub(super) const VERSION: u32 = 1;
