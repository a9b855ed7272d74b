//! Dots of a class: an even selection, in bounded memory.

use glam::DVec2;
use standpoint_language::text;

use crate::stats::thinned;

/// Most dots kept of each class; of more, an even selection is kept.
pub(super) const DOTS: usize = 600;

/// Class of a dot; each has its own form, so that no colour is needed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Class {
    /// First serves, or returns of them.
    FirstServe,
    /// Second serves.
    SecondServe,
    /// Struck with the forehand.
    Forehand,
    /// Struck with the backhand.
    Backhand,
    /// Not returned.
    Won,
    /// In the net.
    Net,
    /// Long.
    Long,
    /// Wide.
    Wide,
    /// A place where they stood.
    Stood,
}

impl Class {
    /// A name for legends.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::FirstServe => text("first serve"),
            Self::SecondServe => text("second serve"),
            Self::Forehand => text("forehand"),
            Self::Backhand => text("backhand"),
            Self::Won => text("not returned"),
            Self::Net => text("in the net"),
            Self::Long => text("long"),
            Self::Wide => text("wide"),
            Self::Stood => text("stood"),
        }
    }
}

/// A dot, with a line to another place where there is one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dot {
    /// Where.
    pub place: DVec2,
    /// The other end of its line: where the ball landed, or where they should have been.
    pub to: Option<DVec2>,
}

/// The dots of a class.
#[derive(Debug, Clone, PartialEq)]
pub struct Dots {
    /// The class.
    pub class: Class,
    /// Number of all dots.
    pub count: u64,
    /// The kept dots.
    pub kept: Vec<Dot>,
    stride: u64,
}

impl Dots {
    pub(super) fn new(class: Class) -> Self {
        Self { class, count: 0, kept: Vec::new(), stride: 1 }
    }

    pub(super) fn add(&mut self, place: DVec2, to: Option<DVec2>) {
        if self.count.is_multiple_of(self.stride) {
            self.kept.push(Dot { place, to });
        }
        self.count += 1;
        if thinned(&mut self.kept, DOTS) {
            self.stride *= 2;
        }
    }
}
