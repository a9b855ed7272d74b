//! The whole chain, from a situation to the answer.

use std::sync::Arc;

use glam::{DVec2, DVec3};

use crate::{
    aim::{Aim, AimError, aim, legal},
    answer::{
        Answer, Bisector, Field, Landing, NetCrossing, Outcome, PathPoint, Place, Play, Receipt, Recovery, Reply,
        ReplyName, ShotFlight, Wedge,
    },
    bounce::{Path, fly_path},
    contours::contours,
    coverage::Mover,
    flight::{BallPhysics, BallState, FlyOptions, LAND_STEP, MAX_TIME, land},
    frame::{End, Turn},
    interception::{Incoming, Interception, Met},
    naming,
    player::{Player, Wing},
    scatter::{self, Delivery, Room, Sensitivity},
    situation::{Problem, ReadyArea, ReceiptChoice, Shot, Situation, Stroke},
    stand::{Ground, Stand, Survey, Zone},
    worth::{Basis, Behaviour, Contact, Duel, Game, Games, Kind, Look, Matchup, ReplyPath, Stance},
};

/// Level lines drawn besides the zone, as worth above the least.
const WIDER_LEVELS: [f64; 2] = [0.05, 0.10];
/// Spacing of the points of a drawn path, s.
const PATH_STEP_S: f64 = 0.03;
/// Directions and distances, as shares of the run, in which the best place within reach is looked for.
const REACH_DIRECTIONS: usize = 20;
const REACH_SHARES: [f64; 3] = [0.4, 0.75, 1.0];
/// Width of the zone of what can be reached, in points won: wider than that of the spot, since what is within reach is
/// mostly a slope whose very end would be taken.
const REACHED_WIDTH: f64 = 0.01;
/// Width of the zone whose centre is the spot, in points won: wider than that of the rally's table, for one look at one ball is
/// less certain than the mean over a rally.
const ZONE_WIDTH: f64 = 0.01;
/// A reply may be the second of the two best when its direction from the spot differs by at least about 70 degrees.
const OTHER_WAY: f64 = 0.35;

/// Flights that are shown: the step of [`LAND_STEP`] is good to a hundredth of a millimetre.
pub(crate) const FLIGHT: FlyOptions = FlyOptions { step: LAND_STEP, max_time: MAX_TIME };

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SolveError {
    /// The situation is not one that can be computed.
    #[error("{}", .0.iter().map(ToString::to_string).collect::<Vec<_>>().join("; "))]
    Invalid(Vec<Problem>),
    /// The shot cannot be played.
    #[error(transparent)]
    Aim(#[from] AimError),
}

/// Computes answers and keeps its buffers and the game of the last players between them.
#[derive(Debug, Clone, Default)]
pub struct Solver {
    held: Option<Held>,
    pub(crate) look: Look,
    survey: Survey,
    field: Field,
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

/// A situation in the frame of a near, right-handed hitter, with what follows at once from it.
pub(crate) struct Near<'a> {
    pub situation: &'a Situation,
    pub turn: Turn,
    pub physics: BallPhysics,
    pub shot: Shot,
    pub hitter: Player,
    pub opponent: Player,
    pub hitter_place: DVec2,
    pub opponent_place: DVec2,
}

impl<'a> Near<'a> {
    pub fn new(situation: &'a Situation) -> Self {
        let mirrored = situation.hitter.hand.forehand_sign() < 0.0;
        let turn = Turn::new(situation.hitter_end, mirrored);
        let mut shot = situation.shot;
        shot.contact = turn.turn3(shot.contact);
        shot.target = turn.turn2(shot.target);
        let c = &situation.conditions;
        let hand = |p: &Player| if mirrored { p.mirrored() } else { *p };
        if mirrored {
            shot.sidespin = -shot.sidespin;
        }
        Self {
            situation,
            turn,
            physics: BallPhysics::new(&c.ball, &c.air, c.law),
            shot,
            hitter: hand(&situation.hitter),
            opponent: hand(&situation.opponent),
            hitter_place: turn.turn2(situation.hitter_place),
            opponent_place: turn.turn2(situation.opponent_place),
        }
    }

    /// Aims the shot, after holding that the stroke may be played from there.
    pub fn aim(&self) -> Result<Aim, AimError> {
        let court = &self.situation.conditions.court;
        legal(court, &self.shot, self.hitter_place)?;
        aim(court, &self.physics, &self.shot)
    }

    pub fn path(&self, aimed: &Aim) -> Path {
        let c = &self.situation.conditions;
        fly_path(&self.physics, &c.surface, &c.ball, aimed.launch, self.opponent.bounces, FLIGHT)
    }

    pub fn matchup(&self) -> Matchup {
        Matchup { conditions: self.situation.conditions, players: [self.hitter, self.opponent] }
    }

    /// Whether the hitter may wait at the net for the reply.
    pub fn may_come_in(&self, duel: &Duel<'_>) -> bool {
        match self.situation.settings.ready {
            ReadyArea::Anywhere => duel.may_come_in(-self.shot.contact.y as f32),
            ReadyArea::Back => false,
            ReadyArea::Net => true,
        }
    }

    /// Where the opponent meets the ball.
    pub fn meet(&self, game: &Game, path: &Path) -> Met {
        self.meet_with(game, path, None)
    }

    /// The same with the hitter sent to a place whatever happens.
    pub fn meet_with(&self, game: &Game, path: &Path, fixed: Option<DVec2>) -> Met {
        let choice = match self.situation.receipt {
            ReceiptChoice::Near(p) => ReceiptChoice::Near(self.turn.turn2(p)),
            best => best,
        };
        let duel = game.duel(0);
        Incoming {
            duel: &duel,
            path,
            opponent_place: self.opponent_place,
            opponent: &self.opponent,
            hitter_place: self.hitter_place,
            may_come_in: self.may_come_in(&duel),
            must_bounce: self.shot.stroke == Stroke::Serve,
            fixed,
        }
        .meet(choice)
    }

    pub fn mover(&self) -> Mover {
        Mover::new(&self.hitter, End::Near)
    }

    pub fn stand(&self) -> Stand {
        Stand::new(&self.situation.conditions.court)
    }
}

/// A situation taken up to the moment when the opponent meets the ball, or does not.
pub(crate) struct Begun<'a> {
    pub near: Near<'a>,
    pub aimed: Aim,
    pub path: Path,
    pub met: Met,
    pub game: Arc<Game>,
    pub basis: Basis,
}

