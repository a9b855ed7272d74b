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
    points::{AFTER, BEFORE, Columns, Limits, MOST},
    replies::ReplySet,
};

/// Replies bounded together: two registers of eight, or four of four on the plainest machine.
const LANES: usize = 16;
/// Points of a reply weighed together; a reply has a multiple of them.
const EIGHT: usize = 8;
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
    count: usize,
    points: usize,
    // One entry per reply, in order of falling chance, padded to a multiple of LANES.
    chance: Vec<f32>,
    key_x: Vec<f32>,
    key_y: Vec<f32>,
    key_t: Vec<f32>,
    key_share: Vec<f32>,
    /// What [`Legs::falls_short`] compares with: at least, and less of it by the exposure that is to be exceeded.
    key_need: Vec<f32>,
    key_ease: Vec<f32>,
    /// The points, in that order.
    pub columns: Columns,
    /// The reply that was worst at the place judged last.
    last: usize,
}

impl Judge {
    /// Takes in a new set of replies, and its points from it.
    pub fn load(&mut self, set: &mut ReplySet, mover: &Mover) {
        self.legs = Legs::new(mover);
        self.points = set.points;
        self.limits = set.limits;
        self.last = 0;
        self.count = set.chance.len();
        self.chance.clone_from(&set.chance);
        std::mem::swap(&mut self.columns, &mut set.columns);
        // Filled up with entries that can never be worst.
        let padded = self.count.next_multiple_of(LANES);
        self.chance.resize(padded, 0.0);
        for v in [&mut self.key_x, &mut self.key_y, &mut self.key_t, &mut self.key_share, &mut self.key_ease] {
            v.clear();
            v.resize(padded, 0.0);
        }
        self.key_need.clear();
        self.key_need.resize(padded, -2.0);
        for i in 0..self.count {
            self.set_key(i, BEFORE + AFTER / 2);
        }
    }

    pub fn is_empty(&self) -> bool {
        self.count == 0
    }

    fn set_key(&mut self, i: usize, point: usize) {
        let at = i * self.points + point;
        self.key_x[i] = self.columns.x[at];
        self.key_y[i] = self.columns.y[at];
        self.key_t[i] = self.columns.t[at];
        self.key_share[i] = self.columns.share[at];
        // A point where the ball cannot be met is worth next to nothing.
        let twice = 2.0 / self.columns.value[at].max(1e-6);
        self.key_need[i] = twice - 1.0;
        self.key_ease[i] = twice / self.chance[i];
    }

    /// The exposure of a place and the reply that causes it (index in the order of this judge).
    ///
    /// Runs with the widest registers that the machine has; the numbers are the same with any.
    pub fn exposure(&mut self, place: Vec2) -> (f32, usize) {
        pulp::Arch::new().dispatch(Expose::<true>(self, place, f32::INFINITY))
    }

    /// The same, good to a few thousandths: the best meeting point is read off the samples.
    pub fn glance(&mut self, place: Vec2) -> (f32, usize) {
        pulp::Arch::new().dispatch(Expose::<false>(self, place, f32::INFINITY))
    }

    /// A glance that ends as soon as the exposure is known to be more than `enough`: then it says how much of it was found.
    pub fn glance_up_to(&mut self, place: Vec2, enough: f32) -> f32 {
        pulp::Arch::new().dispatch(Expose::<false>(self, place, enough)).0
    }

    #[inline(always)]
    fn exposure_inline<const EXACT: bool>(&mut self, place: Vec2, enough: f32) -> (f32, usize) {
        let mut worst = 0.0f32;
        let mut by = self.last;
        if self.last < self.count {
            worst = self.full::<EXACT>(self.last, place).0;
        }
        let mut first = 0;
        while first < self.count && worst <= enough {
            // Chances fall from here on: none of the rest can reach the worst any more.
            if self.chance[first] <= worst {
                break;
            }
            let above = self.above(first, place, worst);
            // Most groups hold none: asked of all at once.
            if above.iter().fold(0, |any, &a| any | a) != 0 {
                for (i, &a) in above.iter().enumerate() {
                    let reply = first + i;
                    if a != 0 && self.is_above(reply, place, worst) {
                        let (e, point) = self.full::<EXACT>(reply, place);
                        self.set_key(reply, point);
                        if e > worst {
                            worst = e;
                            by = reply;
                        }
                    }
                }
            }
            first += LANES;
        }
        self.last = by;
        (worst, by)
    }

