//! The quantal response: how often each stroke is chosen, and the worth of the choice.

use super::{
    paths::{Path, Paths},
    response::{Duel, Scratch},
};

impl Duel<'_> {
    /// Shares of the paths at one of the places, without averaging over landing places.
    pub fn rough_shares(
        &self,
        paths: &Paths,
        chances: &[(f32, f32)],
        miss: f32,
        (n, place): (usize, usize),
        scratch: &Scratch,
        out: &mut Vec<f32>,
    ) {
        out.clear();
        let beta = 1.0 / self.behaviour.temperature;
        let mut total = 0.0;
        for (i, (path, &(chance, _))) in paths.paths.iter().zip(chances).enumerate() {
            let q = chance * (1.0 - scratch.made[i * n + place]) + (1.0 - chance) * miss;
            let w = path.prior * (q * beta).exp();
            total += w;
            out.push(w);
        }
        for w in out {
            *w /= total;
        }
    }

    /// The striker's worth with the opponent at each place: the mean over the quantal response.
    ///
    /// `miss` is the worth of a fault: 0, or the second serve. The weights of the choices at place `only` are left in
    /// `scratch.weights`.
    pub fn value(
        &self,
        paths: &Paths,
        chances: &[(f32, f32)],
        miss: f32,
        n: usize,
        scratch: &mut Scratch,
        value: &mut [f32],
    ) {
        scratch.sum.clear();
        scratch.sum.resize(n, 0.0);
        value.fill(0.0);
        let blurred = &scratch.blurred;
        pulp::Arch::new().dispatch(Value {
            paths: &paths.paths,
            chances,
            blurred,
            miss,
            beta: 1.0 / self.behaviour.temperature,
            n,
            sum: &mut scratch.sum,
            value,
        });
    }

    /// Raises `most` to the greatest share that each path has at any place; after [`Self::value`] of the same state.
    pub fn most_chosen(
        &self,
        paths: &Paths,
        chances: &[(f32, f32)],
        (n, count): (usize, usize),
        scratch: &Scratch,
        value: &[f32],
        most: &mut [f32],
    ) {
        let beta = 1.0 / self.behaviour.temperature;
        let total: f32 = paths.paths.iter().map(|p| p.prior).sum();
        for (i, (path, &(chance, blur))) in paths.paths.iter().zip(chances).enumerate() {
            let level = usize::from(blur >= 1.0);
            let u = blur - level as f32;
            let low = &scratch.blurred[level][i * n..i * n + count];
            let high = &scratch.blurred[level + 1][i * n..i * n + count];
            // Relative to the mean worth: the sum of the weights is about its weight.
            let lead = low.iter().zip(high).zip(value).map(|((l, h), v)| chance * (1.0 - l - u * (h - l)) - v);
            let lead = lead.fold(f32::NEG_INFINITY, f32::max);
            most[i] = most[i].max(path.prior / total * (lead * beta).exp());
        }
    }

    /// The choices at one of the places: `(share, worth of the choice)` of each path.
    pub fn shares(
        &self,
        paths: &Paths,
        chances: &[(f32, f32)],
        miss: f32,
        (n, place): (usize, usize),
        scratch: &Scratch,
        out: &mut Vec<(f32, f32)>,
    ) {
        out.clear();
        let mut total = 0.0;
        for (i, (path, &(chance, blur))) in paths.paths.iter().zip(chances).enumerate() {
            let (level, u) = (usize::from(blur >= 1.0), blur - blur.floor().min(1.0));
            let at = i * n + place;
            let lost = scratch.blurred[level][at] * (1.0 - u) + scratch.blurred[level + 1][at] * u;
            let q = chance * (1.0 - lost) + (1.0 - chance) * miss;
            let w = path.prior * (q / self.behaviour.temperature).exp();
            total += w;
            out.push((w, q));
        }
        for (w, _) in out {
            *w /= total;
        }
    }
}

struct Value<'a> {
    paths: &'a [Path],
    chances: &'a [(f32, f32)],
    blurred: &'a [Vec<f32>; 3],
    miss: f32,
    beta: f32,
    n: usize,
    sum: &'a mut [f32],
    value: &'a mut [f32],
}

impl pulp::WithSimd for Value<'_> {
    type Output = ();

    #[inline(always)]
    fn with_simd<S: pulp::Simd>(self, _: S) {
        let n = self.n;
        for (i, (path, &(chance, blur))) in self.paths.iter().zip(self.chances).enumerate() {
            let level = usize::from(blur >= 1.0);
            let u = blur - level as f32;
            let low = &self.blurred[level][i * n..(i + 1) * n];
            let high = &self.blurred[level + 1][i * n..(i + 1) * n];
            let base = chance + (1.0 - chance) * self.miss;
            for (((l, h), sum), value) in low.iter().zip(high).zip(self.sum.iter_mut()).zip(self.value.iter_mut()) {
                let q = base - chance * (l + u * (h - l));
                let w = path.prior * exp(q * self.beta);
                *sum += w;
                *value += w * q;
            }
        }
        for (v, s) in self.value.iter_mut().zip(self.sum.iter()) {
            *v /= *s;
        }
    }
}

/// `e^x` for 0 <= x < 80, to 2e-5 of it.
#[inline(always)]
fn exp(x: f32) -> f32 {
    let y = x * std::f32::consts::LOG2_E;
    let i = y as i32;
    let f = y - i as f32;
    let p = 1.0 + f * (0.693_152_1 + f * (0.240_227_4 + f * (0.055_503_6 + f * (0.009_618_1 + f * 0.001_333_9))));
    f32::from_bits(((i + 127) << 23) as u32) * p
}