/// Refuses a situation that cannot be computed.
pub(crate) fn sound(situation: &Situation) -> Result<(), SolveError> {
    let problems = situation.validate();
    if problems.is_empty() { Ok(()) } else { Err(SolveError::Invalid(problems)) }
}

/// The opponent's own frame: x to their right, depth from the net.
pub(crate) fn own(p: DVec2) -> [f32; 2] {
    [-p.x as f32, p.y as f32]
}

/// The hitter's own frame.
pub(crate) fn hitters(p: DVec2) -> [f32; 2] {
    [p.x as f32, -p.y as f32]
}

/// The look-ahead as ground to stand on.
struct Side<'a> {
    look: &'a mut Look,
    duel: &'a Duel<'a>,
    buffer: Vec<f32>,
}

impl Ground for Side<'_> {
    fn worth(&mut self, places: &[DVec2], out: &mut Vec<f64>) {
        self.look.values(self.duel, places.iter().map(|p| hitters(*p)), &mut self.buffer);
        out.clear();
        out.extend(self.buffer.iter().map(|v| f64::from(*v)));
    }
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
            Met::Past { late_by, closest } => Outcome::Winner { late_by, closest: near.turn.turn3(closest) },
            Met::At(met) => {
                self.load(&near, &game, &met);
                self.play(&near, &game, receipt(&near, &met))
            }
        };
        Ok(Answer { shot, outcome, returner: self.returner(situation), basis })
    }

    /// The opponent's chance to win from any standing places in a situation, world frame; the same numbers as the field's.
    ///
    /// Empty when the shot is a winner or leaves no reply.
    ///
    /// # Errors
    /// As [`Self::solve`].
    pub fn exposures(&mut self, situation: &Situation, places: &[DVec2]) -> Result<Vec<Place>, SolveError> {
        let Some((near, game, _)) = self.loaded(situation)? else { return Ok(Vec::new()) };
        let turned: Vec<DVec2> = places.iter().map(|p| near.turn.turn2(*p)).collect();
        let values = self.judge(&game, &turned);
        Ok(places.iter().zip(values).map(|(&place, exposure)| Place { place, exposure }).collect())
    }

    /// The opponent's chance to win with the hitter at each of some places, near frame, after a look was loaded.
    pub(crate) fn judge(&mut self, game: &Game, places: &[DVec2]) -> Vec<f64> {
        let duel = game.duel(1);
        let mut out = Vec::new();
        Side { look: &mut self.look, duel: &duel, buffer: Vec::new() }.worth(places, &mut out);
        out
    }

    /// Plays a situation's shot and loads the replies to it; `None` when the shot is a winner or leaves no reply.
    pub(crate) fn loaded<'a>(
        &mut self,
        situation: &'a Situation,
    ) -> Result<Option<(Near<'a>, Arc<Game>, Interception)>, SolveError> {
        let Begun { near, met, game, .. } = self.begin(situation)?;
        let Met::At(met) = met else { return Ok(None) };
        self.load(&near, &game, &met);
        if self.look.is_empty() {
            return Ok(None);
        }
        // Puts the level right, so that the numbers are those of the whole answer.
        choose_for(self, &near, &game, met.time);
        Ok(Some((near, game, met)))
    }

    /// Lists the replies to a ball that is met.
    pub(crate) fn load(&mut self, near: &Near<'_>, game: &Game, met: &Interception) {
        let side = game.side(1);
        let [x, depth] = own(met.point.truncate());
        let place = [x, depth, met.point.z as f32];
        let kind = side.strokes.kind(place[2], met.bounces == 0);
        let contact = Contact { place, slope: met.slope, stances: &met.stances, miss: 0.0 };
        self.load_contact(near, game, kind, contact);
    }

    fn load_contact(&mut self, near: &Near<'_>, game: &Game, kind: Kind, contact: Contact<'_>) {
        let duel = game.duel(1);
        let cuts = game.side(1).cut(kind, contact.place[2]);
        // Places that a hitter may well be at: about the usual one and beside it, at the net, and where the ball was struck.
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
        self.look.load(&duel, &cuts, contact, &likely);
    }

    /// Where the receiver of a serve should stand, from all that the server can do from this contact: the same chain with
    /// the server as the striker. `None` for every other stroke.
    fn returner(&mut self, situation: &Situation) -> Option<Box<Play>> {
        if situation.shot.stroke != Stroke::Serve {
            return None;
        }
        let mut turned = *situation;
        turned.hitter_end = situation.hitter_end.other();
        (turned.hitter, turned.opponent) = (situation.opponent, situation.hitter);
        (turned.hitter_place, turned.opponent_place) = (situation.opponent_place, situation.hitter_place);
        // A return is waited for behind the service line; in front of it one would be volleying a serve.
        turned.settings.ready = ReadyArea::Back;
        let near = Near::new(&turned);
        let (game, _) = self.game(&near);
        let point = near.shot.contact;
        let [x, depth] = own(point.truncate());
        let second = !crate::compare::is_first(situation);
        let kind = if second { Kind::SecondServe } else { Kind::FirstServe };
        // A first serve that misses is followed by the second.
        let miss = if second { 0.0 } else { game.serve(1, x < 0.0).map_or(0.0, |s| s.worth[1]) };
        let stances = [Stance { wing: Wing::Forehand, spare: 1.0, weight: 1.0 }];
        let contact = Contact { place: [x, depth, point.z as f32], slope: 0.0, stances: &stances, miss };
        self.load_contact(&near, &game, kind, contact);
        let met = Interception {
            time: 0.0,
            point,
            bounces: 0,
            reach: 1.0,
            margin: 1.0,
            stances: stances.to_vec(),
            slope: 0.0,
            worth: 0.0,
        };
        let mut receipt = receipt(&near, &met);
        receipt.place = near.turn.turn2(near.opponent_place);
        match self.play(&near, &game, receipt) {
            Outcome::Play(play) => Some(play),
            Outcome::Winner { .. } | Outcome::NoReply(_) => None,
        }
    }

    fn play(&mut self, near: &Near<'_>, game: &Game, receipt: Receipt) -> Outcome {
        if self.look.is_empty() {
            return Outcome::NoReply(receipt);
        }
        let (situation, turn) = (near.situation, near.turn);
        let duel = game.duel(1);
        let court = &situation.conditions.court;
        let mut survey = std::mem::take(&mut self.survey);
        let mut ground = Side { look: &mut self.look, duel: &duel, buffer: Vec::new() };
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
        let best = self.two_best(near, game, &receipt, spot);

        // Back into the world.
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
            replies_weighed: self.look.paths.paths.len(),
        }))
    }

    /// The wedge in the near frame and the azimuth of its bisector from the direction `-y`, rad.
    ///
    /// On every row of the lattice the chance of the safest reply is followed outwards until it falls below the wanted
    /// one; the widest directions over all rows are the edges.
    fn wedge(&self, near: &Near<'_>, receipt: Receipt, edge_chance: f64) -> (Wedge, f64) {
        let apex = near.turn.turn2(receipt.contact.truncate());
        let angle = |p: DVec2| (p.x - apex.x).atan2(apex.y - p.y);
        // Best chance of each landing place: the striker's x is the negative of the near frame's.
        let mut cells: Vec<(u8, u8, DVec2, f64)> = Vec::new();
        for (i, path) in self.look.paths.paths.iter().enumerate() {
            let chance: f64 = (self.look.stances.iter().zip(&self.look.chances))
                .map(|(s, c)| f64::from(s.weight) * f64::from(c[i].0))
                .sum();
            let landing = DVec2::new(-f64::from(path.x), -f64::from(path.y));
            match cells.iter_mut().find(|c| (c.0, c.1) == (path.row, path.column)) {
                Some(cell) => cell.3 = cell.3.max(chance),
                None => cells.push((path.row, path.column, landing, chance)),
            }
        }
        cells.sort_by_key(|c| (c.0, c.1));
        let mut right: Option<(f64, DVec2)> = None;
        let mut left: Option<(f64, DVec2)> = None;
        let mut widen = |p: DVec2| {
            let a = angle(p);
            if right.is_none_or(|(b, _)| a < b) {
                right = Some((a, p));
            }
            if left.is_none_or(|(b, _)| a > b) {
                left = Some((a, p));
            }
        };
        for (i, cell) in cells.iter().enumerate() {
            if cell.3 < edge_chance {
                continue;
            }
            widen(cell.2);
            for n in [i.wrapping_sub(1), i + 1] {
                if let Some(next) = cells.get(n)
                    && next.0 == cell.0
                    && next.3 < edge_chance
                {
                    widen(cell.2.lerp(next.2, (cell.3 - edge_chance) / (cell.3 - next.3)));
                }
            }
        }
        // A stretched opponent may have no direction this safe; then the safest one is all there is.
        let safest = || {
            let best = cells.iter().max_by(|a, b| a.3.total_cmp(&b.3));
            best.map_or((0.0, apex - DVec2::Y), |c| (angle(c.2), c.2))
        };
        // The striker faces -y, so +x is on their left.
        let (l, r) = (left.unwrap_or_else(safest), right.unwrap_or_else(safest));
        (Wedge { apex, left: l.0, right: r.0, left_landing: l.1, right_landing: r.1 }, 0.5 * (l.0 + r.0))
    }

    /// All replies against a place, near frame, gathered by name: the most dangerous first.
    pub(crate) fn threats(&mut self, near: &Near<'_>, game: &Game, place: DVec2) -> Vec<Threat> {
        let duel = game.duel(1);
        let mut shares = Vec::new();
        self.look.shares(&duel, hitters(place), &mut shares);
        let court = &near.situation.conditions.court;
        let contact = DVec2::new(-f64::from(self.look.contact[0]), f64::from(self.look.contact[1]));
        let Some(kind) = self.look.kind else { return Vec::new() };
        let families = duel.strokes.families(kind);
        let mut threats: Vec<Threat> = Vec::new();
        for (i, (path, &(share, worth))) in self.look.paths.paths.iter().zip(&shares).enumerate() {
            let landing = DVec2::new(-f64::from(path.x), -f64::from(path.y));
            let way = (landing - contact).normalize_or(-DVec2::Y);
            let passes = contact + way * ((place.y - contact.y) / way.y.min(-1e-3));
            let first = self.look.paths.samples(path).iter().map(|s| -f64::from(s.depth)).fold(-1e3, f64::max);
            let stroke = families[usize::from(path.family)].stroke;
            let name = naming::name(court, stroke, contact, landing, passes, place, first);
            let chance = (self.look.stances.iter().zip(&self.look.chances))
                .map(|(s, c)| f64::from(s.weight) * f64::from(c[i].0))
                .sum::<f64>();
            let (share, worth) = (f64::from(share), f64::from(worth));
            let side = (passes.x - place.x).signum();
            let at = threats.iter().position(|t| t.name == name && (t.side - side).abs() < 0.5);
            let at = at.unwrap_or_else(|| {
                threats.push(Threat {
                    name,
                    side,
                    share: 0.0,
                    worth: 0.0,
                    chance: 0.0,
                    way: DVec2::ZERO,
                    path: *path,
                    most: 0.0,
                    best: 0.0,
                });
                threats.len() - 1
            });
            let t = &mut threats[at];
            t.share += share;
            t.worth += share * worth;
            t.chance += share * chance;
            t.way += share * (passes - place).normalize_or_zero();
            t.best = t.best.max(worth);
            if share > t.most {
                (t.most, t.path) = (share, *path);
            }
        }
        for t in &mut threats {
            let share = t.share.max(1e-12);
            t.worth /= share;
            t.chance /= share;
        }
        threats.sort_by(|a, b| (b.share * b.worth).total_cmp(&(a.share * a.worth)));
        threats
    }

    /// The reply that carries most of the danger to the spot, and the one that does on the other side.
    fn two_best(&mut self, near: &Near<'_>, game: &Game, receipt: &Receipt, spot: Place) -> Vec<Reply> {
        let threats = self.threats(near, game, spot.place);
        let Some(first) = threats.first().copied() else { return Vec::new() };
        let rest = || threats.iter().skip(1);
        let second = rest()
            .find(|t| t.side * first.side < 0.0 && t.name != ReplyName::AtTheBody && t.share > 0.04)
            .or_else(|| rest().find(|t| t.way.normalize_or_zero().dot(first.way.normalize_or_zero()) < OTHER_WAY))
            .or_else(|| rest().find(|t| t.side * first.side < 0.0))
            .copied();
        std::iter::once(first).chain(second).map(|t| self.reply(near, game, receipt, spot.place, &t)).collect()
    }

    /// The reply that is most dangerous to a place, in the near frame; its own quantities are in the world frame.
    pub(crate) fn worst(&mut self, near: &Near<'_>, game: &Game, receipt: &Receipt, place: DVec2) -> Option<Reply> {
        let threat = self.threats(near, game, place).first().copied()?;
        Some(self.reply(near, game, receipt, place, &threat))
    }

    fn reply(&self, near: &Near<'_>, game: &Game, receipt: &Receipt, spot: DVec2, threat: &Threat) -> Reply {
        let duel = game.duel(1);
        let c = &near.situation.conditions;
        let turn = near.turn;
        let path = &threat.path;
        let kind = self.look.kind.unwrap_or(Kind::Ground);
        let family = &duel.strokes.families(kind)[usize::from(path.family)];
        // The best point to meet it, and whether it is met at all.
        let from = duel.body(self.look.contact[0], self.look.contact[1]);
        let (mut met, mut most, mut reached) = (None, -1.0_f32, 0.0_f32);
        for s in self.look.paths.samples(path) {
            let [x, d] = hitters(spot);
            let meeting = duel.opponent.meeting(s);
            let (reach, f, b) = duel.opponent.at(&meeting, x, d);
            reached = reached.max(reach);
            let worth = duel.meeting_worth(from, duel.may_come_in(self.look.contact[1]), path.incoming(), s);
            let ramp = crate::worth::Ramp::new(&worth);
            let value = reach * ramp.at(f, 0).max(ramp.at(b, 1)) + 1e-4 * reach;
            if value > most {
                (met, most) = (Some(*s), value);
            }
        }
        let contact = near.turn.turn3(receipt.contact);
        let landing = DVec2::new(-f64::from(path.x), -f64::from(path.y));
        let (met_at, met_time) = met.map_or((landing.extend(0.0), f64::from(path.land_time)), |s| {
            (DVec3::new(f64::from(s.x), -f64::from(s.depth), f64::from(s.height)), f64::from(s.time))
        });
        let mover = near.mover();
        let needed = mover.time_needed(spot, met_at).unwrap_or(met_time);
        let direction = (landing - contact.truncate()).normalize_or(-DVec2::Y);
        let (speed, elevation) = (f64::from(path.speed), f64::from(path.elevation));
        let launch = BallState::launch(contact, speed, elevation, bearing(direction), family.topspin, 0.0);
        let flown = fly_path(&near.physics, &c.surface, &c.ball, launch, near.hitter.bounces, FLIGHT);
        let name = match threat.name {
            ReplyName::LeftCorner if turn.mirrors() => ReplyName::RightCorner,
            ReplyName::RightCorner if turn.mirrors() => ReplyName::LeftCorner,
            name => name,
        };
        Reply {
            name,
            stroke: family.stroke,
            speed,
            topspin: family.topspin,
            elevation,
            azimuth: bearing(turn.turn2(direction)),
            landing: turn.turn2(landing),
            landing_time: f64::from(path.land_time),
            chance_in: threat.chance,
            share: threat.share,
            wins_outright: threat.chance * (1.0 - f64::from(reached)),
            time_to_spare: met_time - needed,
            met_at: turn.turn3(met_at),
            exposure: threat.worth,
            path: sampled(&flown, near),
        }
    }
}

