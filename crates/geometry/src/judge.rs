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
    points::{AFTER, BEFORE, Columns, Limits, MOST, RISE, part},
    replies::ReplySet,
};

/// Replies bounded together: two registers of eight, or four of four on the plainest machine.
const LANES: usize = 16;
/// Replies looked at first because they were worst at the places before: on a walk across a valley a few take turns.
const LAST: usize = 3;
/// A sample this much below the best so far may still have the best meeting beside it: the gain hardly ever changes by more
/// between a sample and the summit beside it. A glance asks less.
const RIVAL: f32 = 0.2;
const RIVAL_AT_A_GLANCE: f32 = 0.06;
/// Samples near the best that are this much lower than their neighbours still count as standing above them: on nearly level
/// ground the summit may be on the other side.
const FLAT: f32 = 0.002;
const NEAR: f32 = 0.01;
/// Points of a reply weighed together; a reply has a multiple of them.
const EIGHT: usize = 8;
/// Up to which exposure the best meetings are looked for between the samples, and up to which replies are looked at at all.
#[derive(Debug, Clone, Copy)]
struct Care {
    climb: f32,
    go_on: f32,
}

impl Care {
    const FULL: Self = Self { climb: f32::INFINITY, go_on: f32::INFINITY };
}

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
    /// The replies that were worst at the places judged last, the latest first.
    last: [usize; LAST],
}

