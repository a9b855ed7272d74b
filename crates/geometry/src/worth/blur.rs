//! Averages over the landing places around the aimed one.

use super::{
    paths::Paths,
    response::{BLUR, Duel, Scratch},
    strokes::Kind,
};

impl Duel<'_> {
    /// Averages `scratch.made` over the landing places around each path's own.
    ///
    /// `levels` are the spreads needed for each path, as bits; all of them by default.
    pub fn blur(
        &self,
        kind: Kind,
        contact_x: f32,
        (paths, levels): (&Paths, Option<&[u8]>),
        n: usize,
        scratch: &mut Scratch,
    ) {
        pulp::Arch::new().dispatch(Blur { duel: self, kind, contact_x, paths, levels, n, scratch });
    }

    /// Worth to the opponent of one path from one place, averaged over the landing places around its own.
    pub fn blurred_at(&self, kind: Kind, contact_x: f32, paths: &Paths, i: usize, level: f32, made: &[f32]) -> f32 {
        let landings = self.strokes.landings(kind, contact_x);
        let scale = self.next_lattice.scale;
        let k = (level as usize).min(1);
        let u = level - k as f32;
        let depth = (BLUR[k].0 + u * (BLUR[k + 1].0 - BLUR[k].0)) * scale[1];
        let side = (BLUR[k].1 + u * (BLUR[k + 1].1 - BLUR[k].1)) * scale[0];
        let own = &paths.paths[i];
        let (mut sum, mut total) = (0.0, 0.0);
        let mut add = |j: usize| {
            let p = &paths.paths[j];
            if p.family != own.family {
                return false;
            }
            let (zx, zy) = ((p.x - own.x) / side, (p.y - own.y) / depth);
            let w = (-0.5 * (zx * zx + zy * zy)).exp() * landings.area(usize::from(p.row), usize::from(p.column));
            sum += w * made[j];
            total += w;
            true
        };
        // Paths of one family are consecutive.
        let mut j = i;
        while add(j) && j > 0 {
            j -= 1;
        }
        j = i + 1;
        while j < paths.paths.len() && add(j) {
            j += 1;
        }
        sum / total
    }

    /// Marks the spreads of [`BLUR`] that the striker's states need for each path, as bits.
    pub fn levels<'b>(chances: impl Iterator<Item = &'b Vec<(f32, f32)>>, levels: &mut [u8]) {
        for chances in chances {
            for ((_, blur), level) in chances.iter().zip(levels.iter_mut()) {
                *level |= if *blur >= 1.0 { 0b110 } else { 0b011 };
            }
        }
    }
}

struct Blur<'a> {
    duel: &'a Duel<'a>,
    kind: Kind,
    contact_x: f32,
    paths: &'a Paths,
    levels: Option<&'a [u8]>,
    n: usize,
    scratch: &'a mut Scratch,
}

impl pulp::WithSimd for Blur<'_> {
    type Output = ();

    #[inline(always)]
    fn with_simd<S: pulp::Simd>(self, _: S) {
        let Self { duel, kind, contact_x, paths, levels, n, scratch } = self;
        let landings = duel.strokes.landings(kind, contact_x);
        let families = duel.strokes.families(kind).len();
        let (rows, columns) = (landings.y.len(), landings.x.len());
        let cell = |f: usize, r: usize, c: usize| (f * rows + r) * columns + c;
        scratch.grid.clear();
        scratch.grid.resize(families * rows * columns, u16::MAX);
        for (i, p) in paths.paths.iter().enumerate() {
            scratch.grid[cell(usize::from(p.family), usize::from(p.row), usize::from(p.column))] = i as u16;
        }
        let scale = duel.next_lattice.scale;
        for (level, (depth, side)) in BLUR.iter().enumerate() {
            let kr = kernel(landings.y.nodes(), &|j| landings.area(j, 0), depth * scale[1]);
            let kc = kernel(landings.x.nodes(), &|j| landings.area(0, j), side * scale[0]);
            let out = &mut scratch.blurred[level];
            out.clear();
            out.resize(paths.paths.len() * n, 0.0);
            for (i, p) in paths.paths.iter().enumerate() {
                if levels.is_some_and(|l| l[i] & (1 << level) == 0) {
                    continue;
                }
                let (f, r, c) = (usize::from(p.family), usize::from(p.row), usize::from(p.column));
                let to = &mut out[i * n..(i + 1) * n];
                let mut total = 0.0;
                let most = kr[r * rows + r] * kc[c * columns + c];
                for r2 in 0..rows {
                    for c2 in 0..columns {
                        let weight = kr[r * rows + r2] * kc[c * columns + c2];
                        let at = scratch.grid[cell(f, r2, c2)];
                        if at == u16::MAX || weight < 0.02 * most {
                            continue;
                        }
                        total += weight;
                        let from = &scratch.made[usize::from(at) * n..(usize::from(at) + 1) * n];
                        for (t, v) in to.iter_mut().zip(from) {
                            *t += weight * v;
                        }
                    }
                }
                let by = 1.0 / total;
                for t in to {
                    *t *= by;
                }
            }
        }
    }
}

/// Weights of landing nodes around each other: a Gaussian times the area of a node.
fn kernel(nodes: &[f32], area: &dyn Fn(usize) -> f32, sigma: f32) -> Vec<f32> {
    let m = nodes.len();
    let mut k = vec![0.0; m * m];
    for i in 0..m {
        for j in 0..m {
            let z = (nodes[i] - nodes[j]) / sigma;
            k[i * m + j] = (-0.5 * z * z).exp() * area(j);
        }
    }
    k
}
