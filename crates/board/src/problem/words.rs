//! Wording of problems and remedies.
//!
//! Numbers are formatted as in the file, in every language, so that they can be compared with it and typed into it.

use std::fmt;

use standpoint_language::{brief_in_file as brief, text, tr};

use super::{ProblemKind, listed, nearest};

impl fmt::Display for ProblemKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.describe())
    }
}

impl std::error::Error for ProblemKind {}

impl ProblemKind {
    fn describe(&self) -> String {
        match self {
            Self::Empty => tr!("the file is empty"),
            Self::NotText { byte } => tr!("the file is not text: byte {} is not UTF-8", byte),
            Self::ChartTooLarge { bytes, limit } => {
                tr!("with the notes in it the board would have {} bytes, {} are allowed", bytes, limit)
            }
            Self::TooLarge { bytes, limit } => tr!("the file is larger than {} bytes ({})", limit, bytes),
            Self::TooDeep { limit } => tr!("brackets are nested more than {} deep", limit),
            Self::TooManyValues { limit } => tr!("the file holds more than {} values", limit),
            Self::Syntax { expected, found } => tr!("{} expected, found {}", text(expected), found),
            Self::Unclosed { what, opened } => tr!("the file ends inside {} that begins at {}", text(what), opened),
            Self::NotABoard => {
                tr!(
                    "this is not a board: it does not say `standpoint_board: {}` at its beginning",
                    crate::file::VERSION
                )
            }
            Self::NotAChart => tr!("this is not a chart: it does not say `standpoint_chart: 1` at its beginning"),
            Self::NotAPlayer => tr!("this is not a player: it does not say `standpoint_player: 1` at its beginning"),
            Self::NewerVersion { found, known } => {
                tr!("the file is of version {}, and this program reads versions up to {}", found, known)
            }
            Self::NoSuchVersion { found, .. } => tr!("there is no version {}", found),
            Self::Missing { part } => tr!("`{}` is missing", part),
            Self::UnknownPart { part, .. } => tr!("`{}` does not belong here", part),
            Self::Twice { part } => tr!("`{}` is here twice", part),
            Self::WrongKind { expected, found } => tr!("{} expected, found {}", text(expected), found),
            Self::UnknownName { found, .. } => tr!("`{}` is not one of the names allowed here", found),
            Self::NotFinite { found } => tr!("the number is {}, which is no number to reckon with", found),
            Self::NotWhole { found, high } => tr!("{} is not a whole number from 0 to {}", brief(*found), high),
            Self::CaseTwice => tr!("these strokes have been counted above already"),
            Self::OutOfRange { found, low, high, unit: "" } => tr!("{} is outside {} to {}", brief(*found), low, high),
            Self::OutOfRange { found, low, high, unit } => {
                tr!("{} is outside {} to {} {}", brief(*found), low, high, unit)
            }
            Self::OffSite { found, limit } => {
                tr!("{} m lies outside the site, which reaches to {} m on either side", brief(*found), limit)
            }
            Self::WrongEnd { found, whose, bound } => {
                tr!("{} m lies beyond the net: {} y is {}", brief(*found), text(whose), text(bound))
            }
            Self::MetTooEarly { met, struck } => {
                tr!("the ball is met at {} s, before it is struck at {} s", brief(*met), brief(*struck))
            }
            Self::NotADate { found } => tr!("`{}` is not a date", found),
            Self::SessionTwice { name } => tr!("the session `{}` is here twice", name),
            Self::NowhereToGo => tr!("the shot neither lands nor is it met"),
            Self::FollowsNothing => tr!("the first shot of a page has none before it that it could follow"),
            Self::SameEnd => tr!("the shot follows one that is struck from the same end"),
            Self::TooFewPoints { found } => tr!("a line needs at least 2 points and has {}", found),
            Self::TooMany { what, found, limit } => tr!("there are {} {}, {} are allowed", found, text(what), limit),
            Self::SameId { id } => tr!("the number {} names another mark of this page too", id),
            Self::NameTwice { name } => tr!("`{}` is here twice", name),
            Self::TooFarOff { found, limit } => {
                tr!("{} m is too far off: marks may lie up to {} m away on either side", brief(*found), limit)
            }
            Self::TextTooLong { found, limit } => tr!("the text has {} characters, {} are allowed", found, limit),
            Self::ControlCharacter { found } => {
                tr!("the text contains the control character U+{}", format!("{found:04X}"))
            }
            Self::NotWritten { reason } => tr!("the board could not be put into text: {}", reason),
            Self::NoPage => tr!("there is no page, and at least one is needed"),
            Self::NoShot => tr!("there is no shot, and at least one is needed"),
        }
    }