/// Replies of one name against a place, near frame.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Threat {
    pub name: ReplyName,
    /// On which side of the place they pass.
    pub side: f64,
    /// How often one of them is chosen.
    pub share: f64,
    /// The opponent's chance to win with one, weighted by how often it is chosen; and with the best of them.
    pub worth: f64,
    pub best: f64,
    pub chance: f64,
    pub way: DVec2,
    /// The one chosen most often.
    pub path: ReplyPath,
    most: f64,
}

/// Where the hitter should stand, and what can be made of it.
struct Choice {
    zone: Zone,
    /// The run, and the worth at the centre of the zone.
    recovery: (Recovery, f64),
    at_net: bool,
}

/// Chooses between the back and the net by what can be reached there in time.
fn choose(near: &Near<'_>, game: &Game, ground: &mut Side<'_>, survey: &mut Survey, time: f64) -> Choice {
    let court = &near.situation.conditions.court;
    let stand = near.stand();
    let width = ZONE_WIDTH;
    let areas: &[ReadyArea] = match near.situation.settings.ready {
        ReadyArea::Anywhere if near.may_come_in(&game.duel(0)) => &[ReadyArea::Back, ReadyArea::Net],
        ReadyArea::Anywhere | ReadyArea::Back => &[ReadyArea::Back],
        ReadyArea::Net => &[ReadyArea::Net],
    };
    let legs = &game.side(0).legs;
    let from = hitters(near.hitter_place);
    let mut best: Option<(f64, Zone, bool)> = None;
    for area in areas {
        let zone = survey.zone(ground, &stand.area(court, *area), Stand::usual(court, *area), width);
        let end = legs.recover(from, hitters(zone.centre), time as f32);
        let mut worth = Vec::new();
        ground.worth(&[DVec2::new(f64::from(end[0]), -f64::from(end[1]))], &mut worth);
        if best.as_ref().is_none_or(|b| worth[0] < b.0) {
            best = Some((worth[0], zone, *area == ReadyArea::Net));
        }
    }
    let (_, zone, at_net) =
        best.unwrap_or_else(|| (1.0, survey.zone(ground, &stand, Stand::usual(court, ReadyArea::Back), width), false));
    let mut recovery = recover(near, game, ground, zone.centre, time, at_net);
    // What is said of the place that is reached counts the striker as they are.
    let by = f64::from(ground.look.settle(ground.duel, hitters(recovery.0.reached.place)));
    let moved = |v: f64| (v + by).clamp(0.0, 1.0);
    recovery.0.reached.exposure = moved(recovery.0.reached.exposure);
    recovery.1 = moved(recovery.1);
    survey.values.iter_mut().for_each(|v| *v = moved(*v));
    let zone = Zone { least: moved(zone.least), ..zone };
    Choice { zone, recovery, at_net }
}

