//! The exposure of standing places and where it is least.
//!
//! The exposure of a place is that of the reply which punishes it most, so a reply need not be computed where a bound
//! shows that another one is worse. Each reply remembers the point of its path at which it was last met best; the
//! exposure judged by that point alone can only be too high, because more points can only help the player. One pass
//! over these bounds, eight at a time, leaves a handful of replies to evaluate in full. The result is exact.

use glam::{DVec2, Vec2};

use crate::{
    answer::Field,
    court::Court,
    coverage::{Mover, SOFT_REACH_M},
    exposure::{HALF_QUALITY_S, QUALITY_WIDTH_S},
    replies::{AFTER, BEFORE, MOST, ReplySet},
    situation::ReadyArea,
};

/// Replies bounded together: two registers of eight, or four of four on the plainest machine.
const LANES: usize = 16;
/// Spacing of the first look over the court, m.
pub(crate) const COARSE_M: f64 = 1.0;
/// Spacing of the field, m.
pub(crate) const FINE_M: f64 = 0.25;
/// How far below the worst reply another one may be, where a descent starts, and still be kept for it: more than
/// exposures differ over the metre that a first descent covers, and over the few decimetres of the last one. The check
/// against the slow computation would show if they did.
const START_MARGIN: f32 = 0.2;
const END_MARGIN: f32 = 0.1;
/// Places closer to the net than this are not stood on, m.
const NET_GAP_M: f64 = 0.6;

/// The player's side of [`Mover`] in `f32`.
#[derive(Debug, Clone, Copy, Default)]
struct Legs {
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
    t: Vec<f32>,
    share: Vec<f32>,
    value: Vec<f32>,
    /// The reply that was worst at the place judged last.
    last: usize,
}

impl Judge {
    /// Takes in a new set of replies.
    pub fn load(&mut self, set: &ReplySet, mover: &Mover) {
        self.legs = Legs {
            quadratic: mover.stride.quadratic as f32,
            linear: mover.stride.linear as f32,
            backward: mover.backward as f32,
            forehand_x: mover.forehand_x as f32,
            forehand: mover.reach.0 as f32,
            backhand: mover.reach.1 as f32,
            ahead: mover.reach.2 as f32,
            delay: (mover.reaction + HALF_QUALITY_S) as f32,
        };
        self.points = set.points;
        self.last = 0;
        self.clear();
        let mut order: Vec<u32> = (0..set.meta.len() as u32).collect();
        order.sort_unstable_by(|&a, &b| set.chance[b as usize].total_cmp(&set.chance[a as usize]));
        for reply in order {
            let from = reply as usize * self.points;
            let columns: [&[f32]; 5] = [&set.x, &set.y, &set.t, &set.share, &set.value];
            self.push(reply, set.chance[reply as usize], from..from + self.points, columns);
            self.set_key(self.count - 1, BEFORE + AFTER / 2);
        }
        self.pad();
    }

    /// Copies the replies that can be worst near `center` into another judge: those whose exposure there is within
    /// `margin` of the worst.
    pub fn focus(&self, center: DVec2, margin: f32, other: &mut Self) {
        let place = center.as_vec2();
        other.legs = self.legs;
        other.points = self.points;
        other.last = 0;
        other.count = 0;
        other.clear();
        let all = pulp::Arch::new().dispatch(ExposeEach(self, place));
        let worst = all.iter().map(|a| a.0).fold(0.0, f32::max);
        for (i, &(e, point)) in all.iter().enumerate() {
            if e >= worst - margin {
                let range = i * self.points..(i + 1) * self.points;
                other.push(self.order[i], self.chance[i], range, [&self.x, &self.y, &self.t, &self.share, &self.value]);
                other.set_key(other.count - 1, point);
            }
        }
        other.pad();
    }

    fn clear(&mut self) {
        self.order.clear();
        for v in [&mut self.chance, &mut self.x, &mut self.y, &mut self.t, &mut self.share, &mut self.value] {
            v.clear();
        }
        for v in [&mut self.key_x, &mut self.key_y, &mut self.key_t, &mut self.key_share, &mut self.key_value] {
            v.clear();
        }
        self.count = 0;
    }

    /// Adds a reply whose points are `range` of the columns x, y, t, share, value.
    fn push(&mut self, order: u32, chance: f32, range: std::ops::Range<usize>, columns: [&[f32]; 5]) {
        self.order.push(order);
        self.chance.push(chance);
        let own = [&mut self.x, &mut self.y, &mut self.t, &mut self.share, &mut self.value];
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
        pulp::Arch::new().dispatch(Expose(self, place))
    }

