//! A smooth chart of an aim map: shading, level lines and best place.

use glam::{DVec2, dvec2};
use standpoint_geometry::{AimMap, Contour, Court, Field, contours};

/// Distance between the samples of a chart, m.
const FINE: f64 = 0.125;
/// Level lines, as chances to win below the best.
pub const LEVELS: [f64; 3] = [0.02, 0.05, 0.10];

/// Smallest ring that is kept, m: smaller ones are artefacts of the map's resolution.
const LEAST_RING: f64 = 0.8;

/// A smooth chart. Its field holds the chance *not* to win, so that low is good as in other shadings.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// Chances not to win over the other half, world frame.
    pub field: Field,
    /// Level lines around the best place.
    pub contours: Vec<Contour>,
    /// The best place to aim at, world frame.
    pub best: DVec2,
    /// The chance to win with it.
    pub win: f64,
}

impl Chart {
    /// The chart of a map of which every cell in steps of `stride` is known.
    #[must_use]
    pub fn new(map: &AimMap, stride: usize, to_middle: bool, court: &Court) -> Self {
        let coarse = Coarse::new(map, stride, to_middle);
        let (low, high) = bounds(map, court);
        let cells = ((high - low) / FINE).ceil();
        let (columns, rows) = (cells.x as usize + 1, cells.y as usize + 1);
        let step = ((high - low) / cells.max(DVec2::ONE)).max_element();
        let mut field = Field { origin: low, step, columns, rows, values: Vec::with_capacity(columns * rows) };
        let (mut best, mut win) = (map.target(0), 0.0);
        for j in 0..rows {
            for i in 0..columns {
                let place = low + dvec2(i as f64, j as f64) * step;
                let chance = coarse.at(place).clamp(0.0, 1.0);
                if chance > win {
                    (best, win) = (place, chance);
                }
                field.values.push((1.0 - chance) as f32);
            }
        }
        let mut contours = contours(&field, 1.0 - win, &LEVELS);
        for contour in &mut contours {
            contour.rings.retain(|ring| extent(ring) >= LEAST_RING);
        }
        Self { field, contours, best, win }
    }

    /// The chance to win when aiming at a place; `None` outside.
    #[must_use]
    pub fn at(&self, place: DVec2) -> Option<f64> {
        self.field.at(place).map(|lost| 1.0 - lost)
    }
}

/// Longer side of the bounding box of a ring.
fn extent(ring: &[DVec2]) -> f64 {
    let low = ring.iter().copied().reduce(DVec2::min).unwrap_or_default();
    let high = ring.iter().copied().reduce(DVec2::max).unwrap_or_default();
    (high - low).max_element()
}

/// Extent of the chart: the half or service box of the map, up to the lines.
fn bounds(map: &AimMap, court: &Court) -> (DVec2, DVec2) {
    let last = map.target(map.worth.len().saturating_sub(1));
    // The map ends just over one step inside the lines.
    let near = map.step * 0.5 + 0.06;
    let (half, service) = (court.half_width(), court.service_line.unwrap_or(court.half_length()));
    let lines_x = [-half, 0.0, half];
    let lines_y = [-court.half_length(), -service, service, court.half_length()];
    let snap = |value: f64, lines: &[f64]| {
        let line = lines.iter().copied().min_by(|a, b| (a - value).abs().total_cmp(&(b - value).abs()));
        line.filter(|line| (line - value).abs() <= near).unwrap_or(value)
    };
    let to_lines = |p: DVec2| dvec2(snap(p.x, &lines_x), snap(p.y, &lines_y));
    (to_lines(map.origin), to_lines(last))
}

/// The known cells as a grid, extended by one on each side with the slope of the border.
struct Coarse {
    origin: DVec2,
    step: f64,
    columns: usize,
    rows: usize,
    values: Vec<f64>,
}

