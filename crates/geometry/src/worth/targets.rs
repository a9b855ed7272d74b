//! Places where the opponent of a striker should stand, from a row of the table.

use super::lattice::{LANES, Lattice, Targets};

/// Depths that divide standing at the net from standing at the back on a full court, m.
const NET_UNTIL: f32 = 6.6;
const BACK_FROM: f32 = 8.4;

/// Where the opponent of a striker should stand: centre of the zone of least worth, at the back and at the net, for an
/// unhurried and a hurried striker.
pub(crate) fn best_places(lattice: &Lattice, row: &[[f32; LANES]], zone: f32) -> Targets {
    let mut targets = [0.0; 8];
    for (group, lanes) in [(4..8), (0..4)].into_iter().enumerate() {
        let mean = |p: usize| row[p][lanes.clone()].iter().sum::<f32>() * 0.25;
        let scale = lattice.scale[1];
        let net = centre(lattice, &mean, zone, |d| d <= NET_UNTIL * scale);
        // The striker's pressure is read too late to run for it: the place at the back is that for an unhurried
        // striker.
        let free = |p: usize| row[p][4..6].iter().sum::<f32>() * 0.5;
        let back = centre(lattice, &free, zone, |d| d >= BACK_FROM * scale);
        targets[4 * group..4 * group + 4].copy_from_slice(&[back[0], back[1], net[0], net[1]]);
    }
    targets
}

/// Centre of the zone of least values among rows of the lattice: the valley's place in each row, weighted by depth.
fn centre(lattice: &Lattice, value: &dyn Fn(usize) -> f32, zone: f32, rows: impl Fn(f32) -> bool) -> [f32; 2] {
    let nx = lattice.place_x.len();
    let mut valley: Vec<[f32; 3]> = Vec::with_capacity(8);
    for j in 0..lattice.place_depth.len() {
        let depth = lattice.place_depth.node(j);
        if !rows(depth) {
            continue;
        }
        let at = |i: usize| value(j * nx + i);
        let least = (0..nx).min_by(|&a, &b| at(a).total_cmp(&at(b))).unwrap_or(nx / 2);
        let i = least.clamp(1, nx - 2);
        let x = |i: usize| lattice.place_x.node(i);
        let (x, v) = vertex([x(i - 1), x(i), x(i + 1)], [at(i - 1), at(i), at(i + 1)]);
        valley.push([depth, x, v]);
    }
    // Between the rows the valley's floor follows a smooth curve.
    let n = valley.len();
    let mut fine: Vec<[f32; 3]> = Vec::with_capacity(n * 8);
    for j in 0..n - 1 {
        let p = |k: usize| valley[k.min(n - 1)];
        let (a, b, c, d) = (p(j.saturating_sub(1)), p(j), p(j + 1), p(j + 2));
        for k in 0..8 {
            let u = k as f32 / 8.0;
            let curve = |l: usize| {
                b[l] + 0.5
                    * u
                    * (c[l] - a[l]
                        + u * (2.0 * a[l] - 5.0 * b[l] + 4.0 * c[l] - d[l] + u * (3.0 * (b[l] - c[l]) + d[l] - a[l])))
            };
            fine.push([b[0] + u * (c[0] - b[0]), b[1] + u * (c[1] - b[1]), curve(2)]);
        }
    }
    fine.push(valley[n - 1]);
    let least = fine.iter().map(|f| f[2]).fold(f32::INFINITY, f32::min);
    let (mut sum, mut x, mut depth) = (0.0, 0.0, 0.0);
    for f in &fine {
        let w = (-(f[2] - least) / zone).exp();
        sum += w;
        x += w * f[1];
        depth += w * f[0];
    }
    [x / sum, depth / sum]
}

/// Least place and value of the parabola through three points, kept between the outer ones.
fn vertex(x: [f32; 3], v: [f32; 3]) -> (f32, f32) {
    let (d1, d2) = ((v[1] - v[0]) / (x[1] - x[0]), (v[2] - v[1]) / (x[2] - x[1]));
    let a = (d2 - d1) / (x[2] - x[0]);
    if a <= 1e-9 {
        let i = if v[0] < v[2] { 0 } else { 2 };
        return (x[i], v[i]);
    }
    let at = (0.5 * (x[0] + x[1]) - 0.5 * d1 / a).clamp(x[0], x[2]);
    (at, v[0] + d1 * (at - x[0]) + a * (at - x[0]) * (at - x[1]))
}