impl Judge {
    /// Takes in a new set of replies, and its points from it.
    pub fn load(&mut self, set: &mut ReplySet, mover: &Mover) {
        self.legs = Legs::new(mover);
        self.points = set.points;
        self.limits = set.limits;
        self.last = [0; LAST];
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
            self.set_key(i, &self.sample(i, BEFORE + AFTER / 2));
        }
    }

    pub fn is_empty(&self) -> bool {
        self.count == 0
    }

    fn set_key(&mut self, i: usize, m: &Meeting) {
        self.key_x[i] = m.x;
        self.key_y[i] = m.y;
        self.key_t[i] = m.t;
        self.key_share[i] = m.share;
        // A point where the ball cannot be met is worth next to nothing.
        let twice = 2.0 / m.value.max(1e-6);
        self.key_need[i] = twice - 1.0;
        self.key_ease[i] = twice / self.chance[i];
    }

    /// The exposure of a place and the reply that causes it (index in the order of this judge).
    ///
    /// Runs with the widest registers that the machine has; the numbers are the same with any.
    pub fn exposure(&mut self, place: Vec2) -> (f32, usize) {
        pulp::Arch::new().dispatch(Expose::<true>(self, place, Care::FULL))
    }

    /// The same, good to a few thousandths and never too low: the best meeting point is looked for less closely.
    pub fn glance(&mut self, place: Vec2) -> (f32, usize) {
        pulp::Arch::new().dispatch(Expose::<false>(self, place, Care::FULL))
    }

    /// A glance that is content with less as soon as the exposure is known to be more than `enough`: then it may be too high
    /// by a few hundredths.
    pub fn glance_below(&mut self, place: Vec2, enough: f32) -> f32 {
        pulp::Arch::new().dispatch(Expose::<false>(self, place, Care { climb: enough, ..Care::FULL })).0
    }

    /// A glance that ends as soon as the exposure is known to be more than `enough`: then it says how much of it was found.
    pub fn glance_up_to(&mut self, place: Vec2, enough: f32) -> f32 {
        pulp::Arch::new().dispatch(Expose::<false>(self, place, Care { go_on: enough, ..Care::FULL })).0
    }

    #[inline(always)]
    fn exposure_inline<const EXACT: bool>(&mut self, place: Vec2, care: Care) -> (f32, usize) {
        let mut worst = 0.0f32;
        let mut by = self.last[0];
        for reply in self.last {
            if reply < self.count && (worst == 0.0 || self.is_above(reply, place, worst)) {
                let e = self.cost::<EXACT>(reply, place, worst, worst <= care.climb);
                if e > worst {
                    (worst, by) = (e, reply);
                }
            }
        }
        let mut first = 0;
        while first < self.count && worst <= care.go_on {
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
                        let e = self.cost::<EXACT>(reply, place, worst, worst <= care.climb);
                        if e > worst {
                            (worst, by) = (e, reply);
                        }
                    }
                }
            }
            first += LANES;
        }
        let at = self.last.iter().position(|&l| l == by).unwrap_or(LAST - 1);
        self.last[..=at].rotate_right(1);
        self.last[0] = by;
        (worst, by)
    }

    /// What a reply costs at a place; or more, but at most `least`, where it is seen early that it is no more than that.
    #[inline(always)]
    fn cost<const EXACT: bool>(&mut self, reply: usize, place: Vec2, least: f32, climb: bool) -> f32 {
        let enough = if climb { 1.0 - least / self.chance[reply] } else { 0.0 };
        let top = self.best::<EXACT>(reply, place, enough);
        self.set_key(reply, &self.meeting(reply, &top));
        self.chance[reply] * (1.0 - top.gain)
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

    /// The most that can be made of a reply, the best sample, and where the ball is met then; or less, but at least
    /// `enough`, where that much is found early.
    ///
    /// A ball may be met well on its rise and again on its fall, with what is over the highest reach between, and before
    /// the bounce or after it: the samples that stand above their neighbours are all looked around, the best one first.
    #[inline(always)]
    fn best<const EXACT: bool>(&self, i: usize, place: Vec2, enough: f32) -> Summit {
        let mut gain = [0.0f32; MOST];
        let best = self.samples(i, place, &mut gain);
        let mut top = Summit { gain: gain[best], sample: best, off: 0.0 };
        if top.gain < enough {
            self.climb::<EXACT>(i, best, gain[best], place, enough, &mut top);
            let rival = if EXACT { RIVAL } else { RIVAL_AT_A_GLANCE };
            let (mut first, mut length) = (0, BEFORE);
            while first + length <= self.points.min(MOST) && top.gain < enough {
                let last = first + length - 1;
                for k in first..=last {
                    let flat = if EXACT && gain[k] > top.gain - NEAR { FLAT } else { 0.0 };
                    let stands_out = gain[k] > (top.gain - rival).max(0.0)
                        && (k == first || gain[k] >= gain[k - 1] - flat)
                        && (k == last || gain[k] > gain[k + 1] - flat);
                    if stands_out && k != best {
                        self.climb::<EXACT>(i, k, gain[k], place, enough, &mut top);
                    }
                }
                (first, length) = (last + 1, RISE);
            }
        }
        top
    }

    /// Looks for more than the summit so far around a sample: at places on the path beside it, eight at a time, then closer
    /// and closer around the best, on either side if either has more than the sample.
    ///
    /// The places tried are always the same ones of the path, whoever looks from wherever: were they not, who comes later
    /// might find more.
    #[inline(always)]
    fn climb<const EXACT: bool>(&self, i: usize, sample: usize, gain: f32, place: Vec2, enough: f32, top: &mut Summit) {
        /// Spacing of the places tried first and then, in samples.
        const FIRST: f32 = 0.25;
        const THEN: [f32; 2] = [0.0625, 0.015_625];
        let curves = self.curves(i, sample);
        let bounced = sample >= BEFORE;
        let (first, last) = part(sample);
        let ends = (first as f32 - sample as f32, last as f32 - sample as f32);
        let at = places(0.0, FIRST, ends);
        let around = self.gains(&curves, &at, place, bounced);
        let (a, b) = (greatest(&around, 0, EIGHT / 2), greatest(&around, EIGHT / 2, EIGHT));
        let (before, after) = ((around[a], at[a]), (around[b], at[b]));
        // The summit may lie between the places tried first, which may then all be a little lower than the sample.
        let flat = if EXACT { FLAT } else { 0.0 };
        let alone = before.0 <= gain && after.0 <= gain;
        for (n, (mut highest, mut center)) in [(gain, 0.0), before, after].into_iter().enumerate() {
            let looked = if n == 0 { alone } else { highest > gain - flat };
            if !looked || highest < top.gain - RIVAL / 4.0 {
                continue;
            }
            let closer = if EXACT { &THEN[..] } else { &[] };
            for &spacing in closer {
                if highest >= enough {
                    break;
                }
                let at = places(center, spacing, ends);
                let around = self.gains(&curves, &at, place, bounced);
                let best = greatest(&around, 0, EIGHT);
                if around[best] > highest {
                    (highest, center) = (around[best], at[best]);
                }
            }
            if highest > top.gain {
                *top = Summit { gain: highest, sample, off: center };
            }
        }
    }

    /// What is made of a ball at places on its path around a sample.
    #[inline(always)]
    fn gains(&self, c: &Curves, at: &[f32; EIGHT], place: Vec2, bounced: bool) -> [f32; EIGHT] {
        let mut gains = [0.0f32; EIGHT];
        for k in 0..EIGHT {
            let s = at[k];
            let (x, y) = (c.x.at(s), c.y.at(s));
            let (share, value) = self.limits.meeting(x, y, c.z.at(s), bounced);
            gains[k] = self.legs.gain(place, x, y, c.t.at(s), share, value);
        }
        gains
    }

    /// The path around a sample.
    #[inline(always)]
    fn curves(&self, i: usize, sample: usize) -> Curves {
        let (c, of) = (&self.columns, i * self.points..(i + 1) * self.points);
        Curves {
            x: Curve::around(&c.x[of.clone()], sample),
            y: Curve::around(&c.y[of.clone()], sample),
            z: Curve::around(&c.z[of.clone()], sample),
            t: Curve::around(&c.t[of], sample),
        }
    }

    /// The meeting at a summit.
    #[inline(always)]
    fn meeting(&self, i: usize, top: &Summit) -> Meeting {
        if top.off == 0.0 {
            return self.sample(i, top.sample);
        }
        let (c, s) = (self.curves(i, top.sample), top.off);
        let (x, y) = (c.x.at(s), c.y.at(s));
        let (share, value) = self.limits.meeting(x, y, c.z.at(s), top.sample >= BEFORE);
        Meeting { x, y, t: c.t.at(s), share, value }
    }

    /// How the exposures of some replies change around a place where the worst one is `most`; those that are less than that
    /// by more than `margin` there are left out.
    pub fn planes(&mut self, place: Vec2, among: &[u32], (most, margin): (f32, f32), planes: &mut Vec<Plane>) {
        pulp::Arch::new().dispatch(Collect(self, place, among, (most, margin), planes));
    }

    #[inline(always)]
    fn planes_inline(&mut self, place: Vec2, among: &[u32], (most, margin): (f32, f32), planes: &mut Vec<Plane>) {
        /// Replies that cost less than the worst by more than this need not be known exactly: should one of them become
        /// the worst, it is looked at again there.
        const CLOSE: f32 = 0.02;
        let least = most - margin;
        planes.clear();
        for &reply in among {
            let i = reply as usize;
            if !self.is_above(i, place, least) {
                continue;
            }
            let top = self.best::<true>(i, place, 1.0 - (most - margin.min(CLOSE)) / self.chance[i]);
            let meeting = self.meeting(i, &top);
            self.set_key(i, &meeting);
            let e = self.chance[i] * (1.0 - top.gain);
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
                    let reply = first + i;
                    let top = self.best::<true>(reply, place, 1.0 - least / self.chance[reply]);
                    let exposure = self.chance[reply] * (1.0 - top.gain);
                    if exposure > least {
                        all.push(Judged { reply, exposure: f64::from(exposure), point: top.sample });
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

/// Where most is made of a reply: a sample and how far from it, in samples.
#[derive(Debug, Clone, Copy)]
struct Summit {
    gain: f32,
    sample: usize,
    off: f32,
}

/// Places on a path around a center, between the ends of its part, in samples.
#[inline(always)]
fn places(center: f32, spacing: f32, (low, high): (f32, f32)) -> [f32; EIGHT] {
    let mut at = [0.0; EIGHT];
    for (k, at) in at.iter_mut().enumerate() {
        *at = (center + (k as f32 - 3.5) * spacing).clamp(low, high);
    }
    at
}

/// Which of some numbers is the greatest.
#[inline(always)]
fn greatest(of: &[f32; EIGHT], first: usize, end: usize) -> usize {
    let mut best = first;
    for k in first + 1..end {
        best = if of[k] > of[best] { k } else { best };
    }
    best
}

/// A path around a sample: across, along, up and in time.
#[derive(Debug, Clone, Copy)]
struct Curves {
    x: Curve,
    y: Curve,
    z: Curve,
    t: Curve,
}

/// One coordinate of a path between a sample's neighbours, as cubics (Catmull-Rom) before and after the sample: the same
/// curve from whichever sample it is looked at.
#[derive(Debug, Clone, Copy)]
struct Curve {
    value: f32,
    slope: f32,
    /// Coefficients of the second and the third power, before the sample and after it.
    before: (f32, f32),
    after: (f32, f32),
}

impl Curve {
    #[inline(always)]
    fn around(v: &[f32], k: usize) -> Self {
        let (first, last) = part(k);
        let b = v[k];
        // Past the ends of a part its last parabola goes on.
        let a = if k > first { v[k - 1] } else { v[k + 2] + 3.0 * (b - v[k + 1]) };
        let c = if k < last { v[k + 1] } else { v[k - 2] + 3.0 * (b - v[k - 1]) };
        let far = if k + 2 <= last { v[k + 2] } else { a + 3.0 * (c - b) };
        let back = if k >= first + 2 { v[k - 2] } else { c + 3.0 * (a - b) };
        let (after, before) = (powers(a, b, c, far), powers(c, b, a, back));
        Self { value: b, slope: 0.5 * (c - a), before: (before.0, -before.1), after }
    }

    #[inline(always)]
    fn at(&self, s: f32) -> f32 {
        let (square, cube) = if s < 0.0 { self.before } else { self.after };
        self.value + s * (self.slope + s * (square + s * cube))
    }
}

/// Coefficients of the second and the third power of the cubic from `b` to `c` whose neighbours are `a` and `d`.
#[inline(always)]
fn powers(a: f32, b: f32, c: f32, d: f32) -> (f32, f32) {
    (0.5 * (2.0 * a - 5.0 * b + 4.0 * c - d), 0.5 * (3.0 * (b - c) + d - a))
}

/// [`Judge::exposure`] as an operation that is compiled once per instruction set; a closure would not be inlined.
struct Expose<'a, const EXACT: bool>(&'a mut Judge, Vec2, Care);

impl<const EXACT: bool> pulp::WithSimd for Expose<'_, EXACT> {
    type Output = (f32, usize);

    #[inline(always)]
    fn with_simd<S: pulp::Simd>(self, _: S) -> Self::Output {
        self.0.exposure_inline::<EXACT>(self.1, self.2)
    }
}

/// [`Judge::planes`] in the same way.
struct Collect<'a>(&'a mut Judge, Vec2, &'a [u32], (f32, f32), &'a mut Vec<Plane>);

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
