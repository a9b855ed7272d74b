//! Time to spare of a player for a ball that passes a point at a given time.
//!
//! From the opponent's contact the player reacts, then moves by the sprint model until the ball is within reach. Reach
//! is subtracted from the distance; it differs by wing, shrinks overhead and at the shoelaces, and is shorter straight
//! ahead. Distance backwards counts for more than forwards or sideways.
//!
//! [`Mover`] is the plain `f64` form; the rally evaluates its own form over arrays.

use glam::{DVec2, DVec3};

use crate::{
    court::frame::End,
    player::{Player, Stride, reach::reach_share},
};

/// Width of the soft corner where a ball comes within reach, m.
///
/// A ball just inside the longest reach still costs a little more time than one at the hip, so the distance left is
/// `(q + sqrt(q^2 + w^2)) / 2` instead of `max(q, 0)`: strictly rising, which leaves no plateau in the exposure.
pub const SOFT_REACH_M: f64 = 0.4;

/// A player's movement and reach, as seen from one end of the court.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mover {
    /// Sprint in closed form.
    pub stride: Stride,
    /// Time until the first movement, s.
    pub reaction: f64,
    /// Factor on distances away from the net.
    pub backward: f64,
    /// `+1` when the forehand lies towards `+x`.
    pub forehand_x: f64,
    /// `+1` when the player faces `+y`.
    pub facing: f64,
    /// Reach on the forehand, the backhand and ahead, m.
    pub reach: (f64, f64, f64),
    /// Greatest height of contact, m.
    pub overhead: f64,
}

impl Mover {
    /// A player at an end.
    #[must_use]
    pub fn new(player: &Player, end: End) -> Self {
        Self {
            stride: player.movement.stride(),
            reaction: player.movement.reaction_s,
            backward: player.movement.backward_factor,
            forehand_x: player.hand.forehand_sign() * end.sign(),
            facing: end.sign(),
            reach: (player.reach.forehand, player.reach.backhand, player.reach.ahead),
            overhead: player.reach.overhead,
        }
    }

    /// Distance that must be run from `place` until the ball at `point` is within reach, m, never negative. Metres
    /// backwards count `backward` times. `None` if the ball is over the highest reach.
    #[must_use]
    pub fn distance(&self, place: DVec2, point: DVec3) -> Option<f64> {
        let share = reach_share(point.z, self.overhead);
        if share <= 0.0 {
            return None;
        }
        let dx = point.x - place.x;
        let mut dy = point.y - place.y;
        if dy * self.facing < 0.0 {
            dy *= self.backward;
        }
        // Square roots rather than `hypot`, which guards against overflow that cannot happen here at many times the cost.
        let d = (dx * dx + dy * dy).sqrt().max(1e-3);
        let c = dx * self.forehand_x / d;
        let (forehand, backhand, ahead) = self.reach;
        let side = if c > 0.0 { forehand } else { backhand };
        let q = d - share * (ahead + (side - ahead) * c * c);
        Some(0.5 * (q + (q * q + SOFT_REACH_M * SOFT_REACH_M).sqrt()))
    }

    /// Time from the opponent's contact until the racket is at `point`, s; `None` if it is over the highest reach.
    #[must_use]
    pub fn time_needed(&self, place: DVec2, point: DVec3) -> Option<f64> {
        Some(self.reaction + self.stride.time(self.distance(place, point)?))
    }
}
