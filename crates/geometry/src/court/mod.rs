//! The court: its lines, its net and the free space around it.
//!
//! Source of every number unless another one stands beside it: ITF Rules of Tennis, Rule 1 and Appendices VII and IX;
//! ITF Technical Booklet 2015, Table 5.

pub(crate) mod frame;
pub(crate) mod surface;

use glam::{DVec2, dvec2};

use crate::{court::frame::End, units::FOOT};

/// Length, m (78 ft).
pub const FULL_LENGTH: f64 = 23.77;
/// Width for singles, m (27 ft).
pub const SINGLES_WIDTH: f64 = 8.23;
/// Width for doubles, m (36 ft).
pub const DOUBLES_WIDTH: f64 = 10.97;
/// Distance from the net to the far edge of the service line, m (21 ft).
pub const SERVICE_LINE: f64 = 6.40;
/// Height of the net at the strap: 3 ft. The rule rounds it to 0.914 m.
pub const NET_CENTER_HEIGHT: f64 = 3.0 * FOOT;
/// Height of the net at a post or singles stick: 3 ft 6 in, 1.0668 m. The rule rounds it up to 1.07 m; the 3 mm show
/// at the tape, so the exact figure is kept.
pub const NET_POST_HEIGHT: f64 = 3.5 * FOOT;
/// Distance of the centre of a post or stick from the sideline, m (3 ft).
pub const POST_OUTSIDE: f64 = 0.914;
/// Width of the centre service line and of the centre marks, m (2 in).
pub const CENTER_LINE_WIDTH: f64 = 0.05;
/// Width painted for sidelines and service lines, m: the widest that the rule allows (2.5 to 5 cm).
pub const LINE_WIDTH: f64 = 0.05;
/// Width painted for baselines, m: the widest that the rule allows (up to 10 cm).
pub const BASELINE_WIDTH: f64 = 0.10;
/// Length of a centre mark, m (4 in).
pub const CENTER_MARK_LENGTH: f64 = 0.10;

/// Length of the orange court, m (60 ft): the long end of the range 17.68 to 18.29 m. Our choice.
pub const ORANGE_LENGTH: f64 = 18.29;
/// Width of the orange court, m (21 ft), inside the range 6.10 to 8.23 m. Our choice.
pub const ORANGE_WIDTH: f64 = 6.40;
/// Length of the red court, m (36 ft): it fits across a full court. The short end of 10.97 to 12.80 m. Our choice.
pub const RED_LENGTH: f64 = 10.97;
/// Width of the red court, m (18 ft), inside the range 4.27 to 6.10 m. Our choice.
pub const RED_WIDTH: f64 = 5.48;
/// Height of the level net of the orange and red courts, m: the low end of 0.800 to 0.914 m (orange) and 0.800 to
/// 0.838 m (red). Our choice; the sources give no height at the posts, and a portable net is stretched level.
pub const JUNIOR_NET_HEIGHT: f64 = 0.80;

/// Half-width of the strip in which a contact counts as central, as a share of half the court's width.
const CENTRAL: f64 = 0.2;
/// Half-width of the strip in which a landing counts as through the middle, as a share of half the court's width.
const MIDDLE: f64 = 0.3;

/// Free space around the court.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunOff {
    /// Behind each baseline, m.
    pub behind: f64,
    /// Beside the outermost sideline, m.
    pub beside: f64,
}

/// Free space recommended for international play (21 ft and 12 ft).
pub const RUN_OFF_INTERNATIONAL: RunOff = RunOff { behind: 6.40, beside: 3.66 };
/// Free space recommended for recreational and club play (18 ft and 10 ft).
pub const RUN_OFF_RECREATIONAL: RunOff = RunOff { behind: 5.48, beside: 3.05 };

/// The stages of play with slower balls and smaller courts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Stage {
    /// The full court with a full-pressure ball.
    #[default]
    Full,
    /// The full court with a Stage 1 ball.
    Green,
    /// The 18 m court with a Stage 2 ball.
    Orange,
    /// The 11 m court with a Stage 3 ball.
    Red,
}

impl Stage {
    /// All stages, longest court first.
    pub const ALL: [Self; 4] = [Self::Full, Self::Green, Self::Orange, Self::Red];
}

/// Support of the net at its ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum NetPosts {
    /// Singles sticks (or a singles net): full height 0.914 m outside the singles sideline.
    #[default]
    SinglesSticks,
    /// Doubles posts alone: full height 0.914 m outside the doubles sideline.
    DoublesPosts,
}

/// A side of the court as the near player faces the net.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Side {
    /// `x < 0`.
    Left,
    /// `x > 0`.
    Right,
}

impl Side {
    /// `-1` on the left, `+1` on the right.
    #[must_use]
    pub fn sign(self) -> f64 {
        match self {
            Self::Left => -1.0,
            Self::Right => 1.0,
        }
    }
}

/// Which painted line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LineName {
    /// The line at the end of the court.
    Baseline(End),
    /// The line that ends the service boxes.
    ServiceLine(End),
    /// The line between the right and the left service boxes, of both ends.
    CenterServiceLine,
    /// The short mark at the middle of the baseline.
    CenterMark(End),
    /// Side of the singles court.
    SinglesSideline(Side),
    /// Side of the doubles court.
    DoublesSideline(Side),
}

