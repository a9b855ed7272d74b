//! Value iteration of the rally between two players.

use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Mutex, OnceLock};

use super::{
    behaviour::Behaviour,
    flights::Ground,
    lattice::{LANES, Lattice, SLOPES, TIMES, Table, Targets},
    legs::Legs,
    response::{Duel, Places, Scratch},
    strokes::{CutTable, Cuts, Kind, Limits, Paths, Repertoire, scales, worth_keeping},
};
use crate::{
    ball::flight::BallPhysics,
    player::{Player, Wing},
    shot::situation::Conditions,
};

/// New values count this much in the first rounds and in later ones, where steps back and forth must die out.
const DAMPING: (usize, f32, f32) = (8, 0.9, 0.6);
/// Rounds end when values change by less on the average.
const CHANGE: f32 = 0.003;
const MOST_ROUNDS: usize = 7;
/// The same for tables that are kept.
const SETTLED: f32 = 0.0001;
const SETTLE_ROUNDS: usize = 30;
/// Paths whose weight against the sum of all is never above this are left out after the first round.
const LEAST_CHOSEN: f32 = 0.0008;
/// Depths that part standing at the net from standing at the back on a full court, m.
const NET_UNTIL: f32 = 6.6;
const BACK_FROM: f32 = 8.4;

/// One player as striker against the other.
#[derive(Debug, Clone)]
pub(crate) struct Side {
    pub strokes: Repertoire,
    pub legs: Legs,
    pub opponent: Legs,
    pub limits: Limits,
    pub ground: Ground,
    pub lattice: Lattice,
    pub table: Table,
    /// Chance in and blur level of every path of every state, by contact; worked out in the first round.
    chances: Vec<OnceLock<Vec<(f32, f32)>>>,
    /// The paths of each contact that are ever chosen, as the first round finds them.
    chosen: Vec<OnceLock<Vec<u16>>>,
    /// Flights cut for any height, by kind; worked out when first asked for.
    cuts: [OnceLock<CutTable>; 5],
}

impl Side {
    fn new(c: &Conditions, striker: &Player, opponent: &Player, b: &Behaviour, start: f32) -> Self {
        let physics = BallPhysics::new(&c.ball, &c.air, c.law);
        let ground = Ground::new(c.surface, c.ball, opponent.bounces);
        let (sx, sd) = scales(&c.court);
        let lattice = Lattice::new([sx, sd], striker.reach.overhead as f32);
        let table = Table::new(&lattice, start);
        Self {
            strokes: Repertoire::new(&c.court, &physics, striker, b),
            legs: Legs::new(striker, b),
            opponent: Legs::new(opponent, b),
            limits: Limits::new(&c.court, opponent, &ground),
            ground,
            chances: vec![OnceLock::new(); lattice.contacts()],
            chosen: vec![OnceLock::new(); lattice.contacts()],
            cuts: Default::default(),
            lattice,
            table,
        }
    }
}

impl Side {
    /// The flights of a kind for a contact height.
    pub fn cut(&self, kind: Kind, height: f32) -> Cuts {
        self.cuts[kind as usize].get_or_init(|| CutTable::new(&self.strokes, kind, &self.ground)).at(height)
    }
}

/// The rally between two players on a court: its solved worth and what it takes to look one stroke ahead.
#[derive(Debug, Clone)]
pub struct Game {
    pub(crate) behaviour: Behaviour,
    /// The first player as striker, then the second; one side when both are the same.
    pub(crate) sides: Vec<Side>,
    /// Rounds that were needed.
    pub rounds: usize,
    /// Mean change of a value in the last round.
    pub change: f32,
}

impl Game {
    /// An unsolved game: every state is worth `start`.
    #[must_use]
    pub fn new(conditions: &Conditions, players: [&Player; 2], behaviour: &Behaviour, start: f32) -> Self {
        let same = players[0] == players[1];
        let mut sides = vec![Side::new(conditions, players[0], players[1], behaviour, start)];
        if !same {
            sides.push(Side::new(conditions, players[1], players[0], behaviour, start));
        }
        Self { behaviour: *behaviour, sides, rounds: 0, change: 1.0 }
    }

