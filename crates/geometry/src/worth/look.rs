//! One exact look-ahead: the worth of a striker's replies against an opponent anywhere on the other side.

use super::{
    paths::{Path, Paths},
    response::{Duel, HURRIED, Places, Scratch},
    solve::keep_likely,
    strokes::{Cuts, Kind},
};
use glam::DVec2;

use crate::{
    player::Wing,
    replies::habits::{HabitCase, ReplyHabits, Third, Way},
};

/// Replies chosen less often than this from every place tried are left out of the look.
const LEAST_SHARE: f32 = 0.0004;
/// Share from which a reply keeps all replies that land around it.
const LIKELY_SHARE: f32 = 0.008;
/// Interval of the path samples used when choosing which replies to keep.
const STRIDE: usize = 3;
/// Time to spare below which the striker's pressure is read too late to change where a player waits, s.
const READ_S: f32 = 0.3;
/// Weight below which a way of meeting the ball is left out of the look.
const LEAST_STANCE: f32 = 0.002;
/// Number of places judged together.
const AT_ONCE: usize = 64;
/// Added to the shares of a way before they are compared, to limit the factor of a way that is hardly ever expected.
const LITTLE: f64 = 0.001;

/// A way the striker may meet the ball: a wing with its time to spare, and its likelihood.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Stance {
    pub wing: Wing,
    pub spare: f32,
    pub weight: f32,
}

/// The replies from one contact, and buffers to judge places with.
#[derive(Debug, Clone, Default)]
pub(crate) struct Look {
    pub kind: Option<Kind>,
    pub contact: [f32; 3],
    pub slope: f32,
    pub stances: Vec<Stance>,
    /// The worth of a fault to the striker: 0, or the second serve.
    pub miss: f32,
    pub paths: Paths,
    /// Chance in and blur level of each path, for each stance.
    pub chances: Vec<Vec<(f32, f32)>>,
    /// The same for the striker as read in time; `level` corrects their worth to that of the real pressure.
    as_read: Vec<Vec<(f32, f32)>>,
    /// Spreads needed by the chances of each path, see [`Duel::levels`].
    levels: Vec<u8>,
    level: f32,
    /// Factor of the habits on the prior of each path, for each stance; empty where none are known.
    lean: Vec<Vec<f32>>,
    /// The priors of the paths without habits.
    priors: Vec<f32>,
    /// Habit in the case of the likeliest stance.
    pub habit: Option<Habit>,
    scratch: Scratch,
    places: Places,
    value: Vec<f32>,
    all: Vec<(f32, f32)>,
}

impl Look {
    /// Lists the replies from a contact, keeping those that are chosen against an opponent at one of `likely`.
    pub fn load(&mut self, duel: &Duel<'_>, cuts: &Cuts, at: Contact<'_>, likely: &[[f32; 2]; 8]) {
        self.kind = Some(cuts.kind);
        (self.contact, self.slope, self.miss) = (at.place, at.slope, at.miss);
        self.stances.clear();
        self.stances.extend(at.stances.iter().filter(|s| s.weight >= LEAST_STANCE));
        let kept: f32 = self.stances.iter().map(|s| s.weight).sum();
        self.stances.iter_mut().for_each(|s| s.weight /= kept);
        let [x, depth, _] = at.place;
        duel.strokes.paths(cuts, x, depth, duel.limits, &mut self.paths);
        keep_likely(duel, cuts.kind, at.place, &mut self.paths, &mut self.all);
        self.chance(duel);
        if self.paths.paths.is_empty() {
            return;
        }
        // Finds the replies that are chosen at all, by a coarse look against a few places.
        self.places.set(likely.iter().copied());
        duel.respond_every(STRIDE, [x, depth], &self.paths, &self.places, &mut self.scratch);
        let n = self.places.padded();
        let mut most = vec![0.0_f32; self.paths.paths.len()];
        let mut shares = Vec::new();
        for (stance, chances) in self.stances.iter().zip(&self.chances) {
            if stance.weight < 0.05 {
                continue;
            }
            for place in 0..self.places.len {
                duel.rough_shares(&self.paths, chances, self.miss, (n, place), &self.scratch, &mut shares);
                for (most, share) in most.iter_mut().zip(&shares) {
                    *most = most.max(*share);
                }
            }
        }
        // The landing is averaged over the places around the aim, so the places around the likeliest replies are kept
        // too.
        let near = |a: u8, b: u8| a.abs_diff(b) <= 1;
        let all = self.paths.paths.iter().zip(&most);
        let likely_ones: Vec<&Path> = all.clone().filter(|(_, share)| **share > LIKELY_SHARE).map(|(p, _)| p).collect();
        let around = |p: &Path, q: &Path| q.family == p.family && near(q.row, p.row) && near(q.column, p.column);
        let keep: Vec<bool> =
            all.map(|(p, share)| *share > LEAST_SHARE || likely_ones.iter().any(|q| around(p, q))).collect();
        let mut k = 0;
        self.paths.paths.retain(|_| {
            k += 1;
            keep[k - 1]
        });
        for chances in &mut self.chances {
            let mut k = 0;
            chances.retain(|_| {
                k += 1;
                keep[k - 1]
            });
        }
        self.paths.pack();
        duel.weigh([x, depth], &self.paths, &mut self.scratch);
        self.read(duel);
        self.learn(duel, at.habits, likely[0]);
    }

