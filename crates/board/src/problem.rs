//! What can be wrong with a board, in words, each with its remedy.

use std::fmt;

mod slips;

pub(crate) use slips::{listed, nearest};

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
        write!(f, "line {}, column {}", self.line, self.column)
    }
}

/// One thing that is wrong.
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
            write!(f, "{}: ", self.role)?;
        }
        write!(f, "{}. {}", self.kind, self.kind.remedy())
    }
}

/// What is wrong.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ProblemKind {
    /// Nothing in the file but blanks and comments.
    #[error("the file is empty")]
    Empty,
    /// Bytes that are no text.
    #[error("the file is not text: byte {byte} is not UTF-8")]
    NotText {
        /// Offset of the first wrong byte.
        byte: usize,
    },
    /// More bytes than a board may have.
    #[error("the file is larger than {limit} bytes ({bytes})")]
    TooLarge {
        /// Size found.
        bytes: u64,
        /// Size allowed.
        limit: u64,
    },
    /// Brackets within brackets beyond what a board needs.
    #[error("brackets are nested more than {limit} deep")]
    TooDeep {
        /// Depth allowed.
        limit: usize,
    },
    /// More values than a board may have.
    #[error("the file holds more than {limit} values")]
    TooManyValues {
        /// Number allowed.
        limit: usize,
    },
    /// Not the notation of a board.
    #[error("{expected} expected, found {found}")]
    Syntax {
        /// What should be here.
        expected: &'static str,
        /// What is here.
        found: String,
    },
    /// The file ends inside something.
    #[error("the file ends inside the {what} that begins at {opened}")]
    Unclosed {
        /// What is open.
        what: &'static str,
        /// Where it begins.
        opened: Place,
    },
    /// Not a board at all.
    #[error("this is not a board: it does not say `standpoint_board: {}` at its beginning", crate::file::VERSION)]
    NotABoard,
    /// Not a chart at all.
    #[error("this is not a chart: it does not say `standpoint_chart: 1` at its beginning")]
    NotAChart,
    /// Written by a later program.
    #[error("the file is of version {found}, and this program reads versions up to {known}")]
    NewerVersion {
        /// Version of the file.
        found: u64,
        /// Last version this program reads.
        known: u64,
    },
    /// A version that never was.
    #[error("there is no version {found}")]
    NoSuchVersion {
        /// What the file says.
        found: String,
        /// The part that tells the version.
        mark: &'static str,
        /// The last version there is.
        last: u32,
    },
    /// A part that has to be there is not.
    #[error("`{part}` is missing")]
    Missing {
        /// Name of the part.
        part: &'static str,
    },
    /// A part that does not belong there.
    #[error("`{part}` does not belong here")]
    UnknownPart {
        /// Name found.
        part: String,
        /// Names that belong there.
        known: Vec<&'static str>,
    },
    /// The same part twice.
    #[error("`{part}` is here twice")]
    Twice {
        /// Name of the part.
        part: &'static str,
    },
    /// Another kind of value.
    #[error("{expected} expected, found {found}")]
    WrongKind {
        /// What should be here.
        expected: &'static str,
        /// What is here.
        found: String,
    },
    /// A name that is not among those allowed.
    #[error("`{found}` is not one of the names allowed here")]
    UnknownName {
        /// Name found.
        found: String,
        /// Names allowed.
        known: Vec<&'static str>,
    },
    /// NaN or infinity.
    #[error("the number is {found}, which is no number to reckon with")]
    NotFinite {
        /// The number.
        found: f64,
    },
    /// A number beyond its bounds, in the unit of the file.
    #[error("{found} is outside {low} to {high}{}", spaced(unit))]
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
    #[error("{found} m lies outside the site, which reaches to {limit} m on either side")]
    OffSite {
        /// The coordinate.
        found: f64,
        /// Greatest magnitude allowed.
        limit: f64,
    },
    /// A place on the wrong side of the net.
    #[error("{found} m lies beyond the net: {whose} y is {bound}")]
    WrongEnd {
        /// The coordinate.
        found: f64,
        /// Whose place it is.
        whose: &'static str,
        /// "negative or 0", "0 or positive" and so on.
        bound: &'static str,
    },
    /// The opponent met the ball before it was struck.
    #[error("the ball is met at {met} s, before it is struck at {struck} s")]
    MetTooEarly {
        /// Time when it is met, s.
        met: f64,
        /// Time when it is struck, s.
        struck: f64,
    },
    /// A charted shot that neither landed nor was met.
    #[error("the shot neither lands nor is it met")]
    NowhereToGo,
    /// A shot that follows nothing.
    #[error("the first shot of a page has none before it that it could follow")]
    FollowsNothing,
    /// A shot that follows one struck from the same end.
    #[error("the shot follows one that is struck from the same end")]
    SameEnd,
    /// A line with too few points.
    #[error("a line needs at least 2 points and has {found}")]
    TooFewPoints {
        /// Points found.
        found: usize,
    },
    /// More entries than allowed.
    #[error("there are {found} {what}, {limit} are allowed")]
    TooMany {
        /// "marks" and so on.
        what: &'static str,
        /// Entries found.
        found: usize,
        /// Entries allowed.
        limit: usize,
    },
    /// A number that names another mark too.
    #[error("the number {id} names another mark of this page too")]
    SameId {
        /// The number.
        id: u32,
    },
    /// A name twice in a list that needs it once.
    #[error("`{name}` is here twice")]
    NameTwice {
        /// The name.
        name: &'static str,
    },
    /// A mark too far off.
    #[error("{found} m is too far off: marks may lie up to {limit} m away on either side")]
    TooFarOff {
        /// The coordinate.
        found: f64,
        /// Greatest magnitude allowed.
        limit: f64,
    },
    /// A text that is too long.
    #[error("the text has {found} characters, {limit} are allowed")]
    TextTooLong {
        /// Characters found.
        found: usize,
        /// Characters allowed.
        limit: usize,
    },
    /// A character that cannot be shown.
    #[error("the text contains the control character U+{found:04X}")]
    ControlCharacter {
        /// Its code.
        found: u32,
    },
    /// The text could not be made: a fault of the program.
    #[error("the board could not be put into text: {reason}")]
    NotWritten {
        /// What the writer said.
        reason: String,
    },
    /// An empty list that needs an entry.
    #[error("there is no {what}, and at least one is needed")]
    NoneOf {
        /// "page" or "shot".
        what: &'static str,
    },
}