    /// Gives a side its solved table.
    pub(crate) fn set_table(&mut self, side: usize, table: Table) {
        self.sides[side].table = table;
    }

    /// The same game with the players exchanged, mirrored, or both.
    pub(crate) fn turned(&self, swap: bool, mirror: bool) -> Self {
        let mut game = self.clone();
        if mirror {
            let players: Vec<Player> = game.sides.iter().map(|s| s.strokes.player.mirrored()).collect();
            let other = |i: usize| players[(players.len() - 1) - i];
            for (i, side) in game.sides.iter_mut().enumerate() {
                side.table = side.table.mirrored(&side.lattice);
                side.strokes.player = players[i];
                side.legs = Legs::new(&players[i], &game.behaviour);
                side.opponent = Legs::new(&other(i), &game.behaviour);
                side.chances = vec![OnceLock::new(); side.lattice.contacts()];
                side.chosen = vec![OnceLock::new(); side.lattice.contacts()];
            }
        }
        if swap {
            game.sides.reverse();
        }
        game
    }

    /// The side on which a player strikes: 0 or 1.
    pub(crate) fn side(&self, striker: usize) -> &Side {
        &self.sides[striker.min(self.sides.len() - 1)]
    }

    pub(crate) fn duel(&self, striker: usize) -> Duel<'_> {
        let (own, other) = (self.side(striker), self.side(1 - striker));
        Duel {
            behaviour: &self.behaviour,
            strokes: &own.strokes,
            legs: &own.legs,
            opponent: &own.opponent,
            limits: &own.limits,
            next: &other.table,
            next_lattice: &other.lattice,
        }
    }

    /// Solves the game; `false` when it was cancelled.
    pub fn solve(&mut self, threads: usize, cancel: &AtomicBool) -> bool {
        self.rounds = 0;
        for _ in 0..MOST_ROUNDS {
            if !self.round(threads, cancel) {
                return false;
            }
            self.rounds += 1;
            if self.change < CHANGE {
                break;
            }
        }
        true
    }

    /// Solves the game until hardly anything changes: for tables that are kept. `false` when it was cancelled.
    pub fn settle(&mut self, threads: usize, cancel: &AtomicBool) -> bool {
        self.rounds = 0;
        while self.rounds < SETTLE_ROUNDS {
            if !self.round(threads, cancel) {
                return false;
            }
            self.rounds += 1;
            if self.change < SETTLED {
                break;
            }
        }
        true
    }

    /// One round over all states of both players; `false` when it was cancelled.
    pub fn round(&mut self, threads: usize, cancel: &AtomicBool) -> bool {
        let mut change = 0.0_f32;
        let fresh: Vec<Option<(Table, f32)>> =
            (0..self.sides.len()).map(|side| self.sweep(side, threads, cancel)).collect();
        for (side, fresh) in self.sides.iter_mut().zip(fresh) {
            let Some((table, by)) = fresh else { return false };
            side.table = table;
            change = change.max(by);
        }
        self.change = change;
        true
    }

    fn sweep(&self, side: usize, threads: usize, cancel: &AtomicBool) -> Option<(Table, f32)> {
        let own = self.side(side);
        let lattice = &own.lattice;
        let mut table = own.table.clone();
        let (places, rows) = (lattice.places(), SLOPES.len());
        let cuts = |contacts: &super::lattice::Contacts, air: bool| -> Vec<Cuts> {
            (0..contacts.height.len())
                .map(|h| {
                    let height = contacts.height.node(h);
                    own.strokes.cut(own.strokes.kind(height, air), height, &own.ground)
                })
                .collect()
        };
        let cuts = [cuts(&lattice.ground, false), cuts(&lattice.air, true)];
        let next = AtomicUsize::new(0);
        let parts: Mutex<Vec<_>> =
            Mutex::new(table.values.chunks_mut(rows * places).zip(table.targets.chunks_mut(rows)).map(Some).collect());
        let change = Mutex::new(0.0_f64);
        std::thread::scope(|scope| {
            for _ in 0..threads.max(1) {
                scope.spawn(|| {
                    let mut worker = Worker::new(self, side);
                    let mut sum = 0.0;
                    while !cancel.load(Ordering::Relaxed) {
                        let n = next.fetch_add(1, Ordering::Relaxed);
                        let part = parts.lock().ok().and_then(|mut p| p.get_mut(n).and_then(Option::take));
                        let Some((values, targets)) = part else { break };
                        sum += worker.contact(n, &cuts, values, targets);
                    }
                    if let Ok(mut change) = change.lock() {
                        *change += sum;
                    }
                });
            }
        });
        drop(parts);
        let count = (own.table.values.len() * LANES) as f64;
        let change = (change.into_inner().unwrap_or(count) / count) as f32;
        (!cancel.load(Ordering::Relaxed)).then_some((table, change))
    }
}

