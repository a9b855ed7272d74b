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
/// The same for serves, as shares of the service line's distance and of half the width.
const SERVE_DEPTHS: [f64; 5] = [0.5, 0.64, 0.76, 0.86, 0.94];
const SERVE_MARGINS: [f64; 8] = [0.04, 0.12, 0.25, 0.42, 0.6, 0.78, 0.9, 0.97];
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
    /// Whether this is a serve: into the box across, and never met before the bounce.
    pub serving: bool,
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
    let (depths, margins) =
        if striker.serving { (&SERVE_DEPTHS[..], &SERVE_MARGINS[..]) } else { (&DEPTHS[..], &MARGINS[..]) };
    let length = if striker.serving { service_line(court) } else { court.half_length() };
    // A server behind the right half (seen from there) serves to the box across, which is on this side of the middle.
    let side = if striker.contact.x > 0.0 { -1.0 } else { 1.0 };
    depths.iter().enumerate().flat_map(move |(row, depth)| {
        let left = margins.iter().map(|m| m - 1.0);
        let right = margins.iter().rev().skip(1).map(|m| 1.0 - m);
        let y = -depth * length;
        left.chain(right)
            .filter(move |x| !striker.serving || x * side > 0.0)
            .filter_map(move |x| aimed(striker, court, row, DVec2::new(x * court.half_width(), y)))
    })
}

/// Distance of the service line from the net; on a court without one, where it would lie in proportion.
pub(crate) fn service_line(court: &Court) -> f64 {
    court.service_line.unwrap_or(court.half_length() * 0.54)
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
    let room = if striker.serving {
        Room::in_box(court, service_line(court), landing.x, -landing.y)
    } else {
        Room::on(court, -landing.x, -landing.y)
    };
    Some(Aimed { landing, row, distance, direction, net_range, net_height, turn, room })
}

/// The strokes that a spin stands for, each with whether it takes the high arc.
pub(crate) fn strokes(striker: &Striker<'_>, topspin: f64) -> &'static [(Stroke, bool)] {
    use Stroke::{Drop, Flat, Lob, Overhead, Serve, Slice, Topspin, Volley};
    if striker.serving {
        return if topspin < -1.0 { &[] } else { &[(Serve, false)] };
    }
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
    Delivery {
        stroke,
        wing: striker.wing,
        speed,
        topspin,
        pressure: striker.pressure,
        turn: 0.0,
        height: striker.contact.z,
    }
}

/// What a chance to go in counts for.
///
/// A first serve that misses is not a lost point, it is followed by the second; what it costs the server is about two
/// fifths of a point (choice: professionals win about 73 % behind a first serve that is in and 53 % behind a second one,
/// from memory).
pub(crate) fn weight(striker: &Striker<'_>, chance: f64) -> f64 {
    if striker.serving { 1.0 - 0.4 * (1.0 - chance) } else { chance }
}

/// A return met further back than this from the net (on a full court) gives the server time and angles, m.
pub(crate) const RETURN_BACK_M: f64 = 12.9;
/// What each metre of that costs in points. Choice: with it receivers of a first serve wait one to three metres behind
/// the baseline, as is common practice (no source).
pub(crate) const RETURN_DEPTH_COST: f64 = 0.04;

/// Least and greatest effort of the striker's strokes: nobody waits for a soft first serve.
pub(crate) fn efforts(striker: &Striker<'_>) -> (f64, f64) {
    if striker.serving { (0.82, 1.3) } else { EFFORT }
}

/// The effort that a stroke takes.
pub(crate) fn effort_of(striker: &Striker<'_>, speed: f64, topspin: f64, stroke: Stroke) -> f64 {
    let skill = scatter::skill_of(striker.player, stroke, striker.wing);
    scatter::effort(&skill, &delivery(striker, speed, topspin, stroke))
}
