//! Points played by the model, stroke by stroke, with a fixed seed.

use std::{collections::HashMap, rc::Rc};

use super::{
    fast_mover::Ramp,
    paths::{Path, Paths, Sample},
    played::{Ending, PlayedStroke},
    response::Duel,
    serve::{ServeWorth, serve_contact},
    solve::{Game, keep_likely},
    strokes::{Cuts, Kind},
};
use crate::{
    player::{Wing, scatter},
    shot::stroke::Stroke,
};

/// Chance of reaching a ball below which it is not weighed.
const LEAST_REACH: f32 = 0.01;
/// Rounding of contact heights, m.
const HEIGHT_STEP: f32 = 0.1;
/// Most strokes of a point; a longer one is discarded and played again.
const MOST_STROKES: usize = 200;

/// SplitMix64 (Steele, Lea & Flood 2014).
#[derive(Debug, Clone)]
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// Uniform in [0, 1).
    fn uniform(&mut self) -> f32 {
        (self.next() >> 40) as f32 / (1u64 << 24) as f32
    }

    /// Standard normal (Box & Muller 1958).
    fn normal(&mut self) -> f32 {
        let u = 1.0 - self.uniform();
        (-2.0 * u.ln()).sqrt() * (std::f32::consts::TAU * self.uniform()).cos()
    }
}

/// A stroke about to be played.
#[derive(Debug, Clone, Copy)]
struct Moment {
    striker: usize,
    kind: Kind,
    contact: [f32; 3],
    air: bool,
    wing: Wing,
    spare: f32,
    slope: f32,
    available: f32,
    other: [f32; 2],
}

/// Where the opponent may meet a ball from a known place.
#[derive(Debug, Clone, Copy)]
struct Option_ {
    sample: Sample,
    reach: f32,
    wing: Wing,
    spare: f32,
    worth: f32,
}

/// Plays points between the players of a game.
pub struct Simulation<'a> {
    game: &'a Game,
    dice: Dice,
    serves: HashMap<(usize, bool), ServeWorth>,
    cuts: HashMap<(usize, Kind, i32), Rc<Cuts>>,
    paths: Paths,
    chances: Vec<(f32, f32)>,
    shares: Vec<f32>,
    made: Vec<f32>,
    spare_paths: Vec<Sample>,
    options: Vec<Option_>,
}

impl<'a> Simulation<'a> {
    /// A simulation with a seed.
    #[must_use]
    pub fn new(game: &'a Game, seed: u64) -> Self {
        Self {
            game,
            dice: Dice(seed),
            serves: HashMap::new(),
            cuts: HashMap::new(),
            paths: Paths::default(),
            chances: Vec::new(),
            shares: Vec::new(),
            made: Vec::new(),
            spare_paths: Vec::new(),
            options: Vec::new(),
        }
    }

    /// Plays one point and appends its strokes; `false` when the court has no service boxes.
    pub fn point(&mut self, number: u32, server: usize, ad: bool, rows: &mut Vec<PlayedStroke>) -> bool {
        let game = self.game;
        let serve = match self.serves.get(&(server, ad)) {
            Some(s) => *s,
            None => match game.serve(server, ad) {
                Some(s) => *self.serves.entry((server, ad)).or_insert(s),
                None => return false,
            },
        };
        let start = rows.len();
        let contact = serve_contact(&game.duel(server), ad);
        let mut moment = Moment {
            striker: server,
            kind: Kind::FirstServe,
            contact,
            air: false,
            wing: Wing::Forehand,
            spare: 1.0,
            slope: 0.0,
            available: 0.0,
            other: serve.receiver[0],
        };
        let mut stroke = 1;
        let winner = loop {
            let (mut row, next) = self.stroke(&moment, serve.worth[1]);
            (row.point, row.number, row.server, row.ad) = (number, stroke, server as u8, ad);
            let (ending, striker) = (row.ending, moment.striker);
            rows.push(row);
            match ending {
                Ending::Returned => {
                    let Some(next) = next else { break striker };
                    moment = next;
                }
                Ending::Untouched => break striker,
                Ending::Net | Ending::Long | Ending::Wide if moment.kind == Kind::FirstServe => {
                    moment.kind = Kind::SecondServe;
                    moment.other = serve.receiver[1];
                    continue;
                }
                Ending::Net | Ending::Long | Ending::Wide => break 1 - striker,
            }
            stroke += 1;
            if rows.len() - start > MOST_STROKES {
                rows.truncate(start);
                return self.point(number, server, ad, rows);
            }
        };
        for row in &mut rows[start..] {
            row.won = usize::from(row.striker) == winner;
        }
        true
    }

