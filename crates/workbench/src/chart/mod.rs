//! The notes of a match: where they are kept, their files, their audit, and the actions of the chart room.

pub mod files;
pub mod filters;
pub mod leave;
pub mod measure;
pub mod names;
pub mod sample;
pub mod source;
pub mod trend;
pub mod worker;

use std::path::PathBuf;

use glam::DVec2;
use standpoint_board::{
    PlayerCard,
    chart::{
        Chart, SessionInfo,
        score::{Ending, Miss, ServeCall, ServeNumber},
    },
};
use standpoint_charting::{
    audit::{AuditedShot, Compare},
    notebook::{At, Live, ShotPlace, Tell},
    pictures::Kind,
};
use standpoint_geometry::{End, Stroke, Wing};

pub use files::{ChartFile, Done};
pub use source::{ChartSource, NotesLocation};

/// Tab of the room.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Tab {
    /// Noting a match.
    #[default]
    Note,
    /// Where players stood compared with where the model has them.
    Audit,
    /// Player figures from measurements.
    Measure,
}

/// Action of the room.
#[derive(Debug, Clone, PartialEq)]
pub enum Act {
    /// Another face.
    Tab(Tab),
    /// Back to the board.
    Leave,
    /// The next place.
    Place(DVec2),
    /// The next place did not occur or was not seen.
    Skip,
    /// The point is over.
    EndPoint,
    /// A match is noted live from now on, or place by place.
    Live(Option<Live>),
    /// The last ball was not returned.
    NotReturned,
    /// A ball was missed.
    Missed(Miss),
    /// A let.
    Let,
    /// Whether the error that ended the last point was forced.
    ErrorWas(Ending),
    /// The other player serves.
    SwapServer,
    /// Something is told of a point.
    Tell(usize, Tell),
    /// What is known of a session.
    TellSession(Box<SessionInfo>),
    /// What was called of a serve.
    Call(Option<ServeCall>),
    /// Which serve it was.
    ServeNumber(Option<ServeNumber>),
    /// The clock is started, paused or set.
    Clock(ClockAct),
    /// Kind of stroke.
    Stroke(Stroke),
    /// Wing.
    Wing(Wing),
    /// The session that new points belong to.
    Session(String),
    /// The players change ends.
    ChangeEnds,
    /// Takes a point out.
    RemovePoint(usize),
    /// Selects a noted shot, or none.
    Pick(Option<At>),
    /// Selects the next shot (`true`) or the previous one.
    PickBeside(bool),
    /// Moves a place of the selected shot.
    Move {
        /// Which.
        step: ShotPlace,
        /// Where to.
        place: DVec2,
        /// Whether this ends the move.
        done: bool,
    },
    /// A place of the selected shot did not occur or was not seen.
    Unseen(ShotPlace),
    /// Contact height of the selected shot, m.
    Height(Option<f64>),
    /// Speed of the selected shot off the racket, m/s.
    Speed(Option<f64>),
    /// Takes it out.
    RemoveShot,
    /// The next shot is inserted after the selected one (`true`) or before it.
    Insert(bool),
    /// The session that a point belongs to.
    SessionOf(usize, String),
    /// Name of a point.
    Label(usize, String),
    /// Title of the chart.
    Title(String),
    /// Name of the player who began at an end.
    Name(End, String),
    /// Works on the notes kept at this location.
    Keep(NotesLocation),
    /// Moves the notes to the other location.
    MoveNotes,
    /// Takes players and conditions from the board.
    TakeSetup,
    /// Takes the last step back.
    Undo,
    /// A file was chosen, or its path typed.
    File(ChartFile, PathBuf),
    /// The choice about unsaved notes.
    Left(crate::chart::leave::NotesChoice),
    /// Asks for a file.
    Ask(ChartFile),
    /// The chart of an imported table.
    Take(Box<Chart>),
    /// The same behind what is noted.
    Add(Box<Chart>),
    /// Begins the audit.
    Audit,
    /// Restarts the audit with this comparison.
    Compare(Compare),
    /// Whether reports are made for Letter paper.
    Letter(bool),
    /// Gives it up.
    Stop,
    /// The player whose figures are shown.
    Player(End),
    /// Gives a player of the chart these figures.
    UseInChart(End, Box<PlayerCard>),
    /// Gives a player of the board the measured figures.
    UseOnBoard(End, Box<crate::chart::measure::fits::Fit>),
    /// Opens a moment as a board.
    Open(Box<AuditedShot>),
    /// Sheets of drills for these findings, by their places in the report.
    Drills(Vec<usize>),
    /// The drill of a finding as a board.
    OpenDrill(usize),
    /// The moments of a finding to be rehearsed.
    Rehearse(usize),
    /// Which shots are shown.
    Filter(Box<filters::Filters>),
    /// A picture of the shots to be saved, or all of them.
    Picture(Option<Kind>),
    /// Something about the roster.
    Roster(RosterAct),
}

/// What is asked for about the roster.
#[derive(Debug, Clone, PartialEq)]
pub enum RosterAct {
    /// A player plays at an end of the board, or in the match where the room is open, by where they began.
    Put(End, String),
    /// The player at an end of the board is kept.
    Keep(End),
    /// A player whose figures were measured is kept, with what was found.
    KeepMeasured(Box<PlayerCard>, String),
    /// The match is entered for both of its players.
    LogMatch,
    /// The player at an end of the board is played against by habits that were seen.
    Habits(End, HabitsFrom),
    /// The opponent on the board is played against by the habits of a player of these notes, by where they began.
    Against(End),
}

/// Where habits come from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum HabitsFrom {
    /// All matches of a player of the roster.
    Roster(String),
    /// The notes in view, or those of the board where the room is closed, of the player who began at an end.
    Notes(End),
}

/// What is done to the clock of a match.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ClockAct {
    /// It runs.
    Start,
    /// It stands still.
    Pause,
    /// It says so many seconds.
    Set(f64),
}

/// State of the room that decides which commands are enabled.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct ChartFacts {
    /// Whether it is open.
    pub open: bool,
    /// What it is used for.
    pub tab: Tab,
    /// Where the notes are kept.
    pub kept: NotesLocation,
    /// Shots noted.
    pub shots: usize,
    /// Whether there is an audit of them.
    pub audited: bool,
}

/// The action for a file dropped on the window, if it belongs to the room.
#[must_use]
pub fn dropped(path: &std::path::Path) -> Option<Act> {
    if path.is_dir() {
        return Some(Act::File(ChartFile::Season, path.to_owned()));
    }
    let ending = path.extension()?.to_string_lossy().to_lowercase();
    let paper = match ending.as_str() {
        "csv" | "tsv" | "txt" => ChartFile::Import,
        standpoint_board::chart::file::EXTENSION => ChartFile::Open,
        _ => return None,
    };
    Some(Act::File(paper, path.to_owned()))
}
