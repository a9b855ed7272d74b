//! The serve: its worth, and the receiver's place.

use super::{
    paths::Paths,
    response::{Duel, Places, Scratch},
    solve::{Game, keep_likely},
    strokes::{Cuts, Kind},
};
use crate::player::Wing;

/// From the centre mark to the server's contact, m on a full court; common practice in singles, no source.
const SERVE_FROM: f32 = 0.8;
/// Distance inside the baseline at which the racket meets a serve, m. From memory.
const SERVE_INSIDE: f32 = 0.4;
/// Distance between the places tried for the receiver, m on a full court.
const STEP: f32 = 0.35;

/// One player's serve to one box.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct ServeWorth {
    /// Chance to win the point with the first serve, and with the second.
    pub worth: [f32; 2],
    /// Where the receiver waits (own frame: x, depth), for first and second.
    pub receiver: [[f32; 2]; 2],
}

/// Contact of a serve in the server's frame, to the left box (`ad` false) or the right one.
pub(crate) fn serve_contact(duel: &Duel<'_>, ad: bool) -> [f32; 3] {
    let court = &duel.strokes.court;
    let x = SERVE_FROM * duel.next_lattice.scale[0];
    [if ad { -x } else { x }, court.half_length() as f32 - SERVE_INSIDE, duel.strokes.player.serve.height as f32]
}

/// The worth of one serve from a contact with the receiver at each of many places.
pub(crate) struct ServeLook {
    pub paths: Paths,
    pub scratch: Scratch,
    pub chances: Vec<(f32, f32)>,
    pub value: Vec<f32>,
}

impl ServeLook {
    pub fn new(duel: &Duel<'_>, cuts: &Cuts, contact: [f32; 3], miss: f32, places: &Places) -> Self {
        let mut look = Self {
            paths: Paths::default(),
            scratch: Scratch::default(),
            chances: Vec::new(),
            value: vec![0.0; places.padded()],
        };
        duel.strokes.paths(cuts, contact[0], contact[1], duel.limits, &mut look.paths);
        keep_likely(duel, cuts.kind, contact, &mut look.paths, &mut look.chances);
        if look.paths.paths.is_empty() {
            return look;
        }
        look.chances.clear();
        duel.chances(cuts.kind, contact, &look.paths, (Wing::Forehand, 1.0, 0.0), &mut look.chances);
        duel.respond([contact[0], contact[1]], &look.paths, places, &mut look.scratch);
        duel.blur(cuts.kind, contact[0], (&look.paths, None), places.padded(), &mut look.scratch);
        duel.value(&look.paths, &look.chances, miss, places.padded(), &mut look.scratch, &mut look.value);
        look
    }
}

impl Game {
    /// The worth of a player's serve to one box, with the receiver at the place worst for the server.
    #[must_use]
    pub fn serve(&self, striker: usize, ad: bool) -> Option<ServeWorth> {
        let duel = self.duel(striker);
        let court = &duel.strokes.court;
        court.service_line?;
        let contact = serve_contact(&duel, ad);
        let scale = duel.next_lattice.scale;
        let mut places = Places::default();
        // The receiver of a serve from the right waits on their own right.
        let side = if ad { -1.0 } else { 1.0 };
        places.set((0..16).flat_map(|i| {
            (0..16).map(move |j| [side * (0.6 + STEP * i as f32) * scale[0], (10.4 + STEP * j as f32) * scale[1]])
        }));
        let mut found = ServeWorth { worth: [0.0; 2], receiver: [[0.0; 2]; 2] };
        let mut miss = 0.0;
        for (n, kind) in [(1, Kind::SecondServe), (0, Kind::FirstServe)] {
            let cuts = duel.strokes.cut(kind, contact[2], &self.side(striker).ground);
            let look = ServeLook::new(&duel, &cuts, contact, miss, &places);
            let least = look.value[..places.len].iter().copied().fold(f32::INFINITY, f32::min);
            let (mut sum, mut at, mut worth) = (0.0, [0.0; 2], 0.0);
            for i in 0..places.len {
                let w = (-(look.value[i] - least) / self.behaviour.zone_width).exp();
                sum += w;
                worth += w * look.value[i];
                at[0] += w * places.x[i];
                at[1] += w * places.depth[i];
            }
            found.receiver[n] = [at[0] / sum, at[1] / sum];
            found.worth[n] = worth / sum;
            miss = found.worth[n];
        }
        Some(found)
    }
}