/// The spot and the run to it within a time, near frame, after a look was loaded.
pub(crate) fn choose_for(solver: &mut Solver, near: &Near<'_>, game: &Game, time: f64) -> (Place, Recovery) {
    let mut survey = std::mem::take(&mut solver.survey);
    let duel = game.duel(1);
    let mut ground = Side { look: &mut solver.look, duel: &duel, buffer: Vec::new() };
    survey.look(&mut ground, &near.stand());
    let Choice { zone, recovery: (recovery, exposure), .. } = choose(near, game, &mut ground, &mut survey, time);
    solver.survey = survey;
    (Place { place: zone.centre, exposure }, recovery)
}

/// The run from where the ball was struck to a place within `time`, near frame, and the worth at the place itself.
///
/// A place at the back that is out of reach is run for as far as it serves: the centre of what can be reached, weighted by
/// its worth. The way to the net is run straight.
fn recover(
    near: &Near<'_>,
    game: &Game,
    ground: &mut Side<'_>,
    goal: DVec2,
    time: f64,
    at_net: bool,
) -> (Recovery, f64) {
    let legs = &game.side(0).legs;
    let start = near.hitter_place;
    let from = hitters(start);
    let distance = goal.distance(start);
    let needed = if distance > 1e-6 { f64::from(legs.recovery_time(from, hitters(goal))) } else { 0.0 };
    let mut worth = Vec::new();
    ground.worth(&[goal], &mut worth);
    let at_goal = worth[0];
    let done = |reached: Place, short_by: f64| Recovery {
        start,
        distance,
        available: time,
        needed,
        short_by,
        reached,
        extra_exposure: (reached.exposure - at_goal).max(0.0),
    };
    if needed <= time {
        return (done(Place { place: goal, exposure: at_goal }, 0.0), at_goal);
    }
    let reached = if at_net {
        let end = legs.recover(from, hitters(goal), time as f32);
        let place = DVec2::new(f64::from(end[0]), -f64::from(end[1]));
        ground.worth(&[place], &mut worth);
        Place { place, exposure: worth[0] }
    } else {
        best_within(near, game, ground, time)
    };
    (done(reached, reached.place.distance(goal)), at_goal)
}

