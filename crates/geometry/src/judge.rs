//! What a standing place is worth against a set of replies.
//!
//! The exposure of a place is that of the reply which punishes it most, so a reply need not be computed where a bound
//! shows that another one is worse. Each reply remembers the point of its path at which it was last met best; the
//! exposure judged by that point alone can only be too high, because more points can only help the player. One pass
//! over these bounds, sixteen at a time, leaves a handful of replies to evaluate in full. The result is exact.

use glam::{DVec2, Vec2};

use crate::{
    coverage::Mover,
    legs::Legs,
    minimax::Plane,
    points::{AFTER, BEFORE, Limits, MOST},
    replies::ReplySet,
};

/// Replies bounded together: two registers of eight, or four of four on the plainest machine.
const LANES: usize = 16;
/// What a standing place is worth against one reply.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Judged {
    pub reply: usize,
    pub exposure: f64,
    /// Index of the sample nearest to the best meeting point.
    pub point: usize,
}

/// Evaluates standing places of a near player against a set of replies.
#[derive(Debug, Clone, Default)]
pub(crate) struct Judge {
    legs: Legs,
    limits: Limits,
    /// Replies in order of falling chance.
    order: Vec<u32>,
    count: usize,
    points: usize,
    // One entry per reply, in that order, padded to a multiple of LANES.
    chance: Vec<f32>,
    key_x: Vec<f32>,
    key_y: Vec<f32>,
    key_t: Vec<f32>,
    key_share: Vec<f32>,
    key_value: Vec<f32>,
    // The points, in that order.
    x: Vec<f32>,
    y: Vec<f32>,
    z: Vec<f32>,
    t: Vec<f32>,
    share: Vec<f32>,
    value: Vec<f32>,
    /// The reply that was worst at the place judged last.
    last: usize,
}

impl Judge {
    /// Takes in a new set of replies.
    pub fn load(&mut self, set: &ReplySet, mover: &Mover) {
        self.legs = Legs::new(mover);
        self.points = set.points;
        self.limits = set.limits;
        self.last = 0;
        self.clear();
        let mut order: Vec<u32> = (0..set.meta.len() as u32).collect();
        order.sort_unstable_by(|&a, &b| set.chance[b as usize].total_cmp(&set.chance[a as usize]));
        for reply in order {
            let from = reply as usize * self.points;
            let columns: [&[f32]; 6] = [&set.x, &set.y, &set.z, &set.t, &set.share, &set.value];
            self.push(reply, set.chance[reply as usize], from..from + self.points, columns);
            self.set_key(self.count - 1, BEFORE + AFTER / 2);
        }
        self.pad();
    }

    fn clear(&mut self) {
        self.order.clear();
        for v in
            [&mut self.chance, &mut self.x, &mut self.y, &mut self.z, &mut self.t, &mut self.share, &mut self.value]
        {
            v.clear();
        }
        for v in [&mut self.key_x, &mut self.key_y, &mut self.key_t, &mut self.key_share, &mut self.key_value] {
            v.clear();
        }
        self.count = 0;
    }

    /// Adds a reply whose points are `range` of the columns x, y, z, t, share, value.
    fn push(&mut self, order: u32, chance: f32, range: std::ops::Range<usize>, columns: [&[f32]; 6]) {
        self.order.push(order);
        self.chance.push(chance);
        let own = [&mut self.x, &mut self.y, &mut self.z, &mut self.t, &mut self.share, &mut self.value];
        for (own, column) in own.into_iter().zip(columns) {
            own.extend_from_slice(&column[range.clone()]);
        }
        let keys = [&mut self.key_x, &mut self.key_y, &mut self.key_t, &mut self.key_share, &mut self.key_value];
        for key in keys {
            key.push(0.0);
        }
        self.count += 1;
    }

    /// Fills the last group of lanes with entries that can never be worst.
    fn pad(&mut self) {
        let padded = self.count.next_multiple_of(LANES);
        for v in [&mut self.chance, &mut self.key_x, &mut self.key_y, &mut self.key_t, &mut self.key_value] {
            v.resize(padded, 0.0);
        }
        self.key_share.resize(padded, 1.0);
    }

