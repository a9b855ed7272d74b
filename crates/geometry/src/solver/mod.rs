//! The whole chain, from a situation to the answer.

pub(crate) mod answer;
mod drawing;
mod near;
mod recovery;
mod replies;
mod returner;
mod shot;

use std::sync::Arc;

use glam::DVec2;

#[cfg(feature = "oracle")]
pub(crate) use self::near::FLIGHT;
pub(crate) use self::{
    drawing::shot_flight,
    near::{Near, hitters, own},
    recovery::choose_for,
    replies::Threat,
    shot::{shot_chance, shot_spread},
};
use self::{
    drawing::turned_field,
    near::bearing,
    recovery::{Choice, Side, choose},
};
use crate::{
    ball::bounce::Path,
    court::frame::End,
    interception::{Intercept, MetBall, coverage::Mover},
    player::Wing,
    shot::{
        aim::{Aim, AimError},
        situation::{Problem, ReadyArea, Situation},
    },
    solver::answer::{Answer, Bisector, Field, HabitUsed, Interception, Outcome, Place, Play, Recovery, Wedge},
    stand::{Ground, Survey, contours::contours},
    worth::{Basis, Behaviour, Contact, Game, Games, Habit, Kind, Matchup, Prospect},
};

/// Level lines drawn besides the zone, as worth above the least.
const WIDER_LEVELS: [f64; 2] = [0.05, 0.10];

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SolveError {
    /// The situation cannot be computed.
    #[error("{}", .0.iter().map(ToString::to_string).collect::<Vec<_>>().join("; "))]
    Invalid(Vec<Problem>),
    /// The shot cannot be played.
    #[error(transparent)]
    Aim(#[from] AimError),
}

/// Computes answers; keeps its buffers and the game of the last players between them.
#[derive(Debug, Clone, Default)]
pub struct Solver {
    held: Option<Held>,
    pub(crate) look: Prospect,
    survey: Survey,
    field: Field,
    chosen: Option<Chosen>,
}

/// The choice made for the situation in the look.
#[derive(Debug, Clone)]
struct Chosen {
    situation: Situation,
    game: Arc<Game>,
    spot: Place,
    recovery: Recovery,
}

/// A situation whose replies are in the look; places in the near frame.
pub(crate) struct Loaded<'a> {
    pub near: Near<'a>,
    pub game: Arc<Game>,
    pub met: MetBall,
    pub spot: Place,
    pub recovery: Recovery,
}

/// The game of the players of the last situation.
#[derive(Debug, Clone)]
struct Held {
    matchup: Matchup,
    generation: u64,
    game: Arc<Game>,
    basis: Basis,
}

/// Solves one situation; use a [`Solver`] for more than one.
///
/// # Errors
/// See [`SolveError`].
pub fn solve(situation: &Situation) -> Result<Answer, SolveError> {
    Solver::new().solve(situation)
}

/// A situation computed up to the opponent's contact, if there is one.
pub(crate) struct Begun<'a> {
    pub near: Near<'a>,
    pub aimed: Aim,
    pub path: Path,
    pub met: Intercept,
    pub game: Arc<Game>,
    pub basis: Basis,
}

/// Refuses a situation that cannot be computed.
pub(crate) fn sound(situation: &Situation) -> Result<(), SolveError> {
    let problems = situation.validate();
    if problems.is_empty() { Ok(()) } else { Err(SolveError::Invalid(problems)) }
}

impl Solver {
    /// A solver with empty buffers.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// The game of a situation's players: the hitter is player 0.
    pub(crate) fn game(&mut self, near: &Near<'_>) -> (Arc<Game>, Basis) {
        let matchup = near.matchup();
        let games = Games::shared();
        let generation = games.generation();
        if let Some(held) = &self.held
            && held.matchup == matchup
            && (held.basis == Basis::Solved || held.generation == generation)
        {
            return (Arc::clone(&held.game), held.basis);
        }
        let (game, basis) = games.get(&matchup);
        self.held = Some(Held { matchup, generation, game: Arc::clone(&game), basis });
        (game, basis)
    }

