//! The notes of a match: where they are kept, their files and their audit, and what can be asked for in the chart room.

pub mod files;
pub mod filters;
pub mod leave;
pub mod measure;
pub mod names;
pub mod sample;
pub mod source;
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
    notebook::{At, Live, Step, Tell},
    pictures::Kind,
};
use standpoint_geometry::{frame::End, player::Wing, situation::Stroke};

pub use files::{ChartFile, Done};
pub use source::{ChartSource, NotesLocation};

/// What the room is used for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Tab {
    /// Noting a match.
    #[default]
    Note,
    /// Where players stood against where they should have.
    Audit,
    /// Players from measurements.
    Measure,
}

/// What is asked for in the room.
#[derive(Debug, Clone, PartialEq)]
pub enum Act {
    /// Another face.
    Tab(Tab),
    /// Back to the board.
    Leave,
    /// The next place.
    Place(DVec2),
    /// The next place was not there or not seen.
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
    /// Takes a noted shot up, or lets go of it.
    Pick(Option<At>),
    /// Takes up the next shot, or the one before.
    PickBeside(bool),
    /// Moves a place of the shot that is taken up.
    Move {
        /// Which.
        step: Step,
        /// Where to.
        place: DVec2,
        /// Whether that ends the move.
        done: bool,
    },
    /// A place of that shot was not there or not seen.
    Unseen(Step),
    /// Height of its contact, m.
    Height(Option<f64>),
    /// Its speed off the racket, m/s.
    Speed(Option<f64>),
    /// Takes it out.
    RemoveShot,
    /// The next shot comes behind it, or before it.
    Insert(bool),
    /// The session that a point belongs to.
    SessionOf(usize, String),
    /// What a point is called.
    Label(usize, String),
    /// What the chart is called.
    Title(String),
    /// What the player who began at an end is called.
    Name(End, String),
    /// The notes kept so are the ones to work on.
    Keep(NotesLocation),
    /// The notes are kept the other way from now on.
    MoveNotes,
    /// Plays with the players and the conditions of the board.
    TakeSetup,
    /// Takes the last step back.
    Undo,
    /// A file was chosen, or its path typed.
    File(ChartFile, PathBuf),
    /// What becomes of unsaved notes.
    Left(crate::chart::leave::NotesChoice),
    /// A file is to be chosen.
    Ask(ChartFile),
    /// The chart of an imported table.
    Take(Box<Chart>),
    /// The same behind what is noted.
    Add(Box<Chart>),
    /// Begins the audit.
    Audit,
    /// Begins it anew, and looks for the spot there.
    Compare(Compare),
    /// Which paper reports are made for.
    Letter(bool),
    /// Gives it up.
    Stop,
    /// The player whose figures are shown.
    Player(End),
    /// A player of the chart has these figures from now on.
    UseInChart(End, Box<PlayerCard>),
    /// A player of the board has what was measured from now on.
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

/// What must be known of the room to tell which commands can be used.
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

/// What to do with a file that was dropped on the window, if it is one of the room.
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
