//! Common arguments of the commands.

use std::path::PathBuf;

use clap::{Args, ValueEnum};
use standpoint_board::Units;
use standpoint_geometry::{Cause, Choice};

/// Which shot of which board.
#[derive(Debug, Args)]
pub struct Which {
    /// The board.
    pub file: PathBuf,
    /// The page, counted from 1.
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = counted)]
    pub page: usize,
    /// The shot of its rally, counted from 1.
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = counted)]
    pub shot: usize,
}

/// The units of what is read.
#[derive(Debug, Default, Args)]
pub struct Reading {
    /// Units of the answer in words; the board's own without it. JSON and CSV are in SI units always.
    #[arg(long, value_enum)]
    pub units: Option<UnitsArg>,
}

impl Reading {
    /// The units asked for, or else the board's.
    #[must_use]
    pub fn units(&self, board: Units) -> Units {
        match self.units {
            None => board,
            Some(UnitsArg::Metres) => Units::Metres,
            Some(UnitsArg::Feet) => Units::Feet,
        }
    }
}

/// Units by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum UnitsArg {
    /// Metres and kilometres per hour.
    Metres,
    /// Feet, inches and miles per hour.
    Feet,
}

/// A table for programs instead of words.
#[derive(Debug, Default, Args)]
pub struct Form {
    /// Print JSON in SI units.
    #[arg(long)]
    pub json: bool,
    /// Print the table as CSV in SI units.
    #[arg(long, conflicts_with = "json")]
    pub csv: bool,
}

/// A choice by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum ChoiceArg {
    /// The shot as it is on the board.
    Drawn,
    /// Diagonally, deep.
    Cross,
    /// Along the near sideline.
    Line,
    /// Through the middle, deep.
    Middle,
    /// Diagonally and short.
    Angle,
    /// With the forehand from the backhand side.
    InsideOut,
    /// Over the opponent.
    Lob,
    /// Dies behind the net.
    Drop,
    /// First serve to the outside of the box.
    ServeWide,
    /// First serve at the receiver.
    ServeBody,
    /// First serve down the centre line.
    ServeT,
    /// Second serve.
    SecondServe,
}

impl ChoiceArg {
    /// The choice it names.
    #[must_use]
    pub fn choice(self) -> Choice {
        match self {
            Self::Drawn => Choice::AsDrawn,
            Self::Cross => Choice::CrossCourt,
            Self::Line => Choice::DownTheLine,
            Self::Middle => Choice::Middle,
            Self::Angle => Choice::ShortAngle,
            Self::InsideOut => Choice::InsideOut,
            Self::Lob => Choice::Lob,
            Self::Drop => Choice::Drop,
            Self::ServeWide => Choice::ServeWide,
            Self::ServeBody => Choice::ServeBody,
            Self::ServeT => Choice::ServeT,
            Self::SecondServe => Choice::SecondServe,
        }
    }
}

/// The word of the command line for a choice.
#[must_use]
pub fn choice_word(choice: Choice) -> &'static str {
    match choice {
        Choice::AsDrawn => "drawn",
        Choice::CrossCourt => "cross",
        Choice::DownTheLine => "line",
        Choice::Middle => "middle",
        Choice::ShortAngle => "angle",
        Choice::InsideOut => "inside-out",
        Choice::Lob => "lob",
        Choice::Drop => "drop",
        Choice::ServeWide => "serve-wide",
        Choice::ServeBody => "serve-body",
        Choice::ServeT => "serve-t",
        Choice::SecondServe => "second-serve",
    }
}

/// A cause by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum CauseArg {
    /// The opponent's distance from the centre.
    OpponentWide,
    /// How far the opponent stands behind the baseline; negative inside the court.
    OpponentDepth,
    /// Height of the contact.
    ContactHeight,
    /// How far behind the baseline the contact is; negative inside the court.
    ContactDepth,
    /// The contact's distance from the centre.
    ContactWide,
    /// Speed of both shots.
    Speed,
    /// The opponent's backhand as a share of what it is.
    OpponentBackhand,
}

impl CauseArg {
    /// The cause it names.
    #[must_use]
    pub fn cause(self) -> Cause {
        match self {
            Self::OpponentWide => Cause::OpponentWide,
            Self::OpponentDepth => Cause::OpponentDepth,
            Self::ContactHeight => Cause::ContactHeight,
            Self::ContactDepth => Cause::ContactDepth,
            Self::ContactWide => Cause::ContactWide,
            Self::Speed => Cause::Speed,
            Self::OpponentBackhand => Cause::OpponentBackhand,
        }
    }

    /// The word of the command line.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::OpponentWide => "opponent-wide",
            Self::OpponentDepth => "opponent-depth",
            Self::ContactHeight => "contact-height",
            Self::ContactDepth => "contact-depth",
            Self::ContactWide => "contact-wide",
            Self::Speed => "speed",
            Self::OpponentBackhand => "opponent-backhand",
        }
    }
}

/// A number from 1.
fn counted(text: &str) -> Result<usize, String> {
    match text.parse() {
        Ok(number) if number >= 1 => Ok(number),
        _ => Err("pages and shots are counted 1, 2, 3 and so on".to_owned()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn word<T: ValueEnum>(value: &T) -> String {
        value.to_possible_value().unwrap().get_name().to_owned()
    }

    #[test]
    fn what_is_printed_can_be_typed_again() {
        for arg in ChoiceArg::value_variants() {
            assert_eq!(word(arg), choice_word(arg.choice()));
        }
        for arg in CauseArg::value_variants() {
            assert_eq!(word(arg), arg.word());
        }
        assert_eq!(ChoiceArg::value_variants().len(), Choice::ALL.len());
        assert_eq!(CauseArg::value_variants().len(), Cause::ALL.len());
    }
}
