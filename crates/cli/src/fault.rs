//! Errors of commands, and their output.

use std::io;

use serde::Serialize;

/// What stops a command.
#[derive(Debug)]
pub enum Stop {
    /// Something is wrong with the input or the board.
    Fault(Box<Fault>),
    /// The answer cannot be written.
    Output(io::Error),
}

impl From<io::Error> for Stop {
    fn from(error: io::Error) -> Self {
        Self::Output(error)
    }
}

impl From<csv::Error> for Stop {
    fn from(error: csv::Error) -> Self {
        // The derived conversion would lose the broken pipe.
        Self::Output(match error.into_kind() {
            csv::ErrorKind::Io(error) => error,
            other => io::Error::other(format!("{other:?}")),
        })
    }
}

impl From<serde_json::Error> for Stop {
    fn from(error: serde_json::Error) -> Self {
        Self::Output(error.into())
    }
}

impl From<Box<Fault>> for Stop {
    fn from(fault: Box<Fault>) -> Self {
        Self::Fault(fault)
    }
}

/// Something wrong with the input, for people and for programs.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Fault {
    /// Kind of fault: one stable word.
    pub kind: &'static str,
    /// What is wrong.
    pub message: String,
    /// What to do about it.
    pub remedy: String,
    /// Metres by which the shot misses, where that is what is wrong.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub by: Option<f64>,
    /// Everything wrong with a file, with its place.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub problems: Vec<Problem>,
    /// The lines for a person.
    #[serde(skip)]
    pub lines: Vec<String>,
}

/// One problem of a file.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Problem {
    /// Line, counted from 1.
    pub line: Option<usize>,
    /// Character in the line, counted from 1.
    pub column: Option<usize>,
    /// The part of the board.
    pub role: String,
    /// What is wrong.
    pub message: String,
    /// What to do about it.
    pub remedy: String,
}

impl Fault {
    /// A fault told in one line: `where: what — remedy`.
    #[must_use]
    pub fn new(kind: &'static str, place: &str, message: impl Into<String>, remedy: impl Into<String>) -> Box<Self> {
        let (message, remedy) = (message.into(), remedy.into());
        let lines = vec![line(place, &message, &remedy)];
        Box::new(Self { kind, message, remedy, by: None, problems: Vec::new(), lines })
    }
}

/// The line for something wrong: where, what, and what to do about it.
#[must_use]
pub fn line(place: &str, message: &str, remedy: &str) -> String {
    format!("{place}: {message} — {remedy}")
}