    /// Plays one stroke; returns it with the next moment when the ball is struck back.
    fn stroke(&mut self, m: &Moment, second: f32) -> (PlayedStroke, Option<Moment>) {
        let game = self.game;
        let duel = game.duel(m.striker);
        let key = (m.contact[2] / HEIGHT_STEP).round() as i32;
        let cuts = Rc::clone(self.cuts.entry((m.striker, m.kind, key)).or_insert_with(|| {
            Rc::new(duel.strokes.cut(m.kind, key as f32 * HEIGHT_STEP, &game.side(m.striker).ground))
        }));
        let cuts = cuts.as_ref();
        duel.strokes.paths(cuts, m.contact[0], m.contact[1], duel.limits, &mut self.paths);
        keep_likely(&duel, m.kind, m.contact, &mut self.paths, &mut self.chances);
        let mut row = PlayedStroke {
            point: 0,
            number: 0,
            striker: m.striker as u8,
            server: 0,
            ad: false,
            serve: match m.kind {
                Kind::FirstServe => 1,
                Kind::SecondServe => 2,
                _ => 0,
            },
            stroke: Stroke::Topspin,
            wing: m.wing,
            contact: m.contact,
            air: m.air,
            available: m.available,
            spare: m.spare,
            other: m.other,
            speed: 0.0,
            topspin: 0.0,
            aim: [0.0; 2],
            landing: [0.0; 2],
            clearance: -1.0,
            ending: Ending::Net,
            worth: 0.0,
            won: false,
        };
        if self.paths.paths.is_empty() {
            return (row, None);
        }
        self.chances.clear();
        duel.chances(m.kind, m.contact, &self.paths, (m.wing, m.spare, m.slope), &mut self.chances);
        let from = duel.body(m.contact[0], m.contact[1]);
        let come_in = duel.may_come_in(m.contact[1]);
        // Worth to the opponent of each path from their actual place.
        self.made.clear();
        for path in &self.paths.paths {
            let best = best_of(&duel, (from, come_in), path, self.paths.samples(path), m.other);
            self.made.push(best);
        }
        let chosen = self.choose(&duel, m, second, &mut row);
        let path = self.paths.paths[chosen];
        let state = (m.wing, duel.behaviour.pressure(f64::from(m.spare)), m.slope);
        let delivery = duel.delivery(m.kind, m.contact, &path, state);
        let spread = scatter::spread(duel.behaviour, &duel.strokes.player, &delivery);
        row.stroke = delivery.stroke;
        row.speed = path.speed;
        row.topspin = delivery.topspin as f32;
        row.aim = [path.x, path.y];
        let wide = if self.dice.uniform() < duel.behaviour.mishits as f32 { 3.0 } else { 1.0 };
        let up = wide * spread.up as f32 * self.dice.normal();
        let side = wide * spread.side as f32 * self.dice.normal();
        let speed = wide * spread.speed as f32 * self.dice.normal();
        let distance = (path.distance + path.range_up * up + path.range_speed * speed).max(0.5);
        let azimuth = path.direction[0].atan2(path.direction[1]) + side;
        let landing = [m.contact[0] + distance * azimuth.sin(), distance * azimuth.cos() - m.contact[1]];
        row.landing = landing;
        row.clearance = path.clearance + path.net_up * up + path.net_speed * speed;
        let court = &duel.strokes.court;
        let (half, mut length) = (court.half_width() as f32, court.half_length() as f32);
        let mut wide = landing[0].abs() > half;
        if row.serve > 0 {
            length = court.service_depth() as f32;
            wide |= landing[0] * m.contact[0] > 0.0;
        }
        row.ending = if row.clearance < 0.0 || landing[1] < 0.05 {
            Ending::Net
        } else if landing[1] > length {
            Ending::Long
        } else if wide {
            Ending::Wide
        } else {
            Ending::Returned
        };
        if row.ending != Ending::Returned {
            return (row, None);
        }
        // The ball's actual flight.
        self.spare_paths.clear();
        let from_to = ((m.contact[0], m.contact[1]), landing);
        let family = usize::from(path.family);
        let flown = duel.strokes.path_of(cuts, family, from_to, duel.limits, &mut self.spare_paths);
        let path = match flown {
            Some(p) => p,
            None => {
                self.spare_paths.extend_from_slice(self.paths.samples(&path));
                path
            }
        };
        row.speed = path.speed * (1.0 + speed);
        match self.meet(&duel, m, (from, come_in), &path) {
            Some(next) => (row, Some(next)),
            None => {
                row.ending = Ending::Untouched;
                (row, None)
            }
        }
    }

