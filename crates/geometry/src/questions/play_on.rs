//! A point played on from a shot by the model: each stroke is chosen by the model's shares, from the players' real
//! places.
//!
//! The results are ordinary shots. Contacts and places are those of the answer to the shot before, as in a rally laid
//! out by hand.

use glam::DVec2;

use crate::{
    player::scatter::Chance,
    questions::plan::{reply_name, settings_after},
    shot::{
        situation::{ReceiptChoice, Shot, Situation},
        stroke::Stroke,
    },
    solver::{Loaded, Near, SolveError, Solver, receipt, shot_chance, shot_spread},
    worth::{Ending, Game},
};

/// Most shots of a point; a longer one is stopped.
const MOST: usize = 24;
/// Number of draws for a ball that would land outside; then it is put onto the line.
const THROWS: usize = 6;

/// How the point is played on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Continuation {
    /// The likeliest reply at each stroke, for the usual length of such a point.
    Likeliest,
    /// Replies, errors and balls out of reach drawn by their chances, from a seed.
    Drawn(u64),
}

/// How the point was played on.
#[derive(Debug, Clone, PartialEq)]
pub struct PlayedOn {
    /// The shots after the given one, alternating from the other end, world frame. A shot that misses keeps its aim.
    pub shots: Vec<Shot>,
    /// How the last shot ended; `None` where the point goes on.
    pub ending: Option<Ending>,
    /// Whether the striker of the given shot wins the point; `None` where it goes on.
    pub won: Option<bool>,
}

/// SplitMix64 (Steele, Lea & Flood 2014).
struct Dice(u64);

impl Dice {
    /// Uniform in [0, 1).
    fn even(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }

    /// Standard normal (Box & Muller 1958).
    fn normal(&mut self) -> f64 {
        (-2.0 * (1.0 - self.even()).ln()).sqrt() * (std::f64::consts::TAU * self.even()).cos()
    }
}

/// A reply that may be chosen: its share, and the shot in the frame of its receiver.
#[derive(Clone, Copy)]
struct Choice {
    name: crate::solver::answer::ReplyName,
    share: f64,
    stroke: Stroke,
    landing: DVec2,
    speed: f64,
    topspin: f64,
}

