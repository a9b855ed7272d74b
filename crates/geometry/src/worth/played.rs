//! A stroke of a simulated point, and the endings of points.

use crate::{player::Wing, shot::stroke::Stroke};

/// How a stroke ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Ending {
    /// The other player struck it back or tried to.
    Returned,
    /// It was not reached.
    Untouched,
    /// Into the net.
    Net,
    /// Beyond the baseline or service line.
    Long,
    /// Beside the sideline.
    Wide,
}

/// One simulated stroke. Places are in the striker's own frame: `x` to the right as the striker faces the net, depth from
/// the net.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlayedStroke {
    /// Number of the point.
    pub point: u32,
    /// Number of the stroke in the point; the serve is 1.
    pub number: u32,
    /// Which player: 0 or 1.
    pub striker: u8,
    /// Who serves: 0 or 1.
    pub server: u8,
    /// Whether the point is served from the left of the centre mark.
    pub ad: bool,
    /// 1 or 2 for a serve, 0 otherwise.
    pub serve: u8,
    /// Stroke.
    pub stroke: Stroke,
    /// Wing.
    pub wing: Wing,
    /// Contact: x, depth from the net, height, m.
    pub contact: [f32; 3],
    /// Whether it was struck before the bounce.
    pub air: bool,
    /// Time since the other player's contact, s; 0 for a serve.
    pub available: f32,
    /// Time to spare to a proper stance, s.
    pub spare: f32,
    /// Where the other player is (own frame: x, depth), m.
    pub other: [f32; 2],
    /// Speed off the racket, m/s.
    pub speed: f32,
    /// Topspin, rad/s.
    pub topspin: f32,
    /// Aim and landing: x, distance beyond the net, m.
    pub aim: [f32; 2],
    /// See `aim`; for netted balls where they would have landed.
    pub landing: [f32; 2],
    /// Height of the ball over the tape, m.
    pub clearance: f32,
    /// How it ended.
    pub ending: Ending,
    /// Chance to win the point that the model gave the striker at contact.
    pub worth: f32,
    /// Whether the striker won the point.
    pub won: bool,
}