    pub fn is_empty(&self) -> bool {
        self.count == 0
    }

    fn set_key(&mut self, i: usize, point: usize) {
        let at = i * self.points + point;
        self.key_x[i] = self.x[at];
        self.key_y[i] = self.y[at];
        self.key_t[i] = self.t[at];
        self.key_share[i] = self.share[at];
        self.key_value[i] = self.value[at];
    }

    /// The exposure of a place and the reply that causes it (index in the order of this judge).
    ///
    /// Runs with the widest registers that the machine has; the numbers are the same with any.
    pub fn exposure(&mut self, place: Vec2) -> (f32, usize) {
        pulp::Arch::new().dispatch(Expose::<true>(self, place))
    }

    /// The same, good to a few thousandths: the best meeting point is read off the samples.
    pub fn glance(&mut self, place: Vec2) -> (f32, usize) {
        pulp::Arch::new().dispatch(Expose::<false>(self, place))
    }

    #[inline(always)]
    fn exposure_inline<const EXACT: bool>(&mut self, place: Vec2) -> (f32, usize) {
        let mut worst = 0.0f32;
        let mut by = self.last;
        if self.last < self.count {
            worst = self.full::<EXACT>(self.last, place).0;
        }
        let mut first = 0;
        while first < self.count {
            // Chances fall from here on: none of the rest can reach the worst any more.
            if self.chance[first] <= worst {
                break;
            }
            let bound = self.bounds(first, place);
            for (i, &b) in bound.iter().enumerate() {
                if b > worst {
                    let reply = first + i;
                    let (e, point) = self.full::<EXACT>(reply, place);
                    self.set_key(reply, point);
                    if e > worst {
                        worst = e;
                        by = reply;
                    }
                }
            }
            first += LANES;
        }
        self.last = by;
        (worst, by)
    }

    /// Upper bounds of the exposures of the replies from `first` on.
    #[inline(always)]
    fn bounds(&self, first: usize, place: Vec2) -> [f32; LANES] {
        let mut bound = [0.0f32; LANES];
        let legs = self.legs;
        let lanes = first..first + LANES;
        let (x, y, t) = (&self.key_x[lanes.clone()], &self.key_y[lanes.clone()], &self.key_t[lanes.clone()]);
        let (share, value) = (&self.key_share[lanes.clone()], &self.key_value[lanes.clone()]);
        let chance = &self.chance[lanes];
        for i in 0..LANES {
            // Indexed, because the compiler makes one wide loop of it; zipped iterators it does not.
            bound[i] = chance[i] * (1.0 - legs.gain(place, x[i], y[i], t[i], share[i], value[i]));
        }
        bound
    }

    /// One reply's exposure over all its points, and the index of the best one.
    #[inline(always)]
    fn full<const EXACT: bool>(&self, i: usize, place: Vec2) -> (f32, usize) {
        if EXACT {
            let (gain, best, _) = self.best(i, place);
            return (self.chance[i] * (1.0 - gain), best);
        }
        let mut gain = [0.0f32; MOST];
        let best = self.samples(i, place, &mut gain);
        (self.chance[i] * (1.0 - peak(&gain[..self.points.min(MOST)], best)), best)
    }

    /// The gain at every sample of a reply, and the index of the best one.
    #[inline(always)]
    fn samples(&self, i: usize, place: Vec2, gain: &mut [f32; MOST]) -> usize {
        let range = i * self.points..(i + 1) * self.points;
        let (x, y, t) = (&self.x[range.clone()], &self.y[range.clone()], &self.t[range.clone()]);
        let (share, value) = (&self.share[range.clone()], &self.value[range]);
        let n = self.points.min(MOST);
        let legs = self.legs;
        for k in 0..n {
            gain[k] = legs.gain(place, x[k], y[k], t[k], share[k], value[k]);
        }
        let mut best = 0;
        for k in 1..n {
            if gain[k] > gain[best] {
                best = k;
            }
        }
        best
    }

