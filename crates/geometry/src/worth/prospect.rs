//! The worth to a striker of a ball that can be met in several ways: early or late, in the air or after the bounce.
//!
//! The way is chosen by a quantal response, so the worth of the ball is the mean of the looks from each way, and a
//! standing place moves smoothly when one way takes over from another.

use super::{
    look::{Contact, Look},
    response::Duel,
    strokes::Cuts,
};

/// A look for each way of meeting a ball.
#[derive(Debug, Clone, Default)]
pub(crate) struct Prospect {
    /// The look from the likeliest way.
    pub main: Look,
    /// Looks from other ways; unused buffers stay at the end.
    others: Vec<Look>,
    /// Shares of the others that are loaded.
    shares: Vec<f32>,
    buffer: Vec<f32>,
}

impl Prospect {
    /// Resets the looks and loads the likeliest way.
    pub fn load(&mut self, duel: &Duel<'_>, cuts: &Cuts, at: Contact<'_>, likely: &[[f32; 2]; 8]) {
        self.shares.clear();
        self.main.load(duel, cuts, at, likely);
    }

    /// Loads another way with its share; the likeliest way has the remaining share.
    pub fn add(&mut self, share: f32, duel: &Duel<'_>, cuts: &Cuts, at: Contact<'_>, likely: &[[f32; 2]; 8]) {
        let n = self.shares.len();
        if self.others.len() == n {
            self.others.push(Look::default());
        }
        self.others[n].load(duel, cuts, at, likely);
        if !self.others[n].is_empty() {
            self.shares.push(share);
        }
    }

    /// Runs a function on the look without habits.
    pub fn without_habits<T>(&mut self, run: impl FnOnce(&mut Self) -> T) -> T {
        let mut leans = vec![Vec::new(); 1 + self.shares.len()];
        self.swap_leans(&mut leans);
        let done = run(self);
        self.swap_leans(&mut leans);
        done
    }

    fn swap_leans(&mut self, leans: &mut [Vec<Vec<f32>>]) {
        let looks = std::iter::once(&mut self.main).chain(&mut self.others);
        looks.zip(leans).for_each(|(look, lean)| look.swap_lean(lean));
    }

    pub fn is_empty(&self) -> bool {
        self.main.is_empty()
    }

    /// The striker's chance to win with the opponent at each of many places (own frame: x, depth).
    pub fn values(&mut self, duel: &Duel<'_>, places: &[[f32; 2]], out: &mut Vec<f32>) {
        self.main.values(duel, places, out);
        if self.shares.is_empty() || out.is_empty() {
            return;
        }
        let rest = 1.0 - self.shares.iter().sum::<f32>();
        out.iter_mut().for_each(|o| *o *= rest);
        for (look, share) in self.others.iter_mut().zip(&self.shares) {
            look.values(duel, places, &mut self.buffer);
            for (o, v) in out.iter_mut().zip(&self.buffer) {
                *o += share * v;
            }
        }
    }

    /// Sets the level for a place, see [`Look::settle`]. Returns the change.
    pub fn settle(&mut self, duel: &Duel<'_>, place: [f32; 2]) -> f32 {
        let rest = 1.0 - self.shares.iter().sum::<f32>();
        let others = self.others.iter_mut().zip(&self.shares).map(|(look, share)| share * look.settle(duel, place));
        rest * self.main.settle(duel, place) + others.sum::<f32>()
    }
}