/// The centre of what can be reached within a time, weighted by its worth, near frame.
pub(crate) fn reach_centre(
    near: &Near<'_>,
    game: &Game,
    time: f64,
    mut worth: impl FnMut(&[DVec2]) -> Vec<f64>,
) -> Place {
    let legs = &game.side(0).legs;
    let start = near.hitter_place;
    let from = hitters(start);
    let stand = near.stand();
    let mut places = vec![stand.clamp(start)];
    for share in REACH_SHARES {
        for k in 0..REACH_DIRECTIONS {
            let way = DVec2::from_angle(k as f64 / REACH_DIRECTIONS as f64 * std::f64::consts::TAU);
            let far = hitters(start + way * 30.0);
            let end = legs.recover(from, far, time as f32);
            let end = DVec2::new(f64::from(end[0]), -f64::from(end[1]));
            places.push(stand.clamp(start + (end - start) * share));
        }
    }
    let values = worth(&places);
    let least = values.iter().copied().fold(f64::INFINITY, f64::min);
    let (mut sum, mut centre) = (0.0, DVec2::ZERO);
    for (i, (p, v)) in places.iter().zip(&values).enumerate() {
        // Places stand for more ground the further out they lie.
        let ring = i.checked_sub(1).map_or(0.1, |i| REACH_SHARES[i / REACH_DIRECTIONS]);
        let w = ring * (-(v - least) / REACHED_WIDTH).exp();
        sum += w;
        centre += w * p;
    }
    let centre = centre / sum;
    Place { place: centre, exposure: worth(&[centre])[0] }
}

