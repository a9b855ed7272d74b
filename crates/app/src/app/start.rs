//! Start options of the window.

use std::path::PathBuf;

use standpoint_ui::commands::Command;
use standpoint_workbench::{settings::Settings, solved::Shelf};

use crate::test_hooks::TestHooks;

/// Start options of the window.
#[derive(Debug, Default)]
pub struct Start {
    /// The board to open; the demo board otherwise.
    pub file: Option<PathBuf>,
    /// Directory of the settings, if there is one.
    pub settings_dir: Option<PathBuf>,
    /// The settings in use where they are kept nowhere.
    pub settings: Settings,
    /// Where copies of unsaved work are kept; nowhere when there is no place.
    pub data_dir: Option<PathBuf>,
    /// Shelf of solved games; without it none is solved in the background.
    pub solved: Option<Shelf>,
    /// Screenshot to take.
    pub picture: Option<PathBuf>,
    /// Frames to measure while the target is dragged.
    pub frames: Option<usize>,
    /// What comes first.
    pub first: First,
    /// Commands to run once the board is loaded.
    pub commands: Vec<Command>,
    /// Hooks for tests from outside the process.
    pub test_hooks: TestHooks,
    /// The language of the window.
    pub speaks: Speaks,
}

/// Which language the window speaks at its start.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Speaks {
    /// English whatever is set, for tests.
    #[default]
    English,
    /// That of the settings.
    AsSet,
    /// This one.
    This(standpoint_language::Language),
}

/// The room the window opens with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum First {
    /// The board.
    #[default]
    Board,
    /// The board on the whole screen.
    Present,
    /// A rehearsal.
    Rehearse(standpoint_workbench::rehearsal::Begin),
}
