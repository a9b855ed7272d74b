//! What a person chooses about the place: court, surface, units.

use standpoint_geometry::court::{Court, NetPosts, RunOff, Stage};
use standpoint_geometry::surface::{Restitution, Surface, SurfaceKind};

/// The court as chosen: which lines, which net, how much ground around them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CourtChoice {
    /// Full court or one of the smaller stages.
    pub stage: Stage,
    /// What holds the net up.
    pub posts: NetPosts,
    /// Free ground around the lines; bounds where a place on the board makes sense.
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

/// How a surface answers the ball, measured on the spot instead of taken from its kind.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BounceFigures {
    /// Coefficient of sliding friction between ball and surface.
    pub friction: f64,
    /// Vertical speed after the bounce over that before, at the 16° of the court pace test.
    pub restitution: f64,
    /// Tangential restitution of a ball that grips, 0 to 1.
    pub grip_restitution: f64,
}

/// The surface as chosen.
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

    /// The surface of the computation. Its kind is `Custom` once there are measured figures, so that nobody quotes the
    /// source of the kind for them.
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

/// The units a person reads on this board.
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
