//! Everything that can be asked for, as plain data: one catalogue of commands, and what panels, canvas and menus send.

mod board;
pub mod catalogue;
mod chart;
pub mod choices;
pub mod command;
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
mod weigh;

pub use command::{
    BoardCommand, ChartCommand, Command, DrawCommand, HelpCommand, LibraryCommand, LookCommand, PageCommand,
    RallyCommand, TeachCommand, ViewCommand, WeighCommand,
};
pub use spec::{Menu, Spec};

use std::path::PathBuf;

use standpoint_workbench::edit::{Edit, Gesture};

/// What must be known to tell which commands can be used and which are on.
#[derive(Debug, Clone, Default, PartialEq)]
#[expect(clippy::struct_excessive_bools, reason = "a plain list of facts, each asked on its own")]
pub struct Facts {
    /// What undo would take back.
    pub undo: Option<&'static str>,
    /// What redo would take again.
    pub redo: Option<&'static str>,
    /// Whether the board differs from its file.
    pub unsaved: bool,
    /// Whether a file dialog is open.
    pub busy: bool,
    /// Whether the opponent's contact was put somewhere by hand.
    pub receipt_moved: bool,
    /// Whether the hitter's place was put somewhere by hand.
    pub hitter_moved: bool,
    /// Whether the court fills the canvas.
    pub fitted: bool,
    /// The parts of the window that are shown.
    pub parts: PartFacts,
    /// Whether lengths are in feet.
    pub feet: bool,
    /// How the rally and the pages stand.
    pub rally: RallyFacts,
    /// How the weighing of shots stands.
    pub weigh: WeighFacts,
    /// How the drawing stands.
    pub sketch: SketchFacts,
    /// The settings.
    pub settings: standpoint_workbench::settings::Settings,
    /// The colours of the court.
    pub colours: standpoint_workbench::edit::Colours,
    /// How the chart room stands.
    pub chart: standpoint_workbench::chart::ChartFacts,
}

impl Facts {
    /// What could be done with another page or shot than the one that is shown.
    #[must_use]
    pub fn at(&self, at: standpoint_workbench::selection::Selection) -> Self {
        Self { rally: RallyFacts { at, ..self.rally }, ..self.clone() }
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
    /// Whether the shot is met, so that there is somewhere to recover to.
    pub met: bool,
    /// Whether the hitter recovers to a place chosen by hand.
    pub recovers_elsewhere: bool,
    /// The player of rallies.
    pub playback: standpoint_board::playback::Playback,
    /// Length of the rally, s.
    pub duration: f64,
}

/// How the weighing of shots stands.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct WeighFacts {
    /// The part of the panel that is open.
    pub page: standpoint_workbench::weigh::state::Page,
    /// What is shown on the court now.
    pub on_court: standpoint_workbench::settings::Layers,
    /// Whether targets are judged by the recovery to the middle.
    pub to_middle: bool,
    /// Whether the hitter goes to the net behind the shot.
    pub approach: bool,
}

/// How the drawing on the page stands.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct SketchFacts {
    /// The tool in hand; none is the hand itself.
    pub tool: Option<standpoint_workbench::sketch::tool::Tool>,
    /// The ink in use.
    pub ink: standpoint_board::marks::Ink,
    /// Marks on the page.
    pub marks: usize,
    /// How many are chosen.
    pub chosen: usize,
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

/// What panels, canvas and menus send; applied in one place after they have been shown.
#[derive(Debug, Clone, PartialEq)]
pub enum Action {
    /// A command of the catalogue.
    Run(Command),
    /// A change of the board.
    Edit(Edit),
    /// A gesture begins, ends or is given up.
    Gesture(Gesture),
    /// A rearrangement of shots or pages.
    Arrange(standpoint_workbench::arrange::Arrange),
    /// Another shot or page is looked at.
    Select(standpoint_workbench::selection::Selection),
    /// The rally is played.
    Play(standpoint_board::playback::Control),
    /// A change of what is weighed.
    Weigh(standpoint_workbench::weigh::state::Change),
    /// A change of what is drawn on the page.
    Draw(standpoint_workbench::sketch::draw::Draw),
    /// Other marks are chosen.
    ChooseMarks(Vec<standpoint_board::marks::MarkId>),
    /// A new view of the court.
    View(crate::transform::View),
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
    /// What becomes of unsaved work that was left.
    LeftWork(crate::commands::choices::LeftChoice),
    /// What is to be done about a file that is open elsewhere or not as it was.
    Conflict(crate::commands::choices::ConflictChoice),
    /// Open this teaching board.
    OpenTeaching(crate::commands::choices::Pick),
    /// Choose the folder of one's own teaching boards.
    ChooseOwnFolder,
    /// List the boards of this folder in the library.
    OwnFolder(PathBuf),
    /// Something in the chart room.
    Chart(standpoint_workbench::chart::Act),
    /// Read the table of the import dialog.
    ReadTable,
    /// Close whatever dialog is open.
    CloseDialog,
}

/// What was asked for during a frame.
pub type Outbox = Vec<Action>;
