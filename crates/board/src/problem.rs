//! Problems of a board, each with its wording and remedy.

use std::fmt;

use standpoint_language::tr;

mod places;
mod slips;
mod words;

pub use self::{
    places::where_said,
    slips::{listed, nearest},
};

/// Line and column in a file, both counted from 1, columns in characters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place {
    /// Line.
    pub line: usize,
    /// Character in the line.
    pub column: usize,
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&tr!("line {}, column {}", self.line, self.column))
    }
}

/// One problem.
#[derive(Debug, Clone, PartialEq)]
pub struct Problem {
    /// Where in the file; `None` for a board that is not read from one.
    pub at: Option<Place>,
    /// Which part of the board, as the file names it: `pages[0].shots[2].contact.x`. Empty for the file as a whole.
    pub role: String,
    /// What is wrong.
    pub kind: ProblemKind,
}

impl Problem {
    /// A problem of a board that is not read from a file.
    #[must_use]
    pub fn new(role: impl Into<String>, kind: ProblemKind) -> Self {
        Self { at: None, role: role.into(), kind }
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(at) = self.at {
            write!(f, "{at}: ")?;
        }
        if !self.role.is_empty() {
            write!(f, "{}: ", where_said(&self.role))?;
        }
        write!(f, "{}. {}", self.kind, self.kind.remedy())
    }
}

/// What is wrong.
#[derive(Debug, Clone, PartialEq)]
pub enum ProblemKind {
    /// Nothing in the file but blanks and comments.
    Empty,
    /// Bytes that are not text.
    NotText {
        /// Offset of the first wrong byte.
        byte: usize,
    },
    /// The board would be too large to be read again with its chart.
    ChartTooLarge {
        /// Size with the chart, bytes.
        bytes: u64,
        /// Size allowed, bytes.
        limit: u64,
    },
    /// More bytes than a board may have.
    TooLarge {
        /// Size found.
        bytes: u64,
        /// Size allowed.
        limit: u64,
    },
    /// Brackets within brackets beyond what a board needs.
    TooDeep {
        /// Depth allowed.
        limit: usize,
    },
    /// More values than a board may have.
    TooManyValues {
        /// Number allowed.
        limit: usize,
    },
    /// Not the notation of a board.
    Syntax {
        /// What should be here.
        expected: &'static str,
        /// What is here.
        found: String,
    },
    /// The file ends inside something.
    Unclosed {
        /// What is open.
        what: &'static str,
        /// Where it begins.
        opened: Place,
    },
    /// Not a board at all.
    NotABoard,
    /// Not a chart at all.
    NotAChart,
    /// Not a player of the roster at all.
    NotAPlayer,
    /// Written by a later program.
    NewerVersion {
        /// Version of the file.
        found: u64,
        /// Last version this program reads.
        known: u64,
    },
    /// A version that does not exist.
    NoSuchVersion {
        /// Version found.
        found: String,
        /// The part that holds the version.
        mark: &'static str,
        /// The last version there is.
        last: u32,
    },
    /// A required part is missing.
    Missing {
        /// Name of the part.
        part: &'static str,
    },
    /// A part that does not belong there.
    UnknownPart {
        /// Name found.
        part: String,
        /// Names that belong there.
        known: Vec<&'static str>,
    },
    /// The same part twice.
    Twice {
        /// Name of the part.
        part: &'static str,
    },
    /// Another kind of value.
    WrongKind {
        /// What should be here.
        expected: &'static str,
        /// What is here.
        found: String,
    },
    /// A name that is not among those allowed.
    UnknownName {
        /// Name found.
        found: String,
        /// Names allowed.
        known: Vec<&'static str>,
    },
    /// NaN or infinity.
    NotFinite {
        /// The number.
        found: f64,
    },
    /// A number that has to be whole, from 0 to a limit.
    NotWhole {
        /// The number.
        found: f64,
        /// Most allowed.
        high: f64,
    },
    /// A case of habits twice.
    CaseTwice,
    /// A number beyond its bounds, in the unit of the file.
    OutOfRange {
        /// The number.
        found: f64,
        /// Least allowed.
        low: f64,
        /// Most allowed.
        high: f64,
        /// Unit, or nothing.
        unit: &'static str,
    },
    /// A coordinate outside the court and its run-off.
    OffSite {
        /// The coordinate.
        found: f64,
        /// Greatest magnitude allowed.
        limit: f64,
    },
    /// A place on the wrong side of the net.
    WrongEnd {
        /// The coordinate.
        found: f64,
        /// Owner of the place.
        whose: &'static str,
        /// "0 or negative" or "0 or positive", not translated yet; so are the other fixed parts of sentences here.
        bound: &'static str,
    },
    /// The opponent met the ball before it was struck.
    MetTooEarly {
        /// Time when it is met, s.
        met: f64,
        /// Time when it is struck, s.
        struck: f64,
    },
    /// A text that is not a date.
    NotADate {
        /// Text found.
        found: String,
    },
    /// The same session twice.
    SessionTwice {
        /// Its name.
        name: String,
    },
    /// A charted shot that neither landed nor was met.
    NowhereToGo,
    /// A shot that follows nothing.
    FollowsNothing,
    /// A shot that follows one struck from the same end.
    SameEnd,
    /// A line with too few points.
    TooFewPoints {
        /// Points found.
        found: usize,
    },
    /// More entries than allowed.
    TooMany {
        /// "marks" and so on.
        what: &'static str,
        /// Entries found.
        found: usize,
        /// Entries allowed.
        limit: usize,
    },
    /// A number that another mark has too.
    SameId {
        /// The number.
        id: u32,
    },
    /// A name twice in a list that needs it once.
    NameTwice {
        /// The name.
        name: &'static str,
    },
    /// A mark too far off.
    TooFarOff {
        /// The coordinate.
        found: f64,
        /// Greatest magnitude allowed.
        limit: f64,
    },
    /// A text that is too long.
    TextTooLong {
        /// Characters found.
        found: usize,
        /// Characters allowed.
        limit: usize,
    },
    /// A character that cannot be shown.
    ControlCharacter {
        /// Its code.
        found: u32,
    },
    /// The text could not be written: a bug of the program.
    NotWritten {
        /// Message of the writer.
        reason: String,
    },
    /// A board without a page.
    NoPage,
    /// A page without a shot.
    NoShot,
}

/// All problems of a board.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Report {
    /// The problems in the order of the file.
    pub problems: Vec<Problem>,
    /// Number of problems not listed.
    pub unlisted: usize,
}

impl Report {
    /// A report of one problem.
    #[must_use]
    pub fn of(problem: Problem) -> Self {
        Self { problems: vec![problem], unlisted: 0 }
    }

    /// How many problems there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.problems.len() + self.unlisted
    }
}

impl fmt::Display for Report {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, problem) in self.problems.iter().enumerate() {
            let newline = if i == 0 { "" } else { "\n" };
            write!(f, "{newline}{problem}")?;
        }
        if self.unlisted > 0 {
            write!(f, "\n{}", tr!("and {} more", self.unlisted))?;
        }
        Ok(())
    }
}

impl std::error::Error for Report {}
