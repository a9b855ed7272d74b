//! The answer: every quantity of the chain, in the world frame and SI units.

use glam::{DVec2, DVec3};

use crate::{player::Wing, replies::habits::HabitCase, shot::stroke::Stroke, worth::Basis};

/// A sample of a ball's path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PathPoint {
    /// Time since the contact that started the path, s.
    pub time: f64,
    /// Centre of the ball.
    pub point: DVec3,
}

/// Where the ball crosses the plane of the net.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NetCrossing {
    /// Time since contact, s.
    pub time: f64,
    /// Position along the net, m.
    pub x: f64,
    /// Height of the ball's centre, m.
    pub height: f64,
    /// Height of the tape there, m.
    pub net_height: f64,
    /// Height of the ball's lowest point over the tape, m.
    pub clearance: f64,
}

/// First contact with the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Landing {
    /// Time since contact, s.
    pub time: f64,
    /// Where.
    pub place: DVec2,
    /// Speed just before, m/s.
    pub speed: f64,
    /// Angle down from the horizontal just before, rad.
    pub angle: f64,
}

/// The hitter's shot as it flies.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct ShotFlight {
    /// Launch elevation, rad.
    pub elevation: f64,
    /// Launch azimuth in the world frame, rad.
    pub azimuth: f64,
    /// Launch speed, m/s.
    pub speed: f64,
    /// At the net.
    pub net: NetCrossing,
    /// First bounce.
    pub landing: Landing,
    /// Highest point, m.
    pub apex: f64,
    /// The path from contact to the last bounce that the opponent may wait for, or the site's edge.
    pub path: Vec<PathPoint>,
    /// Times of the bounces along `path`, s.
    pub bounces: Vec<f64>,
    /// Chance that this shot goes in, 0 to 1.
    pub chance_in: f64,
}

/// Where and how the opponent meets the ball.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Interception {
    /// Ball centre at contact.
    pub contact: DVec3,
    /// Time since the hitter's contact, s.
    pub time: f64,
    /// Where the opponent's body is.
    pub place: DVec2,
    /// Wing used.
    pub wing: Wing,
    /// Bounces before contact (0 for a volley).
    pub bounces: u8,
    /// Arrival of the ball minus the time the opponent needs, s.
    pub time_to_spare: f64,
    /// Chance that the opponent reaches the ball, 0 to 1.
    pub reach: f64,
    /// Pressure: 0 with ample time, 1 at full stretch. It scales the speed and spread of the reply.
    pub pressure: f64,
}

/// The name of a reply.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ReplyName {
    /// Along the sideline nearest to the opponent's contact.
    DownTheLine,
    /// Diagonally to the far sideline, deep.
    CrossCourt,
    /// Diagonally, landing short and leaving over the sideline.
    ShortAngle,
    /// From a central contact to the standing player's right.
    RightCorner,
    /// From a central contact to the standing player's left.
    LeftCorner,
    /// Through the middle.
    Middle,
    /// Straight at the standing player.
    AtTheBody,
    /// Over the player's head.
    Lob,
    /// Dies behind the net.
    DropShot,
    /// A serve to the outside of the box.
    ServeWide,
    /// A serve at the receiver.
    ServeBody,
    /// A serve down the centre line.
    ServeT,
}

/// One of the opponent's replies.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Reply {
    /// Name of the reply.
    pub name: ReplyName,
    /// Kind of stroke.
    pub stroke: Stroke,
    /// Speed off the racket, m/s.
    pub speed: f64,
    /// Topspin (backspin negative), rad/s.
    pub topspin: f64,
    /// Launch elevation, rad.
    pub elevation: f64,
    /// Launch azimuth, world frame, rad.
    pub azimuth: f64,
    /// Where it lands.
    pub landing: DVec2,
    /// Time from the opponent's contact to the landing, s.
    pub landing_time: f64,
    /// Chance that it goes in, 0 to 1.
    pub chance_in: f64,
    /// How often the opponent chooses a reply of this name, 0 to 1.
    pub share: f64,
    /// How often it wins the point at once, 0 to 1: it goes in and is not reached.
    pub wins_outright: f64,
    /// The player's time to spare, from the standing place against which the reply was judged, s.
    pub time_to_spare: f64,
    /// Where the player best meets it from there (ball centre).
    pub met_at: DVec3,
    /// The opponent's chance to win the point with it.
    pub exposure: f64,
    /// Path from the opponent's contact on.
    pub path: Vec<PathPoint>,
}

/// The spread of directions left to the opponent.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Wedge {
    /// The opponent's contact on the ground.
    pub apex: DVec2,
    /// Azimuth of the edge on the opponent's left, world frame, rad.
    pub left: f64,
    /// Azimuth of the edge on the opponent's right, world frame, rad.
    pub right: f64,
    /// Where the reply along the left edge lands.
    pub left_landing: DVec2,
    /// Where the reply along the right edge lands.
    pub right_landing: DVec2,
}

impl Wedge {
    /// Opening angle, rad, positive.
    #[must_use]
    pub fn width(&self) -> f64 {
        let d = (self.right - self.left).abs() % std::f64::consts::TAU;
        d.min(std::f64::consts::TAU - d)
    }
}

/// A standing place with its exposure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Where.
    pub place: DVec2,
    /// Exposure there, 0 to 1.
    pub exposure: f64,
}