fn best_within(near: &Near<'_>, game: &Game, ground: &mut Side<'_>, time: f64) -> Place {
    reach_centre(near, game, time, |places| {
        let mut out = Vec::new();
        ground.worth(places, &mut out);
        out
    })
}

/// How the opponent meets the ball, world frame.
pub(crate) fn receipt(near: &Near<'_>, met: &Interception) -> Receipt {
    let stance = met.stances.first().copied();
    let wing = stance.map_or(Wing::Forehand, |s| s.wing);
    let behaviour = Behaviour::default();
    let spare = stance.map_or(0.0, |s| f64::from(s.spare));
    // The body stands beside the ball and behind it as far as there was time to get there.
    let mover = Mover::new(&near.opponent, End::Far);
    let side = if wing == Wing::Forehand { mover.forehand_x } else { -mover.forehand_x };
    let beside = DVec2::new(-side * f64::from(behaviour.stance_beside), f64::from(behaviour.stance_ahead));
    let wanted = met.point.truncate() + beside;
    let run = mover.stride.distance(met.time - mover.reaction);
    let way = wanted - near.opponent_place;
    let body = if way.length() <= run { wanted } else { near.opponent_place + way.normalize_or_zero() * run };
    Receipt {
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

/// Azimuth of a ground direction.
fn bearing(v: DVec2) -> f64 {
    v.x.atan2(v.y)
}

/// The field in the world frame: each axis that is reversed runs backwards.
fn turned_field(field: &Field, turn: Turn) -> Field {
    let (sx, sy) = turn.signs();
    let mut turned = field.clone();
    let size = DVec2::new((field.columns - 1) as f64, (field.rows - 1) as f64) * field.step;
    if sx < 0.0 {
        turned.origin.x = -(field.origin.x + size.x);
        for row in turned.values.chunks_exact_mut(field.columns) {
            row.reverse();
        }
    }
    if sy < 0.0 {
        turned.origin.y = -(field.origin.y + size.y);
        let rows: Vec<f32> = turned.values.chunks_exact(field.columns).rev().flatten().copied().collect();
        turned.values = rows;
    }
    turned
}

/// Points of a path for drawing, world frame, until it ends or leaves the site.
fn sampled(path: &Path, near: &Near<'_>) -> Vec<PathPoint> {
    let court = &near.situation.conditions.court;
    let site = DVec2::new(court.site_half_width(), court.site_half_length());
    let end = path.end_time();
    let mut times: Vec<f64> = (0..=(end / PATH_STEP_S) as usize).map(|i| i as f64 * PATH_STEP_S).collect();
    // The bounces and the end belong to the picture exactly.
    times.extend(path.bounces.iter().map(|b| b.0));
    times.sort_by(f64::total_cmp);
    times.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    times
        .into_iter()
        .map(|time| PathPoint { time, point: path.position(time) })
        .take_while(|p| p.point.x.abs() <= site.x + 0.5 && p.point.y.abs() <= site.y + 0.5)
        .map(|p| PathPoint { time: p.time, point: near.turn.turn3(p.point) })
        .collect()
}

/// The hitter's shot with its numbers.
pub(crate) fn shot_flight(near: &Near<'_>, aimed: &Aim, path: &Path) -> ShotFlight {
    let turn = near.turn;
    let court = &near.situation.conditions.court;
    let landed = aimed.landed.state;
    // A solved aim has crossed the net.
    let crossing = aimed.landed.net.unwrap_or(crate::flight::Crossing { time: 0.0, point: near.shot.contact });
    let net_height = court.net_height(crossing.point.x);
    let chance = shot_chance(near, aimed);
    let points = sampled(path, near);
    let until = points.last().map_or(0.0, |p| p.time);
    ShotFlight {
        elevation: aimed.elevation,
        azimuth: bearing(turn.turn2(aimed.launch.velocity.truncate())),
        speed: near.shot.speed,
        net: NetCrossing {
            time: crossing.time,
            x: turn.signs().0 * crossing.point.x,
            height: crossing.point.z,
            net_height,
            clearance: crossing.point.z - near.physics.radius - net_height,
        },
        landing: Landing {
            time: aimed.landed.time,
            place: turn.turn2(landed.position.truncate()),
            speed: landed.speed(),
            angle: landed.descent_angle(),
        },
        apex: path.arcs[0].apex().point.z,
        path: points,
        bounces: path.bounces.iter().map(|b| b.0).filter(|&t| t <= until + 1e-9).collect(),
        chance_in: chance.good,
    }
}

/// How the hitter's own shot answers to its launch, from neighbouring flights, and how it spreads.
fn shot_errors(near: &Near<'_>, aimed: &Aim) -> (Sensitivity, scatter::Spread) {
    /// Small enough to be linear, large enough to stand clear of the integration's error.
    const NUDGE: f64 = 2e-3;
    const STEP: f64 = LAND_STEP;
    let shot = &near.shot;
    let net = aimed.landed.net.map_or(shot.contact, |n| n.point);
    let net_height = near.situation.conditions.court.net_height(net.x);
    let from = shot.contact.truncate();
    let probe = |elevation: f64, speed: f64| {
        let start = BallState::launch(shot.contact, speed, elevation, aimed.azimuth, shot.topspin, shot.sidespin);
        land(&near.physics, start, STEP)
            .map_or((0.0, 0.0), |l| ((l.state.position.truncate() - from).length(), l.net.map_or(0.0, |n| n.point.z)))
    };
    let way = shot.target - from;
    let range = way.length();
    let up = probe(aimed.elevation + NUDGE, shot.speed);
    let fast = probe(aimed.elevation, shot.speed * (1.0 + NUDGE));
    let flight = Sensitivity {
        clearance: net.z - near.physics.radius - net_height,
        net_up: (up.1 - net.z) / NUDGE,
        net_speed: (fast.1 - net.z) / NUDGE,
        range,
        range_up: (up.0 - range) / NUDGE,
        range_speed: (fast.0 - range) / NUDGE,
        along: way.y / range,
        across: way.x.abs() / range,
    };
    let player = &near.hitter;
    let wing = player.wing_for(shot.contact.x - near.hitter_place.x);
    let back = (near.opponent_place - from).normalize_or(DVec2::Y);
    let delivery = Delivery {
        stroke: shot.stroke,
        wing,
        speed: shot.speed,
        topspin: shot.topspin,
        pressure: near.situation.hitter_pressure,
        // The ball came from where the opponent stood when striking it, to the best of what one shot tells.
        turn: match shot.stroke {
            Stroke::Serve => 0.0,
            _ => back.dot(way / range).clamp(-1.0, 1.0).acos(),
        },
        outward: way.x.atan2(way.y) * player.outward(wing),
        height: shot.contact.z,
        depth: -shot.contact.y,
        elevation: aimed.elevation,
    };
    (flight, scatter::spread(&Behaviour::default(), player, &delivery))
}

/// Chance in of the hitter's own shot.
pub(crate) fn shot_chance(near: &Near<'_>, aimed: &Aim) -> scatter::Chance {
    let (flight, spread) = shot_errors(near, aimed);
    let (court, shot) = (&near.situation.conditions.court, &near.shot);
    let room = match shot.stroke {
        Stroke::Serve => Room::in_box(court, court.service_depth(), shot.target.x, shot.target.y),
        _ => Room::on(court, shot.target.x, shot.target.y),
    };
    scatter::with_mishits(&Behaviour::default(), &flight, &room, &spread)
}

/// One standard deviation of the landing of the hitter's own shot in depth and sideways, m.
pub(crate) fn shot_spread(near: &Near<'_>, aimed: &Aim) -> (f64, f64) {
    let (flight, spread) = shot_errors(near, aimed);
    scatter::landing_spread(&flight, &spread)
}
