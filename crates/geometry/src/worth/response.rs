//! What a striker's choices are worth against an opponent at each of many places: the one look-ahead on which the
//! solve, the live answer and the simulated points stand.

use super::{
    behaviour::Behaviour,
    lattice::{LANES, Lattice, Table},
    legs::{BLOCK, Catch, Legs},
    strokes::{Kind, Limits, Path, Paths, Repertoire, Sample},
};
use crate::player::{Wing, scatter::Delivery};

/// From contacts at most this far from the net on a full court a player may stay at the net, m.
const COME_IN_DEPTH: f32 = 10.0;
/// Time to spare that parts a hurried striker from one with time, s.
pub(crate) const HURRIED: f32 = 0.3;
/// Spreads of the landing place for which the worth is averaged in advance: depth and side, m.
const BLUR: [(f32, f32); 3] = [(0.6, 0.35), (1.4, 0.8), (2.8, 1.6)];

/// Everything of a striker and the opponent that a look-ahead needs.
pub(crate) struct Duel<'a> {
    pub behaviour: &'a Behaviour,
    /// The striker's strokes and movement.
    pub strokes: &'a Repertoire,
    pub legs: &'a Legs,
    /// The opponent's movement, and what they strike next.
    pub opponent: &'a Legs,
    pub limits: &'a Limits,
    pub next: &'a Table,
    pub next_lattice: &'a Lattice,
}

/// Standing places in blocks, padded by repeating the last.
#[derive(Debug, Clone, Default)]
pub(crate) struct Places {
    pub x: Vec<f32>,
    pub depth: Vec<f32>,
    pub len: usize,
}

impl Places {
    pub fn set(&mut self, places: impl Iterator<Item = [f32; 2]>) {
        self.x.clear();
        self.depth.clear();
        for [x, d] in places {
            self.x.push(x);
            self.depth.push(d);
        }
        self.len = self.x.len();
        while !self.x.len().is_multiple_of(BLOCK) {
            self.x.push(self.x[self.len - 1]);
            self.depth.push(self.depth[self.len - 1]);
        }
    }

    pub fn padded(&self) -> usize {
        self.x.len()
    }
}

/// Buffers of a look-ahead.
#[derive(Debug, Clone, Default)]
pub(crate) struct Scratch {
    /// What the opponent may do with each path, the most promising first: as many as the path has samples.
    catches: Vec<Catch>,
    /// What the opponent makes of each path from each place: paths times padded places.
    pub made: Vec<f32>,
    /// The same averaged over landing places, for each spread of [`BLUR`].
    blurred: [Vec<f32>; 3],
    grid: Vec<u16>,
    sum: Vec<f32>,
}

