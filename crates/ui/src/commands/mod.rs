//! The vocabulary as plain data: one catalogue of commands, and the actions that panels, canvas and menus send.

mod board;
pub mod catalogue;
mod chart;
pub mod choices;
pub mod command;
mod compare;
mod help;
pub mod key_names;
mod library;
mod look;
mod pages;
mod rally;
mod sketch;
pub mod spec;
mod teach;
mod view;

pub use command::{
    BoardCommand, ChartCommand, Command, CompareCommand, DrawCommand, HelpCommand, LibraryCommand, LookCommand,
    PageCommand, RallyCommand, TeachCommand, ViewCommand,
};
pub use spec::{Menu, Spec};

use std::path::PathBuf;

use standpoint_workbench::edit::{Edit, Gesture};

/// State that decides which commands are enabled and which are on.
#[derive(Debug, Clone, Default, PartialEq)]
#[expect(clippy::struct_excessive_bools, reason = "a plain list of facts, each asked on its own")]
pub struct Facts {
    /// Label of the step to undo.
    pub undo: Option<&'static str>,
    /// Label of the step to redo.
    pub redo: Option<&'static str>,
    /// Whether the board differs from its file.
    pub unsaved: bool,
    /// Whether a file dialog is open.
    pub busy: bool,
    /// Whether the opponent's contact was placed by hand.
    pub receipt_moved: bool,
    /// Whether the hitter was placed by hand.
    pub hitter_moved: bool,
    /// Whether the court fills the canvas.
    pub fitted: bool,
    /// The parts of the window that are shown.
    pub parts: PartFacts,
    /// Whether lengths are in feet.
    pub feet: bool,
    /// State of rally and pages.
    pub rally: RallyFacts,
    /// State of the comparison.
    pub comparison: CompareFacts,
    /// State of the drawing tools.
    pub sketch: SketchFacts,
    /// The settings.
    pub settings: standpoint_workbench::settings::Settings,
    /// The colours of the court.
    pub colours: standpoint_workbench::edit::Colours,
    /// State of the chart room.
    pub chart: standpoint_workbench::chart::ChartFacts,
}

impl Facts {
    /// The facts for another page or shot than the one that is shown.
    #[must_use]
    pub fn at(&self, at: standpoint_workbench::selection::Selection) -> Self {
        Self { rally: RallyFacts { at, ..self.rally }, ..self.clone() }
    }

    /// Whether all chosen marks appear with a step of the shot that is looked at.
    #[must_use]
    pub fn appear_with(&self, step: standpoint_board::marks::Step) -> bool {
        self.sketch.appear == Some(standpoint_board::marks::Appears { shot: self.rally.at.shot, step })
    }
}

/// The parts of the window that are shown.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
#[expect(clippy::struct_excessive_bools, reason = "a plain list of facts, each asked on its own")]
pub struct PartFacts {
    /// Whether the court stands alone.
    pub clean: bool,
    /// Whether the side panel is there.
    pub panel: bool,
    /// Whether the row of shots is there.
    pub rally: bool,
    /// Whether the pages are there.
    pub pages: bool,
}

/// How the rally and the pages stand.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct RallyFacts {
    /// What is being looked at.
    pub at: standpoint_workbench::selection::Selection,
    /// Shots on the page.
    pub shots: usize,
    /// Pages of the board.
    pub pages: usize,
    /// Whether the shot follows the one before.
    pub follows: bool,
    /// Whether the shot is met, so that a recovery place exists.
    pub met: bool,
    /// Whether the hitter recovers to a place chosen by hand.
    pub recovers_elsewhere: bool,
    /// Playback of the rally.
    pub playback: standpoint_board::playback::Playback,
    /// Length of the rally, s.
    pub duration: f64,
}

/// State of the comparison.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct CompareFacts {
    /// The part of the panel that is open.
    pub page: standpoint_workbench::compare::state::Page,
    /// What is shown on the court now.
    pub on_court: standpoint_workbench::settings::Layers,
    /// Whether targets are judged by the recovery to the middle.
    pub to_middle: bool,
    /// Whether the hitter goes to the net behind the shot.
    pub approach: bool,
}

/// State of the drawing on the page.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct SketchFacts {
    /// The current tool; `None` drags handles.
    pub tool: Option<standpoint_workbench::sketch::tool::Tool>,
    /// The ink in use.
    pub ink: standpoint_board::marks::Ink,
    /// Marks on the page.
    pub marks: usize,
    /// How many are chosen.
    pub chosen: usize,
    /// From when on the chosen marks are there in a presentation, where it is the same for all.
    pub appear: Option<standpoint_board::marks::Appears>,
    /// Layers that are not shown.
    pub hidden: Vec<standpoint_board::marks::Layer>,
}

impl SketchFacts {
    /// Whether a layer is shown.
    #[must_use]
    pub fn shows(&self, layer: standpoint_board::marks::Layer) -> bool {
        !self.hidden.contains(&layer)
    }
}

/// Actions of panels, canvas and menus; applied in one place after they have been shown.
#[derive(Debug, Clone, PartialEq)]
pub enum Action {
    /// A command of the catalogue.
    Run(Command),
    /// A change of the board.
    Edit(Edit),
    /// A gesture begins, ends or is cancelled.
    Gesture(Gesture),
    /// A rearrangement of shots or pages.
    Arrange(standpoint_workbench::arrange::Arrange),
    /// Another shot or page is looked at.
    Select(standpoint_workbench::selection::Selection),
    /// The rally is played.
    Play(standpoint_board::playback::Control),
    /// A change of the comparison.
    Compare(standpoint_workbench::compare::state::Change),
    /// A change of marks.
    Draw(standpoint_workbench::sketch::draw::Draw),
    /// Other marks are chosen.
    ChooseMarks(Vec<standpoint_board::marks::MarkId>),
    /// A new view of the court.
    View(crate::transform::CourtView),
    /// Open this board.
    OpenPath(PathBuf),
    /// Save the board here.
    SavePath(PathBuf),
    /// Choose where a sheet or picture goes, and make it.
    Export(Box<standpoint_workbench::wanted::Export>),
    /// Make the sheet or picture that was asked for here.
    ExportPath(PathBuf),
    /// Answer to the question about unsaved changes.
    Guard(crate::commands::choices::Unsaved),
    /// Choice about work left by a crash.
    LeftWork(crate::commands::choices::LeftChoice),
    /// Choice about a file that is open elsewhere or has changed.
    Conflict(crate::commands::choices::ConflictChoice),
    /// Open this teaching board.
    OpenTeaching(crate::commands::choices::Pick),
    /// Choose the user's folder of teaching boards.
    ChooseOwnFolder,
    /// List the boards of this folder in the library.
    OwnFolder(PathBuf),
    /// An action of the chart room.
    Chart(standpoint_workbench::chart::Act),
    /// Read the table of the import dialog.
    ReadTable,
    /// Close whatever dialog is open.
    CloseDialog,
}

/// The actions of a frame.
pub type Outbox = Vec<Action>;