/// A painted line: a straight band with square ends, to scale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CourtLine {
    /// Which line it is.
    pub name: LineName,
    /// One end of the middle of the band.
    pub from: DVec2,
    /// The other end.
    pub to: DVec2,
    /// Width of the band across the segment, m.
    pub width: f64,
}

/// A rectangle on the ground, sides along the axes, edges included.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rect2 {
    /// Corner with the lowest `x` and `y`.
    pub min: DVec2,
    /// Corner with the highest `x` and `y`.
    pub max: DVec2,
}

impl Rect2 {
    /// The rectangle spanned by two opposite corners in any order.
    #[must_use]
    pub fn from_corners(a: DVec2, b: DVec2) -> Self {
        Self { min: a.min(b), max: a.max(b) }
    }

    /// Whether a place lies inside or on the edge.
    #[must_use]
    pub fn contains(&self, place: DVec2) -> bool {
        place.cmpge(self.min).all() && place.cmple(self.max).all()
    }

    /// The middle.
    #[must_use]
    pub fn center(&self) -> DVec2 {
        (self.min + self.max) * 0.5
    }

    /// Extent along `x` and `y`, m.
    #[must_use]
    pub fn size(&self) -> DVec2 {
        self.max - self.min
    }

    /// The place of the rectangle that is nearest to `place`.
    #[must_use]
    pub fn nearest(&self, place: DVec2) -> DVec2 {
        place.max(self.min).min(self.max)
    }
}

/// A court with its net. Lengths in metres, to the outside of the lines.
///
/// ```
/// use standpoint_geometry::{Court, NetPosts, Stage};
/// let court = Court::new(Stage::Full, NetPosts::SinglesSticks);
/// let tape_at_sideline = court.net_height(court.half_width());
/// assert!((tape_at_sideline - 1.039).abs() < 1e-3);
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Court {
    /// Which stage the dimensions belong to.
    pub stage: Stage,
    /// From baseline to baseline.
    pub length: f64,
    /// From singles sideline to singles sideline.
    pub singles_width: f64,
    /// From doubles sideline to doubles sideline, where there are any.
    pub doubles_width: Option<f64>,
    /// From the net to the outside of the service line, where there is one.
    pub service_line: Option<f64>,
    /// Height of the tape at the middle.
    pub net_center_height: f64,
    /// Height of the tape at the posts or sticks.
    pub net_post_height: f64,
    /// Support of the net.
    pub posts: NetPosts,
    /// Free space behind each baseline.
    pub run_off_behind: f64,
    /// Free space beside the outermost sideline.
    pub run_off_beside: f64,
}

impl Default for Court {
    fn default() -> Self {
        Self::new(Stage::default(), NetPosts::default())
    }
}

impl Court {
    /// The court of a stage.
    ///
    /// The full and green courts come with the run-off for international play, the smaller ones with that for
    /// recreational play; see [`Self::with_run_off`]. Inside the ranges allowed for the orange and red courts we chose
    /// `ORANGE_LENGTH` by `ORANGE_WIDTH` (its service line is that of a full court, so only the sidelines have to be
    /// added) and `RED_LENGTH` by `RED_WIDTH` without service lines. They have no doubles lines, so `posts` changes
    /// nothing there.
    #[must_use]
    pub fn new(stage: Stage, posts: NetPosts) -> Self {
        let full = Self {
            stage,
            length: FULL_LENGTH,
            singles_width: SINGLES_WIDTH,
            doubles_width: Some(DOUBLES_WIDTH),
            service_line: Some(SERVICE_LINE),
            net_center_height: NET_CENTER_HEIGHT,
            net_post_height: NET_POST_HEIGHT,
            posts,
            run_off_behind: RUN_OFF_INTERNATIONAL.behind,
            run_off_beside: RUN_OFF_INTERNATIONAL.beside,
        };
        let small = Self {
            doubles_width: None,
            net_center_height: JUNIOR_NET_HEIGHT,
            net_post_height: JUNIOR_NET_HEIGHT,
            ..full.with_run_off(RUN_OFF_RECREATIONAL)
        };
        match stage {
            Stage::Full | Stage::Green => full,
            Stage::Orange => Self { length: ORANGE_LENGTH, singles_width: ORANGE_WIDTH, ..small },
            Stage::Red => Self { length: RED_LENGTH, singles_width: RED_WIDTH, service_line: None, ..small },
        }
    }

    /// The same court with other free space around it.
    #[must_use]
    pub fn with_run_off(mut self, run_off: RunOff) -> Self {
        self.run_off_behind = run_off.behind;
        self.run_off_beside = run_off.beside;
        self
    }

    /// From the net to a baseline.
    #[must_use]
    pub fn half_length(&self) -> f64 {
        self.length * 0.5
    }

    /// From the middle to a singles sideline.
    #[must_use]
    pub fn half_width(&self) -> f64 {
        self.singles_width * 0.5
    }

