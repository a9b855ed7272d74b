//! What the opponent may try from a contact: the definition that the fast path and the slow reference share.
//!
//! Landing places, strokes, speeds and spins, and which of the replies made of them are weighed at all. How a reply's
//! flight is computed is left to those who use this.

use glam::{DVec2, DVec3};

use crate::{
    court::Court,
    flight::BallPhysics,
    player::{Player, Wing},
    scatter::{self, Delivery, Room},
    situation::{Conditions, Stroke},
};

/// Replies less likely in than this are not weighed: they could not be anyone's best while others exist.
pub(crate) const LEAST_CHANCE: f64 = 0.12;
/// Rows of the lattice that a drop shot is played to.
pub(crate) const DROP_ROWS: usize = 2;
/// Landing depths as a share of the half court.
const DEPTHS: [f64; 7] = [0.17, 0.3, 0.44, 0.57, 0.7, 0.82, 0.93];
/// Distances from the sideline as a share of half the width, mirrored to both sides; 1 is the middle.
const MARGINS: [f64; 7] = [0.03, 0.09, 0.17, 0.28, 0.44, 0.68, 1.0];
/// Strokes are played with at least and at most this effort.
pub(crate) const EFFORT: (f64, f64) = (0.45, 1.5);
/// Slowest and fastest speed, m/s, and the ratio between neighbours.
pub(crate) const SPEEDS: (f64, f64, f64) = (7.0, 52.0, 1.2);
/// Spins, rpm: underspin, almost none, topspin, heavy topspin.
pub(crate) const SPINS_RPM: [f64; 4] = [-1500.0, 200.0, 1500.0, 2800.0];
/// Lowest and highest launch elevation, degrees.
pub(crate) const ELEVATIONS_DEG: (i32, i32) = (-20, 66);
/// Where a ball can be met: not closer to the net than this, m.
pub(crate) const NET_REACH_M: f64 = 0.3;

/// The speeds of the repertoire, rising.
pub(crate) fn speeds() -> impl Iterator<Item = f64> {
    std::iter::successors(Some(SPEEDS.0), |s| Some(s * SPEEDS.2)).take_while(|&s| s <= SPEEDS.1)
}

/// Who strikes, from where, in the frame of a near player: the opponent is at `y > 0`.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Striker<'a> {
    pub conditions: &'a Conditions,
    pub physics: &'a BallPhysics,
    pub player: &'a Player,
    pub contact: DVec3,
    pub wing: Wing,
    pub bounces: u8,
    pub pressure: f64,
    /// Horizontal direction in which the ball came, unit.
    pub incoming: DVec2,
}

/// Who must answer, as far as the reply's path is concerned.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Responder {
    pub bounces: u8,
    pub overhead: f64,
}

/// A landing place of the lattice with what only depends on where it lies.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Aimed {
    pub landing: DVec2,
    pub row: usize,
    pub distance: f64,
    pub direction: DVec2,
    /// Ground distance from contact to the net, and the height of the tape there.
    pub net_range: f64,
    pub net_height: f64,
    pub turn: f64,
    pub room: Room,
}

/// Lays the lattice of landing places, row by row from the net, each from left to right.
pub(crate) fn lattice<'a>(striker: &'a Striker<'a>) -> impl Iterator<Item = Aimed> + 'a {
    let court = &striker.conditions.court;
    DEPTHS.iter().enumerate().flat_map(move |(row, depth)| {
        let left = MARGINS.iter().map(|m| m - 1.0);
        let right = MARGINS.iter().rev().skip(1).map(|m| 1.0 - m);
        let y = -depth * court.half_length();
        left.chain(right).filter_map(move |x| aimed(striker, court, row, DVec2::new(x * court.half_width(), y)))
    })
}

fn aimed(striker: &Striker<'_>, court: &Court, row: usize, landing: DVec2) -> Option<Aimed> {
    let from = striker.contact.truncate();
    let way = landing - from;
    let distance = way.length();
    let direction = way / distance;
    let net_range = from.y / -direction.y;
    let net_x = from.x + direction.x * net_range;
    if net_x.abs() > court.post_x() {
        // Around the post: allowed by the rules, but not a reply one plans for.
        return None;
    }
    let turn = (-striker.incoming).dot(direction).clamp(-1.0, 1.0).acos();
    let net_height = court.net_height(net_x);
    // Seen from the striker, who faces -y.
    let room = Room::on(court, -landing.x, -landing.y);
    Some(Aimed { landing, row, distance, direction, net_range, net_height, turn, room })
}

/// The strokes that a spin stands for, each with whether it takes the high arc.
pub(crate) fn strokes(striker: &Striker<'_>, topspin: f64) -> &'static [(Stroke, bool)] {
    use Stroke::{Drop, Flat, Lob, Overhead, Slice, Topspin, Volley};
    let overhead = striker.bounces == 0 && striker.contact.z > 0.72 * striker.player.reach.overhead;
    let under = topspin < -1.0;
    let flat = (-1.0..60.0).contains(&topspin);
    let heavy = topspin > 220.0;
    match (overhead, striker.bounces == 0) {
        (true, _) if flat => &[(Overhead, false)],
        (true, _) => &[],
        (false, true) if flat => &[(Volley, false), (Lob, true)],
        (false, true) if under => &[(Volley, false), (Drop, false)],
        (false, true) => &[],
        (false, false) if under => &[(Slice, false), (Drop, false)],
        (false, false) if flat => &[(Flat, false), (Lob, true)],
        (false, false) if heavy => &[(Topspin, false)],
        (false, false) => &[(Topspin, false), (Lob, true)],
    }
}

/// A stroke struck straight back to where the ball came from.
pub(crate) fn delivery(striker: &Striker<'_>, speed: f64, topspin: f64, stroke: Stroke) -> Delivery {
    Delivery { stroke, speed, topspin, pressure: striker.pressure, turn: 0.0, height: striker.contact.z }
}

/// The effort that a stroke takes.
pub(crate) fn effort_of(striker: &Striker<'_>, speed: f64, topspin: f64, stroke: Stroke) -> f64 {
    let skill = striker.player.wing(scatter::wing_of(stroke, striker.wing));
    scatter::effort(skill, &delivery(striker, speed, topspin, stroke))
}
