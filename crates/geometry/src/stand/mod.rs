//! Where to stand: the worth of the rally to the opponent over the player's side, and the zone where it is least.

pub(crate) mod contours;

use glam::DVec2;

use crate::{court::Court, shot::situation::ReadyArea, solver::answer::Field};

/// Spacing of the coarse search over the side, m.
pub(crate) const COARSE_M: f64 = 1.25;
/// Spacing of the rows of the fine search, m, and of the places in a row around the valley's floor.
const ROW_M: f64 = 0.5;
const ACROSS_M: [f64; 5] = [-1.2, -0.6, 0.0, 0.6, 1.2];
/// Width of the smooth floor of a row of the coarse search, in points won.
const FLOOR_WIDTH: f64 = 0.012;
/// Usual waiting place where depth makes no difference: distance from the net on a full court and its spread, m. At the
/// back 1.85 m behind the baseline (medians of 2.1 and 1.6 m in open position data of two professional matches; of
/// those with time to recover eight tenths lie within 1.2 m of their median); at the net from common practice, no
/// source.
const USUAL_BACK_M: (f64, f64) = (11.885 + 1.85, 1.0);
const USUAL_NET_M: (f64, f64) = (3.2, 1.0);
/// Usual waiting place of a server who stays back, landing inside the baseline and stepping back behind it (common
/// practice, no source).
const USUAL_SERVER_M: (f64, f64) = (11.885 + 0.5, 0.5);
/// Height above the lowest floor from which rows carry no weight.
const LOW_ABOVE: f64 = 0.05;
/// Depths within this of the least count as equally good, in points won.
const RANGE: f64 = 0.01;
/// Least distance from the net of a standing place, m.
const NET_GAP_M: f64 = 0.6;
/// Distances from the net on a full court, m, at which standing at the net ends and standing at the back begins; the
/// ground between is crossed, not stood in (Tilden, The Art of Lawn Tennis, 1921).
const NET_UNTIL_M: f64 = 4.8;
const BACK_FROM_M: f64 = 10.9;

/// The ground considered for standing: a rectangle in the frame of a near player.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Stand {
    pub min: DVec2,
    pub max: DVec2,
}

impl Stand {
    /// The whole side of a player.
    pub fn new(court: &Court) -> Self {
        let x = (court.half_width() + 1.9).min(court.site_half_width());
        let back = -(court.site_half_length() - 0.5).min(court.half_length() + 5.0);
        Self { min: DVec2::new(-x, back), max: DVec2::new(x, -NET_GAP_M) }
    }

    /// The part of the side that a player waits in.
    pub fn area(&self, court: &Court, area: ReadyArea) -> Self {
        let scale = court.half_length() / 11.885;
        let (mut min, mut max) = (self.min, self.max);
        match area {
            ReadyArea::Anywhere => {}
            ReadyArea::Back => max.y = -BACK_FROM_M * scale,
            ReadyArea::Net => {
                min.y = -NET_UNTIL_M * scale;
                max.y = -1.2 * scale;
            }
        }
        Self { min, max }
    }

    /// Usual waiting place in an area, after a serve or another stroke: distance from the net, m, and its spread.
    pub fn usual(court: &Court, area: ReadyArea, served: bool) -> (f64, f64) {
        let scale = court.half_length() / 11.885;
        let (at, spread) = match area {
            ReadyArea::Net => USUAL_NET_M,
            _ if served => USUAL_SERVER_M,
            _ => USUAL_BACK_M,
        };
        (at * scale, spread * scale)
    }

    pub fn clamp(&self, p: DVec2) -> DVec2 {
        p.clamp(self.min, self.max)
    }
}

/// The zone where the opponent wins least.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Zone {
    /// Its centre.
    pub centre: DVec2,
    /// The least worth found in it.
    pub least: f64,
    /// Depths from the net between which the difference in worth is negligible, m.
    pub range: (f64, f64),
}

/// Judges places: the opponent's chance to win with the player there, near frame.
pub(crate) trait Ground {
    fn worth(&mut self, places: &[DVec2], out: &mut Vec<f64>);
}

/// The coarse search over the side and the field made from it.
#[derive(Debug, Clone, Default)]
pub(crate) struct Survey {
    pub origin: DVec2,
    pub columns: usize,
    pub rows: usize,
    pub values: Vec<f64>,
    places: Vec<DVec2>,
    finer: Vec<f32>,
    half: Vec<f32>,
}

impl Survey {
    pub fn look(&mut self, ground: &mut dyn Ground, stand: &Stand) {
        // The grid is anchored to the court, so that the shading does not shift while a handle is dragged.
        self.origin = (stand.min / COARSE_M).floor() * COARSE_M;
        let size = (stand.max - self.origin) / COARSE_M;
        (self.columns, self.rows) = (size.x.ceil() as usize + 1, size.y.ceil() as usize + 1);
        let (columns, origin) = (self.columns, self.origin);
        self.places.clear();
        self.places.extend(
            (0..columns * self.rows)
                .map(|n| origin + DVec2::new((n % columns) as f64, (n / columns) as f64) * COARSE_M),
        );
        ground.worth(&self.places, &mut self.values);
    }

