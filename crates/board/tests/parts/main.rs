//! Marks and the history, through what they show to others.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod history;
mod marks;
