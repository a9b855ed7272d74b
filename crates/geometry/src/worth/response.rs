//! The worth of a striker's choices against an opponent at each of many places: the one look-ahead used by the solve,
//! the live answer and the simulated points.

use super::{
    behaviour::Behaviour,
    fast_mover::{BLOCK, Catch, FastMover},
    lattice::{LANES, Lattice, Table},
    paths::{Limits, Path, Paths, Sample},
    strokes::{Kind, Repertoire},
};
use crate::player::{Wing, scatter::Delivery};

/// Largest contact depth from the net on a full court from which a player may stay at the net, m.
const COME_IN_DEPTH: f32 = 10.0;
/// Time to spare that divides a hurried striker from an unhurried one, s.
pub(crate) const HURRIED: f32 = 0.3;

/// Spreads of the landing place for which the worth is averaged in advance: depth and side, m.
pub(super) const BLUR: [(f32, f32); 3] = [(0.6, 0.35), (1.4, 0.8), (2.8, 1.6)];

/// Figures of the striker and the opponent used by a look-ahead.
pub(crate) struct Duel<'a> {
    pub behaviour: &'a Behaviour,
    /// The striker's strokes and movement.
    pub strokes: &'a Repertoire,
    pub legs: &'a FastMover,
    /// The opponent's movement, and their next stroke.
    pub opponent: &'a FastMover,
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
    /// Meetings of the opponent with each path, the most promising first: as many as the path has samples.
    catches: Vec<Catch>,
    /// Worth to the opponent of each path from each place: paths times padded places.
    pub made: Vec<f32>,
    /// The same averaged over landing places, for each spread of [`BLUR`].
    pub(super) blurred: [Vec<f32>; 3],
    pub(super) grid: Vec<u16>,
    pub(super) sum: Vec<f32>,
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

    /// The striker's place when the opponent meets a sample with `spare` seconds in hand.
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

    /// The striker's body at contact, for the run that follows.
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

    /// Computes the worth of meeting each sample, independent of the opponent's place.
    pub fn weigh(&self, contact: [f32; 2], paths: &Paths, scratch: &mut Scratch) {
        let from = self.body(contact[0], contact[1]);
        let come_in = self.may_come_in(contact[1]);
        scratch.catches.clear();
        pulp::Arch::new().dispatch(Weigh { duel: self, from, come_in, paths, scratch });
    }

    /// Fills `scratch.made` from samples already weighed.
    pub fn judge(&self, paths: &Paths, places: &Places, scratch: &mut Scratch) {
        scratch.made.resize(paths.paths.len() * places.padded(), 0.0);
        pulp::Arch::new().dispatch(Respond { opponent: self.opponent, paths, places, scratch });
    }

    /// As [`Self::respond`], with every n-th sample only, for a coarser look.
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
    // Insertion sort: there are about twenty.
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
    opponent: &'a FastMover,
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