impl Duel<'_> {
    /// The worth, to the opponent, of meeting a sample: by time level and wing, with the striker recovered by then.
    #[inline(always)]
    pub fn meeting_worth(&self, from: [f32; 2], may_come_in: bool, slope: f32, s: &Sample) -> [f32; LANES] {
        let corners = self.next_lattice.corners([s.x, s.depth, s.height], s.air, slope);
        let t = self.next.target(&corners);
        let reach = |x: f32, d: f32| self.legs.recover(from, [x, d], s.time);
        let worth = |p: [f32; 2], first: usize| self.next.half(&corners, &self.next_lattice.around(p), first);
        let mut free = worth(reach(t[0], t[1]), 4);
        let mut hurried = worth(reach(t[4], t[5]), 0);
        if may_come_in {
            let less = |a: [f32; 4], b: [f32; 4]| if a.iter().sum::<f32>() < b.iter().sum::<f32>() { a } else { b };
            free = less(worth(reach(t[2], t[3]), 4), free);
            hurried = less(worth(reach(t[6], t[7]), 0), hurried);
        }
        let mut w = [0.0; LANES];
        w[..4].copy_from_slice(&hurried);
        w[4..].copy_from_slice(&free);
        w
    }

    /// The worth, to the opponent, of meeting a sample with the striker at a place.
    pub fn meeting_worth_at(&self, place: [f32; 2], slope: f32, s: &Sample) -> [f32; LANES] {
        let corners = self.next_lattice.corners([s.x, s.depth, s.height], s.air, slope);
        self.next.worth(&corners, &self.next_lattice.around(place))
    }

    /// Where the striker is when the opponent meets a sample with `spare` seconds in hand.
    pub fn recovered(&self, from: [f32; 2], may_come_in: bool, slope: f32, s: &Sample, spare: f32) -> [f32; 2] {
        let corners = self.next_lattice.corners([s.x, s.depth, s.height], s.air, slope);
        let t = self.next.target(&corners);
        let first = if spare < HURRIED { 0 } else { 4 };
        let reach = |k: usize| self.legs.recover(from, [t[k], t[k + 1]], s.time);
        let back = reach(4 - first);
        if may_come_in {
            let net = reach(6 - first);
            let worth = |p| self.next.half(&corners, &self.next_lattice.around(p), first).iter().sum::<f32>();
            if worth(net) < worth(back) {
                return net;
            }
        }
        back
    }

    /// Where the striker's body is when striking, for the run that follows.
    pub fn body(&self, x: f32, depth: f32) -> [f32; 2] {
        [x, depth + self.behaviour.stance_ahead]
    }

    pub fn may_come_in(&self, depth: f32) -> bool {
        depth < COME_IN_DEPTH * self.next_lattice.scale[1]
    }

    /// Fills `scratch.made` for all paths and places.
    pub fn respond(&self, contact: [f32; 2], paths: &Paths, places: &Places, scratch: &mut Scratch) {
        self.weigh(contact, paths, scratch);
        self.judge(paths, places, scratch);
    }

    /// Works out what meeting each sample is worth, wherever the opponent stands.
    pub fn weigh(&self, contact: [f32; 2], paths: &Paths, scratch: &mut Scratch) {
        let from = self.body(contact[0], contact[1]);
        let come_in = self.may_come_in(contact[1]);
        scratch.catches.clear();
        pulp::Arch::new().dispatch(Weigh { duel: self, from, come_in, paths, scratch });
    }

    /// Fills `scratch.made` from samples that are weighed already.
    pub fn judge(&self, paths: &Paths, places: &Places, scratch: &mut Scratch) {
        scratch.made.resize(paths.paths.len() * places.padded(), 0.0);
        pulp::Arch::new().dispatch(Respond { opponent: self.opponent, paths, places, scratch });
    }

    /// The same with every so manieth sample only, for a rougher look.
    pub fn respond_every(
        &self,
        stride: usize,
        contact: [f32; 2],
        paths: &Paths,
        places: &Places,
        scratch: &mut Scratch,
    ) {
        let from = self.body(contact[0], contact[1]);
        let come_in = self.may_come_in(contact[1]);
        scratch.made.resize(paths.paths.len() * places.padded(), 0.0);
        pulp::Arch::new().dispatch(Rough { duel: self, stride, from, come_in, paths, places, scratch });
    }

    /// Shares of the paths at one of the places without averaging over landing places.
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

    /// Averages `scratch.made` over the landing places around each path's own.
    ///
    /// `levels` are the spreads that are asked of each path, as bits; all of them by default.
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

    /// What the opponent makes of one path from one place, averaged over the landing places around its own.
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
        // Paths of one family stand together.
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

    /// Marks the spreads of [`BLUR`] that the states of a striker ask of each path, as bits.
    pub fn levels<'b>(chances: impl Iterator<Item = &'b Vec<(f32, f32)>>, levels: &mut [u8]) {
        for chances in chances {
            for ((_, blur), level) in chances.iter().zip(levels.iter_mut()) {
                *level |= if *blur >= 1.0 { 0b110 } else { 0b011 };
            }
        }
    }

    /// Chance in and blur level of every path for one state of the striker.
    pub fn chances(
        &self,
        kind: Kind,
        contact: [f32; 3],
        paths: &Paths,
        (wing, spare, slope): (Wing, f32, f32),
        out: &mut Vec<(f32, f32)>,
    ) {
        let pressure = match kind {
            Kind::FirstServe | Kind::SecondServe => 0.0,
            _ => self.behaviour.pressure(f64::from(spare)),
        };
        for path in &paths.paths {
            out.push(self.chance(kind, contact, path, (wing, pressure, slope)));
        }
    }

    pub fn delivery(
        &self,
        kind: Kind,
        contact: [f32; 3],
        path: &Path,
        (wing, pressure, slope): (Wing, f64, f32),
    ) -> Delivery {
        let family = &self.strokes.families(kind)[usize::from(path.family)];
        let turn = match kind {
            Kind::FirstServe | Kind::SecondServe => 0.0,
            _ => (path.direction[0].atan2(path.direction[1]) + slope.atan()).abs(),
        };
        Delivery {
            stroke: family.stroke,
            wing,
            speed: f64::from(path.speed),
            topspin: family.topspin,
            pressure,
            turn: f64::from(turn),
            height: f64::from(contact[2]),
            depth: f64::from(contact[1]),
            elevation: f64::from(path.elevation),
        }
    }

    fn chance(&self, kind: Kind, contact: [f32; 3], path: &Path, state: (Wing, f64, f32)) -> (f32, f32) {
        let at = self.delivery(kind, contact, path, state);
        let (chance, (depth, side)) = self.strokes.chance(self.behaviour, kind, path, &at);
        let scale = self.next_lattice.scale;
        let level = |v: f32, of: fn(&(f32, f32)) -> f32| {
            let node = BLUR.map(|b| of(&b));
            let i = usize::from(v > node[1]);
            i as f32 + ((v - node[i]) / (node[i + 1] - node[i])).clamp(0.0, 1.0)
        };
        let blur = 0.5 * (level(depth as f32 / scale[1], |b| b.0) + level(side as f32 / scale[0], |b| b.1));
        (chance, blur)
    }

    /// The striker's worth with the opponent at each place: the mean over the quantal response.
    ///
    /// `miss` is what a fault is worth: 0, or the second serve. The weights of the choices at place `only` are left in
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
            // Against the mean worth: the sum of the weights is about its weight.
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