/// The exposure over the player's side, on a regular grid in the world frame.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Field {
    /// Place of the first sample (lowest x and y).
    pub origin: DVec2,
    /// Distance between samples, m.
    pub step: f64,
    /// Samples along x.
    pub columns: usize,
    /// Samples along y.
    pub rows: usize,
    /// Exposure, row by row (`y` outer, `x` inner).
    pub values: Vec<f32>,
}

impl Field {
    /// The exposure at a place by bilinear interpolation, `None` outside the grid.
    #[must_use]
    pub fn at(&self, place: DVec2) -> Option<f64> {
        if self.columns < 2 || self.rows < 2 {
            return None;
        }
        let p = (place - self.origin) / self.step;
        let (last_x, last_y) = ((self.columns - 1) as f64, (self.rows - 1) as f64);
        if !(p.x >= 0.0 && p.y >= 0.0 && p.x <= last_x && p.y <= last_y) {
            return None;
        }
        let (i, j) = ((p.x as usize).min(self.columns - 2), (p.y as usize).min(self.rows - 2));
        let (fx, fy) = (p.x - i as f64, p.y - j as f64);
        let v = |i: usize, j: usize| f64::from(self.values[j * self.columns + i]);
        let low = v(i, j) * (1.0 - fx) + v(i + 1, j) * fx;
        let high = v(i, j + 1) * (1.0 - fx) + v(i + 1, j + 1) * fx;
        Some(low * (1.0 - fy) + high * fy)
    }
}

/// A level line of the exposure and the area inside it.
#[derive(Debug, Clone, PartialEq)]
pub struct Contour {
    /// Exposure above the least, e.g. 0.02.
    pub above_least: f64,
    /// Closed rings: outer ones and holes; the last point repeats the first.
    pub rings: Vec<Vec<DVec2>>,
}

/// The bisector of the wedge: the simple rule to teach beside the spot.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Bisector {
    /// Azimuth of the bisector, world frame, rad.
    pub azimuth: f64,
    /// Where the bisector passes the depth of the spot.
    pub place: DVec2,
    /// Exposure there.
    pub exposure: f64,
    /// Distance from the spot, m, along the net: positive towards `+x`.
    pub offset: f64,
}

/// The run from own contact to the spot.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Recovery {
    /// Where the run starts.
    pub start: DVec2,
    /// Distance to the spot, m.
    pub distance: f64,
    /// Time until the opponent's contact, s (follow-through included).
    pub available: f64,
    /// Time needed to reach the spot, s (follow-through included).
    pub needed: f64,
    /// Distance that is missing at the opponent's contact, m; 0 when the spot is reached.
    pub short_by: f64,
    /// Where the player really is at the opponent's contact.
    pub reached: Place,
    /// Exposure there minus the exposure at the spot.
    pub extra_exposure: f64,
}

/// The answer once the opponent meets the ball.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Play {
    /// Where and how the opponent meets it.
    pub receipt: Interception,
    /// Directions left to the opponent.
    pub wedge: Wedge,
    /// Where to stand: the centre of the zone in which the opponent wins least.
    pub spot: Place,
    /// Depths behind the baseline, m, between which the difference in worth is negligible; negative inside the court.
    pub depth_range: (f64, f64),
    /// Whether the spot is at the net.
    pub at_net: bool,
    /// Exposure over the player's side.
    pub field: Field,
    /// The recovery zone first, then wider level lines.
    pub contours: Vec<Contour>,
    /// The bisector of the wedge.
    pub bisector: Bisector,
    /// The opponent's two best replies against the spot, the stronger first. Only one when the opponent has no other
    /// worth naming.
    pub best: Vec<Reply>,
    /// The recovery run.
    pub recovery: Recovery,
    /// The middle of the court at the spot's depth, for comparison.
    pub middle: Place,
    /// How many replies were weighed (after dropping dominated ones).
    pub replies_weighed: usize,
    /// What the opponent's habits changed, where they are known.
    pub habit: Option<HabitUsed>,
}

/// Effect of an opponent's habits on an answer.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct HabitUsed {
    /// The case that the opponent is in.
    pub case: HabitCase,
    /// How often the opponent was seen to go each way in it, in the order of [`crate::replies::habits::Way::ALL`].
    pub counts: [u32; 3],
    /// Shares that the model expects against a player who waits at the usual place.
    pub expected: [f64; 3],
    /// The expected shares smoothed with the counts: those used in the computation.
    pub shares: [f64; 3],
    /// The spot without the habits.
    pub without: Place,
}

/// The outcome of the shot.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// The opponent cannot reach the ball.
    Winner {
        /// Time missing at the best meeting point, s, positive.
        late_by: f64,
        /// Where the opponent comes closest to meeting it.
        closest: DVec3,
    },
    /// The opponent meets the ball.
    Play(Box<Play>),
    /// The opponent meets it but no reply of theirs goes in often enough to be worth weighing.
    NoReply(Interception),
}

/// The whole answer.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Answer {
    /// The hitter's shot.
    pub shot: ShotFlight,
    /// Outcome of the shot.
    pub outcome: Outcome,
    /// For a serve: where the receiver should wait for it, against all serves possible from this contact. The play is
    /// that of the receiver: place, zone and run are theirs, and its `receipt` is the server's contact.
    pub returner: Option<Box<Play>>,
    /// Whether the rally was solved for exactly these players, court and ball.
    pub basis: Basis,
}

impl Answer {
    /// The play, if the opponent meets the ball.
    #[must_use]
    pub fn play(&self) -> Option<&Play> {
        match &self.outcome {
            Outcome::Play(play) => Some(play),
            Outcome::Winner { .. } | Outcome::NoReply(_) => None,
        }
    }
}
