//! Version 2 of the format: pages with cues and marks, shots that follow one another.
//!
//! Parts unchanged since version 1 are reused from it; it is frozen, so it cannot change under this version.

mod convert;
mod layout;
mod names;
mod read;

pub(super) use convert::{tidy_marks, tidy_shot};
pub(super) use layout::{BoardFile, MarkFile};
pub(super) use read::{read, read_marks};

/// Number of this version.
pub(super) const VERSION: u32 = 2;