    /// Scales the priors of the replies, so that against an opponent at the usual place every way is chosen as often as
    /// the habits tell.
    fn learn(&mut self, duel: &Duel<'_>, habits: Option<&ReplyHabits>, usual: [f32; 2]) {
        self.lean.clear();
        self.habit = None;
        let (Some(habits), Some(kind)) = (habits, self.kind) else { return };
        self.judge(duel, &[usual]);
        let n = self.places.padded();
        self.priors.clear();
        self.priors.extend(self.paths.paths.iter().map(|p| p.prior));
        let (court, hand) = (&duel.strokes.court, duel.strokes.player.hand);
        let families = duel.strokes.families(kind);
        let contact = DVec2::new(f64::from(self.contact[0]), -f64::from(self.contact[1]));
        let mut most = 0.0;
        for (stance, chances) in self.stances.iter().zip(&self.chances) {
            let case = match kind {
                Kind::FirstServe | Kind::SecondServe => {
                    HabitCase::Serve { deuce: contact.x > 0.0, second: kind == Kind::SecondServe }
                }
                _ => HabitCase::Rally(stance.wing, Third::of(court, contact.x), stance.spare < HURRIED),
            };
            duel.shares(&self.paths, chances, self.miss, (n, 0), &self.scratch, &mut self.all);
            let ways: Vec<usize> = (self.paths.paths.iter())
                .map(|p| {
                    let landing = DVec2::new(f64::from(p.x), f64::from(p.y));
                    let stroke = families[usize::from(p.family)].stroke;
                    Way::of(court, hand, stance.wing, stroke, contact, landing) as usize
                })
                .collect();
            let mut expected = [0.0; 3];
            for (way, (share, _)) in ways.iter().zip(&self.all) {
                expected[*way] += f64::from(*share);
            }
            let shares = habits.shares(case, expected);
            let by = [0, 1, 2].map(|k| ((shares[k] + LITTLE) / (expected[k] + LITTLE)) as f32);
            self.lean.push(ways.iter().map(|way| by[*way]).collect());
            if stance.weight > most {
                most = stance.weight;
                self.habit = Some(Habit { case, counts: habits.counts(case), expected, shares });
            }
        }
    }

    /// Sets the priors of the paths for one stance.
    fn lean_to(&mut self, stance: usize) {
        if let Some(lean) = self.lean.get(stance) {
            for ((path, prior), by) in self.paths.paths.iter_mut().zip(&self.priors).zip(lean) {
                path.prior = prior * by;
            }
        }
    }

    /// Swaps the effect of habits out of the look, or back in when called again with what it returned.
    pub fn swap_lean(&mut self, lean: &mut Vec<Vec<f32>>) {
        std::mem::swap(&mut self.lean, lean);
        if self.lean.is_empty() && !lean.is_empty() {
            for (path, prior) in self.paths.paths.iter_mut().zip(&self.priors) {
                path.prior = *prior;
            }
        }
    }

    /// Sets the chances of the striker as read in time, by which places are judged; the level stays that of the real
    /// pressure.
    fn read(&mut self, duel: &Duel<'_>) {
        let Some(kind) = self.kind else { return };
        self.level = 0.0;
        self.as_read.resize_with(self.stances.len(), Vec::new);
        for ((stance, chances), read) in self.stances.iter().zip(&self.chances).zip(&mut self.as_read) {
            read.clear();
            if stance.spare < READ_S && !matches!(kind, Kind::FirstServe | Kind::SecondServe) {
                duel.chances(kind, self.contact, &self.paths, (stance.wing, READ_S, self.slope), read);
            } else {
                read.extend_from_slice(chances);
            }
        }
        self.levels.clear();
        self.levels.resize(self.paths.paths.len(), 0);
        Duel::levels(self.chances.iter().chain(&self.as_read), &mut self.levels);
    }

