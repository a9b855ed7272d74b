//! The two ends of the court and the half-turn that maps one onto the other.

use glam::{DVec2, DVec3};

/// An end of the court.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum End {
    /// The half with `y < 0`.
    #[default]
    Near,
    /// The half with `y > 0`.
    Far,
}

impl End {
    /// The other end.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Near => Self::Far,
            Self::Far => Self::Near,
        }
    }

    /// `+1` at the near end and `-1` at the far end: the factor of `x` and `y` that brings a place at this end into
    /// the frame of a near player. The half-turn is its own inverse, so the same factor leads back.
    #[must_use]
    pub fn sign(self) -> f64 {
        match self {
            Self::Near => 1.0,
            Self::Far => -1.0,
        }
    }

    /// Turns a ground place between the world and the frame of the player at this end.
    #[must_use]
    pub fn turn2(self, p: DVec2) -> DVec2 {
        p * self.sign()
    }

    /// Turns a place in space between the world and the frame of the player at this end.
    #[must_use]
    pub fn turn3(self, p: DVec3) -> DVec3 {
        DVec3::new(p.x * self.sign(), p.y * self.sign(), p.z)
    }
}

/// A half-turn, a mirroring along the long axis, or both: the changes of frame that make the hitter near and
/// right-handed. Each is its own inverse.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Turn {
    x: f64,
    y: f64,
}

impl Turn {
    /// Brings a hitter at an end into the near frame, mirrored when `mirrored`.
    #[must_use]
    pub fn new(end: End, mirrored: bool) -> Self {
        Self { x: if mirrored { -end.sign() } else { end.sign() }, y: end.sign() }
    }

    /// Whether left and right are exchanged.
    #[must_use]
    pub fn mirrors(self) -> bool {
        self.x * self.y < 0.0
    }

    /// Factors of `x` and `y`.
    #[must_use]
    pub fn signs(self) -> (f64, f64) {
        (self.x, self.y)
    }

    /// Turns a ground place.
    #[must_use]
    pub fn turn2(self, p: DVec2) -> DVec2 {
        DVec2::new(p.x * self.x, p.y * self.y)
    }

    /// Turns a place in space.
    #[must_use]
    pub fn turn3(self, p: DVec3) -> DVec3 {
        DVec3::new(p.x * self.x, p.y * self.y, p.z)
    }
}
