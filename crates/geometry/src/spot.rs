//! Where the exposure is least, and how it lies around there.

use glam::DVec2;

use crate::{
    answer::Field,
    court::Court,
    judge::Judge,
    minimax::{Plane, lowest},
    situation::ReadyArea,
};

/// Spacing of the first look over the court, m. A closer look halves it.
pub(crate) const COARSE_M: f64 = 1.0;
/// Spacing of the field, m: half of the closer look's.
pub(crate) const FINE_M: f64 = COARSE_M / 4.0;
/// Descents begin at most at so many places, so far apart, and not higher than so much above the lowest of them.
const STARTS: usize = 8;
const START_APART_M: f64 = 0.45;
const START_ABOVE: f32 = 0.02;
/// Valleys of the closer look are followed to their bottoms when they are at most this much above its lowest place.
const BOTTOM_ABOVE: f32 = 0.05;
/// Replies remembered on a walk.
const MET: usize = 64;
/// `(sqrt(5) - 1) / 2`.
const GOLDEN: f64 = 0.618_033_988_749_894_9;
/// The closer look goes where the first one is at most this much above its lowest.
const CLOSER_ABOVE: f32 = 0.1;
/// How high above the lowest place so far the first look for the least still says how high: above what is looked at closer,
/// with room for the interpolation between the places.
const LOOK_ABOVE: f32 = 0.14;
/// Valleys are compared when their bottoms are known to about this distance, and the best one is settled to that, m.
const ROUGH_M: f64 = 0.05;
const SPOT_M: f64 = 0.002;
/// Rough bottoms this close to each other are one valley's, m.
const SAME_M: f64 = 0.15;
/// A rough bottom at most this much above the lowest may be the lower one in truth.
const MAY_BE_LOWEST: f64 = 0.012;
/// Distances at which a settled place is compared with those around it, m.
const RINGS_M: [f64; 3] = [0.06, 0.15, 0.35];
/// Places closer to the net than this are not stood on, m.
const NET_GAP_M: f64 = 0.6;

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
    close: Vec<f32>,
    close_columns: usize,
    close_rows: usize,
    planes: Vec<Plane>,
    /// Replies met as the worst ones on a walk.
    met: Vec<u32>,
    starts: Vec<(f32, DVec2)>,
}

impl Search {
    /// A first look over the whole side. How high the ground is matters less where it is high above the lowest so far.
    pub fn look(&mut self, judge: &mut Judge, stand: &Stand) {
        self.look_with(stand, |place, lowest| judge.glance_below(place.as_vec2(), lowest + LOOK_ABOVE));
    }

    /// A first look for [`Self::least`] alone: of places that are high above the lowest so far it is not asked how high.
    pub fn look_for_least(&mut self, judge: &mut Judge, stand: &Stand) {
        self.look_with(stand, |place, lowest| judge.glance_up_to(place.as_vec2(), lowest + LOOK_ABOVE));
    }

    fn look_with(&mut self, stand: &Stand, mut glance: impl FnMut(DVec2, f32) -> f32) {
        // Anchored to the court, so that the shading does not swim while a handle is dragged.
        self.origin = (stand.min / COARSE_M).floor() * COARSE_M;
        let size = (stand.max - self.origin) / COARSE_M;
        (self.columns, self.rows) = (size.x.ceil() as usize + 1, size.y.ceil() as usize + 1);
        self.coarse.clear();
        self.coarse.resize(self.columns * self.rows, 1.0);
        let mut lowest = f32::INFINITY;
        for j in 0..self.rows {
            for i in 0..self.columns {
                // There and back, so that the next place is always a neighbour.
                let i = if j % 2 == 0 { i } else { self.columns - 1 - i };
                let p = self.origin + DVec2::new(i as f64, j as f64) * COARSE_M;
                let seen = glance(p, lowest);
                lowest = lowest.min(seen);
                self.coarse[j * self.columns + i] = seen;
            }
        }
    }