    /// From the middle to the outermost sideline.
    #[must_use]
    pub fn outer_half_width(&self) -> f64 {
        self.doubles_width.unwrap_or(self.singles_width) * 0.5
    }

    /// From the middle to the centre of the post or stick that carries the net at full height.
    #[must_use]
    pub fn post_x(&self) -> f64 {
        match self.posts {
            NetPosts::SinglesSticks => self.half_width() + POST_OUTSIDE,
            NetPosts::DoublesPosts => self.outer_half_width() + POST_OUTSIDE,
        }
    }

    /// Height of the tape at `x`: a straight line from the strap to the post or stick, constant beyond.
    #[must_use]
    pub fn net_height(&self, x: f64) -> f64 {
        let along = (x.abs() / self.post_x()).min(1.0);
        self.net_center_height + (self.net_post_height - self.net_center_height) * along
    }

    /// The court inside the singles sidelines, both ends.
    #[must_use]
    pub fn singles(&self) -> Rect2 {
        let half = dvec2(self.half_width(), self.half_length());
        Rect2 { min: -half, max: half }
    }

    /// Whether a ball that touches the ground here is inside the singles court, lines included, at either end.
    #[must_use]
    pub fn contains_singles(&self, place: DVec2) -> bool {
        self.singles().contains(place)
    }

    /// A service box of one end, right or left as the player at that end faces the net; a serve from the server's
    /// right must land in the receiver's right box.
    ///
    /// A ball on a line is good, so the box reaches over the whole width of the centre service line. `None` where the
    /// court has no service line.
    #[must_use]
    pub fn service_box(&self, end: End, right: bool) -> Option<Rect2> {
        let depth = self.service_line?;
        let side = if right { 1.0 } else { -1.0 };
        let inner = end.turn2(dvec2(-side * CENTER_LINE_WIDTH * 0.5, 0.0));
        let outer = end.turn2(dvec2(side * self.half_width(), -depth));
        Some(Rect2::from_corners(inner, outer))
    }

    /// Whether a place is so near the long axis that cross-court and down the line cannot be told apart.
    #[must_use]
    pub fn is_central(&self, place: DVec2) -> bool {
        place.x.abs() < CENTRAL * self.half_width()
    }

    /// Whether a ball that lands at a place counts as through the middle.
    #[must_use]
    pub fn is_through_middle(&self, landing: DVec2) -> bool {
        landing.x.abs() < MIDDLE * self.half_width()
    }

    /// Distance of the service line from the net; on a court without one, the proportional distance.
    #[must_use]
    pub fn service_depth(&self) -> f64 {
        self.service_line.unwrap_or(self.half_length() * 0.54)
    }

    /// From the middle to the side of the site: court and run-off.
    #[must_use]
    pub fn site_half_width(&self) -> f64 {
        self.outer_half_width() + self.run_off_beside
    }

    /// From the net to the end of the site: court and run-off.
    #[must_use]
    pub fn site_half_length(&self) -> f64 {
        self.half_length() + self.run_off_behind
    }

    /// The painted lines, without the net. Each is the middle of a band whose outer edge lies on the dimension it
    /// marks; bands overlap where lines meet.
    #[must_use]
    pub fn lines(&self) -> Vec<CourtLine> {
        let (outer, half_length) = (self.outer_half_width(), self.half_length());
        let mut lines = Vec::with_capacity(11);
        for end in [End::Near, End::Far] {
            let mut across = |name, y: f64, half: f64, width| {
                lines.push(CourtLine {
                    name,
                    from: end.turn2(dvec2(-half, -y)),
                    to: end.turn2(dvec2(half, -y)),
                    width,
                });
            };
            across(LineName::Baseline(end), half_length - BASELINE_WIDTH * 0.5, outer, BASELINE_WIDTH);
            if let Some(y) = self.service_line {
                across(LineName::ServiceLine(end), y - LINE_WIDTH * 0.5, self.half_width(), LINE_WIDTH);
            }
            // The mark joins the inside of the baseline.
            let mark = half_length - BASELINE_WIDTH;
            lines.push(CourtLine {
                name: LineName::CenterMark(end),
                from: end.turn2(dvec2(0.0, -mark)),
                to: end.turn2(dvec2(0.0, CENTER_MARK_LENGTH - mark)),
                width: CENTER_LINE_WIDTH,
            });
        }
        if let Some(y) = self.service_line {
            let (from, to) = (dvec2(0.0, -y), dvec2(0.0, y));
            lines.push(CourtLine { name: LineName::CenterServiceLine, from, to, width: CENTER_LINE_WIDTH });
        }
        for side in [Side::Left, Side::Right] {
            let mut along = |name, half_width: f64| {
                let x = side.sign() * (half_width - LINE_WIDTH * 0.5);
                let (from, to) = (dvec2(x, -half_length), dvec2(x, half_length));
                lines.push(CourtLine { name, from, to, width: LINE_WIDTH });
            };
            along(LineName::SinglesSideline(side), self.half_width());
            if let Some(width) = self.doubles_width {
                along(LineName::DoublesSideline(side), width * 0.5);
            }
        }
        lines
    }
}
