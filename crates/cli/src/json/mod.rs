//! The answer for programs. `docs/command-line.md` lists every field with its unit.
//!
//! Names include the unit unless it is m, s, m/s or a share from 0 to 1. Places are in the world frame: the origin
//! under the middle of the net, `x` to the right and `y` forward as the near player faces the net.

mod answer;
mod flight;
mod layout;

use std::{io::Write, path::Path};

use glam::{DVec2, DVec3};
use serde::{Serialize, Serializer, ser::Error as _};
use standpoint_board::Board;

use super::{
    fault::{Fault, Stop},
    load::Asked,
};
use crate::round::rounded;

pub use answer::{AnswerJson, ChosenJson, PlayerJson, ShotJson};
pub use flight::QualityJson;

/// The note that figures are estimates; part of every answer.
const MODEL: &str = "Figures are estimates of a model, not measurements. Units are SI: m, s, m/s, shares from 0 to 1; \
                     names ending in _deg, _rad or _rad_s are in degrees, radians or radians per second.";

/// A figure rounded to a millionth; non-finite figures are refused.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Num(pub f64);

impl Serialize for Num {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        if !self.0.is_finite() {
            return Err(S::Error::custom("a figure is not finite; please report this board"));
        }
        serializer.serialize_f64(rounded(self.0))
    }
}

/// A ground place.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct Ground {
    x: Num,
    y: Num,
}

impl From<DVec2> for Ground {
    fn from(p: DVec2) -> Self {
        Self { x: Num(p.x), y: Num(p.y) }
    }
}

/// A place in space.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct Space {
    x: Num,
    y: Num,
    z: Num,
}

impl From<DVec3> for Space {
    fn from(p: DVec3) -> Self {
        Self { x: Num(p.x), y: Num(p.y), z: Num(p.z) }
    }
}

/// The shot that was asked about.
#[derive(Debug, Serialize)]
struct Source<'a> {
    file: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    title: Option<&'a str>,
    page: Option<usize>,
    shot: Option<usize>,
}

#[derive(Debug, Serialize)]
struct Envelope<'a, T> {
    standpoint: &'static str,
    model: &'static str,
    command: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    source: Option<Source<'a>>,
    #[serde(flatten)]
    body: T,
}

fn envelope<'a, T>(command: &'static str, source: Option<Source<'a>>, body: T) -> Envelope<'a, T> {
    Envelope { standpoint: env!("CARGO_PKG_VERSION"), model: MODEL, command, source, body }
}

/// Prints an answer about a shot.
///
/// # Errors
/// When it cannot be written.
pub fn print<T: Serialize>(out: &mut dyn Write, command: &'static str, asked: &Asked, body: T) -> Result<(), Stop> {
    let source = Source {
        file: asked.file.display().to_string(),
        title: Some(&asked.board.title),
        page: Some(asked.page),
        shot: Some(asked.shot),
    };
    write(out, &envelope(command, Some(source), body))
}

/// Prints an answer about a whole board.
///
/// # Errors
/// When it cannot be written.
pub fn print_board<T: Serialize>(
    out: &mut dyn Write,
    command: &'static str,
    (file, board): (&Path, &Board),
    body: T,
) -> Result<(), Stop> {
    let source = Source { file: file.display().to_string(), title: Some(&board.title), page: None, shot: None };
    write(out, &envelope(command, Some(source), body))
}

/// Prints an answer without a board.
///
/// # Errors
/// When it cannot be written.
pub fn print_general<T: Serialize>(out: &mut dyn Write, command: &'static str, body: T) -> Result<(), Stop> {
    write(out, &envelope(command, None, body))
}

/// Prints why there is no answer.
///
/// # Errors
/// When it cannot be written.
pub fn print_fault(out: &mut dyn Write, command: &'static str, file: &Path, fault: &Fault) -> Result<(), Stop> {
    #[derive(Serialize)]
    struct Body<'a> {
        error: &'a Fault,
    }
    let source = Source { file: file.display().to_string(), title: None, page: None, shot: None };
    write(out, &envelope(command, Some(source), Body { error: fault }))
}

fn write<T: Serialize>(out: &mut dyn Write, value: &T) -> Result<(), Stop> {
    value.serialize(&mut serde_json::Serializer::with_formatter(&mut *out, layout::Layout::default()))?;
    Ok(writeln!(out)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_rounded_finite_and_never_a_negative_nought() {
        let text = |value| serde_json::to_string(&Num(value));
        assert_eq!(text(0.123_456_789).unwrap(), "0.123457");
        assert_eq!(text(-1e-9).unwrap(), "0.0");
        assert!(text(f64::NAN).is_err());
        assert!(text(f64::INFINITY).is_err());
    }
}
