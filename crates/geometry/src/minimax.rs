//! The least of the greatest of several planes.

use glam::DVec2;

/// A linear function of a displacement.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Plane {
    /// At no displacement.
    pub value: f64,
    pub slope: DVec2,
}

impl Plane {
    fn at(&self, d: DVec2) -> f64 {
        self.value + self.slope.dot(d)
    }
}

/// Values this close count as equal.
const TINY: f64 = 1e-9;
/// A bracket closes after a few steps, one for every plane that is greatest somewhere; never more than this.
const MOST_STEPS: usize = 60;

/// Where in a box the greatest of the planes is least, and how much it is there.
///
/// The greatest of linear functions is convex, so the least over one axis of the least over the other is found by
/// tangents: two of them, falling and rising, meet below the bottom; the tangent above where they meet replaces one of
/// them until it adds nothing. Exact up to rounding. Without planes the box's middle and minus infinity.
pub(crate) fn lowest(planes: &[Plane], low: DVec2, high: DVec2) -> (DVec2, f64) {
    if planes.is_empty() {
        return (0.5 * (low + high), f64::NEG_INFINITY);
    }
    let mut x = 0.0;
    let (y, value) = bottom(low.y, high.y, |y| {
        let line = along_x(planes, y, low.x, high.x);
        x = line.0;
        (line.1, line.2)
    });
    let (at, ..) = along_x(planes, y, low.x, high.x);
    (DVec2::new(at, y), value)
}

/// The least over `x` of the greatest plane at a `y`: where, how much, and how that changes with `y`.
fn along_x(planes: &[Plane], y: f64, low: f64, high: f64) -> (f64, f64, f64) {
    let greatest = |x: f64| {
        let d = DVec2::new(x, y);
        let mut best = (&planes[0], planes[0].at(d));
        for p in &planes[1..] {
            let v = p.at(d);
            if v > best.1 {
                best = (p, v);
            }
        }
        best
    };
    let (mut falling, value) = greatest(low);
    if falling.slope.x >= 0.0 {
        return (low, value, falling.slope.y);
    }
    let (mut rising, value) = greatest(high);
    if rising.slope.x <= 0.0 {
        return (high, value, rising.slope.y);
    }
    let mut found = (high, value);
    for _ in 0..MOST_STEPS {
        let (a, b) = (falling.at(DVec2::new(0.0, y)), rising.at(DVec2::new(0.0, y)));
        let x = ((a - b) / (rising.slope.x - falling.slope.x)).clamp(low, high);
        let (top, value) = greatest(x);
        found = (x, value);
        if value - falling.at(DVec2::new(x, y)) < TINY {
            break;
        }
        if top.slope.x < 0.0 { falling = top } else { rising = top }
    }
    // On the line where both meet, their slopes along x cancel in this mixture.
    let share = rising.slope.x / (rising.slope.x - falling.slope.x);
    (found.0, found.1, share * falling.slope.y + (1.0 - share) * rising.slope.y)
}

/// Where a convex function, given by value and slope, is least between two places, and how much it is there.
fn bottom(low: f64, high: f64, mut f: impl FnMut(f64) -> (f64, f64)) -> (f64, f64) {
    let mut a = (low, f(low));
    if a.1.1 >= 0.0 {
        return (low, a.1.0);
    }
    let mut b = (high, f(high));
    if b.1.1 <= 0.0 {
        return (high, b.1.0);
    }
    let mut found = if a.1.0 < b.1.0 { (a.0, a.1.0) } else { (b.0, b.1.0) };
    for _ in 0..MOST_STEPS {
        let ((xa, (va, sa)), (xb, (vb, sb))) = (a, b);
        let x = ((vb - va + sa * xa - sb * xb) / (sa - sb)).clamp(xa, xb);
        let promised = va + sa * (x - xa);
        let (v, s) = f(x);
        if v < found.1 {
            found = (x, v);
        }
        if v - promised < TINY {
            break;
        }
        if s < 0.0 { a = (x, (v, s)) } else { b = (x, (v, s)) }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn greatest(planes: &[Plane], d: DVec2) -> f64 {
        planes.iter().map(|p| p.at(d)).fold(f64::NEG_INFINITY, f64::max)
    }

    #[test]
    fn the_lowest_place_is_that_of_a_dense_grid() {
        let mut state = 1u64;
        let mut random = || {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (state >> 33) as f64 / f64::from(1u32 << 31) * 2.0 - 1.0
        };
        for round in 0..300 {
            let planes: Vec<Plane> = (0..=round % 30)
                .map(|_| Plane { value: 0.2 * random(), slope: DVec2::new(random(), random()) })
                .collect();
            let (low, high) = (DVec2::new(-0.5, -0.3), DVec2::new(0.4, 0.5));
            let (at, value) = lowest(&planes, low, high);
            assert!(at.cmpge(low - 1e-12).all() && at.cmple(high + 1e-12).all());
            assert!((greatest(&planes, at) - value).abs() < 1e-7, "round {round}");
            let n = 90;
            let mut grid = f64::INFINITY;
            for i in 0..=n {
                for j in 0..=n {
                    let share = DVec2::new(f64::from(i), f64::from(j)) / f64::from(n);
                    grid = grid.min(greatest(&planes, low + (high - low) * share));
                }
            }
            // Slopes of up to 1.5 over half a cell.
            assert!(value <= grid + 1e-9 && value > grid - 0.015, "round {round}: {value} {grid}");
        }
    }
}