    /// Sets the level for a place: there the values are those of the striker's real pressure. Returns the change.
    pub fn settle(&mut self, duel: &Duel<'_>, place: [f32; 2]) -> f32 {
        if !self.judge(duel, &[place]) {
            return 0.0;
        }
        let (mut read, mut is) = ([0.0], [0.0]);
        self.add_means(duel, true, &mut read);
        self.add_means(duel, false, &mut is);
        let level = is[0] - read[0];
        level - std::mem::replace(&mut self.level, level)
    }

    /// Computes the worth to the opponent of every path from some places. False when there is no path.
    fn judge(&mut self, duel: &Duel<'_>, places: &[[f32; 2]]) -> bool {
        let Some(kind) = self.kind.filter(|_| !self.is_empty()) else { return false };
        self.places.set(places.iter().copied());
        duel.judge(&self.paths, &self.places, &mut self.scratch);
        let n = self.places.padded();
        duel.blur(kind, self.contact[0], (&self.paths, Some(&self.levels)), n, &mut self.scratch);
        true
    }

    /// Adds the striker's chance to win with the opponent at each of the judged places, over all stances.
    fn add_means(&mut self, duel: &Duel<'_>, as_read: bool, out: &mut [f32]) {
        let n = self.places.padded();
        self.value.resize(n, 0.0);
        for k in 0..self.stances.len() {
            self.lean_to(k);
            let chances = if as_read { &self.as_read[k] } else { &self.chances[k] };
            duel.value(&self.paths, chances, self.miss, n, &mut self.scratch, &mut self.value);
            for (o, v) in out.iter_mut().zip(&self.value) {
                *o += self.stances[k].weight * v;
            }
        }
    }

    fn chance(&mut self, duel: &Duel<'_>) {
        let Some(kind) = self.kind else { return };
        self.chances.resize_with(self.stances.len(), Vec::new);
        for (stance, chances) in self.stances.iter().zip(&mut self.chances) {
            chances.clear();
            duel.chances(kind, self.contact, &self.paths, (stance.wing, stance.spare, self.slope), chances);
        }
    }

    pub fn is_empty(&self) -> bool {
        self.paths.paths.is_empty()
    }

    /// The striker's chance to win with the opponent at each of many places (own frame: x, depth).
    pub fn values(&mut self, duel: &Duel<'_>, places: &[[f32; 2]], out: &mut Vec<f32>) {
        out.clear();
        // As many at once as fit the caches of a core.
        for places in places.chunks(AT_ONCE) {
            if !self.judge(duel, places) {
                return;
            }
            let first = out.len();
            out.resize(first + places.len(), self.level);
            self.add_means(duel, true, &mut out[first..]);
        }
        for o in out {
            *o = o.clamp(0.0, 1.0);
        }
    }

    /// Share and worth of every reply with the opponent at one place, over all stances.
    pub fn shares(&mut self, duel: &Duel<'_>, place: [f32; 2], out: &mut Vec<(f32, f32)>) {
        out.clear();
        if !self.judge(duel, &[place]) {
            return;
        }
        let n = self.places.padded();
        out.resize(self.paths.paths.len(), (0.0, 0.0));
        for k in 0..self.stances.len() {
            self.lean_to(k);
            duel.shares(&self.paths, &self.chances[k], self.miss, (n, 0), &self.scratch, &mut self.all);
            let weight = self.stances[k].weight;
            for (o, (share, worth)) in out.iter_mut().zip(&self.all) {
                o.0 += weight * share;
                o.1 += weight * share * worth;
            }
        }
        for o in out {
            o.1 /= o.0.max(1e-9);
        }
    }
}

/// The striker's contact.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Contact<'a> {
    /// x, depth, height in the striker's frame.
    pub place: [f32; 3],
    pub slope: f32,
    pub stances: &'a [Stance],
    pub miss: f32,
    /// The striker's habits, in the striker's own frame.
    pub habits: Option<&'a ReplyHabits>,
}

/// A striker's habits in the case of a stance: ways in the order of [`Way::ALL`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Habit {
    pub case: HabitCase,
    pub counts: [u32; 3],
    /// Shares expected by the model.
    pub expected: [f64; 3],
    /// The expected shares smoothed with the counts.
    pub shares: [f64; 3],
}

#[cfg(test)]
mod tests;
