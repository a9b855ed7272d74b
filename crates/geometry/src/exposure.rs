//! How likely the opponent is to win the point with a reply, given the player's time to spare.
//!
//! `exposure = chance in x (1 - gain)`, where the gain is what the player makes of the ball at the best point of its
//! path: `gain = value(point) x quality(time to spare)`. The quality is an algebraic sigmoid: it falls from 1 to 0
//! smoothly and strictly, without a plateau, and costs one square root. The value is the chance to win the point once
//! the ball is met there with all the time in the world.

use crate::court::Court;

/// Time to spare at which a ball is worth half of what it is worth with all the time in the world, s.
///
/// Choice: reach is measured at full lunge, so a ball met with nothing to spare is barely put back.
pub const HALF_QUALITY_S: f64 = 0.12;
/// Width of the fall of [`quality`], s. Choice, with [`HALF_QUALITY_S`].
pub const QUALITY_WIDTH_S: f64 = 0.22;

/// What is left of a ball's value at a time to spare: 0 for late by far, 1 with all the time in the world; strictly
/// increasing.
#[must_use]
pub fn quality(time_to_spare: f64) -> f64 {
    let x = (time_to_spare - HALF_QUALITY_S) / QUALITY_WIDTH_S;
    0.5 + 0.5 * x / (1.0 + x * x).sqrt()
}

/// The player's chance to win the point when the ball is met at leisure at a depth from the net and a height.
///
/// A ball with all the time in the world is more than a neutral one: 0.62 from a metre behind the baseline, which the
/// time to spare of a rally brings down to about even; closer to the net more is won (62-68 % of points with a volley,
/// `players.md` section 5), deeper less. A volley below the tape or from the back of the court is worth less, and so
/// is a ball above the shoulder. Values between the published ones are a choice.
#[must_use]
pub fn value(court: &Court, depth: f64, height: f64, bounced: bool) -> f64 {
    value_at(depth * FULL_HALF_LENGTH / court.half_length(), height, bounced)
}

/// Half the length of the full court, m (ITF Rules of Tennis, Rule 1).
pub(crate) const FULL_HALF_LENGTH: f64 = 11.885;

/// [`value`] with the depth scaled to a full court, so that on small courts the same zones count.
#[inline]
pub(crate) fn value_at(d: f64, height: f64, bounced: bool) -> f64 {
    let base = if d < 12.885 {
        let s = smooth((d - 2.0) / (12.885 - 2.0));
        0.78 + (0.62 - 0.78) * s
    } else {
        // One metre deeper costs one point in a hundred.
        0.62 - 0.01 * (d - 12.885)
    };
    let penalty = if bounced {
        0.06 * ((height - 1.4) / 0.6).clamp(0.0, 1.0) + 0.15 * ((0.5 - height) / 0.5).clamp(0.0, 1.0)
    } else {
        0.15 * ((0.9 - height) / 0.9).clamp(0.0, 1.0) + 0.24 * smooth((d - 3.0) / 3.4)
    };
    (base - penalty).clamp(0.05, 0.95)
}

/// Share of the reach left at a height: less at the shoelaces and overhead, none beyond it.
///
/// Choice: full from 0.35 m to 60 % of the overhead reach.
#[must_use]
#[inline]
pub fn reach_share(height: f64, overhead: f64) -> f64 {
    if height > overhead {
        0.0
    } else if height < 0.35 {
        0.75 + 0.25 * (height / 0.35).max(0.0)
    } else {
        let shoulder = 0.6 * overhead;
        1.0 - 0.8 * ((height - shoulder) / (overhead - shoulder)).clamp(0.0, 1.0)
    }
}

#[inline]
fn smooth(t: f64) -> f64 {
    let t = t.clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::court::{Court, NetPosts, Stage};

    #[test]
    fn more_time_is_always_better() {
        let mut last = quality(-5.0);
        let mut t = -5.0;
        while t < 5.0 {
            t += 0.01;
            let q = quality(t);
            assert!(q > last, "at {t}");
            last = q;
        }
    }

    #[test]
    fn the_net_is_worth_more_than_the_baseline() {
        let court = Court::new(Stage::Full, NetPosts::SinglesSticks);
        assert!(value(&court, 3.0, 1.2, false) > value(&court, 12.9, 1.0, true) + 0.1);
        assert!(value(&court, 3.0, 0.3, false) < value(&court, 3.0, 1.2, false));
        assert!(value(&court, 16.0, 1.0, true) < value(&court, 12.9, 1.0, true) - 0.02);
    }
}