    /// The place of least exposure and that exposure, by descents from the lowest places of a closer look.
    pub fn least(&mut self, judge: &mut Judge, stand: &Stand) -> (DVec2, f64) {
        self.met.clear();
        self.look_closer(judge);
        self.bottoms(judge);
        let lowest = self.starts.first().map_or(0.0, |s| s.0);
        let mut tried = [DVec2::INFINITY; STARTS];
        let mut bottoms = [(f64::INFINITY, DVec2::ZERO); STARTS];
        let mut n = 0;
        for k in 0..self.starts.len() {
            let (v, start) = self.starts[k];
            if n == STARTS || v - lowest > START_ABOVE {
                break;
            }
            if tried[..n].iter().any(|t| t.distance_squared(start) < START_APART_M * START_APART_M) {
                continue;
            }
            tried[n] = start;
            let (place, value) = self.descend(judge, stand, stand.clamp(start), (0.4, ROUGH_M));
            bottoms[n] = (value, place);
            n += 1;
        }
        // A rough bottom still lies a little above the true one, so every one that may be the lowest is settled.
        bottoms[..n].sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
        let mut found = (stand.clamp(DVec2::ZERO), f64::INFINITY);
        for k in 0..n {
            let (v, rough) = bottoms[k];
            let same = |b: &(f64, DVec2)| b.1.distance_squared(rough) < SAME_M * SAME_M;
            if v - bottoms[0].0 > MAY_BE_LOWEST || bottoms[..k].iter().any(same) {
                continue;
            }
            let settled = self.descend(judge, stand, rough, (2.0 * ROUGH_M, SPOT_M));
            if settled.1 < found.1 {
                found = settled;
            }
        }
        // Over the sill to a lower valley close by, if there is one.
        for _ in 0..4 {
            let around = RINGS_M
                .iter()
                .flat_map(|&r| (0..8).map(move |k| DVec2::from_angle(f64::from(k) * std::f64::consts::FRAC_PI_4) * r));
            let lower = around
                .map(|by| stand.clamp(found.0 + by))
                .map(|p| (f64::from(judge.exposure(p.as_vec2()).0), p))
                .min_by(|a, b| a.0.total_cmp(&b.0))
                .filter(|lower| lower.0 < found.1 - 1e-5);
            let Some((_, start)) = lower else { break };
            let next = self.descend(judge, stand, start, (2.0 * ROUGH_M, SPOT_M));
            if next.1 < found.1 {
                found = next;
            }
        }
        found
    }

    /// Looks again at half the spacing where the first look is low.
    fn look_closer(&mut self, judge: &mut Judge) {
        let lowest = self.coarse.iter().copied().fold(f32::INFINITY, f32::min);
        (self.close_columns, self.close_rows) = (2 * self.columns - 1, 2 * self.rows - 1);
        double(&self.coarse, self.columns, self.rows, &mut self.close);
        for j in 0..self.close_rows {
            for i in 0..self.close_columns {
                let known = i % 2 == 0 && j % 2 == 0;
                let v = &mut self.close[j * self.close_columns + i];
                if !known && *v < lowest + CLOSER_ABOVE {
                    let p = self.origin + DVec2::new(i as f64, j as f64) * (COARSE_M / 2.0);
                    *v = judge.glance(p.as_vec2()).0;
                }
            }
        }
    }

    /// The bottom of every valley that a row of the closer look crosses, lowest first: valleys are narrow from side to side
    /// and long in depth, so that the bottom lies between the places looked at.
    fn bottoms(&mut self, judge: &mut Judge) {
        const HALF: f64 = COARSE_M / 2.0;
        let columns = self.close_columns;
        let lowest = self.close.iter().copied().fold(f32::INFINITY, f32::min);
        self.starts.clear();
        for j in 0..self.close_rows {
            let row = &self.close[j * columns..(j + 1) * columns];
            for i in 0..columns {
                let (before, after) = (row[i.saturating_sub(1)], row[(i + 1).min(columns - 1)]);
                if row[i] > lowest + BOTTOM_ABOVE || before < row[i] || after <= row[i] && i + 1 < columns {
                    continue;
                }
                let middle = self.origin + DVec2::new(i as f64, j as f64) * HALF;
                // Golden section to a twentieth of the bracket; the descent does the rest.
                let mut at = |x: f64| judge.glance(DVec2::new(x, middle.y).as_vec2()).0;
                let (mut low, mut high) = (middle.x - HALF, middle.x + HALF);
                let (mut c, mut d) = (high - GOLDEN * (high - low), low + GOLDEN * (high - low));
                let (mut vc, mut vd) = (at(c), at(d));
                for _ in 0..5 {
                    if vc < vd {
                        (high, d, vd) = (d, c, vc);
                        c = high - GOLDEN * (high - low);
                        vc = at(c);
                    } else {
                        (low, c, vc) = (c, d, vd);
                        d = low + GOLDEN * (high - low);
                        vd = at(d);
                    }
                }
                let (x, v) = if vc < vd { (c, vc) } else { (d, vd) };
                self.starts.push((v, DVec2::new(x, middle.y)));
            }
        }
        self.starts.sort_by(|a, b| a.0.total_cmp(&b.0));
    }