struct Weigh<'a> {
    duel: &'a Duel<'a>,
    from: [f32; 2],
    come_in: bool,
    paths: &'a Paths,
    scratch: &'a mut Scratch,
}

impl pulp::WithSimd for Weigh<'_> {
    type Output = ();

    #[inline(always)]
    fn with_simd<S: pulp::Simd>(self, _: S) {
        for path in &self.paths.paths {
            let first = self.scratch.catches.len();
            let slope = path.incoming();
            for s in self.paths.samples(path) {
                let worth = self.duel.meeting_worth(self.from, self.come_in, slope, s);
                self.scratch.catches.push(Catch::new(self.duel.opponent.meeting(s), &worth));
            }
            sort(&mut self.scratch.catches[first..]);
        }
    }
}

/// Puts the most promising meetings first.
#[inline(always)]
fn sort(catches: &mut [Catch]) {
    // By insertion: there are about twenty.
    for i in 1..catches.len() {
        let mut k = i;
        while k > 0 && catches[k - 1].most < catches[k].most {
            catches.swap(k - 1, k);
            k -= 1;
        }
    }
}

struct Rough<'a> {
    duel: &'a Duel<'a>,
    stride: usize,
    from: [f32; 2],
    come_in: bool,
    paths: &'a Paths,
    places: &'a Places,
    scratch: &'a mut Scratch,
}

impl pulp::WithSimd for Rough<'_> {
    type Output = ();

    #[inline(always)]
    fn with_simd<S: pulp::Simd>(self, simd: S) {
        let n = self.places.padded();
        let places = (&self.places.x[..], &self.places.depth[..]);
        for (i, path) in self.paths.paths.iter().enumerate() {
            self.scratch.catches.clear();
            let opponent = self.duel.opponent;
            let samples = self.paths.samples(path);
            for k in (0..samples.len()).step_by(self.stride) {
                let meeting = opponent.meeting(&samples[k]);
                if opponent.reaches(simd, &meeting, places) {
                    let worth = self.duel.meeting_worth(self.from, self.come_in, path.incoming(), &samples[k]);
                    self.scratch.catches.push(Catch::new(meeting, &worth));
                }
            }
            sort(&mut self.scratch.catches);
            let Scratch { catches, made, .. } = &mut *self.scratch;
            opponent.best(simd, catches, places, &mut made[i * n..(i + 1) * n]);
        }
    }
}

struct Respond<'a> {
    opponent: &'a Legs,
    paths: &'a Paths,
    places: &'a Places,
    scratch: &'a mut Scratch,
}

impl pulp::WithSimd for Respond<'_> {
    type Output = ();

    #[inline(always)]
    fn with_simd<S: pulp::Simd>(self, simd: S) {
        let n = self.places.padded();
        let Scratch { catches, made, .. } = self.scratch;
        let places = (&self.places.x[..], &self.places.depth[..]);
        for (path, made) in self.paths.paths.iter().zip(made.chunks_exact_mut(n)) {
            let range = path.samples.0 as usize..path.samples.1 as usize;
            self.opponent.best(simd, &catches[range], places, made);
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

/// Weights of landing nodes around each other: a Gaussian times the area that a node stands for.
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
