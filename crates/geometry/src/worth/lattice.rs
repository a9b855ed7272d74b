//! Axes of the tables of worth and interpolation on them.
//!
//! Every place is in the own frame of its player: `x` to the right as that player faces the net, depth in metres from
//! the net. Lengths are scaled to a full court, so that the same nodes serve the smaller ones.

use crate::{court::Court, player::Player, shot::situation::Conditions};

/// Full court: half length and half width, m.
pub(super) const FULL: (f64, f64) = (11.885, 4.115);

/// Sideways and depth scale of a court relative to the full one.
pub(crate) fn scales(court: &Court) -> (f32, f32) {
    ((court.half_width() / FULL.1) as f32, (court.half_length() / FULL.0) as f32)
}

/// Nodes of one axis.
#[derive(Debug, Clone)]
pub(crate) struct Axis {
    nodes: Vec<f32>,
}

impl Axis {
    pub fn new(nodes: &[f32]) -> Self {
        Self { nodes: nodes.to_vec() }
    }

    pub fn len(&self) -> usize {
        self.nodes.len()
    }

    pub fn node(&self, i: usize) -> f32 {
        self.nodes[i]
    }

    pub fn nodes(&self) -> &[f32] {
        &self.nodes
    }

    /// The node below and the weight of the one above; clamped at the ends.
    #[inline(always)]
    pub fn locate(&self, x: f32) -> (usize, f32) {
        let last = self.nodes.len() - 1;
        let mut i = 0;
        while i + 2 <= last && self.nodes[i + 1] <= x {
            i += 1;
        }
        let (a, b) = (self.nodes[i], self.nodes[i + 1]);
        (i, ((x - a) / (b - a)).clamp(0.0, 1.0))
    }

    /// Widths of the cells around the nodes, ended at `low` and `high`.
    pub fn widths(&self, low: f32, high: f32) -> Vec<f32> {
        let n = self.nodes.len();
        (0..n)
            .map(|i| {
                let a = if i == 0 { low } else { 0.5 * (self.nodes[i - 1] + self.nodes[i]) };
                let b = if i + 1 == n { high } else { 0.5 * (self.nodes[i] + self.nodes[i + 1]) };
                (b - a).max(1e-3)
            })
            .collect()
    }
}

/// Levels of the time to spare, s.
pub(crate) const TIMES: [f32; 4] = [-0.35, 0.1, 0.5, 0.95];
/// Lanes of a table entry: time level times two, plus one for the backhand.
pub(crate) const LANES: usize = 8;
/// Levels of the incoming direction: sideways metres per metre towards the striker.
pub(crate) const SLOPES: [f32; 3] = [-0.3, 0.0, 0.3];

/// Contacts of one kind: after the bounce or in the air.
#[derive(Debug, Clone)]
pub(crate) struct Contacts {
    pub x: Axis,
    pub depth: Axis,
    pub height: Axis,
}

impl Contacts {
    pub fn len(&self) -> usize {
        self.x.len() * self.depth.len() * self.height.len()
    }

    pub fn node(&self, n: usize) -> [f32; 3] {
        let (h, rest) = (n % self.height.len(), n / self.height.len());
        let (d, x) = (rest % self.depth.len(), rest / self.depth.len());
        [self.x.node(x), self.depth.node(d), self.height.node(h)]
    }

    #[inline(always)]
    fn corners(&self, at: [f32; 3], base: usize) -> ([u32; 8], [f32; 8]) {
        let (i, u) = self.x.locate(at[0]);
        let (j, v) = self.depth.locate(at[1]);
        let (k, w) = self.height.locate(at[2]);
        let (nd, nh) = (self.depth.len(), self.height.len());
        let (mut index, mut weight) = ([0; 8], [0.0; 8]);
        for c in 0..8 {
            let (a, b, e) = (c & 1, (c >> 1) & 1, c >> 2);
            index[c] = (base + ((i + a) * nd + j + b) * nh + k + e) as u32;
            weight[c] = (if a == 1 { u } else { 1.0 - u })
                * (if b == 1 { v } else { 1.0 - v })
                * (if e == 1 { w } else { 1.0 - w });
        }
        (index, weight)
    }
}