    /// The most that can be made of a reply, the best sample, and where the ball is met then: before the bounce or after
    /// it, whichever is better between the samples.
    #[inline(always)]
    fn best(&self, i: usize, place: Vec2) -> (f32, usize, Meeting) {
        /// A part of the path whose best sample is this much below the best of all may still hold the best meeting: the
        /// gain changes by less between a sample and the summit beside it.
        const RIVAL: f32 = 0.04;
        let mut gain = [0.0f32; MOST];
        let best = self.samples(i, place, &mut gain);
        let mut top = self.summit(i, best, gain[best], place);
        let mut sample = best;
        let mut first = 0;
        while first < self.points {
            let (_, last) = part(first);
            if last >= self.points {
                break;
            }
            if !(first..=last).contains(&best) {
                let mut rival = first;
                for k in first..=last {
                    if gain[k] > gain[rival] {
                        rival = k;
                    }
                }
                if gain[rival] > gain[best] - RIVAL {
                    let other = self.summit(i, rival, gain[rival], place);
                    if other.0 > top.0 {
                        (top, sample) = (other, rival);
                    }
                }
            }
            first = last + 1;
        }
        (top.0, sample, top.1)
    }

    /// The most that can be made of a reply around a sample, and where it is met: the path between the samples is a
    /// parabola through three of them, and the time of the best meeting is halved in on.
    #[inline(always)]
    fn summit(&self, i: usize, sample: usize, gain: f32, place: Vec2) -> (f32, Meeting) {
        const ROUNDS: usize = 4;
        let (first, last) = part(sample);
        let middle = sample.clamp(first + 1, last - 1);
        let at = i * self.points + middle;
        let curve = |v: &[f32]| {
            let (a, b, c) = (v[at - 1], v[at], v[at + 1]);
            (b, 0.5 * (c - a), 0.5 * (a + c) - b)
        };
        let (x, y, z, t) = (curve(&self.x), curve(&self.y), curve(&self.z), curve(&self.t));
        let on = |c: (f32, f32, f32), s: f32| c.0 + s * (c.1 + s * c.2);
        let (low, high) = (first as f32 - middle as f32, last as f32 - middle as f32);
        let at = i * self.points + sample;
        let mut meeting =
            Meeting { x: self.x[at], y: self.y[at], t: self.t[at], share: self.share[at], value: self.value[at] };
        let mut top = (sample as f32 - middle as f32, gain);
        let mut step = 0.5;
        for _ in 0..ROUNDS {
            let center = top.0;
            for s in [center - step, center + step] {
                if s < low || s > high {
                    continue;
                }
                let (px, py, pz) = (on(x, s), on(y, s), on(z, s));
                let bounced = sample >= BEFORE;
                let (share, value) = self.limits.meeting(f64::from(px), f64::from(py), f64::from(pz), bounced);
                let m = Meeting { x: px, y: py, t: on(t, s), share: share as f32, value: value as f32 };
                let g = self.legs.gain(place, m.x, m.y, m.t, m.share, m.value);
                if g > top.1 {
                    (top, meeting) = ((s, g), m);
                }
            }
            step *= 0.5;
        }
        (top.1, meeting)
    }

    /// The replies that are within `margin` of the worst at a place, with how their exposure changes with the place, and
    /// that of the worst.
    pub fn planes(&mut self, place: Vec2, margin: f32, planes: &mut Vec<Plane>) -> f32 {
        pulp::Arch::new().dispatch(Collect(self, place, margin, planes))
    }

    #[inline(always)]
    fn planes_inline(&mut self, place: Vec2, margin: f32, planes: &mut Vec<Plane>) -> f32 {
        let worst = self.exposure_inline::<true>(place).0;
        // Never below zero, where the padding would count.
        let least = (worst - margin).max(0.0);
        planes.clear();
        for first in (0..self.count).step_by(LANES) {
            if self.chance[first] <= least {
                break;
            }
            let bound = self.bounds(first, place);
            for (i, &b) in bound.iter().enumerate() {
                if b > least {
                    let reply = first + i;
                    let (gain, point, meeting) = self.best(reply, place);
                    self.set_key(reply, point);
                    let e = self.chance[reply] * (1.0 - gain);
                    if e > least {
                        planes.push(self.plane(reply, e, place, &meeting));
                    }
                }
            }
        }
        worst
    }