struct Worker<'a> {
    duel: Duel<'a>,
    lattice: &'a Lattice,
    known: &'a [OnceLock<Vec<(f32, f32)>>],
    chosen: &'a [OnceLock<Vec<u16>>],
    most: Vec<f32>,
    places: Places,
    paths: Paths,
    scratch: Scratch,
    chances: Vec<(f32, f32)>,
    value: Vec<f32>,
    damping: f32,
}

impl<'a> Worker<'a> {
    fn new(game: &'a Game, side: usize) -> Self {
        let lattice = &game.side(side).lattice;
        let mut places = Places::default();
        places.set((0..lattice.places()).map(|n| lattice.place(n)));
        Self {
            duel: game.duel(side),
            lattice,
            known: &game.side(side).chances,
            chosen: &game.side(side).chosen,
            most: Vec::new(),
            places,
            paths: Paths::default(),
            scratch: Scratch::default(),
            chances: Vec::new(),
            value: Vec::new(),
            damping: if game.rounds < DAMPING.0 { DAMPING.1 } else { DAMPING.2 },
        }
    }

    /// Works out all states of one contact; the sum of all changes.
    fn contact(
        &mut self,
        n: usize,
        cuts: &[Vec<Cuts>; 2],
        values: &mut [[f32; LANES]],
        targets: &mut [Targets],
    ) -> f64 {
        let (at, air) = self.lattice.contact(n);
        let heights = if air { self.lattice.air.height.len() } else { self.lattice.ground.height.len() };
        let h = if air { (n - self.lattice.ground.len()) % heights } else { n % heights };
        let cuts = &cuts[usize::from(air)][h];
        let duel = &self.duel;
        duel.strokes.paths(cuts, at[0], at[1], duel.limits, &mut self.paths);
        let kind = cuts.kind;
        keep_likely(duel, kind, at, &mut self.paths, &mut self.chances);
        let chosen = self.chosen[n].get();
        if let Some(chosen) = chosen {
            let paths = &mut self.paths.paths;
            for (to, from) in chosen.iter().enumerate() {
                paths[to] = paths[usize::from(*from)];
            }
            paths.truncate(chosen.len());
            self.paths.pack();
        }
        let padded = self.places.padded();
        let count = self.places.len;
        let mut changed = 0.0;
        if self.paths.paths.is_empty() {
            // Nothing can be played from here: the point is lost.
            for v in values.iter_mut() {
                *v = [0.0; LANES];
            }
        } else {
            duel.respond([at[0], at[1]], &self.paths, &self.places, &mut self.scratch);
            duel.blur(kind, at[0], (&self.paths, None), padded, &mut self.scratch);
            self.value.resize(padded, 0.0);
            let count_paths = self.paths.paths.len();
            let fresh;
            let known = match self.known[n].get().filter(|_| chosen.is_some()) {
                Some(known) => known,
                None => {
                    fresh = all_states(duel, kind, at, &self.paths);
                    &fresh
                }
            };
            self.most.clear();
            self.most.resize(count_paths, 0.0);
            let mut state = known.chunks_exact(count_paths);
            for s in 0..SLOPES.len() {
                for (lane, chances) in state.by_ref().take(LANES).enumerate() {
                    duel.value(&self.paths, chances, 0.0, padded, &mut self.scratch, &mut self.value);
                    if chosen.is_none() {
                        duel.most_chosen(
                            &self.paths,
                            chances,
                            (padded, count),
                            &self.scratch,
                            &self.value,
                            &mut self.most,
                        );
                    }
                    for p in 0..count {
                        let v = &mut values[s * count + p][lane];
                        changed += f64::from((self.value[p] - *v).abs());
                        *v += self.damping * (self.value[p] - *v);
                    }
                }
            }
            if chosen.is_none() {
                let kept: Vec<u16> =
                    (0..count_paths).filter(|i| self.most[*i] > LEAST_CHOSEN).map(|i| i as u16).collect();
                let of_kept = known
                    .chunks_exact(count_paths)
                    .flat_map(|state| kept.iter().map(|i| state[usize::from(*i)]))
                    .collect();
                let _ = self.known[n].set(of_kept);
                let _ = self.chosen[n].set(kept);
            }
        }
        for (row, target) in values.chunks_exact(count).zip(targets) {
            *target = best_places(self.lattice, row, self.duel.behaviour.zone_width);
        }
        changed
    }
}