    #[inline(always)]
    fn exposure_inline(&mut self, place: Vec2) -> (f32, usize) {
        let mut worst = 0.0f32;
        let mut by = self.last;
        if self.last < self.count {
            worst = self.full(self.last, place).0;
        }
        let mut first = 0;
        while first < self.count {
            // Chances fall from here on: none of the rest can reach the worst any more.
            if self.chance[first] <= worst {
                break;
            }
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
            for (i, &b) in bound.iter().enumerate() {
                if b > worst {
                    let reply = first + i;
                    let (e, point) = self.full(reply, place);
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

    /// One reply's exposure over all its points, and the index of the best one.
    #[inline(always)]
    fn full(&self, i: usize, place: Vec2) -> (f32, usize) {
        let mut gain = [0.0f32; MOST];
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
        (self.chance[i] * (1.0 - peak(&gain[..n], best)), best)
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

/// [`Judge::exposure`] as an operation that is compiled once per instruction set; a closure would not be inlined.
struct Expose<'a>(&'a mut Judge, Vec2);

impl pulp::WithSimd for Expose<'_> {
    type Output = (f32, usize);

    #[inline(always)]
    fn with_simd<S: pulp::Simd>(self, _: S) -> Self::Output {
        self.0.exposure_inline(self.1)
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
            all.push(self.0.full(i, self.1));
        }
        all
    }
}

/// The gain at the best point, refined by the parabola through it and its neighbours where they lie on the same part
/// of the path.
fn peak(gain: &[f32], best: usize) -> f32 {
    let part = |k: usize| if k < BEFORE { 0 } else { 1 + (k - BEFORE) / AFTER };
    let g = gain[best];
    if best == 0 || best + 1 >= gain.len() || part(best - 1) != part(best) || part(best + 1) != part(best) {
        return g;
    }
    let (a, b) = (gain[best - 1], gain[best + 1]);
    let bend = 2.0 * g - a - b;
    if a <= 0.0 || b <= 0.0 || bend <= 1e-9 { g } else { g + (b - a) * (b - a) / (8.0 * bend) }
}

impl Legs {
    /// What the player makes of a ball at one point: value times quality of the time to spare.
    #[inline(always)]
    fn gain(&self, place: Vec2, x: f32, y: f32, t: f32, share: f32, value: f32) -> f32 {
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
        let spare = t - self.delay - (run * (self.quadratic * run + self.linear)).sqrt();
        let s = spare * WIDTH;
        value * (0.5 + 0.5 * s / (1.0 + s * s).sqrt())
    }
}

/// Standing places that are considered: a rectangle in the frame of a near player.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Stand {
    pub min: DVec2,
    pub max: DVec2,
}

impl Stand {
    pub fn new(court: &Court, ready: ReadyArea) -> Self {
        let half_w = court.half_width() + 1.9;
        let x = half_w.min(court.site_half_width());
        let service = court.service_line.unwrap_or(court.half_length() * 0.54);
        let back = -(court.site_half_length() - 0.5).min(court.half_length() + 5.0);
        let (near, far) = match ready {
            ReadyArea::Anywhere => (back, -NET_GAP_M),
            ReadyArea::Back => (back, -service - 0.5),
            ReadyArea::Net => (-service - 0.5, -NET_GAP_M),
        };
        Self { min: DVec2::new(-x, near), max: DVec2::new(x, far) }
    }

    fn clamp(&self, p: DVec2) -> DVec2 {
        p.clamp(self.min, self.max)
    }
}

/// Searches and fields; keeps its buffers.
#[derive(Debug, Clone, Default)]
pub(crate) struct Search {
    coarse: Vec<f32>,
    columns: usize,
    rows: usize,
    origin: DVec2,
}

impl Search {
    /// A first look over the whole side.
    pub fn look(&mut self, judge: &mut Judge, stand: &Stand) {
        // Anchored to the court, so that the shading does not swim while a handle is dragged.
        self.origin = (stand.min / COARSE_M).floor() * COARSE_M;
        let size = (stand.max - self.origin) / COARSE_M;
        (self.columns, self.rows) = (size.x.ceil() as usize + 1, size.y.ceil() as usize + 1);
        self.coarse.clear();
        self.coarse.resize(self.columns * self.rows, 1.0);
        for j in 0..self.rows {
            for i in 0..self.columns {
                // There and back, so that the next place is always a neighbour.
                let i = if j % 2 == 0 { i } else { self.columns - 1 - i };
                let p = self.origin + DVec2::new(i as f64, j as f64) * COARSE_M;
                self.coarse[j * self.columns + i] = judge.exposure(p.as_vec2()).0;
            }
        }
    }

    /// The place of least exposure and that exposure. `focus` is left with the replies that matter around it.
    pub fn least(&self, judge: &mut Judge, stand: &Stand, focus: &mut Judge) -> (DVec2, f64) {
        let mut starts: Vec<(f32, DVec2)> = Vec::new();
        for j in 0..self.rows {
            for i in 0..self.columns {
                let v = self.coarse[j * self.columns + i];
                let lower = |di: isize, dj: isize| {
                    let (i, j) = (i as isize + di, j as isize + dj);
                    let inside = i >= 0 && j >= 0 && (i as usize) < self.columns && (j as usize) < self.rows;
                    inside && self.coarse[j as usize * self.columns + i as usize] < v
                };
                if !(-1..=1).any(|dj| (-1..=1).any(|di| lower(di, dj))) {
                    let p = self.origin + DVec2::new(i as f64, j as f64) * COARSE_M;
                    starts.push((v, stand.clamp(p)));
                }
            }
        }
        starts.sort_by(|a, b| a.0.total_cmp(&b.0));
        let lowest = starts.first().map_or(0.0, |s| s.0);
        let mut best: Option<(DVec2, f64)> = None;
        // A valley of the first look lies at most about this much above its own bottom.
        for (_, start) in starts.iter().take(3).filter(|s| s.0 - lowest < 0.05) {
            judge.focus(*start, START_MARGIN, focus);
            let rough = descend(focus, stand, *start, 0.5, 0.1);
            if best.is_none_or(|b| rough.1 < b.1) {
                best = Some(rough);
            }
        }
        let rough = best.unwrap_or((stand.clamp(DVec2::ZERO), 1.0));
        judge.focus(rough.0, END_MARGIN, focus);
        descend(focus, stand, rough.0, 0.1, 0.004)
    }

    /// The field at [`FINE_M`]: exact where it is within `exact_above` of the least (as far as the first look tells),
    /// smoothly interpolated elsewhere.
    pub fn field(&self, judge: &mut Judge, least: (DVec2, f64), exact_above: f64, field: &mut Field) {
        let per = (COARSE_M / FINE_M) as usize;
        field.origin = self.origin;
        field.step = FINE_M;
        field.columns = (self.columns - 1) * per + 1;
        field.rows = (self.rows - 1) * per + 1;
        field.values.clear();
        field.values.reserve(field.columns * field.rows);
        for j in 0..field.rows {
            for i in 0..field.columns {
                let p = DVec2::new(i as f64, j as f64) / per as f64;
                field.values.push(self.smooth(p));
            }
        }
        let near = |p: DVec2| (p - least.0).abs().max_element() <= 3.0 * FINE_M;
        let limit = (least.1 + exact_above) as f32;
        for j in 0..field.rows {
            for i in 0..field.columns {
                let i = if j % 2 == 0 { i } else { field.columns - 1 - i };
                let at = j * field.columns + i;
                let p = self.origin + DVec2::new(i as f64, j as f64) * FINE_M;
                if i % per == 0 && j % per == 0 {
                    continue;
                }
                if field.values[at] < limit || near(p) {
                    field.values[at] = judge.exposure(p.as_vec2()).0;
                }
            }
        }
    }

    /// Cubic interpolation (Catmull-Rom) of the first look; `p` in its cells.
    fn smooth(&self, p: DVec2) -> f32 {
        let (i, j) = ((p.x as usize).min(self.columns - 2), (p.y as usize).min(self.rows - 2));
        let (u, v) = ((p.x - i as f64) as f32, (p.y - j as f64) as f32);
        let at = |i: isize, j: isize| {
            let i = i.clamp(0, self.columns as isize - 1) as usize;
            let j = j.clamp(0, self.rows as isize - 1) as usize;
            self.coarse[j * self.columns + i]
        };
        let (i, j) = (i as isize, j as isize);
        let row = |j: isize| catmull_rom([at(i - 1, j), at(i, j), at(i + 1, j), at(i + 2, j)], u);
        catmull_rom([row(j - 1), row(j), row(j + 1), row(j + 2)], v).clamp(0.0, 1.0)
    }
}

fn catmull_rom(p: [f32; 4], u: f32) -> f32 {
    let [a, b, c, d] = p;
    b + 0.5 * u * (c - a + u * (2.0 * a - 5.0 * b + 4.0 * c - d + u * (3.0 * (b - c) + d - a)))
}

/// Walks down to the bottom of a valley: a compass of sixteen directions whose step shrinks when none of them helps.
///
/// The exposure is a maximum of smooth functions, so its valleys have sharp floors that may run in any direction; eight
/// directions can get stuck on such a floor, sixteen hardly, and the last winning direction is tried first.
pub(crate) fn descend(judge: &mut Judge, stand: &Stand, start: DVec2, first: f64, last: f64) -> (DVec2, f64) {
    const DIRECTIONS: usize = 16;
    let mut at = (start, f64::from(judge.exposure(start.as_vec2()).0));
    let mut step = first;
    let mut lead = 0;
    while step > last {
        let mut moved = false;
        for n in 0..DIRECTIONS {
            // Fan out from the last winning direction to both sides.
            let turn = if n % 2 == 0 { n / 2 } else { DIRECTIONS - n.div_ceil(2) };
            let direction = (lead + turn) % DIRECTIONS;
            let angle = direction as f64 * (std::f64::consts::TAU / DIRECTIONS as f64);
            let p = stand.clamp(at.0 + DVec2::from_angle(angle) * step);
            let e = f64::from(judge.exposure(p.as_vec2()).0);
            if e < at.1 - 1e-7 {
                at = (p, e);
                lead = direction;
                moved = true;
                break;
            }
        }
        if !moved {
            step *= 0.45;
        }
    }
    at
}