/// All axes of a table.
#[derive(Debug, Clone)]
pub(crate) struct Lattice {
    pub ground: Contacts,
    pub air: Contacts,
    pub place_x: Axis,
    pub place_depth: Axis,
    /// Metres on the court per metre of the lattice: sideways and in depth.
    pub scale: [f32; 2],
}

/// Sixteen corners of contact and incoming direction with their weights.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Corners {
    pub index: [u32; 16],
    pub weight: [f32; 16],
}

impl Lattice {
    pub fn new(scale: [f32; 2], overhead: f32) -> Self {
        let (sx, sd) = (scale[0], scale[1]);
        let axis = |nodes: &[f32], by: f32| Axis::new(&nodes.iter().map(|v| v * by).collect::<Vec<_>>());
        let up = overhead / 2.75;
        Self {
            ground: Contacts {
                x: axis(&[-5.0, -3.3, -1.7, 0.0, 1.7, 3.3, 5.0], sx),
                depth: axis(&[1.5, 4.0, 6.5, 9.0, 11.3, 13.3, 15.3, 18.0], sd),
                height: axis(&[0.2, 0.55, 1.0, 1.5, 2.1], up),
            },
            air: Contacts {
                x: axis(&[-5.0, -3.3, -1.7, 0.0, 1.7, 3.3, 5.0], sx),
                depth: axis(&[1.5, 4.0, 6.5, 9.0], sd),
                height: axis(&[0.4, 1.0, 1.8, 2.3], up),
            },
            place_x: axis(&[-5.0, -3.0, -1.7, -0.8, 0.0, 0.8, 1.7, 3.0, 5.0], sx),
            place_depth: axis(&[1.5, 3.0, 4.5, 6.5, 8.5, 10.5, 11.8, 12.9, 13.9, 14.9, 16.0, 17.5], sd),
            scale,
        }
    }

    /// The lattice of a player's table.
    pub fn of(conditions: &Conditions, player: &Player) -> Self {
        let (x, d) = scales(&conditions.court);
        Self::new([x, d], player.reach.overhead as f32)
    }

    pub fn contacts(&self) -> usize {
        self.ground.len() + self.air.len()
    }

    pub fn places(&self) -> usize {
        self.place_x.len() * self.place_depth.len()
    }

    /// A contact node and whether it is in the air.
    pub fn contact(&self, n: usize) -> ([f32; 3], bool) {
        let g = self.ground.len();
        if n < g { (self.ground.node(n), false) } else { (self.air.node(n - g), true) }
    }

    /// The contact on the other side of the middle.
    fn mirrored_contact(&self, n: usize) -> usize {
        let g = self.ground.len();
        let (contacts, base) = if n < g { (&self.ground, 0) } else { (&self.air, g) };
        let stride = contacts.depth.len() * contacts.height.len();
        let (x, rest) = ((n - base) / stride, (n - base) % stride);
        base + (contacts.x.len() - 1 - x) * stride + rest
    }

    pub fn place(&self, n: usize) -> [f32; 2] {
        let nx = self.place_x.len();
        [self.place_x.node(n % nx), self.place_depth.node(n / nx)]
    }

    /// The corners around a contact.
    #[inline(always)]
    pub fn corners(&self, at: [f32; 3], air: bool, slope: f32) -> Corners {
        let (index, weight) = if air { self.air.corners(at, self.ground.len()) } else { self.ground.corners(at, 0) };
        let x = ((slope - SLOPES[0]) / (SLOPES[1] - SLOPES[0])).clamp(0.0, 2.0);
        let i = (x as usize).min(1);
        let s = x - i as f32;
        let mut c = Corners { index: [0; 16], weight: [0.0; 16] };
        for n in 0..8 {
            c.index[n] = index[n] * 3 + i as u32;
            c.weight[n] = weight[n] * (1.0 - s);
            c.index[8 + n] = index[n] * 3 + i as u32 + 1;
            c.weight[8 + n] = weight[n] * s;
        }
        c
    }

