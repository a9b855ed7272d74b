//! Panels read the board and its answer, and send actions.

pub mod answer;
pub mod conditions;
pub mod headline;
pub mod pages;
pub mod players;
pub mod rally;
pub mod recovery;
pub mod replies;
pub mod side;
pub mod side_view;
pub mod situation;
pub mod status;
pub mod tools;
pub mod compare;