    /// Chooses a path by the quantal response.
    fn choose(&mut self, duel: &Duel<'_>, m: &Moment, second: f32, row: &mut PlayedStroke) -> usize {
        let miss = if m.kind == Kind::FirstServe { second } else { 0.0 };
        let beta = 1.0 / duel.behaviour.temperature;
        let (mut total, mut worth) = (0.0, 0.0);
        self.shares.clear();
        for (i, path) in self.paths.paths.iter().enumerate() {
            let chance = self.chances[i].0;
            let lost = duel.blurred_at(m.kind, m.contact[0], &self.paths, i, self.chances[i].1, &self.made);
            let q = chance * (1.0 - lost) + (1.0 - chance) * miss;
            let w = path.prior * (q * beta).exp();
            total += w;
            worth += w * q;
            self.shares.push(w);
        }
        row.worth = worth / total;
        let mut u = self.dice.uniform() * total;
        for (i, w) in self.shares.iter().enumerate() {
            u -= w;
            if u <= 0.0 {
                return i;
            }
        }
        self.shares.len() - 1
    }

    /// Where the opponent meets the ball, if at all.
    fn meet(&mut self, duel: &Duel<'_>, m: &Moment, (from, come_in): ([f32; 2], bool), path: &Path) -> Option<Moment> {
        let slope = path.incoming();
        self.options.clear();
        for s in &self.spare_paths {
            let meeting = duel.opponent.meeting(s);
            let (reach, f, b) = duel.opponent.at(&meeting, m.other[0], m.other[1]);
            if reach < LEAST_REACH {
                continue;
            }
            let ramp = Ramp::new(&duel.meeting_worth(from, come_in, slope, s));
            let (vf, vb) = (ramp.at(f, 0), ramp.at(b, 1));
            let (wing, spare, value) = if vf > vb { (Wing::Forehand, f, vf) } else { (Wing::Backhand, b, vb) };
            self.options.push(Option_ { sample: *s, reach, wing, spare, worth: reach * value });
        }
        let best = self.options.iter().map(|o| o.worth).fold(0.0, f32::max);
        let temperature = duel.behaviour.meeting_temperature;
        let weight = |o: &Option_| ((o.worth - best) / temperature).exp();
        let mut u = self.dice.uniform() * self.options.iter().map(weight).sum::<f32>();
        let mut chosen = None;
        for o in &self.options {
            u -= weight(o);
            chosen = Some(*o);
            if u <= 0.0 {
                break;
            }
        }
        let o = chosen?;
        if self.dice.uniform() >= o.reach {
            return None;
        }
        let s = &o.sample;
        let other = duel.recovered(from, come_in, slope, s, o.spare);
        let striker = 1 - m.striker;
        let strokes = &self.game.duel(striker).strokes;
        Some(Moment {
            striker,
            kind: strokes.kind(s.height, s.air),
            contact: [s.x, s.depth, s.height],
            air: s.air,
            wing: o.wing,
            spare: o.spare,
            slope,
            available: s.time,
            other,
        })
    }
}

/// Worth to the opponent of one path from a known place.
fn best_of(
    duel: &Duel<'_>,
    (from, come_in): ([f32; 2], bool),
    path: &Path,
    samples: &[Sample],
    place: [f32; 2],
) -> f32 {
    let slope = path.incoming();
    let mut best = 0.0_f32;
    for s in samples {
        let meeting = duel.opponent.meeting(s);
        let (reach, f, b) = duel.opponent.at(&meeting, place[0], place[1]);
        if reach < LEAST_REACH {
            continue;
        }
        let ramp = Ramp::new(&duel.meeting_worth(from, come_in, slope, s));
        best = best.max(reach * ramp.at(f, 0).max(ramp.at(b, 1)));
    }
    best
}