    /// Which of the replies from `first` on may cost more than `least`.
    #[inline(always)]
    fn above(&self, first: usize, place: Vec2, least: f32) -> [u32; LANES] {
        let mut above = [0; LANES];
        let legs = self.legs;
        let lanes = first..first + LANES;
        let (x, y, t) = (&self.key_x[lanes.clone()], &self.key_y[lanes.clone()], &self.key_t[lanes.clone()]);
        let (share, need) = (&self.key_share[lanes.clone()], &self.key_need[lanes.clone()]);
        let ease = &self.key_ease[lanes];
        for i in 0..LANES {
            // Indexed, because the compiler makes one wide loop of it; zipped iterators it does not.
            above[i] = u32::from(legs.falls_short(place, x[i], y[i], t[i], share[i], need[i] - least * ease[i]));
        }
        above
    }

    /// The same of one reply.
    #[inline(always)]
    fn is_above(&self, i: usize, place: Vec2, least: f32) -> bool {
        let need = self.key_need[i] - least * self.key_ease[i];
        self.legs.falls_short(place, self.key_x[i], self.key_y[i], self.key_t[i], self.key_share[i], need)
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

    /// The meeting at a sample.
    #[inline(always)]
    fn sample(&self, i: usize, sample: usize) -> Meeting {
        let (at, c) = (i * self.points + sample, &self.columns);
        Meeting { x: c.x[at], y: c.y[at], t: c.t[at], share: c.share[at], value: c.value[at] }
    }

    /// The gain at every sample of a reply, and the index of the best one.
    #[inline(always)]
    fn samples(&self, i: usize, place: Vec2, gain: &mut [f32; MOST]) -> usize {
        let mut top = [f32::NEG_INFINITY; EIGHT];
        let mut at = [0u32; EIGHT];
        let legs = self.legs;
        let c = &self.columns;
        for first in (0..self.points.min(MOST)).step_by(EIGHT) {
            let from = i * self.points + first;
            let eight = from..from + EIGHT;
            let (x, y, t) = (&c.x[eight.clone()], &c.y[eight.clone()], &c.t[eight.clone()]);
            let (share, value) = (&c.share[eight.clone()], &c.value[eight]);
            let gain = &mut gain[first..first + EIGHT];
            for k in 0..EIGHT {
                gain[k] = legs.gain(place, x[k], y[k], t[k], share[k], value[k]);
            }
            for k in 0..EIGHT {
                at[k] = if gain[k] > top[k] { (first + k) as u32 } else { at[k] };
                top[k] = if gain[k] > top[k] { gain[k] } else { top[k] };
            }
        }
        // The best of the eight columns, by halves.
        for half in [4, 2, 1] {
            for k in 0..half {
                let other = top[k + half] > top[k];
                at[k] = if other { at[k + half] } else { at[k] };
                top[k] = if other { top[k + half] } else { top[k] };
            }
        }
        at[0] as usize
    }

    /// The most that can be made of a reply, the best sample, and where the ball is met then: before the bounce or after
    /// it, whichever is better between the samples.
    #[inline(always)]
    fn best(&self, i: usize, place: Vec2) -> (f32, usize, Meeting) {
        /// A part of the path whose best sample is this much below the best of all may still hold the best meeting: the
        /// gain changes by less between a sample and the summit beside it.
        const RIVAL: f32 = 0.08;
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
    /// parabola through three of them, on which places are tried eight at a time, then closer around the best.
    #[inline(always)]
    fn summit(&self, i: usize, sample: usize, gain: f32, place: Vec2) -> (f32, Meeting) {
        /// Spacing of the places tried, in samples.
        const SPACINGS: [f32; 2] = [0.25, 0.05];
        let (first, last) = part(sample);
        let middle = sample.clamp(first + 1, last - 1);
        let at = i * self.points + middle;
        let curve = |v: &[f32]| {
            let (a, b, c) = (v[at - 1], v[at], v[at + 1]);
            (b, 0.5 * (c - a), 0.5 * (a + c) - b)
        };
        let c = &self.columns;
        let (x, y, z, t) = (curve(&c.x), curve(&c.y), curve(&c.z), curve(&c.t));
        let on = |c: (f32, f32, f32), s: f32| c.0 + s * (c.1 + s * c.2);
        let (low, high) = (first as f32 - middle as f32, last as f32 - middle as f32);
        let (limits, legs, bounced) = (self.limits, self.legs, sample >= BEFORE);
        let mut top = (sample as f32 - middle as f32, gain);
        for spacing in SPACINGS {
            let center = top.0;
            let at: [f32; EIGHT] = std::array::from_fn(|k| (center + (k as f32 - 3.5) * spacing).clamp(low, high));
            let mut gains = [0.0f32; EIGHT];
            for k in 0..EIGHT {
                let (px, py) = (on(x, at[k]), on(y, at[k]));
                let (share, value) = limits.meeting(px, py, on(z, at[k]), bounced);
                gains[k] = legs.gain(place, px, py, on(t, at[k]), share, value);
            }
            let mut best = 0;
            for k in 1..EIGHT {
                best = if gains[k] > gains[best] { k } else { best };
            }
            if gains[best] > top.1 {
                top = (at[best], gains[best]);
            }
        }
        if top.1 > gain {
            let s = top.0;
            let (x, y, t) = (on(x, s), on(y, s), on(t, s));
            let (share, value) = limits.meeting(x, y, on(z, s), bounced);
            (top.1, Meeting { x, y, t, share, value })
        } else {
            (gain, self.sample(i, sample))
        }
    }

    /// How the exposures of some replies change around a place; those that are no more than `least` there are left out.
    pub fn planes(&mut self, place: Vec2, among: &[u32], least: f32, planes: &mut Vec<Plane>) {
        pulp::Arch::new().dispatch(Collect(self, place, among, least, planes));
    }

    #[inline(always)]
    fn planes_inline(&mut self, place: Vec2, among: &[u32], least: f32, planes: &mut Vec<Plane>) {
        planes.clear();
        for &reply in among {
            let i = reply as usize;
            if !self.is_above(i, place, least) {
                continue;
            }
            let (gain, point, meeting) = self.best(i, place);
            self.set_key(i, point);
            let e = self.chance[i] * (1.0 - gain);
            if e > least {
                planes.push(self.plane(i, e, place, &meeting));
            }
        }
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

    /// Every reply that is worth more than `least` at a place, worst first.
    pub fn all(&self, place: DVec2, least: f64) -> Vec<Judged> {
        let mut all = Vec::new();
        pulp::Arch::new().dispatch(ExposeEach(self, place.as_vec2(), least as f32, &mut all));
        all.sort_by(|a, b| b.exposure.total_cmp(&a.exposure));
        all
    }

    #[inline(always)]
    fn all_inline(&self, place: Vec2, least: f32, all: &mut Vec<Judged>) {
        for first in (0..self.count).step_by(LANES) {
            if self.chance[first] <= least {
                break;
            }
            let above = self.above(first, place, least);
            for (i, &a) in above.iter().enumerate() {
                if a != 0 {
                    let (exposure, point) = self.full::<true>(first + i, place);
                    if exposure > least {
                        all.push(Judged { reply: first + i, exposure: f64::from(exposure), point });
                    }
                }
            }
        }
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
struct Expose<'a, const EXACT: bool>(&'a mut Judge, Vec2, f32);

impl<const EXACT: bool> pulp::WithSimd for Expose<'_, EXACT> {
    type Output = (f32, usize);

    #[inline(always)]
    fn with_simd<S: pulp::Simd>(self, _: S) -> Self::Output {
        self.0.exposure_inline::<EXACT>(self.1, self.2)
    }
}

/// [`Judge::planes`] in the same way.
struct Collect<'a>(&'a mut Judge, Vec2, &'a [u32], f32, &'a mut Vec<Plane>);

impl pulp::WithSimd for Collect<'_> {
    type Output = ();

    #[inline(always)]
    fn with_simd<S: pulp::Simd>(self, _: S) {
        self.0.planes_inline(self.1, self.2, self.3, self.4);
    }
}

/// [`Judge::all`] in the same way.
struct ExposeEach<'a>(&'a Judge, Vec2, f32, &'a mut Vec<Judged>);

impl pulp::WithSimd for ExposeEach<'_> {
    type Output = ();

    #[inline(always)]
    fn with_simd<S: pulp::Simd>(self, _: S) {
        self.0.all_inline(self.1, self.2, self.3);
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