    /// Walks down to the bottom of a valley.
    ///
    /// The exposure is a maximum of smooth functions, so its valleys have sharp floors that may run in any direction, on
    /// which a walk that tries directions gets stuck. Instead each step goes to the least of the linear forms of the
    /// replies met so far as the worst anywhere on the walk, within a square that shrinks when the forms promised too
    /// much (a bundle method: Lemaréchal, 1975, from memory). A reply that turns up as the worst where the step led joins
    /// them, so a walk looks at every reply at each place but at the slopes of a few.
    fn descend(&mut self, judge: &mut Judge, stand: &Stand, start: DVec2, range: (f64, f64)) -> (DVec2, f64) {
        let mut at = start;
        let mut reach = range.0;
        let look = |judge: &mut Judge, p: DVec2| {
            let (value, by) = judge.exposure(p.as_vec2());
            (f64::from(value), by)
        };
        let (mut value, by) = look(judge, at);
        self.meet(by);
        for _ in 0..60 {
            judge.planes(at.as_vec2(), &self.met, (value as f32, margin(reach)), &mut self.planes);
            let low = (at - reach).max(stand.min) - at;
            let high = (at + reach).min(stand.max) - at;
            let (step, promised) = lowest(&self.planes, low, high);
            if promised > value - 1e-6 {
                break;
            }
            let next = at + step;
            let (there, by) = look(judge, next);
            let fresh = self.meet(by);
            let kept = (value - there) / (value - promised);
            if kept > 0.1 {
                (at, value) = (next, there);
            }
            if !(kept <= 0.25 && fresh) {
                let further = if kept > 0.7 {
                    1.6
                } else if kept > 0.25 {
                    1.0
                } else {
                    0.35
                };
                reach = (reach * further).min(range.0);
                if reach < range.1 {
                    break;
                }
            }
        }
        (at, value)
    }

    /// Adds a reply to those met on a walk; whether it is new.
    fn meet(&mut self, by: usize) -> bool {
        let by = by as u32;
        if self.met.contains(&by) {
            return false;
        }
        if self.met.len() == MET {
            self.met.remove(0);
        }
        self.met.push(by);
        true
    }

    /// The field at [`FINE_M`]: exact where it is within `exact_above` of the least (as far as the looks tell), smoothly
    /// interpolated elsewhere. After [`Self::least`], which looks closer at the low ground.
    pub fn field(&self, judge: &mut Judge, least: (DVec2, f64), exact_above: f64, field: &mut Field) {
        field.origin = self.origin;
        field.step = FINE_M;
        (field.columns, field.rows) = (2 * self.close_columns - 1, 2 * self.close_rows - 1);
        double(&self.close, self.close_columns, self.close_rows, &mut field.values);
        let near = |p: DVec2| (p - least.0).abs().max_element() <= 3.0 * FINE_M;
        let limit = (least.1 + exact_above) as f32;
        for j in 0..field.rows {
            for i in 0..field.columns {
                let i = if j % 2 == 0 { i } else { field.columns - 1 - i };
                let at = j * field.columns + i;
                let p = self.origin + DVec2::new(i as f64, j as f64) * FINE_M;
                // Where the value is this low, the places of the closer look are known.
                if i % 2 == 0 && j % 2 == 0 {
                    continue;
                }
                if field.values[at] < limit || near(p) {
                    field.values[at] = judge.glance(p.as_vec2()).0;
                }
            }
        }
    }
}

/// Halves the spacing of values on a grid: in the middle between two places the cubic (Catmull-Rom) through them and their
/// neighbours, first along the rows, then across; the outermost places stand for those beyond.
fn double(values: &[f32], columns: usize, rows: usize, finer: &mut Vec<f32>) {
    let wide = 2 * columns - 1;
    finer.clear();
    finer.resize(wide * (2 * rows - 1), 0.0);
    for (j, row) in values.chunks_exact(columns).enumerate() {
        let to = &mut finer[2 * j * wide..][..wide];
        for (i, &v) in row.iter().enumerate() {
            to[2 * i] = v;
        }
        for i in 0..columns - 1 {
            to[2 * i + 1] = middle(row[i.saturating_sub(1)], row[i], row[i + 1], row[(i + 2).min(columns - 1)]);
        }
    }
    for j in 0..rows - 1 {
        let near = [j.saturating_sub(1), j, j + 1, (j + 2).min(rows - 1)];
        let (above, below) = finer.split_at_mut((2 * j + 1) * wide);
        let (to, below) = below.split_at_mut(wide);
        for (i, to) in to.iter_mut().enumerate() {
            let at = |k: usize| {
                let row = 2 * near[k];
                if row <= 2 * j { above[row * wide + i] } else { below[(row - 2 * j - 2) * wide + i] }
            };
            *to = middle(at(0), at(1), at(2), at(3));
        }
    }
}

/// The middle between `b` and `c` of the Catmull-Rom cubic whose neighbours are `a` and `d`; an exposure.
fn middle(a: f32, b: f32, c: f32, d: f32) -> f32 {
    (0.5625 * (b + c) - 0.0625 * (a + d)).clamp(0.0, 1.0)
}

/// How far below the worst reply another one may be and still become the worst one within a distance: more than
/// exposures change over it.
fn margin(reach: f64) -> f32 {
    (0.4 * reach + 0.005) as f32
}