    /// Plays a situation's shot until the opponent meets it.
    pub(crate) fn begin<'a>(&mut self, situation: &'a Situation) -> Result<Begun<'a>, SolveError> {
        sound(situation)?;
        let near = Near::new(situation);
        let aimed = near.aim()?;
        let path = near.path(&aimed);
        let (game, basis) = self.game(&near);
        let met = near.meet(&game, &path);
        Ok(Begun { near, aimed, path, met, game, basis })
    }

    /// Answers one situation.
    ///
    /// # Errors
    /// [`SolveError::Invalid`] with every problem of the input, or [`SolveError::Aim`] when the shot cannot be played.
    pub fn solve(&mut self, situation: &Situation) -> Result<Answer, SolveError> {
        let Begun { near, aimed, path, met, game, basis } = self.begin(situation)?;
        let shot = shot_flight(&near, &aimed, &path);
        let outcome = match met {
            Intercept::Past { late_by, closest } => Outcome::Winner { late_by, closest: near.turn.turn3(closest) },
            Intercept::At(met) => {
                self.load(&near, &game, &met);
                self.play(&near, &game, receipt(&near, &met))
            }
        };
        Ok(Answer { shot, outcome, returner: self.returner(situation), basis })
    }

    /// The opponent's chance to win with the hitter at any standing places, world frame; the same numbers as the
    /// field's.
    ///
    /// Empty when the shot is a winner or leaves no reply.
    ///
    /// # Errors
    /// As [`Self::solve`].
    pub fn exposures(&mut self, situation: &Situation, places: &[DVec2]) -> Result<Vec<Place>, SolveError> {
        let Some(Loaded { near, game, .. }) = self.loaded(situation)? else { return Ok(Vec::new()) };
        let turned: Vec<DVec2> = places.iter().map(|p| near.turn.turn2(*p)).collect();
        let values = self.judge(&game, &turned);
        Ok(places.iter().zip(values).map(|(&place, exposure)| Place { place, exposure }).collect())
    }

    /// The opponent's chance to win with the hitter at each of the places, near frame, after a look was loaded.
    pub(crate) fn judge(&mut self, game: &Game, places: &[DVec2]) -> Vec<f64> {
        let duel = game.duel(1);
        let mut out = Vec::new();
        Side::new(&mut self.look, &duel).worth(places, &mut out);
        out
    }

    /// Plays a situation's shot and loads the replies to it, unless the look still holds them from the last question;
    /// `None` when the shot is a winner or leaves no reply.
    pub(crate) fn loaded<'a>(&mut self, situation: &'a Situation) -> Result<Option<Loaded<'a>>, SolveError> {
        let Begun { near, met, game, .. } = self.begin(situation)?;
        let Intercept::At(met) = met else { return Ok(None) };
        if let Some(held) = &self.chosen
            && held.situation == *situation
            && Arc::ptr_eq(&held.game, &game)
        {
            let (spot, recovery) = (held.spot, held.recovery);
            return Ok(Some(Loaded { near, game, met, spot, recovery }));
        }
        self.load(&near, &game, &met);
        if self.look.is_empty() {
            return Ok(None);
        }
        let (spot, recovery) = choose_for(self, &near, &game, met.time);
        self.chosen = Some(Chosen { situation: *situation, game: Arc::clone(&game), spot, recovery });
        Ok(Some(Loaded { near, game, met, spot, recovery }))
    }

    /// Loads the replies to a ball that is met, for every likely way of meeting it.
    pub(crate) fn load(&mut self, near: &Near<'_>, game: &Game, met: &MetBall) {
        let side = game.side(1);
        for (n, met) in std::iter::once(met).chain(&met.others).enumerate() {
            let [x, depth] = own(met.point.truncate());
            let place = [x, depth, met.point.z as f32];
            let kind = side.strokes.kind(place[2], met.bounces == 0);
            let contact = Contact {
                place,
                slope: met.slope,
                stances: &met.stances,
                miss: 0.0,
                habits: near.opponent_habits.as_ref(),
            };
            self.load_contact(near, game, kind, contact, (n > 0).then_some(met.share as f32));
        }
    }

    /// Loads the replies from a contact: as one more way with its share, or as the likeliest way.
    fn load_contact(&mut self, near: &Near<'_>, game: &Game, kind: Kind, contact: Contact<'_>, share: Option<f32>) {
        self.chosen = None;
        let duel = game.duel(1);
        let cuts = game.side(1).cut(kind, contact.place[2]);
        // Likely places of the hitter: around the usual one, beside it, at the net, and where the ball was struck.
        let scale = near.situation.conditions.court.half_length() / 11.885;
        let usual = DVec2::new(contact.place[0] as f64 * 0.25, -13.0 * scale);
        let at = |x: f64, y: f64| hitters(DVec2::new(usual.x + x * scale, usual.y + y * scale));
        let likely = [
            at(0.0, 0.0),
            at(-2.0, 0.0),
            at(2.0, 0.0),
            at(0.0, 2.0),
            at(0.0, -2.5),
            hitters(DVec2::new(-usual.x, -3.5 * scale)),
            hitters(DVec2::new(-3.0 * usual.x, -5.5 * scale)),
            hitters(near.hitter_place),
        ];
        match share {
            None => self.look.load(&duel, &cuts, contact, &likely),
            Some(share) => self.look.add(share, &duel, &cuts, contact, &likely),
        }
    }

    fn play(&mut self, near: &Near<'_>, game: &Arc<Game>, receipt: Interception) -> Outcome {
        if self.look.is_empty() {
            return Outcome::NoReply(receipt);
        }
        let (situation, turn) = (near.situation, near.turn);
        let duel = game.duel(1);
        let court = &situation.conditions.court;
        let mut survey = std::mem::take(&mut self.survey);
        let habit = self.look.main.habit.map(|habit| {
            let spot = self.look.without_habits(|look| {
                let mut ground = Side::new(look, &duel);
                survey.look(&mut ground, &near.stand());
                let choice = choose(near, game, &mut ground, &mut survey, receipt.time);
                Place { place: turn.turn2(choice.zone.centre), exposure: choice.recovery.1 }
            });
            let Habit { case, counts, expected, shares } = habit;
            let case = if turn.mirrors() { case.mirrored() } else { case };
            HabitUsed { case, counts, expected, shares, without: spot }
        });
        let mut ground = Side::new(&mut self.look, &duel);
        survey.look(&mut ground, &near.stand());
        let choice = choose(near, game, &mut ground, &mut survey, receipt.time);
        let Choice { zone, recovery, at_net } = choice;
        let mut recovery = recovery;
        let spot = Place { place: zone.centre, exposure: recovery.1 };
        let (wedge, azimuth) = self.wedge(near, receipt, situation.settings.edge_chance);
        let (sin, cos) = azimuth.sin_cos();
        let along = DVec2::new(sin, -cos);
        let apex = turn.turn2(receipt.contact.truncate());
        let at_depth = apex + along * ((spot.place.y - apex.y) / along.y);
        let middle = DVec2::new(0.0, spot.place.y);
        let judged = self.judge(game, &[middle, at_depth]);
        survey.field(&mut self.field);
        self.survey = survey;
        let levels = [&[situation.settings.zone_tolerance], &WIDER_LEVELS[..]].concat();
        let least = zone.least.min(spot.exposure);
        let mut lines = contours(&self.field, least, &levels);
        // The zone belongs to the ground where players wait; ground only crossed is shaded, not outlined.
        let waited = near.stand().area(court, if at_net { ReadyArea::Net } else { ReadyArea::Back });
        if let Some(zone) = lines.first_mut() {
            let inside = |p: &DVec2| p.cmpge(waited.min).all() && p.cmple(waited.max).all();
            zone.rings.retain(|ring| ring.iter().any(inside));
        }
        let best = self.two_best(near, game, &receipt, spot);
        self.chosen = Some(Chosen { situation: *situation, game: Arc::clone(game), spot, recovery: recovery.0 });

        // Convert back to the world frame.
        for line in &mut lines {
            for p in line.rings.iter_mut().flatten() {
                *p = turn.turn2(*p);
            }
        }
        let turn_place = |p: Place| Place { place: turn.turn2(p.place), exposure: p.exposure };
        recovery.0.start = turn.turn2(recovery.0.start);
        recovery.0.reached = turn_place(recovery.0.reached);
        let bisector = Bisector {
            azimuth: bearing(turn.turn2(along)),
            place: turn.turn2(at_depth),
            exposure: judged[1],
            offset: (at_depth.x - spot.place.x) * turn.signs().0,
        };
        let [a, b] = [wedge.left_landing, wedge.right_landing].map(|p| turn.turn2(p));
        let (left, right) = if turn.mirrors() { (b, a) } else { (a, b) };
        let apex = turn.turn2(wedge.apex);
        let half = court.half_length();
        Outcome::Play(Box::new(Play {
            receipt,
            wedge: Wedge {
                apex,
                left: bearing(left - apex),
                right: bearing(right - apex),
                left_landing: left,
                right_landing: right,
            },
            spot: turn_place(spot),
            depth_range: (zone.range.0 - half, zone.range.1 - half),
            at_net,
            field: turned_field(&self.field, turn),
            contours: lines,
            bisector,
            best,
            recovery: recovery.0,
            middle: turn_place(Place { place: middle, exposure: judged[0] }),
            replies_weighed: self.look.main.paths.paths.len(),
            habit,
        }))
    }
}

/// How the opponent meets the ball, world frame.
pub(crate) fn receipt(near: &Near<'_>, met: &MetBall) -> Interception {
    let stance = met.stances.first().copied();
    let wing = stance.map_or(Wing::Forehand, |s| s.wing);
    let behaviour = Behaviour::default();
    let spare = stance.map_or(0.0, |s| f64::from(s.spare));
    // The body stands beside the ball and behind it, as far as there was time.
    let mover = Mover::new(&near.opponent, End::Far);
    let side = if wing == Wing::Forehand { mover.forehand_x } else { -mover.forehand_x };
    let beside = DVec2::new(-side * f64::from(behaviour.stance_beside), f64::from(behaviour.stance_ahead));
    let wanted = met.point.truncate() + beside;
    let run = mover.stride.distance(met.time - mover.reaction);
    let way = wanted - near.opponent_place;
    let body = if way.length() <= run { wanted } else { near.opponent_place + way.normalize_or_zero() * run };
    Interception {
        contact: near.turn.turn3(met.point),
        time: met.time,
        place: near.turn.turn2(body),
        wing,
        bounces: met.bounces,
        time_to_spare: met.margin,
        reach: met.reach,
        pressure: behaviour.pressure(spare),
    }
}