    /// The four places around a standing place.
    #[inline(always)]
    pub fn around(&self, place: [f32; 2]) -> ([u32; 4], [f32; 4]) {
        let (i, u) = self.place_x.locate(place[0]);
        let (j, v) = self.place_depth.locate(place[1]);
        let nx = self.place_x.len();
        let at = (j * nx + i) as u32;
        let nx = nx as u32;
        ([at, at + 1, at + nx, at + nx + 1], [(1.0 - u) * (1.0 - v), u * (1.0 - v), (1.0 - u) * v, u * v])
    }
}

/// Where a player should stand while the other strikes: at the back and at the net, for an unhurried and a hurried
/// striker.
pub(crate) type Targets = [f32; 8];

/// The worth of every state of one striker against one opponent.
#[derive(Debug, Clone)]
pub(crate) struct Table {
    pub values: Vec<[f32; LANES]>,
    pub targets: Vec<Targets>,
    places: usize,
}

impl Table {
    pub fn new(lattice: &Lattice, start: f32) -> Self {
        let places = lattice.places();
        let rows = lattice.contacts() * SLOPES.len();
        let (back, net) = (13.2 * lattice.scale[1], 3.0 * lattice.scale[1]);
        Self {
            values: vec![[start; LANES]; rows * places],
            targets: vec![[0.0, back, 0.0, net, 0.0, back, 0.0, net]; rows],
            places,
        }
    }

    /// Rows: one for each contact and incoming direction.
    pub fn rows(&self) -> usize {
        self.targets.len()
    }

    pub fn row_mut(&mut self, row: usize) -> &mut [[f32; LANES]] {
        &mut self.values[row * self.places..(row + 1) * self.places]
    }

    /// The table of the same striker, mirrored.
    pub fn mirrored(&self, lattice: &Lattice) -> Self {
        let mut turned = self.clone();
        let slopes = SLOPES.len();
        let nx = lattice.place_x.len();
        for contact in 0..lattice.contacts() {
            let other = lattice.mirrored_contact(contact);
            for slope in 0..slopes {
                let (from, to) = (contact * slopes + slope, other * slopes + slopes - 1 - slope);
                for (i, v) in self.row(from).iter().enumerate() {
                    let (x, d) = (i % nx, i / nx);
                    turned.row_mut(to)[d * nx + nx - 1 - x] = *v;
                }
                let t = self.targets[from];
                turned.targets[to] = [-t[0], t[1], -t[2], t[3], -t[4], t[5], -t[6], t[7]];
            }
        }
        turned
    }

    pub fn row(&self, row: usize) -> &[[f32; LANES]] {
        &self.values[row * self.places..(row + 1) * self.places]
    }

    /// Where the opponent should stand.
    #[inline(always)]
    pub fn target(&self, corners: &Corners) -> Targets {
        let mut sum = [0.0; 8];
        for (i, w) in corners.index.iter().zip(corners.weight) {
            if w > 0.0 {
                let t = &self.targets[*i as usize];
                for l in 0..8 {
                    sum[l] += w * t[l];
                }
            }
        }
        sum
    }

    /// Half of the striker's worth by time and wing, from lane `first` on, with the opponent at a place.
    #[inline(always)]
    pub fn half(&self, corners: &Corners, (place, share): &([u32; 4], [f32; 4]), first: usize) -> [f32; 4] {
        let mut sum = [0.0; 4];
        for (i, w) in corners.index.iter().zip(corners.weight) {
            if w > 0.0 {
                let row = *i as usize * self.places;
                for (p, s) in place.iter().zip(share) {
                    let v = &self.values[row + *p as usize];
                    let f = w * s;
                    for l in 0..4 {
                        sum[l] += f * v[first + l];
                    }
                }
            }
        }
        sum
    }

    /// The striker's worth by time and wing, with the opponent at a place.
    #[inline]
    pub fn worth(&self, corners: &Corners, (place, share): &([u32; 4], [f32; 4])) -> [f32; LANES] {
        let mut sum = [0.0; LANES];
        for (i, w) in corners.index.iter().zip(corners.weight) {
            if w > 0.0 {
                let row = *i as usize * self.places;
                for (p, s) in place.iter().zip(share) {
                    let v = &self.values[row + *p as usize];
                    let f = w * s;
                    for l in 0..LANES {
                        sum[l] += f * v[l];
                    }
                }
            }
        }
        sum
    }
}
