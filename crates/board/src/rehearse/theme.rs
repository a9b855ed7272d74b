//! Theme of a situation.

use standpoint_geometry::{End, Situation, Stroke};
use standpoint_language::text;

use crate::file::fields::Named;

/// Theme of a situation.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Theme {
    /// A drive from the back, diagonally.
    CrossCourt,
    /// A drive from the back, along its own side.
    Line,
    /// A ball from inside the court with which the player comes to the net.
    Approach,
    /// A volley.
    Net,
    /// The return of a serve.
    Return,
}

impl Named for Theme {
    const NAMES: &'static [(&'static str, Self)] = &[
        ("CrossCourt", Self::CrossCourt),
        ("Line", Self::Line),
        ("Approach", Self::Approach),
        ("Net", Self::Net),
        ("Return", Self::Return),
    ];
}

/// Least distance from the middle of a ball that belongs to a side, m on a full court. A choice.
pub const BESIDE: f64 = 0.8;

impl Theme {
    /// All themes in the order menus list them.
    pub const ALL: [Self; 5] = [Self::CrossCourt, Self::Line, Self::Approach, Self::Net, Self::Return];

    /// A name for menus.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::CrossCourt => text("Cross-court"),
            Self::Line => text("Down the line"),
            Self::Approach => text("Approach"),
            Self::Net => text("At the net"),
            Self::Return => text("Return"),
        }
    }

    /// The theme's name on the command line.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::CrossCourt => "cross-court",
            Self::Line => "line",
            Self::Approach => "approach",
            Self::Net => "net",
            Self::Return => "return",
        }
    }

    /// The theme that a situation fits, if any. The ball alone does not show whether it is a return, so one drawn as a
    /// return looks like a drive here.
    #[must_use]
    pub fn of(situation: &Situation) -> Option<Self> {
        let end: End = situation.hitter_end;
        let contact = end.turn3(situation.shot.contact);
        let target = end.turn2(situation.shot.target);
        let court = &situation.conditions.court;
        match situation.shot.stroke {
            Stroke::Volley => return Some(Self::Net),
            Stroke::Topspin | Stroke::Flat | Stroke::Slice => {}
            _ => return None,
        }
        if contact.y > -0.8 * court.half_length() {
            return Some(Self::Approach);
        }
        let beside = BESIDE * court.half_width() / 4.115;
        (contact.x.abs() >= beside && target.x.abs() >= beside).then_some(if contact.x * target.x < 0.0 {
            Self::CrossCourt
        } else {
            Self::Line
        })
    }
}