impl Solver {
    /// Plays the point on from a situation's shot, which is assumed to go in.
    ///
    /// # Errors
    /// As [`Solver::solve`].
    pub fn play_on(&mut self, situation: &Situation, way: Continuation) -> Result<PlayedOn, SolveError> {
        let mut dice = Dice(match way {
            Continuation::Likeliest => 0,
            Continuation::Drawn(seed) => seed.wrapping_mul(0x2545_f491_4f6c_dd1d) ^ 0x9e37_79b9,
        });
        let mut shots = Vec::new();
        let mut now = *situation;
        // Chance that the point lasts to the current stroke.
        let mut lasts = 1.0;
        loop {
            let odd = shots.len() % 2 == 1;
            let over = |ending, hitter_wins: bool, shots| {
                Ok(PlayedOn { shots, ending: Some(ending), won: Some(hitter_wins != odd) })
            };
            let Some(Loaded { near, game, met, recovery, .. }) = self.loaded(&now)? else {
                return over(Ending::Untouched, true, shots);
            };
            lasts *= met.reach;
            if way != Continuation::Likeliest && dice.even() >= met.reach {
                return over(Ending::Untouched, true, shots);
            }
            let mut choices = self.choices(&near, &game, recovery.reached.place);
            let receipt = receipt(&near, &met);
            let (turn, reached) = (near.turn, recovery.reached.place);
            let other = turn.turn2(reached);
            let before = now;
            let theirs = |choice: &Choice, landing: DVec2| {
                let shot = Shot {
                    contact: receipt.contact,
                    stroke: choice.stroke,
                    target: turn.turn2(landing),
                    speed: choice.speed,
                    topspin: choice.topspin,
                    sidespin: 0.0,
                };
                Situation {
                    hitter_end: before.hitter_end.other(),
                    hitter: before.opponent,
                    opponent: before.hitter,
                    hitter_habits: before.opponent_habits,
                    opponent_habits: before.hitter_habits,
                    hitter_place: receipt.place,
                    opponent_place: other,
                    hitter_pressure: receipt.pressure,
                    shot,
                    receipt: ReceiptChoice::Best,
                    settings: settings_after(&before, &shot),
                    ..before
                }
            };
            // A ball for which the flight law and the table disagree is chosen anew.
            let mut chosen = None;
            while chosen.is_none() && !choices.is_empty() {
                let i = match way {
                    Continuation::Likeliest => likeliest(&choices),
                    Continuation::Drawn(_) => drawn(&choices, dice.even()),
                };
                let choice = choices.swap_remove(i);
                let meant = theirs(&choice, choice.landing);
                let seen = Near::new(&meant);
                if let Ok(aimed) = seen.aim() {
                    chosen = Some((choice, meant, shot_chance(&seen, &aimed), shot_spread(&seen, &aimed)));
                }
            }
            let Some((choice, meant, chance, spread)) = chosen else { return over(Ending::Untouched, true, shots) };
            now = meant;
            match way {
                Continuation::Likeliest => {
                    lasts *= chance.good;
                    shots.push(now.shot);
                    if lasts < 0.5 || shots.len() >= MOST {
                        return Ok(PlayedOn { shots, ending: None, won: None });
                    }
                }
                Continuation::Drawn(_) => {
                    if dice.even() >= chance.good {
                        shots.push(now.shot);
                        return over(fault(&chance, dice.even()), true, shots);
                    }
                    let court = &now.conditions.court;
                    let landing = scattered(choice.landing, spread, court, &mut dice);
                    let scattered = theirs(&choice, landing);
                    if Near::new(&scattered).aim().is_ok() {
                        now = scattered;
                    }
                    shots.push(now.shot);
                    if shots.len() >= MOST {
                        return Ok(PlayedOn { shots, ending: None, won: None });
                    }
                }
            }
        }
    }

    /// The replies to a loaded look against a player at a place, near frame.
    fn choices(&mut self, near: &Near<'_>, game: &Game, reached: DVec2) -> Vec<Choice> {
        let duel = game.duel(1);
        let Some(kind) = self.look.main.kind else { return Vec::new() };
        let mut shares = Vec::new();
        self.look.main.shares(&duel, [reached.x as f32, -reached.y as f32], &mut shares);
        let families = duel.strokes.families(kind);
        let court = &near.situation.conditions.court;
        let contact = DVec2::new(f64::from(self.look.main.contact[0]), -f64::from(self.look.main.contact[1]));
        let paths = self.look.main.paths.paths.iter().zip(&shares);
        let one = paths.map(|(path, &(share, _))| {
            let own = DVec2::new(f64::from(path.x), f64::from(path.y));
            let family = &families[usize::from(path.family)];
            Choice {
                name: reply_name(court, family.stroke, contact, own),
                share: f64::from(share),
                stroke: family.stroke,
                landing: -own,
                speed: f64::from(path.speed),
                topspin: family.topspin,
            }
        });
        one.collect()
    }
}

/// The likeliest ball of the likeliest direction.
fn likeliest(choices: &[Choice]) -> usize {
    let mut of: Vec<(crate::solver::answer::ReplyName, f64)> = Vec::new();
    for choice in choices {
        match of.iter_mut().find(|(name, _)| *name == choice.name) {
            Some((_, share)) => *share += choice.share,
            None => of.push((choice.name, choice.share)),
        }
    }
    let best = of.iter().max_by(|a, b| a.1.total_cmp(&b.1)).map(|(name, _)| *name);
    let there = choices.iter().enumerate().filter(|(_, c)| Some(c.name) == best);
    there.max_by(|a, b| a.1.share.total_cmp(&b.1.share)).map_or(0, |(i, _)| i)
}

