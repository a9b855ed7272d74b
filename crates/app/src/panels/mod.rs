//! Panels read the board and its answer, and send what was asked for.

pub mod answer;
pub mod conditions;
pub mod ends;
pub mod headline;
pub mod menu;
pub mod mini;
pub mod pages;
pub mod players;
pub mod plot;
pub mod rally;
pub mod recovery;
pub mod replies;
pub mod row;
pub mod side;
pub mod side_view;
pub mod situation;
pub mod status;
pub mod tabs;
pub mod tools;
pub mod weigh;
