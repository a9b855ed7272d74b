//! The ball: mass, size and rebound.
//!
//! Every value is the middle of the range that the approval of balls allows. Source: ITF Rules of Tennis, Appendix I,
//! and ITF Approved Tennis Balls; figures marked 'from memory' were not read in the source again.

pub(crate) mod air;
pub(crate) mod bounce;
pub(crate) mod flight;

/// Height from which balls are dropped in the approval test, m (100 in).
pub const DROP_HEIGHT: f64 = 2.54;

/// The kinds of ball that are approved for play.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum BallType {
    /// Fast, for slow courts.
    Type1,
    /// Medium: the usual ball.
    #[default]
    Type2,
    /// Slow and larger, for fast courts.
    Type3,
    /// For play above 1,219 m.
    HighAltitude,
    /// Green: the full court.
    Stage1,
    /// Orange: the 18 m court.
    Stage2,
    /// Red: the 11 m court.
    Stage3,
}

impl BallType {
    /// All kinds, in the order menus list them.
    pub const ALL: [Self; 7] =
        [Self::Type1, Self::Type2, Self::Type3, Self::HighAltitude, Self::Stage1, Self::Stage2, Self::Stage3];

    /// Least and greatest mass allowed, g.
    #[must_use]
    pub fn mass_range_g(self) -> (f64, f64) {
        match self {
            Self::Type1 | Self::Type2 | Self::Type3 | Self::HighAltitude => (56.0, 59.4),
            Self::Stage1 => (47.0, 51.5), // from memory
            Self::Stage2 => (36.0, 46.9), // from memory
            Self::Stage3 => (36.0, 49.0), // from memory
        }
    }

    /// Least and greatest diameter allowed, cm.
    #[must_use]
    pub fn diameter_range_cm(self) -> (f64, f64) {
        match self {
            Self::Type1 | Self::Type2 | Self::HighAltitude => (6.54, 6.86),
            Self::Type3 => (7.00, 7.30),
            Self::Stage1 => (6.30, 6.86), // from memory
            Self::Stage2 => (6.00, 6.86), // from memory
            Self::Stage3 => (7.00, 8.00), // from memory
        }
    }

    /// Least and greatest rebound allowed after a drop from `DROP_HEIGHT` on a rigid flat surface, cm.
    #[must_use]
    pub fn rebound_range_cm(self) -> (f64, f64) {
        match self {
            Self::Type1 => (138.0, 151.0), // from memory; older editions 135 to 147
            Self::Type2 | Self::Type3 => (135.0, 147.0),
            Self::HighAltitude => (122.0, 135.0),
            Self::Stage1 => (120.0, 135.0),
            Self::Stage2 => (105.0, 120.0),
            Self::Stage3 => (85.0, 105.0),
        }
    }
}

/// A ball.
///
/// ```
/// use standpoint_geometry::{Ball, BallType};
/// let ball = Ball::new(BallType::Type2);
/// assert!((ball.drop_restitution() - 0.745).abs() < 1e-3);
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ball {
    /// Kind of ball.
    pub kind: BallType,
    /// Mass, kg.
    pub mass: f64,
    /// Radius, m.
    pub radius: f64,
    /// Rebound after a drop from `DROP_HEIGHT`, m.
    pub rebound: f64,
}

impl Default for Ball {
    fn default() -> Self {
        Self::new(BallType::default())
    }
}

impl Ball {
    /// The ball in the middle of the ranges allowed for its kind; for Type 2, 57.7 g, 6.70 cm and a rebound of 141 cm.
    #[must_use]
    pub fn new(kind: BallType) -> Self {
        let middle = |(low, high): (f64, f64)| (low + high) * 0.5;
        Self {
            kind,
            mass: middle(kind.mass_range_g()) * 1e-3,
            radius: middle(kind.diameter_range_cm()) * 0.5e-2,
            rebound: middle(kind.rebound_range_cm()) * 1e-2,
        }
    }

    /// Coefficient of restitution of the approval drop: `sqrt(rebound / drop height)`. A rebound that is not positive
    /// gives 0.
    #[must_use]
    pub fn drop_restitution(&self) -> f64 {
        (self.rebound.max(0.0) / DROP_HEIGHT).sqrt()
    }
}
