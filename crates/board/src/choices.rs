//! Choices of the user: court, surface, units.

use standpoint_geometry::{Court, NetPosts, PACE_TEST_ANGLE, Restitution, RunOff, Stage, Surface, SurfaceKind};

/// The chosen court: stage, net and run-off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CourtChoice {
    /// Full court or one of the smaller stages.
    pub stage: Stage,
    /// What holds the net up.
    pub posts: NetPosts,
    /// Free ground around the lines; limits the places of a board.
    pub run_off: RunOff,
}

impl Default for CourtChoice {
    fn default() -> Self {
        Self::of(Stage::Full, NetPosts::SinglesSticks)
    }
}

impl CourtChoice {
    /// The court of a stage with the run-off that goes with it.
    #[must_use]
    pub fn of(stage: Stage, posts: NetPosts) -> Self {
        let court = Court::new(stage, posts);
        Self { stage, posts, run_off: RunOff { behind: court.run_off_behind, beside: court.run_off_beside } }
    }

    /// The court of the computation.
    #[must_use]
    pub fn court(&self) -> Court {
        Court::new(self.stage, self.posts).with_run_off(self.run_off)
    }
}

/// Figures of a surface measured on this court, instead of those of its kind.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BounceFigures {
    /// Coefficient of sliding friction between ball and surface.
    pub friction: f64,
    /// Vertical speed after the bounce over that before, at the 16° of the court pace test.
    pub restitution: f64,
    /// Tangential restitution of a ball that grips, 0 to 1.
    pub grip_restitution: f64,
}

/// Court pace rating of the hard court of a new board: medium, as most clubs and tournaments lay them (category 3 of
/// the ITF runs from 35 to 39). The published figures of bare acrylic paint on concrete rate 20, a slow court that no
/// coach would call usual, because courts are made faster or slower by the sand in the paint.
pub const USUAL_HARD_PACE: f64 = 37.0;

/// The chosen surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SurfaceChoice {
    /// Its kind.
    pub kind: SurfaceKind,
    /// Figures measured on this court; `None` takes those of the kind.
    pub measured: Option<BounceFigures>,
}

impl SurfaceChoice {
    /// A surface with the figures of its kind.
    #[must_use]
    pub fn of(kind: SurfaceKind) -> Self {
        Self { kind, measured: None }
    }

    /// The usual surface of a kind: hard courts of [`USUAL_HARD_PACE`], others with the figures of the kind.
    #[must_use]
    pub fn usual(kind: SurfaceKind) -> Self {
        match kind {
            SurfaceKind::Hard => Self::of_pace(kind, USUAL_HARD_PACE),
            _ => Self::of(kind),
        }
    }

    /// A surface that bounces as high as its kind and has the friction that gives a court pace rating (0 to 100), see
    /// [`Surface::with_pace`].
    #[must_use]
    pub fn of_pace(kind: SurfaceKind, rating: f64) -> Self {
        let paced = Surface::new(kind).with_pace(rating);
        // Rounded to the four decimals of a file, so that a saved board reads back equal.
        let kept = |figure: f64| (figure * 1e4).round() / 1e4;
        let measured = BounceFigures {
            friction: kept(paced.friction),
            restitution: kept(paced.restitution.at(PACE_TEST_ANGLE)),
            grip_restitution: kept(paced.grip_restitution),
        };
        Self { kind, measured: Some(measured) }
    }

    /// The surface of the computation. Its kind is `Custom` with measured figures, so that the
    /// source of the kind is not quoted for them.
    #[must_use]
    pub fn surface(&self) -> Surface {
        match self.measured {
            None => Surface::new(self.kind),
            Some(figures) => Surface {
                kind: SurfaceKind::Custom,
                friction: figures.friction,
                restitution: Restitution::through_pace_test(figures.restitution),
                grip_restitution: figures.grip_restitution,
            },
        }
    }
}

/// Units shown on the board.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Units {
    /// Metres and kilometres per hour.
    #[default]
    Metres,
    /// Feet, inches and miles per hour.
    Feet,
}

impl Units {
    /// Both, in the order menus list them.
    pub const ALL: [Self; 2] = [Self::Metres, Self::Feet];
}

#[cfg(test)]
mod tests {
    use standpoint_geometry::PaceCategory;

    use super::*;

    #[test]
    fn a_new_board_has_a_hard_court_of_medium_pace_that_survives_the_file() {
        let usual = SurfaceChoice::usual(SurfaceKind::Hard).surface();
        assert!((usual.pace_rating() - USUAL_HARD_PACE).abs() < 0.02);
        assert_eq!(PaceCategory::of(usual.pace_rating()), PaceCategory::Medium);
        assert!((usual.restitution.at(PACE_TEST_ANGLE) - 0.87).abs() < 1e-9, "the bounce height of acrylic");
        assert!(PaceCategory::of(Surface::new(SurfaceKind::Hard).pace_rating()) < PaceCategory::MediumSlow);
        let mut board = crate::Board::blank();
        board.tidy();
        assert!((board.surface.surface().pace_rating() - USUAL_HARD_PACE).abs() < 0.02);
        assert_eq!(SurfaceChoice::usual(SurfaceKind::Clay), SurfaceChoice::of(SurfaceKind::Clay));
    }
}
