//! The Standpoint document: what is on a board, how it changes and how it is kept.
//!
//! * [`model`] is the board itself: the conditions, the two players and the pages with their shots. It holds SI units
//!   and the world frame of [`standpoint_geometry`], and [`model::Board::situation`] puts the question of one shot
//!   to the solver.
//! * [`pages`] doubles, moves and mirrors pages; [`rally`] lets shots follow one another, [`playback`] lays them out in
//!   time, [`patterns`] has ready ones.
//! * [`marks`] is what is drawn on a page, [`measure`] finds its places with a tape.
//! * [`site`] keeps places where they make sense while a person drags them.
//! * [`check`] says everything that is wrong with a board, [`problem`] puts it in words with the remedy.
//! * [`history`] undoes and redoes; one gesture is one step.
//! * [`mod@file`] turns boards into text and back, one module for each version of the format.
//! * [`chart`] holds what really happened: the notes of a match, with their score and their file.
//! * [`store`] reads and writes that text without ever losing the former file.
//! * [`rehearse`] makes situations to find the place for, scores the answers and remembers them.
//! * [`roster`] keeps players in a folder.
//! * [`library`] has teaching boards to choose from.
//! * [`recovery_copy`] keeps copies of unsaved work, [`lock`] tells a second window that a board is open already.
//!
//! This crate knows no window and no clock. A thread is begun in one place only, for work that would hold a window up:
//! copies of unsaved work are written on it. [`dice`] is the one source of chance, and seeded.

pub mod chart;
pub mod check;
pub mod choices;
pub mod demo;
pub mod dice;
pub mod file;
pub mod history;
pub mod library;
pub mod lock;
pub mod marks;
pub mod measure;
pub mod model;
pub mod pages;
pub mod patterns;
pub mod playback;
pub mod player_card;
pub mod problem;
pub mod rally;
pub mod recovery_copy;
pub mod rehearse;
pub mod roster;
pub mod site;
pub mod store;
pub mod teaching;

pub use choices::{BounceFigures, CourtChoice, SurfaceChoice, Units};
pub use history::History;
pub use model::{Board, Drill, Page, ShotSpec};
pub use player_card::{Figures, PlayerCard};
pub use problem::{Place, Problem, ProblemKind, Report};
pub use site::Site;

/// Lets the texts of this crate follow [`standpoint_language::speak`]; until then they are English.
pub fn speak_up() {
    standpoint_language::set_translator!(standpoint_language::Catalogue);
}
