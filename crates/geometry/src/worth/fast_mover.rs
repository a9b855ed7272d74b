//! Fast form of a player's movement: when a ball is reached, and when with a proper stance, for many standing places at
//! once.

use pulp::Simd;

use super::{
    behaviour::Behaviour,
    lanes::{Lanes, Real},
    lattice::TIMES,
    paths::Sample,
};
use crate::player::Player;

/// Standing places evaluated together.
pub(crate) const BLOCK: usize = 8;
/// Corner of the soft minimum of a distance, m.
const SOFT: f32 = 0.3;
/// Distance beyond the reach at which a player stretches fully, m.
const STRETCHED: f32 = 0.05;

/// A player's movement and reach in the own frame.
#[derive(Debug, Clone, Copy)]
pub(crate) struct FastMover {
    quadratic: f32,
    linear: f32,
    reaction: f32,
    backward: f32,
    forehand_sign: f32,
    forehand: f32,
    backhand: f32,
    ahead: f32,
    overhead: f32,
    behaviour: Behaviour,
    follow_through: f32,
}

/// A distance that is never negative: zero within reach, with a soft corner.
#[inline(always)]
fn soft<R: Real>(q: R) -> R {
    q.of(0.5) * (q + (q * q + q.of(SOFT * SOFT)).sqrt())
}

/// Values of one sample that do not depend on the standing place.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Meeting {
    pub x: f32,
    pub depth: f32,
    /// Arrival less reaction, s.
    pub time: f32,
    /// Share of the reach left at the height.
    pub share: f32,
    /// Cost of taking the ball on the rise, s.
    pub rise: f32,
    /// Whether the ball is in the air, before the bounce.
    pub air: bool,
    /// Time of a step and reach at full stretch, s.
    pub lunge: f32,
    /// Square of the distance beyond which the ball is never reached, m².
    far: f32,
}

/// A meeting with its worth to the player, over the time to spare.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Catch {
    meeting: Meeting,
    ramp: Ramp,
    /// Largest possible worth of the meeting.
    pub most: f32,
}

impl Catch {
    /// `worth` is that of the meeting, by time level and wing.
    #[inline(always)]
    pub fn new(meeting: Meeting, worth: &[f32; 8]) -> Self {
        Self { meeting, ramp: Ramp::new(worth), most: worth.iter().copied().fold(0.0, f32::max) }
    }
}

impl FastMover {
    pub fn new(player: &Player, behaviour: &Behaviour) -> Self {
        let stride = player.movement.stride();
        Self {
            quadratic: stride.quadratic as f32,
            linear: stride.linear as f32,
            reaction: player.movement.reaction_s as f32,
            backward: (player.movement.backward_factor as f32).max(1.0) * behaviour.backward / 1.25,
            forehand_sign: player.hand.forehand_sign() as f32,
            forehand: player.reach.forehand as f32,
            backhand: player.reach.backhand as f32,
            ahead: player.reach.ahead as f32,
            overhead: player.reach.overhead as f32,
            behaviour: *behaviour,
            follow_through: player.movement.follow_through_s as f32,
        }
    }

    #[inline(always)]
    pub fn meeting(&self, s: &Sample) -> Meeting {
        let b = &self.behaviour;
        let early = (1.0 - s.since / b.rise_until).max(0.0);
        let rise = if s.air { 0.0 } else { b.rise_cost * early * early };
        let share = crate::player::reach::reach_share(f64::from(s.height), f64::from(self.overhead)) as f32;
        let lunge = if s.air { b.lunge_air } else { b.lunge };
        let time = s.time - self.reaction;
        let far = self.far(time, share, lunge);
        Meeting { x: s.x, depth: s.depth, time, share, rise, air: s.air, lunge, far: far * far }
    }

    /// The distance beyond which a ball is never reached within a time, m: [`Self::at`] gives no chance there.
    #[inline(always)]
    fn far(&self, time: f32, share: f32, lunge: f32) -> f32 {
        let time = time - self.behaviour.reach_centre + self.behaviour.reach_half_width;
        let reach = share * self.forehand.max(self.backhand).max(self.ahead);
        let square = (time * time - lunge * lunge).max(0.0);
        let disc = (self.linear * self.linear + 4.0 * self.quadratic * square).sqrt();
        let run = 2.0 * square / (self.linear + disc);
        if time <= 0.0 { 0.0 } else { (reach + run.max(STRETCHED)) / self.backward.min(1.0) }
    }