impl Coarse {
    fn new(map: &AimMap, stride: usize, to_middle: bool) -> Self {
        let (columns, rows) = ((map.columns - 1) / stride + 1, (map.rows - 1) / stride + 1);
        let win = |i: usize, j: usize| {
            let worth = map.worth[j * stride * map.columns + i * stride].flatten();
            worth.map_or(0.0, |w| if to_middle { w.win_from_middle } else { w.win })
        };
        let values = (0..columns * rows).map(|k| win(k % columns, k / columns)).collect();
        Self { origin: map.origin, step: map.step * stride as f64, columns, rows, values }
    }

    fn value(&self, i: isize, j: isize) -> f64 {
        let row = |j: usize| {
            let at = |i: usize| self.values[j * self.columns + i];
            beyond(i, self.columns, at)
        };
        beyond(j, self.rows, row)
    }

    /// Cubic interpolation through the cells (Catmull-Rom), with little overshoot.
    fn at(&self, place: DVec2) -> f64 {
        let p = (place - self.origin) / self.step;
        let base = p.floor();
        let (i, j) = (base.x as isize, base.y as isize);
        let f = p - base;
        let row = |dj: isize| cubic([-1, 0, 1, 2].map(|di| self.value(i + di, j + dj)), f.x);
        cubic([-1, 0, 1, 2].map(row), f.y)
    }
}

/// A value by its index; outside, the slope at the border is continued by at most one cell.
fn beyond(i: isize, count: usize, at: impl Fn(usize) -> f64) -> f64 {
    let last = count as isize - 1;
    if (0..=last).contains(&i) {
        return at(i as usize);
    }
    if count == 1 {
        return at(0);
    }
    let (edge, inner) = if i < 0 { (0, 1) } else { (last as usize, last as usize - 1) };
    2.0 * at(edge) - at(inner)
}

fn cubic([a, b, c, d]: [f64; 4], t: f64) -> f64 {
    b + 0.5 * t * (c - a + t * (2.0 * a - 5.0 * b + 4.0 * c - d + t * (3.0 * (b - c) + d - a)))
}

#[cfg(test)]
mod tests {
    use standpoint_board::Board;
    use standpoint_geometry::AimWorth;

    use super::*;

    /// A map with a round hill.
    fn hill(top: DVec2) -> AimMap {
        let mut map = AimMap::new(&Board::demo().situation(0, 0).unwrap(), 0.5);
        for cell in 0..map.worth.len() {
            let win = 0.6 - 0.01 * map.target(cell).distance_squared(top);
            map.worth[cell] = Some(Some(AimWorth { win, win_from_middle: win / 2.0, chance_in: 1.0, speed: 30.0 }));
        }
        map
    }

    #[test]
    fn the_best_place_lies_between_the_cells() {
        let (court, top) = (Court::default(), dvec2(1.36, 8.2));
        let chart = Chart::new(&hill(top), 1, false, &court);
        assert!(chart.best.distance(top) < 0.1, "{}", chart.best);
        assert!((chart.win - 0.6).abs() < 0.003);
        assert!((chart.at(dvec2(0.3, 6.1)).unwrap() - (0.6 - 0.01 * dvec2(1.06, 2.1).length_squared())).abs() < 0.004);
        assert!(chart.contours.iter().all(|c| !c.rings.is_empty()));
        let middle = Chart::new(&hill(top), 1, true, &court);
        assert!((middle.win - 0.3).abs() < 0.003);
    }

    #[test]
    fn a_coarse_pass_already_shows_where_the_hill_is() {
        let top = dvec2(-1.1, 7.4);
        let chart = Chart::new(&hill(top), 4, false, &Court::default());
        assert!(chart.best.distance(top) < 0.3, "{}", chart.best);
    }

    #[test]
    fn the_chart_reaches_the_lines() {
        let court = Court::default();
        let chart = Chart::new(&hill(dvec2(0.0, 8.0)), 1, false, &court);
        let end = chart.field.origin
            + dvec2((chart.field.columns - 1) as f64, (chart.field.rows - 1) as f64) * chart.field.step;
        assert!((chart.field.origin.x + court.half_width()).abs() < 1e-9);
        assert!((end.y - court.half_length()).abs() < 0.15, "{end}");
    }
}
