//! How the window is opened.

use std::path::PathBuf;

use standpoint_ui::commands::Command;
use standpoint_workbench::{settings::Settings, solved::Shelf};

use crate::test_hooks::TestHooks;

/// How the window is opened.
#[derive(Debug, Default)]
pub struct Start {
    /// The board to open; the demo board otherwise.
    pub file: Option<PathBuf>,
    /// Where the settings are kept; nowhere when there is no place.
    pub settings_dir: Option<PathBuf>,
    /// The settings in use where they are kept nowhere.
    pub settings: Settings,
    /// Where copies of unsaved work are kept; nowhere when there is no place.
    pub data_dir: Option<PathBuf>,
    /// Where solved rallies are kept; without it none is solved in the background.
    pub solved: Option<Shelf>,
    /// A picture to make of the window.
    pub picture: Option<PathBuf>,
    /// Frames to measure while the target is dragged.
    pub frames: Option<usize>,
    /// What comes first.
    pub first: First,
    /// Commands to run as soon as the board is there.
    pub commands: Vec<Command>,
    /// What is measured and tried from outside.
    pub test_hooks: TestHooks,
    /// The language of the window.
    pub speaks: Speaks,
}

/// Which language the window speaks at its start.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Speaks {
    /// English, whatever is set: tests read what is said.
    #[default]
    English,
    /// That of the settings.
    AsSet,
    /// This one.
    This(standpoint_language::Language),
}

/// What the window opens with.
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