    /// Time of a run from rest and the braking at its end.
    #[inline(always)]
    fn run<R: Real>(&self, d: R) -> (R, R) {
        let t = (d * (d.of(self.quadratic) * d + d.of(self.linear))).sqrt();
        let v = (t + t) / (d.of(2.0 * self.quadratic) * d + d.of(self.linear));
        let brake = (v - d.of(self.behaviour.brake_speed)).max(d.of(0.0)) * d.of(0.5 / self.behaviour.brake);
        (t, brake)
    }

    /// Time to spare for the stance of the wing on the side of `sign`.
    #[inline(always)]
    fn stance<R: Real>(&self, m: &Meeting, dx: R, dy: R, sign: f32) -> R {
        let b = &self.behaviour;
        let sx = dx - dx.of(sign * b.stance_beside);
        let sy = dy + dx.of(b.stance_ahead);
        let back = sy * sy.if_positive(dx.of(self.backward), dx.of(1.0));
        let deep = back * back;
        let square = sx * sx + deep + dx.of(1e-6);
        let (t, brake) = self.run(soft(square.sqrt() - dx.of(b.stance_slack)));
        let deep = deep / (square + dx.of(0.25));
        let forward = sy.if_positive(dx.of(0.0), deep);
        dx.of(m.time - m.rise) - t - brake * forward - dx.of(b.depth_read) * deep
    }

    /// The chance to reach a ball, and the time to spare for either wing's stance.
    #[inline(always)]
    pub fn at<R: Real>(&self, m: &Meeting, px: R, pd: R) -> (R, R, R) {
        let (dx, dy) = (px.of(m.x) - px, px.of(m.depth) - pd);
        let reach = self.chance(m, dx, dy);
        (reach, self.stance(m, dx, dy, self.forehand_sign), self.stance(m, dx, dy, -self.forehand_sign))
    }

    /// The chance to reach a ball at an offset to the right and behind.
    #[inline(always)]
    fn chance<R: Real>(&self, m: &Meeting, dx: R, dy: R) -> R {
        let (b, px) = (&self.behaviour, dx);
        let back = dy * dy.if_positive(px.of(self.backward), px.of(1.0));
        let xx = dx * dx;
        let square = xx + back * back + px.of(1e-6);
        let d = square.sqrt();
        let side = (dx * px.of(self.forehand_sign)).if_positive(px.of(self.forehand), px.of(self.backhand));
        let reach = px.of(m.share) * (px.of(self.ahead) + (side - px.of(self.ahead)) * (xx / square));
        let run = soft(d - reach);
        let stretch = px.of(m.lunge) * (d / (reach + px.of(STRETCHED))).min(px.of(1.0));
        let t = run * (px.of(self.quadratic) * run + px.of(self.linear));
        let mut spare = px.of(m.time) - (t + stretch * stretch).sqrt();
        if m.air {
            let (_, brake) = self.run(run);
            spare = spare - dy.if_positive(px.of(0.0), dy * dy / square) * brake;
        }
        // Smooth step from never to always.
        let u = ((spare - px.of(b.reach_centre)) * px.of(1.0 / b.reach_half_width)).within(-1.0, 1.0);
        px.of(0.5) + u * (px.of(0.75) - px.of(0.25) * u * u)
    }

    /// Where a run from the own contact towards a place has got to at the opponent's contact, `time` later.
    #[inline(always)]
    pub fn recover(&self, from: [f32; 2], to: [f32; 2], time: f32) -> [f32; 2] {
        let b = &self.behaviour;
        let t = (time - self.follow_through - b.ready).max(0.0);
        let disc = (self.linear * self.linear + 4.0 * self.quadratic * t * t).sqrt();
        let range = b.recovery * 2.0 * t * t / (self.linear + disc);
        let way = [to[0] - from[0], to[1] - from[1]];
        let deep = if way[1] > 0.0 { way[1] * self.backward } else { way[1] };
        let d = (way[0] * way[0] + deep * deep).sqrt();
        if d <= range {
            return to;
        }
        let u = range / d;
        [from[0] + u * way[0], from[1] + u * way[1]]
    }