    /// How a reply's exposure changes with the place. The best meeting point need not be moved along: near it the gain
    /// does not depend on it.
    #[inline(always)]
    fn plane(&self, reply: usize, exposure: f32, place: Vec2, m: &Meeting) -> Plane {
        /// Large enough to stand clear of rounding, small enough to be linear, m.
        const NUDGE: f32 = 0.02;
        let gain = |p: Vec2| self.legs.gain(p, m.x, m.y, m.t, m.share, m.value);
        let slope = |d: Vec2| -self.chance[reply] * (gain(place + d) - gain(place - d)) / (2.0 * NUDGE);
        Plane {
            value: f64::from(exposure),
            slope: DVec2::new(f64::from(slope(Vec2::X * NUDGE)), f64::from(slope(Vec2::Y * NUDGE))),
        }
    }

    /// Every reply that is worth at least `least` at a place, in the order of the set, worst first.
    pub fn all(&self, place: DVec2, least: f64) -> Vec<Judged> {
        let mut all: Vec<Judged> = pulp::Arch::new()
            .dispatch(ExposeEach(self, place.as_vec2()))
            .into_iter()
            .enumerate()
            .map(|(i, (e, point))| Judged { reply: self.order[i] as usize, exposure: f64::from(e), point })
            .filter(|j| j.exposure >= least)
            .collect();
        all.sort_by(|a, b| b.exposure.total_cmp(&a.exposure));
        all
    }
}

/// A point at which a reply is met.
#[derive(Debug, Clone, Copy)]
struct Meeting {
    x: f32,
    y: f32,
    t: f32,
    share: f32,
    value: f32,
}

/// [`Judge::exposure`] as an operation that is compiled once per instruction set; a closure would not be inlined.
struct Expose<'a, const EXACT: bool>(&'a mut Judge, Vec2);

impl<const EXACT: bool> pulp::WithSimd for Expose<'_, EXACT> {
    type Output = (f32, usize);

    #[inline(always)]
    fn with_simd<S: pulp::Simd>(self, _: S) -> Self::Output {
        self.0.exposure_inline::<EXACT>(self.1)
    }
}

/// [`Judge::planes`] in the same way.
struct Collect<'a>(&'a mut Judge, Vec2, f32, &'a mut Vec<Plane>);

impl pulp::WithSimd for Collect<'_> {
    type Output = f32;

    #[inline(always)]
    fn with_simd<S: pulp::Simd>(self, _: S) -> Self::Output {
        self.0.planes_inline(self.1, self.2, self.3)
    }
}

/// Every reply's exposure and best point, in the same way.
struct ExposeEach<'a>(&'a Judge, Vec2);

impl pulp::WithSimd for ExposeEach<'_> {
    type Output = Vec<(f32, usize)>;

    #[inline(always)]
    fn with_simd<S: pulp::Simd>(self, _: S) -> Self::Output {
        let mut all = Vec::with_capacity(self.0.count);
        for i in 0..self.0.count {
            all.push(self.0.full::<true>(i, self.1));
        }
        all
    }
}

/// First and last sample of the part of the path, between bounces, that a sample belongs to.
fn part(k: usize) -> (usize, usize) {
    if k < BEFORE {
        (0, BEFORE - 1)
    } else {
        let first = BEFORE + (k - BEFORE) / AFTER * AFTER;
        (first, first + AFTER - 1)
    }
}

/// The gain at the best sample, refined by the parabola through it and its neighbours where they lie on the same part
/// of the path.
fn peak(gain: &[f32], best: usize) -> f32 {
    let g = gain[best];
    let (first, last) = part(best);
    if best == first || best >= last {
        return g;
    }
    let (a, b) = (gain[best - 1], gain[best + 1]);
    let bend = 2.0 * g - a - b;
    if a <= 0.0 || b <= 0.0 || bend <= 1e-9 { g } else { g + (b - a) * (b - a) / (8.0 * bend) }
}
