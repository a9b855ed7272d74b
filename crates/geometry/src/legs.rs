//! What a near player makes of a ball at a point, in `f32`, for many points at once.

use glam::Vec2;

use crate::{
    coverage::{Mover, SOFT_REACH_M},
    exposure::{HALF_QUALITY_S, QUALITY_WIDTH_S},
};

/// The player's side of [`Mover`] in `f32`.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Legs {
    quadratic: f32,
    linear: f32,
    backward: f32,
    forehand_x: f32,
    forehand: f32,
    backhand: f32,
    ahead: f32,
    /// Reaction and the offset of the quality's middle, s.
    delay: f32,
}

impl Legs {
    pub fn new(mover: &Mover) -> Self {
        Self {
            quadratic: mover.stride.quadratic as f32,
            linear: mover.stride.linear as f32,
            backward: mover.backward as f32,
            forehand_x: mover.forehand_x as f32,
            forehand: mover.reach.0 as f32,
            backhand: mover.reach.1 as f32,
            ahead: mover.reach.2 as f32,
            delay: (mover.reaction + HALF_QUALITY_S) as f32,
        }
    }

    /// What the player makes of a ball at one point: value times quality of the time to spare.
    #[inline(always)]
    pub fn gain(&self, place: Vec2, x: f32, y: f32, t: f32, share: f32, value: f32) -> f32 {
        let s = self.spare(place, x, y, t, share);
        value * (0.5 + 0.5 * s / (1.0 + s * s).sqrt())
    }

    /// Whether twice the quality of a meeting, less one, is below `need`; spares the root and the division of
    /// [`Self::gain`].
    #[inline(always)]
    pub fn falls_short(&self, place: Vec2, x: f32, y: f32, t: f32, share: f32, need: f32) -> bool {
        let s = self.spare(place, x, y, t, share);
        s * s.abs() < need * need.abs() * (1.0 + s * s)
    }

    /// The time to spare for a ball at one point, from the middle of the quality's fall in units of its width.
    #[inline(always)]
    fn spare(&self, place: Vec2, x: f32, y: f32, t: f32, share: f32) -> f32 {
        const SOFT: f32 = SOFT_REACH_M as f32;
        const WIDTH: f32 = 1.0 / QUALITY_WIDTH_S as f32;
        let dx = x - place.x;
        let dy = y - place.y;
        let dy = if dy < 0.0 { dy * self.backward } else { dy };
        let square = dx * dx + dy * dy + 1e-6;
        let d = square.sqrt();
        let side = if dx * self.forehand_x > 0.0 { self.forehand } else { self.backhand };
        let q = d - share * (self.ahead + (side - self.ahead) * (dx * dx / square));
        let run = 0.5 * (q + (q * q + SOFT * SOFT).sqrt());
        (t - self.delay - (run * (self.quadratic * run + self.linear)).sqrt()) * WIDTH
    }
}

#[cfg(test)]
mod tests {
    use glam::{DVec2, DVec3};

    use super::*;
    use crate::{
        exposure::{quality, reach_share},
        frame::End,
        player::{BackhandGrip, Hand},
        presets::Level,
    };

    #[test]
    fn the_gain_is_that_of_the_plain_formulas() {
        for (hand, level) in [(Hand::Right, Level::ProMan), (Hand::Left, Level::Wheelchair)] {
            let mover = Mover::new(&level.player(hand, BackhandGrip::TwoHanded), End::Near);
            let legs = Legs::new(&mover);
            for n in 0..500 {
                let f = f64::from(n);
                let point =
                    DVec3::new(4.0 * (0.7 * f).sin(), -9.0 + 8.0 * (1.3 * f).cos(), 1.0 + 0.9 * (2.1 * f).sin());
                let (time, place) = (0.9 + 0.6 * (0.9 * f).sin(), DVec2::new((1.7 * f).cos(), -11.0 + (0.3 * f).sin()));
                let share = reach_share(point.z, mover.overhead);
                let needed = mover.time_needed(place, point).expect("below the highest reach");
                let at = place.as_vec2();
                let gain = legs.gain(at, point.x as f32, point.y as f32, time as f32, share as f32, 0.6);
                assert!((f64::from(gain) - 0.6 * quality(time - needed)).abs() < 2e-6, "round {n}");
                let twice = 2.0 * quality(time - needed) - 1.0;
                let short = |need: f64| {
                    legs.falls_short(at, point.x as f32, point.y as f32, time as f32, share as f32, need as f32)
                };
                assert!(short(twice + 1e-4) && !short(twice - 1e-4), "round {n}");
            }
        }
    }
}