/// A choice drawn by the shares, `u` in [0, 1).
fn drawn(choices: &[Choice], u: f64) -> usize {
    let mut left = u * choices.iter().map(|c| c.share).sum::<f64>();
    for (i, choice) in choices.iter().enumerate() {
        left -= choice.share;
        if left <= 0.0 {
            return i;
        }
    }
    choices.len() - 1
}

/// A fault drawn by the chances, `u` in [0, 1).
fn fault(chance: &Chance, u: f64) -> Ending {
    let at = u * (chance.net + chance.long + chance.wide);
    if at < chance.net {
        Ending::Net
    } else if at < chance.net + chance.long {
        Ending::Long
    } else {
        Ending::Wide
    }
}

/// The landing of a ball that goes in, scattered around its aim, in the frame of its receiver.
fn scattered(aim: DVec2, (depth, side): (f64, f64), court: &crate::court::Court, dice: &mut Dice) -> DVec2 {
    let (low, high) =
        (DVec2::new(-court.half_width(), -court.half_length()), DVec2::new(court.half_width(), -0.05 * court.length));
    let mut landing = aim;
    for _ in 0..THROWS {
        landing = aim + DVec2::new(side * dice.normal(), depth * dice.normal());
        if landing.cmpge(low).all() && landing.cmple(high).all() {
            return landing;
        }
    }
    landing.clamp(low, high)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{player::presets::Level, questions::judge_place::tests::drive};

    fn situation() -> Situation {
        drive(DVec2::new(-2.9, 9.6), Level::Tournament)
    }

    #[test]
    fn the_likeliest_way_is_always_the_same_and_a_seed_always_the_same_other_one() {
        let s = situation();
        let play = |way| Solver::new().play_on(&s, way).expect("it can be played");
        assert_eq!(play(Continuation::Likeliest), play(Continuation::Likeliest));
        assert_eq!(play(Continuation::Drawn(3)), play(Continuation::Drawn(3)));
        let others: Vec<PlayedOn> = (0..6).map(|seed| play(Continuation::Drawn(seed))).collect();
        assert!(others.windows(2).any(|pair| pair[0] != pair[1]), "seeds differ");
    }

    #[test]
    fn shots_go_by_turns_over_the_net_from_where_the_ball_is_met() {
        let s = situation();
        let mut solver = Solver::new();
        for way in [Continuation::Likeliest, Continuation::Drawn(1), Continuation::Drawn(2), Continuation::Drawn(5)] {
            let played = solver.play_on(&s, way).unwrap();
            let mut side = 1.0;
            for shot in &played.shots {
                assert!(shot.contact.y * side > 0.0 && shot.target.y * side < 0.0, "{way:?}: {shot:?}");
                side = -side;
            }
            let met = solver.solve(&s).unwrap().play().map(|p| p.receipt.contact);
            assert_eq!(played.shots.first().map(|shot| shot.contact), met, "{way:?}");
        }
    }

    #[test]
    fn points_end_about_as_often_for_the_hitter_as_the_answer_says() {
        // 100 points, compared with the exposure of the answer: 0.05 is one standard deviation of such a share, and a
        // look-ahead and a table differ by a few hundredths.
        let s = situation();
        let mut solver = Solver::new();
        let lost = solver.solve(&s).unwrap().play().map_or(0.0, |p| p.recovery.reached.exposure);
        let points = 100;
        let won = (0..points)
            .filter(|seed| solver.play_on(&s, Continuation::Drawn(*seed)).unwrap().won == Some(true))
            .count();
        let share = won as f64 / points as f64;
        assert!((share - (1.0 - lost)).abs() < 0.15, "won {share:.3}, the answer says {:.3}", 1.0 - lost);
    }
}