    /// The floor of the valley in a row: its approximate place and its worth.
    fn floor(&self, row: usize) -> (f64, f64) {
        let v = &self.values[row * self.columns..(row + 1) * self.columns];
        let low = v.iter().copied().fold(f64::INFINITY, f64::min);
        let (mut sum, mut at) = (0.0, 0.0);
        for (i, v) in v.iter().enumerate() {
            let w = (-(v - low) / FLOOR_WIDTH).exp();
            sum += w;
            at += w * i as f64;
        }
        (self.origin.x + at / sum * COARSE_M, low)
    }

    /// The floor of the valley at a depth, interpolated between the rows of the coarse search.
    fn floor_at(&self, y: f64) -> (f64, f64) {
        let r = ((y - self.origin.y) / COARSE_M).clamp(0.0, (self.rows - 1) as f64 - 1e-9);
        let (row, u) = (r as usize, r.fract());
        let (a, b) = (self.floor(row), self.floor(row + 1));
        (a.0 + u * (b.0 - a.0), a.1 + u * (b.1 - a.1))
    }

    /// The zone of an area, from a fine search along the floor of its valley; `usual` is the usual waiting place when
    /// depth makes no difference, and its spread.
    pub fn zone(&mut self, ground: &mut dyn Ground, area: &Stand, usual: (f64, f64), width: f64) -> Zone {
        let first = (area.min.y / ROW_M).ceil() as i64;
        let last = (area.max.y / ROW_M).floor() as i64;
        let mut rows: Vec<f64> = (first..=last).map(|k| k as f64 * ROW_M).collect();
        if rows.is_empty() {
            rows.push(0.5 * (area.min.y + area.max.y));
        }
        let low = rows.iter().map(|y| self.floor_at(*y).1).fold(f64::INFINITY, f64::min);
        rows.retain(|y| self.floor_at(*y).1 < low + LOW_ABOVE);
        self.places.clear();
        for y in rows {
            let x = self.floor_at(y).0.clamp(area.min.x + 1.2, area.max.x - 1.2);
            self.places.extend(ACROSS_M.iter().map(|dx| DVec2::new(x + dx, y)));
        }
        let mut values = Vec::new();
        ground.worth(&self.places, &mut values);
        let least = values.iter().copied().fold(f64::INFINITY, f64::min);
        let (mut sum, mut centre) = (0.0, DVec2::ZERO);
        for (p, v) in self.places.iter().zip(&values) {
            let stray = (-p.y - usual.0) / usual.1;
            let w = (-(v - least) / width - 0.5 * stray * stray).exp();
            sum += w;
            centre += w * p;
        }
        let floors: Vec<(f64, f64)> = values
            .chunks_exact(ACROSS_M.len())
            .zip(self.places.chunks_exact(ACROSS_M.len()))
            .map(|(v, p)| (p[0].y, v.iter().copied().fold(f64::INFINITY, f64::min)))
            .collect();
        let mut centre = area.clamp(centre / sum);
        for _ in 0..2 {
            centre = area.clamp(self.nearer(ground, centre, width));
        }
        Zone { centre, least, range: range(&floors, least + RANGE) }
    }

    /// Refines the centre of a zone across the court; in a narrow valley the rows are too coarse.
    fn nearer(&mut self, ground: &mut dyn Ground, centre: DVec2, width: f64) -> DVec2 {
        self.places.clear();
        self.places.extend([-0.45, -0.3, -0.15, 0.0, 0.15, 0.3, 0.45].map(|dx| centre + DVec2::new(dx, 0.0)));
        let mut values = Vec::new();
        ground.worth(&self.places, &mut values);
        let least = values.iter().copied().fold(f64::INFINITY, f64::min);
        let weight = |v: &f64| (-(v - least) / width).exp();
        let sum: f64 = values.iter().map(weight).sum();
        self.places.iter().zip(&values).map(|(p, v)| *p * weight(v)).sum::<DVec2>() / sum
    }

    /// The field at a quarter of the coarse spacing, smoothly interpolated.
    pub fn field(&mut self, field: &mut Field) {
        self.half.clear();
        self.half.extend(self.values.iter().map(|v| *v as f32));
        double(&self.half, self.columns, self.rows, &mut self.finer);
        let (columns, rows) = (2 * self.columns - 1, 2 * self.rows - 1);
        double(&self.finer, columns, rows, &mut field.values);
        field.origin = self.origin;
        field.step = COARSE_M / 4.0;
        (field.columns, field.rows) = (2 * columns - 1, 2 * rows - 1);
    }
}

/// Depths between which the floors lie below a level, around the lowest one.
fn range(floors: &[(f64, f64)], level: f64) -> (f64, f64) {
    let Some(best) = (0..floors.len()).min_by(|&a, &b| floors[a].1.total_cmp(&floors[b].1)) else { return (0.0, 0.0) };
    let edge = |mut i: usize, step: isize| {
        while let Some(next) = i.checked_add_signed(step).filter(|n| *n < floors.len()) {
            if floors[next].1 > level {
                let u = (level - floors[i].1) / (floors[next].1 - floors[i].1).max(1e-12);
                return -(floors[i].0 + u.clamp(0.0, 1.0) * (floors[next].0 - floors[i].0));
            }
            i = next;
        }
        -floors[i].0
    };
    // Rows run from the back to the net.
    (edge(best, 1), edge(best, -1))
}

/// Halves the spacing of values on a grid: the midpoint between two places lies on the cubic (Catmull-Rom) through them
/// and their neighbours, first along the rows, then across; outermost values are repeated beyond the edge.
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