impl ProblemKind {
    /// What to do about it.
    #[must_use]
    pub fn remedy(&self) -> String {
        match self {
            Self::Empty => "Open another file, or an earlier copy of this one.".to_owned(),
            Self::NotText { .. } => "Open a board saved by this program, or save the text as UTF-8.".to_owned(),
            Self::TooLarge { .. } => "Divide it into several.".to_owned(),
            Self::TooDeep { .. } => "Remove the surplus brackets.".to_owned(),
            Self::TooManyValues { .. } => "Divide it into several.".to_owned(),
            Self::Syntax { .. } => "Correct the text here; docs/file-format.md shows the notation.".to_owned(),
            Self::Unclosed { .. } => {
                "The end of the file may be lost: open an earlier copy, or close what is open.".to_owned()
            }
            Self::NotABoard => {
                let version = crate::file::VERSION;
                format!("Open a file with the ending .standpoint, or begin it with `(standpoint_board: {version},`.")
            }
            Self::NotAChart => {
                "Open a file with the ending .chart, or begin it with `(standpoint_chart: 1,`.".to_owned()
            }
            Self::NewerVersion { .. } => "Update the program to open it.".to_owned(),
            Self::NoSuchVersion { mark, last, .. } => format!("Write `{mark}: {last}`."),
            Self::Missing { part } => format!("Add `{part}: ...`."),
            Self::UnknownPart { part, known } => match nearest(part, known) {
                Some(name) => format!("Did you mean `{name}`? Otherwise remove it."),
                None => format!("Remove it; what belongs here is {}.", listed(known)),
            },
            Self::Twice { .. } => "Remove one of them.".to_owned(),
            Self::WrongKind { expected, .. } => format!("Write {expected} here."),
            Self::UnknownName { found, known } => match nearest(found, known) {
                Some(name) => format!("Did you mean `{name}`?"),
                None => format!("Write one of {}.", listed(known)),
            },
            Self::NotFinite { .. } => "Write an ordinary number.".to_owned(),
            Self::OutOfRange { low, high, .. } => format!("Write a number from {low} to {high}."),
            Self::OffSite { limit, .. } => format!("Write a number from -{limit} to {limit}, or widen court.run_off."),
            Self::WrongEnd { bound, .. } => format!("Write a y that is {bound}, or change `hitter`."),
            Self::MetTooEarly { .. } => "Write a later time, from the same zero.".to_owned(),
            Self::NowhereToGo => "Add `landing: (x: ..., y: ...)`, `met: (x: ..., y: ...)` or both.".to_owned(),
            Self::FollowsNothing => "Write `follows: false`.".to_owned(),
            Self::SameEnd => "Write `follows: false`, or change `hitter`.".to_owned(),
            Self::TooFewPoints { .. } => "Add a point, or remove the mark.".to_owned(),
            Self::TooMany { limit, .. } => format!("Leave {limit} at most."),
            Self::SameId { .. } => "Write a number that no other mark of the page has.".to_owned(),
            Self::NameTwice { .. } => "Remove one of them.".to_owned(),
            Self::TooFarOff { limit, .. } => {
                format!("Write a number from -{limit} to {limit}, or widen court.run_off.")
            }
            Self::TextTooLong { limit, .. } => format!("Shorten it to {limit} characters."),
            Self::ControlCharacter { .. } => "Remove it.".to_owned(),
            Self::NotWritten { .. } => {
                "This is a fault of the program; take the last change back and try again.".to_owned()
            }
            Self::NoneOf { what } => format!("Add a {what}."),
        }
    }
}

/// Everything that is wrong with a board.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Report {
    /// The problems in the order of the file.
    pub problems: Vec<Problem>,
    /// How many more there are than are listed.
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
            write!(f, "\nand {} more", self.unlisted)?;
        }
        Ok(())
    }
}

impl std::error::Error for Report {}

/// A unit with the blank before it.
fn spaced(unit: &str) -> String {
    if unit.is_empty() { String::new() } else { format!(" {unit}") }
}
