//! The court surface: friction, restitution and the court pace rating that follows from them.

use crate::ball::{Ball, BallType};

/// Angle to the surface at which court pace is measured, rad (16°; ITF CS 01/02).
pub const PACE_TEST_ANGLE: f64 = 16.0 * crate::units::DEG;
/// Speed at which court pace is measured, m/s (ITF CS 01/02).
pub const PACE_TEST_SPEED: f64 = 30.0;
/// Temperature at which the pace rating needs no correction, °C (ITF CS 01/02).
pub const PACE_TEST_TEMPERATURE_C: f64 = 23.0;
/// Vertical restitution at which friction alone determines the pace rating (ITF CS 01/02).
pub const PACE_REFERENCE_RESTITUTION: f64 = 0.81;
/// Loss of restitution per degree of steepness on an acrylic court: `0.95 - 0.005 angle` (R. Cross, Sports Engineering
/// 6, 2003, 93-109, as quoted in R. Cross, Sports Engineering 23:9, 2020).
pub const RESTITUTION_SLOPE_PER_DEG: f64 = 0.005;
/// Tangential restitution of a ball that grips: the middle of 0.1 to 0.17 (R. Cross, Sports Engineering 23:9, 2020).
pub const GRIP_RESTITUTION: f64 = 0.135;

/// Kinds of surface whose friction and restitution have been published, and one to set by hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum SurfaceKind {
    /// Acrylic paint on concrete.
    #[default]
    Hard,
    /// Clay.
    Clay,
    /// Grass.
    Grass,
    /// Values entered by the user.
    Custom,
}

impl SurfaceKind {
    /// All kinds, in the order menus list them.
    pub const ALL: [Self; 4] = [Self::Hard, Self::Clay, Self::Grass, Self::Custom];
}

/// Vertical coefficient of restitution by angle: it falls from `grazing` by `per_degree` down to `least`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Restitution {
    /// Value at an angle of 0 to the surface.
    pub grazing: f64,
    /// Loss per degree of angle.
    pub per_degree: f64,
    /// Least value.
    pub least: f64,
}

impl Restitution {
    /// The same value at every angle.
    #[must_use]
    pub fn constant(e: f64) -> Self {
        Self { grazing: e, per_degree: 0.0, least: e }
    }

    /// Sloped as measured on an acrylic court, through a value at the angle of the pace test.
    ///
    /// The measured line would reach 0.5 for a ball that falls straight down, where the approval drop of the ball
    /// gives 0.745, so the line ends there (or at the given value, if that is lower). Borrowing the slope for other
    /// surfaces is our choice: for them only one angle has been published.
    #[must_use]
    pub fn through_pace_test(e: f64) -> Self {
        let drop = Ball::new(BallType::Type2).drop_restitution();
        let grazing = e + RESTITUTION_SLOPE_PER_DEG * PACE_TEST_ANGLE.to_degrees();
        Self { grazing, per_degree: RESTITUTION_SLOPE_PER_DEG, least: drop.min(e) }
    }

    /// The coefficient at an angle to the surface, rad, within 0 to 1.
    #[must_use]
    pub fn at(&self, angle: f64) -> f64 {
        (self.grazing - self.per_degree * angle.to_degrees()).max(self.least).clamp(0.0, 1.0)
    }
}

/// A surface.
///
/// ```
/// use standpoint_geometry::{PaceCategory, Surface, SurfaceKind};
/// let grass = Surface::new(SurfaceKind::Grass);
/// assert_eq!(PaceCategory::of(grass.pace_rating()), PaceCategory::Fast);
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surface {
    /// Kind of surface.
    pub kind: SurfaceKind,
    /// Coefficient of sliding friction.
    pub friction: f64,
    /// Vertical coefficient of restitution of a Type 2 ball.
    pub restitution: Restitution,
    /// Tangential coefficient of restitution once the ball grips (`e_x`), 0 to 1.
    pub grip_restitution: f64,
}

impl Default for Surface {
    fn default() -> Self {
        Self::new(SurfaceKind::default())
    }
}

impl Surface {
    /// A surface with published values, see [`Self::source`]; `Custom` starts as a surface of medium pace.
    #[must_use]
    pub fn new(kind: SurfaceKind) -> Self {
        let (friction, at_pace_test) = match kind {
            // Acrylic on concrete 0.70 to 0.73; 0.95 - 0.005 x 16 = 0.87.
            SurfaceKind::Hard => (0.715, 0.87),
            SurfaceKind::Clay => (0.80, 0.90),
            SurfaceKind::Grass => (0.53, 0.75),
            SurfaceKind::Custom => (0.63, PACE_REFERENCE_RESTITUTION),
        };
        let restitution = Restitution::through_pace_test(at_pace_test);
        Self { kind, friction, restitution, grip_restitution: GRIP_RESTITUTION }
    }

    /// A surface with a given court pace rating (kept within 0 to 100): the restitution is 0.81 in the pace test, so
    /// that friction alone determines the rating.
    #[must_use]
    pub fn from_pace(rating: f64) -> Self {
        Self::new(SurfaceKind::Custom).with_pace(rating)
    }

