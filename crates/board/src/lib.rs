//! The Standpoint document: boards and charts, their history and their files.
//!
//! * [`model`] is the board itself: the conditions, the two players and the pages with their shots. It holds SI units
//!   and the world frame of [`standpoint_geometry`], and [`model::Board::situation`] makes the solver's input for one
//!   shot.
//! * [`pages`] doubles, moves and mirrors pages; [`rally`] lets shots follow one another, [`playback`] lays them out in
//!   time, [`patterns`] has ready ones.
//! * [`marks`] has the drawing on a page, [`measure`] measures its places by tape.
//! * [`play_area`] clamps places to the playing area during a drag.
//! * [`check`] reports the problems of a board, [`problem`] has their wording and remedies.
//! * [`history`] undoes and redoes; one gesture is one step.
//! * [`mod@file`] turns boards into text and back, one module for each version of the format.
//! * [`chart`] has the notes of a match, with score and file.
//! * [`store`] reads and writes that text without ever losing the former file.
//! * [`rehearse`] makes exercises, scores answers and remembers them.
//! * [`roster`] keeps players in a folder.
//! * [`library`] has teaching boards to choose from.
//! * [`recovery_copy`] keeps crash copies, [`lock`] tells a second window that a board is open already.
//!
//! No window and no clock. Only one place starts a thread, for work that would block a window: the writer of crash
//! copies. [`dice`] is the only source of randomness, and seeded.

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
pub mod play_area;
pub mod playback;
pub mod player_card;
pub mod problem;
pub mod rally;
pub mod recovery_copy;
pub mod rehearse;
pub mod roster;
pub mod store;
pub mod teaching;

pub use choices::{BounceFigures, CourtChoice, SurfaceChoice, Units};
pub use history::History;
pub use model::{Board, Drill, Page, ShotSpec};
pub use play_area::PlayArea;
pub use player_card::{Figures, KnownHabits, PlayerCard};
pub use problem::{Place, Problem, ProblemKind, Report};

/// Connects the texts of this crate to [`standpoint_language::speak`]; before that they are English.
pub fn speak_up() {
    standpoint_language::set_translator!(standpoint_language::Catalogue);
}