    /// Time a recovery from one place to another takes until the player is ready there, s.
    pub fn recovery_time(&self, from: [f32; 2], to: [f32; 2]) -> f32 {
        let way = [to[0] - from[0], to[1] - from[1]];
        let deep = if way[1] > 0.0 { way[1] * self.backward } else { way[1] };
        let d = (way[0] * way[0] + deep * deep).sqrt() / self.behaviour.recovery;
        self.follow_through + self.behaviour.ready + (d * (self.quadratic * d + self.linear)).sqrt()
    }

    /// Whether a ball may be reached from any of some places.
    #[inline(always)]
    pub fn reaches<S: Simd>(&self, simd: S, m: &Meeting, (px, pd): (&[f32], &[f32])) -> bool {
        let (px, _) = S::as_simd_f32s(px);
        let (pd, _) = S::as_simd_f32s(pd);
        // A loop instead of an iterator, so that it is compiled for the vector registers of its caller.
        for i in 0..px.len().min(pd.len()) {
            let (px, pd) = (Lanes(simd, px[i]), Lanes(simd, pd[i]));
            if simd.reduce_max_f32s(self.chance(m, px.of(m.x) - px, px.of(m.depth) - pd).1) > 0.0 {
                return true;
            }
        }
        false
    }

    /// The best worth of a ball to a player at each of many places: reach times worth, over the meetings of its path.
    ///
    /// The most promising meetings come first, so that most of the others can be skipped. Places come in blocks of
    /// [`BLOCK`].
    #[inline(always)]
    pub fn best<S: Simd>(&self, simd: S, catches: &[Catch], (px, pd): (&[f32], &[f32]), best: &mut [f32]) {
        let (px, _) = S::as_simd_f32s(px);
        let (pd, _) = S::as_simd_f32s(pd);
        let (best, _) = S::as_mut_simd_f32s(best);
        for i in 0..best.len().min(px.len()).min(pd.len()) {
            let (px, pd) = (Lanes(simd, px[i]), Lanes(simd, pd[i]));
            let mut made = px.of(0.0);
            let mut least = 0.0;
            for c in catches {
                if least >= c.most {
                    break;
                }
                let m = &c.meeting;
                let (dx, dy) = (px.of(m.x) - px, px.of(m.depth) - pd);
                if simd.reduce_min_f32s((dx * dx + dy * dy).1) > m.far {
                    continue;
                }
                let reach = self.chance(m, dx, dy);
                if simd.reduce_max_f32s((reach * px.of(c.most) - made).1) <= 0.0 {
                    continue;
                }
                let forehand = c.ramp.at(self.stance(m, dx, dy, self.forehand_sign), 0);
                let backhand = c.ramp.at(self.stance(m, dx, dy, -self.forehand_sign), 1);
                made = (reach * forehand.max(backhand)).max(made);
                least = simd.reduce_min_f32s(made.1);
            }
            best[i] = made.1;
        }
    }
}

/// Worth over the time to spare, piecewise linear, for both wings.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Ramp {
    start: [f32; 2],
    slope: [[f32; 3]; 2],
}

impl Ramp {
    #[inline(always)]
    pub fn new(w: &[f32; 8]) -> Self {
        let mut ramp = Self { start: [w[0], w[1]], slope: [[0.0; 3]; 2] };
        for wing in 0..2 {
            for k in 0..3 {
                ramp.slope[wing][k] = (w[2 * (k + 1) + wing] - w[2 * k + wing]) / (TIMES[k + 1] - TIMES[k]);
            }
        }
        ramp
    }

    #[inline(always)]
    pub fn at<R: Real>(&self, t: R, wing: usize) -> R {
        let s = &self.slope[wing];
        let mut sum = t.of(self.start[wing]);
        for k in 0..3 {
            sum = sum + t.of(s[k]) * (t - t.of(TIMES[k])).within(0.0, TIMES[k + 1] - TIMES[k]);
        }
        sum
    }
}