    /// The same bounce height, with the friction that gives a court pace rating (kept within 0 to 100). Friction is
    /// not let below 0.05 or above 1.5, so the rating may not be reached exactly. The result is a `Custom` surface.
    #[must_use]
    pub fn with_pace(mut self, rating: f64) -> Self {
        let e = self.restitution.at(PACE_TEST_ANGLE);
        let without_friction = pace_rating_from(0.0, e, PACE_TEST_TEMPERATURE_C);
        self.friction = ((without_friction - rating.clamp(0.0, 100.0)) / 100.0).clamp(0.05, 1.5);
        self.kind = SurfaceKind::Custom;
        self
    }

    /// Vertical coefficient of restitution for a ball that arrives at an angle to the surface, rad.
    ///
    /// Surfaces are measured with a Type 2 ball; for other balls the value is scaled by the ratio of the approval
    /// drops. That is our choice: nothing is published for junior balls at an angle.
    #[must_use]
    pub fn restitution_at(&self, angle: f64, ball: &Ball) -> f64 {
        let scale = ball.drop_restitution() / Ball::new(BallType::Type2).drop_restitution();
        (self.restitution.at(angle) * scale).clamp(0.0, 1.0)
    }

    /// Court pace rating of this friction and restitution, at 23 °C.
    ///
    /// A simulated pace test would give another figure once the friction passes about 0.65: the ball of this model
    /// grips the ground at 16° before so much friction can act.
    #[must_use]
    pub fn pace_rating(&self) -> f64 {
        pace_rating_from(self.friction, self.restitution.at(PACE_TEST_ANGLE), PACE_TEST_TEMPERATURE_C)
    }

    /// Source of the values.
    #[must_use]
    pub fn source(&self) -> &'static str {
        match self.kind {
            SurfaceKind::Hard => {
                "Friction 0.70 to 0.73 and restitution 0.95 - 0.005 per degree, acrylic on concrete: R. Cross, Sports \
                 Engineering 6 (2003) 93-109 and 23:9 (2020)"
            }
            SurfaceKind::Clay => {
                "Friction about 0.80 and restitution about 0.9 at 16 degrees: R. Cross, Sports Engineering 6 (2003) \
                 93-109"
            }
            SurfaceKind::Grass => {
                "Friction 0.53 and restitution about 0.75 at 16 degrees: R. Cross, Sports Technology 2 (2009) 112-120"
            }
            SurfaceKind::Custom => "Set by hand",
        }
    }
}

/// Court pace rating of one measured bounce, by ITF method CS 01/02.
///
/// Speeds along the surface (`x`) and away from or towards it (`y`), before (`i`) and after (`f`), m/s; signs do not
/// matter. `None` when the ball did not come down (`v_iy` is 0) or a number is not finite.
#[must_use]
pub fn court_pace_rating(v_ix: f64, v_iy: f64, v_fx: f64, v_fy: f64, temperature_c: f64) -> Option<f64> {
    let (v_ix, v_iy, v_fx, v_fy) = (v_ix.abs(), v_iy.abs(), v_fx.abs(), v_fy.abs());
    let e = v_fy / v_iy;
    let mu = (v_ix - v_fx) / (v_iy * (1.0 + e));
    let rating = pace_rating_from(mu, e, temperature_c);
    rating.is_finite().then_some(rating)
}

/// Court pace rating from friction, vertical restitution and temperature, °C:
/// `100 (1 - mu) + 150 (0.81 - e_T)` with `e_T = e + 0.003 (23 - T)` (ITF CS 01/02).
#[must_use]
pub fn pace_rating_from(friction: f64, restitution: f64, temperature_c: f64) -> f64 {
    let e_t = restitution + 0.003 * (PACE_TEST_TEMPERATURE_C - temperature_c);
    100.0 * (1.0 - friction) + 150.0 * (PACE_REFERENCE_RESTITUTION - e_t)
}

/// Pace categories (ITF Rules of Tennis, Appendix I).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PaceCategory {
    /// Category 1, up to 29.
    Slow,
    /// Category 2, 30 to 34.
    MediumSlow,
    /// Category 3, 35 to 39.
    Medium,
    /// Category 4, 40 to 44.
    MediumFast,
    /// Category 5, 45 and more.
    Fast,
}

impl PaceCategory {
    /// The category of a rating, which is first rounded to a whole number as ratings are published.
    #[must_use]
    pub fn of(rating: f64) -> Self {
        let rating = rating.round();
        if rating < 30.0 {
            Self::Slow
        } else if rating < 35.0 {
            Self::MediumSlow
        } else if rating < 40.0 {
            Self::Medium
        } else if rating < 45.0 {
            Self::MediumFast
        } else {
            Self::Fast
        }
    }

    /// Number of the category, 1 to 5.
    #[must_use]
    pub fn number(self) -> u8 {
        match self {
            Self::Slow => 1,
            Self::MediumSlow => 2,
            Self::Medium => 3,
            Self::MediumFast => 4,
            Self::Fast => 5,
        }
    }
}
