//! Value iteration of the rally between two players.

use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Mutex, OnceLock};

use super::{
    behaviour::Behaviour,
    fast_mover::FastMover,
    flights::Ground,
    lattice::{LANES, Lattice, SLOPES, TIMES, Table, Targets},
    paths::{Limits, Paths},
    response::{Duel, Places, Scratch},
    strokes::{CutTable, Cuts, Kind, Repertoire, worth_keeping},
    targets::best_places,
};
use crate::{
    ball::flight::BallPhysics,
    player::{Player, Wing},
    shot::situation::Conditions,
};

/// Weight of new values in the first rounds and in later ones, where oscillations must be damped.
const DAMPING: (usize, f32, f32) = (8, 0.9, 0.6);
/// Mean change of the values at which the rounds end.
const CHANGE: f32 = 0.003;
const MOST_ROUNDS: usize = 7;
/// Change and rounds for tables that are kept.
const SETTLED: f32 = 0.0001;
const SETTLE_ROUNDS: usize = 30;
/// Largest share of the weights below which a path is left out after the first round.
const LEAST_CHOSEN: f32 = 0.0008;

/// One player as striker against the other.
#[derive(Debug, Clone)]
pub(crate) struct Side {
    pub strokes: Repertoire,
    pub legs: FastMover,
    pub opponent: FastMover,
    pub limits: Limits,
    pub ground: Ground,
    pub lattice: Lattice,
    pub table: Table,
    /// Chance in and blur level of every path of every state, by contact; computed in the first round.
    chances: Vec<OnceLock<Vec<(f32, f32)>>>,
    /// The paths of each contact that are ever chosen, found in the first round.
    chosen: Vec<OnceLock<Vec<u16>>>,
    /// Flights cut for any height, by kind; computed on first use.
    cuts: [OnceLock<CutTable>; 5],
}

impl Side {
    fn new(c: &Conditions, striker: &Player, opponent: &Player, b: &Behaviour, start: f32) -> Self {
        let physics = BallPhysics::new(&c.ball, &c.air, c.law);
        let ground = Ground::new(c.surface, c.ball, opponent.bounces);
        let lattice = Lattice::of(c, striker);
        let table = Table::new(&lattice, start);
        Self {
            strokes: Repertoire::new(&c.court, &physics, striker, b),
            legs: FastMover::new(striker, b),
            opponent: FastMover::new(opponent, b),
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

/// The rally between two players on a court: its solved worth and what a look-ahead by one stroke needs.
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
                side.legs = FastMover::new(&players[i], &game.behaviour);
                side.opponent = FastMover::new(&other(i), &game.behaviour);
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

    /// Solves the game until values hardly change, for tables that are kept. `false` when it was cancelled.
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

    /// Computes all states of one contact; returns the sum of all changes.
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
            // No stroke is possible from here: the point is lost.
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

impl Game {
    /// A striker's chance to win from a contact (own frame: x, depth, height) with `spare` seconds to a proper stance
    /// and the other player at the place worst for the striker, at the back; returns that place too.
    #[must_use]
    pub fn worth_at(&self, striker: usize, contact: [f32; 3], air: bool, wing: Wing, spare: f32) -> (f32, [f32; 2]) {
        let side = self.side(striker);
        let corners = side.lattice.corners(contact, air, 0.0);
        let t = side.table.target(&corners);
        let place = [t[0], t[1]];
        let ramp = super::fast_mover::Ramp::new(&side.table.worth(&corners, &side.lattice.around(place)));
        (ramp.at(spare, usize::from(wing == Wing::Backhand)), place)
    }
}
