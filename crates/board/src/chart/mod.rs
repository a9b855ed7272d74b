//! Charted points of real matches. Their analysis is in the crate `charting`.
//!
//! * [`model`] is the chart: short rows of observed shots, with the players and the conditions; [`date`] says when.
//! * [`mod@file`] turns charts into text and back, [`check`] reports their problems.
//! * [`score`] counts the match by the rules, [`lines`] decides which balls are out.

pub mod check;
pub mod date;
pub mod ends;
pub mod file;
pub mod lines;
pub mod model;
pub mod score;

pub use date::Date;
pub use ends::Ends;
pub use model::{Chart, ObservedShot, Point, SessionInfo, Setup, Who};
