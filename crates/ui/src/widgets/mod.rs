//! The building blocks of panels and dialogs.

pub mod ends;
pub mod list;
pub mod menu;
pub mod mini;
pub mod plot;
pub mod primary;
pub mod row;
pub mod tabs;