    /// What to do about it.
    #[must_use]
    pub fn remedy(&self) -> String {
        match self {
            Self::Empty => tr!("Open another file, or an earlier copy of this one."),
            Self::NotText { .. } => tr!("Open a board saved by this program, or save the text as UTF-8."),
            Self::ChartTooLarge { .. } => tr!("Move the notes to a file of their own, in the match analysis."),
            Self::TooLarge { .. } | Self::TooManyValues { .. } => tr!("Divide it into several."),
            Self::TooDeep { .. } => tr!("Remove the surplus brackets."),
            Self::Syntax { .. } => tr!("Correct the text here; docs/file-format.md shows the notation."),
            Self::Unclosed { .. } => {
                tr!("The end of the file may be lost: open an earlier copy, or close what is open.")
            }
            Self::NotABoard => tr!(
                "Open a file with the ending .standpoint, or begin it with `(standpoint_board: {},`.",
                crate::file::VERSION
            ),
            Self::NotAChart => tr!("Open a file with the ending .chart, or begin it with `(standpoint_chart: 1,`."),
            Self::NotAPlayer => tr!("Open a file with the ending .player."),
            Self::NewerVersion { .. } => tr!("Update the program to open it."),
            Self::NoSuchVersion { mark, last, .. } => tr!("Write `{}: {}`.", mark, last),
            Self::Missing { part } => tr!("Add `{}: ...`.", part),
            Self::UnknownPart { part, known } => match nearest(part, known) {
                Some(name) => tr!("Did you mean `{}`? Otherwise remove it.", name),
                None => tr!("Remove it; what belongs here is {}.", listed(known)),
            },
            Self::Twice { .. } | Self::NameTwice { .. } => tr!("Remove one of them."),
            Self::WrongKind { expected, .. } => tr!("Write {} here.", text(expected)),
            Self::UnknownName { found, known } => match nearest(found, known) {
                Some(name) => tr!("Did you mean `{}`?", name),
                None => tr!("Write one of {}.", listed(known)),
            },
            Self::NotFinite { .. } => tr!("Write an ordinary number."),
            Self::NotWhole { high, .. } => tr!("Write a whole number from 0 to {}.", high),
            Self::CaseTwice => tr!("Put them into one."),
            Self::OutOfRange { low, high, .. } => tr!("Write a number from {} to {}.", low, high),
            Self::OffSite { limit, .. } | Self::TooFarOff { limit, .. } => {
                tr!("Write a number from -{} to {}, or widen court.run_off.", limit, limit)
            }
            Self::WrongEnd { bound, .. } => tr!("Write a y that is {}, or change `hitter`.", text(bound)),
            Self::MetTooEarly { .. } => tr!("Write a later time, from the same zero."),
            Self::NotADate { .. } => tr!("Write the year, the month and the day, as in 2026-05-03."),
            Self::SessionTwice { .. } => tr!("Put them into one."),
            Self::NowhereToGo => tr!("Add `landing: (x: ..., y: ...)`, `met: (x: ..., y: ...)` or both."),
            Self::FollowsNothing => tr!("Write `follows: false`."),
            Self::SameEnd => tr!("Write `follows: false`, or change `hitter`."),
            Self::TooFewPoints { .. } => tr!("Add a point, or remove the mark."),
            Self::TooMany { limit, .. } => tr!("Leave {} at most.", limit),
            Self::SameId { .. } => tr!("Write a number that no other mark of the page has."),
            Self::TextTooLong { limit, .. } => tr!("Shorten it to {} characters.", limit),
            Self::ControlCharacter { .. } => tr!("Remove it."),
            Self::NotWritten { .. } => {
                tr!("This is a fault of the program; take the last change back and try again.")
            }
            Self::NoPage => tr!("Add a page."),
            Self::NoShot => tr!("Add a shot."),
        }
    }
}