/// Chance in and blur level of every path, state by state.
fn all_states(duel: &Duel<'_>, kind: Kind, at: [f32; 3], paths: &Paths) -> Vec<(f32, f32)> {
    let mut all = Vec::with_capacity(paths.paths.len() * LANES * SLOPES.len());
    for slope in SLOPES {
        for time in TIMES {
            for wing in [Wing::Forehand, Wing::Backhand] {
                duel.chances(kind, at, paths, (wing, time, slope), &mut all);
            }
        }
    }
    all
}

/// Leaves out paths that seldom go in even at ease.
pub(crate) fn keep_likely(duel: &Duel<'_>, kind: Kind, at: [f32; 3], paths: &mut Paths, chances: &mut Vec<(f32, f32)>) {
    chances.clear();
    duel.chances(kind, at, paths, (Wing::Forehand, 1.1, 0.0), chances);
    let mut n = 0;
    paths.paths.retain(|_| {
        n += 1;
        worth_keeping(chances[n - 1].0)
    });
    paths.pack();
}

/// Where the opponent of a striker should stand: centre of the zone of least worth, at the back and at the net, for a
/// striker with time and a hurried one.
pub(crate) fn best_places(lattice: &Lattice, row: &[[f32; LANES]], zone: f32) -> Targets {
    let mut targets = [0.0; 8];
    for (group, lanes) in [(4..8), (0..4)].into_iter().enumerate() {
        let mean = |p: usize| row[p][lanes.clone()].iter().sum::<f32>() * 0.25;
        let scale = lattice.scale[1];
        let net = centre(lattice, &mean, zone, |d| d <= NET_UNTIL * scale);
        // How hurried the striker will be is read too late to run for: the place at the back is that for a striker with time.
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

impl Game {
    /// A striker's chance to win from a contact (own frame: x, depth, height) with `spare` seconds to a proper stance and the
    /// other player where it hurts most: at the back, whose place is given too.
    #[must_use]
    pub fn worth_at(&self, striker: usize, contact: [f32; 3], air: bool, wing: Wing, spare: f32) -> (f32, [f32; 2]) {
        let side = self.side(striker);
        let corners = side.lattice.corners(contact, air, 0.0);
        let t = side.table.target(&corners);
        let place = [t[0], t[1]];
        let ramp = super::legs::Ramp::new(&side.table.worth(&corners, &side.lattice.around(place)));
        (ramp.at(spare, usize::from(wing == Wing::Backhand)), place)
    }
}
