//! The question put to the solver.

use glam::{DVec2, DVec3};

use crate::{
    air::Air, ball::Ball, court::Court, flight::FlightLaw, frame::End, player::Player, surface::Surface,
};

/// Everything about the place and the ball.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conditions {
    /// Court and net.
    pub court: Court,
    /// What the ball bounces on.
    pub surface: Surface,
    /// The ball.
    pub ball: Ball,
    /// Temperature and altitude.
    pub air: Air,
    /// Law of drag and lift.
    pub law: FlightLaw,
}

/// Kinds of stroke.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Stroke {
    /// Drive with topspin.
    #[default]
    Topspin,
    /// Drive with little spin.
    Flat,
    /// Drive with backspin.
    Slice,
    /// Soft ball that dies behind the net.
    Drop,
    /// High ball over the opponent; takes the high solution.
    Lob,
    /// Ball struck before the bounce.
    Volley,
    /// Smash.
    Overhead,
    /// Serve.
    Serve,
}

impl Stroke {
    /// All strokes, in the order menus list them.
    pub const ALL: [Self; 8] =
        [Self::Topspin, Self::Flat, Self::Slice, Self::Drop, Self::Lob, Self::Volley, Self::Overhead, Self::Serve];
}

/// The ball just struck by the hitter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shot {
    /// Where the racket meets the ball, in the world frame.
    pub contact: DVec3,
    /// Kind of stroke.
    pub stroke: Stroke,
    /// Where the ball is meant to land, on the other half, in the world frame.
    pub target: DVec2,
    /// Speed off the racket, m/s.
    pub speed: f64,
    /// Topspin positive, backspin negative, rad/s.
    pub topspin: f64,
    /// Sidespin about `+z`, rad/s; curves the ball to its left.
    pub sidespin: f64,
}

/// Where the opponent meets the ball.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum ReceiptChoice {
    /// Where it serves the opponent best.
    #[default]
    Best,
    /// At the point of the ball's path that is nearest to this ground place.
    Near(DVec2),
}

/// Which standing places are considered for the spot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum ReadyArea {
    /// The whole of the player's side.
    #[default]
    Anywhere,
    /// Behind the service line.
    Back,
    /// In front of the service line.
    Net,
}

/// Choices that shape the answer without changing the facts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settings {
    /// A direction belongs to the wedge while its safest reply goes in at least this often, 0 to 1.
    pub edge_chance: f64,
    /// The recovery zone is where the exposure exceeds the least by at most this much.
    pub zone_tolerance: f64,
    /// Which standing places are considered.
    pub ready: ReadyArea,
}

impl Default for Settings {
    fn default() -> Self {
        Self { edge_chance: 0.5, zone_tolerance: 0.02, ready: ReadyArea::Anywhere }
    }
}

/// The question: one shot and the two players.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Situation {
    /// Court, surface, ball and air.
    pub conditions: Conditions,
    /// The end from which the shot is struck.
    pub hitter_end: End,
    /// The player who has just struck the ball, and who must find the spot.
    pub hitter: Player,
    /// The player who will strike it back.
    pub opponent: Player,
    /// Where the hitter's body is at contact, world frame.
    pub hitter_place: DVec2,
    /// Where the opponent's body is when the hitter strikes, world frame.
    pub opponent_place: DVec2,
    /// The shot.
    pub shot: Shot,
    /// Where the opponent meets it.
    pub receipt: ReceiptChoice,
    /// Choices that shape the answer.
    pub settings: Settings,
}
