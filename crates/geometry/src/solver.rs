//! The whole chain, from a situation to the answer.

use glam::DVec2;

use crate::{
    aim::{Aim, AimError, aim, legal},
    answer::{
        Answer, Bisector, Field, Landing, NetCrossing, Outcome, PathPoint, Place, Play, Receipt, Reply, ShotFlight,
        Wedge,
    },
    atlas::Atlas,
    bounce::{Path, fly_path},
    contours::contours,
    coverage::Mover,
    flight::{BallPhysics, BallState, FlyOptions, LAND_STEP, MAX_TIME, land},
    frame::End,
    judge::{Judge, Judged},
    naming,
    player::Wing,
    points::Columns,
    receipt::{Met, receive},
    recovery::recover,
    repertoire::{Responder, Striker, service_line},
    replies::ReplySet,
    scatter::{self, Delivery, Room, Sensitivity},
    situation::{Problem, ReadyArea, Situation, Stroke},
    spot::{Search, Stand},
};

/// A reply to the other side is preferred if it costs at most this much less.
const NEARLY: f64 = 0.05;
/// Level lines drawn besides the zone, as exposure above the least.
const WIDER_LEVELS: [f64; 2] = [0.05, 0.10];
/// The field is exact in the zone and so much above it. Further up the closer look's places, half a metre apart, are
/// joined smoothly.
const EXACT_ABOVE: f64 = 0.01;
/// Spacing of the points of a drawn path, s.
const PATH_STEP_S: f64 = 0.03;

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

/// Computes answers and keeps its buffers and flights between them.
#[derive(Debug, Clone, Default)]
pub struct Solver {
    atlas: Option<Atlas>,
    pub(crate) set: ReplySet,
    pub(crate) judge: Judge,
    pub(crate) search: Search,
    field: Field,
}

/// Solves one situation; use a [`Solver`] for more than one.
///
/// # Errors
/// See [`SolveError`].
pub fn solve(situation: &Situation) -> Result<Answer, SolveError> {
    Solver::new().solve(situation)
}

/// A situation in the frame of a near hitter, with what follows at once from it.
pub(crate) struct Near<'a> {
    pub situation: &'a Situation,
    pub physics: BallPhysics,
    pub shot: crate::situation::Shot,
    pub hitter_place: DVec2,
    pub opponent_place: DVec2,
}

impl<'a> Near<'a> {
    pub fn new(situation: &'a Situation) -> Self {
        let end = situation.hitter_end;
        let mut shot = situation.shot;
        shot.contact = end.turn3(shot.contact);
        shot.target = end.turn2(shot.target);
        let c = &situation.conditions;
        Self {
            situation,
            physics: BallPhysics::new(&c.ball, &c.air, c.law),
            shot,
            hitter_place: end.turn2(situation.hitter_place),
            opponent_place: end.turn2(situation.opponent_place),
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
        let bounces = self.situation.opponent.bounces;
        fly_path(&self.physics, &c.surface, &c.ball, aimed.launch, bounces, FLIGHT)
    }

    pub fn receive(&self, path: &Path) -> Met {
        let s = self.situation;
        let choice = match s.receipt {
            crate::situation::ReceiptChoice::Near(p) => crate::situation::ReceiptChoice::Near(s.hitter_end.turn2(p)),
            best => best,
        };
        let must_bounce = s.shot.stroke == Stroke::Serve;
        receive(&s.conditions.court, path, &s.opponent, self.opponent_place, choice, must_bounce)
    }

    pub fn striker(&self, path: &Path, receipt: &Receipt) -> Striker<'_> {
        self.striker_at(receipt, path.velocity(receipt.time).truncate().normalize_or(DVec2::Y))
    }

    fn striker_at(&self, receipt: &Receipt, incoming: DVec2) -> Striker<'_> {
        Striker {
            conditions: &self.situation.conditions,
            physics: &self.physics,
            player: &self.situation.opponent,
            contact: receipt.contact,
            wing: receipt.wing,
            bounces: receipt.bounces,
            pressure: receipt.pressure,
            incoming,
            serving: false,
        }
    }

    pub fn responder(&self) -> Responder {
        let p = &self.situation.hitter;
        Responder { bounces: p.bounces, overhead: p.reach.overhead }
    }

    pub fn stand(&self) -> Stand {
        Stand::new(&self.situation.conditions.court, self.situation.settings.ready)
    }

    pub fn mover(&self) -> Mover {
        Mover::new(&self.situation.hitter, End::Near)
    }
}

/// A situation taken up to the moment when the opponent meets the ball, or does not.
pub(crate) struct Begun<'a> {
    pub near: Near<'a>,
    pub aimed: Aim,
    pub path: Path,
    pub met: Met,
}

/// Refuses a situation that cannot be computed.
pub(crate) fn sound(situation: &Situation) -> Result<(), SolveError> {
    let problems = situation.validate();
    if problems.is_empty() { Ok(()) } else { Err(SolveError::Invalid(problems)) }
}

/// Plays a situation's shot until the opponent meets it.
pub(crate) fn begin(situation: &Situation) -> Result<Begun<'_>, SolveError> {
    sound(situation)?;
    let near = Near::new(situation);
    let aimed = near.aim()?;
    let path = near.path(&aimed);
    let met = near.receive(&path);
    Ok(Begun { near, aimed, path, met })
}

impl Solver {
    /// A solver with empty buffers.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Answers one situation.
    ///
    /// # Errors
    /// [`SolveError::Invalid`] with every problem of the input, or [`SolveError::Aim`] when the shot cannot be played.
    pub fn solve(&mut self, situation: &Situation) -> Result<Answer, SolveError> {
        let Begun { near, aimed, path, met } = begin(situation)?;
        let shot = shot_flight(&near, &aimed, &path);
        let outcome = match met {
            Met::Past { late_by, closest } => Outcome::Winner { late_by, closest: situation.hitter_end.turn3(closest) },
            Met::At(receipt) => self.play(&near, &near.striker(&path, &receipt), receipt),
        };
        Ok(Answer { shot, outcome, returner: self.returner(situation) })
    }

    /// The exposure of any standing places in a situation, world frame; the same numbers as the field's.
    ///
    /// Empty when the shot is a winner or leaves no reply.
    ///
    /// # Errors
    /// As [`Self::solve`].
    pub fn exposures(&mut self, situation: &Situation, places: &[DVec2]) -> Result<Vec<Place>, SolveError> {
        if self.loaded(situation)?.is_none() {
            return Ok(Vec::new());
        }
        let turn = |p| situation.hitter_end.turn2(p);
        Ok(places
            .iter()
            .map(|&place| Place { place, exposure: f64::from(self.judge.exposure(turn(place).as_vec2()).0) })
            .collect())
    }

    /// Plays a situation's shot and hands the replies to it to the judge; `None` when the shot is a winner or leaves no
    /// reply.
    pub(crate) fn loaded<'a>(&mut self, situation: &'a Situation) -> Result<Option<(Near<'a>, Receipt)>, SolveError> {
        let Begun { near, path, met, .. } = begin(situation)?;
        let Met::At(receipt) = met else { return Ok(None) };
        self.load(&near, &path, &receipt);
        Ok((!self.judge.is_empty()).then_some((near, receipt)))
    }

    /// Lists the replies and hands them to the judge.
    pub(crate) fn load(&mut self, near: &Near<'_>, path: &Path, receipt: &Receipt) {
        self.load_striker(near, &near.striker(path, receipt));
    }

    fn load_striker(&mut self, near: &Near<'_>, striker: &Striker<'_>) {
        if !self.atlas.as_ref().is_some_and(|a| a.fits(&near.physics)) {
            self.atlas = Some(Atlas::new(&near.physics));
        }
        if let Some(atlas) = &self.atlas {
            self.set.list(atlas, striker, near.responder());
        }
        self.judge.load(&mut self.set, &near.mover());
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
        let receipt = Receipt {
            contact: near.shot.contact,
            time: 0.0,
            place: near.opponent_place,
            wing: Wing::Forehand,
            bounces: 0,
            time_to_spare: 1.0,
            pressure: 0.0,
        };
        let mut striker = near.striker_at(&receipt, DVec2::Y);
        striker.serving = true;
        match self.play(&near, &striker, receipt) {
            Outcome::Play(play) => Some(play),
            Outcome::Winner { .. } | Outcome::NoReply(_) => None,
        }
    }

    fn play(&mut self, near: &Near<'_>, striker: &Striker<'_>, receipt: Receipt) -> Outcome {
        let situation = near.situation;
        let end = situation.hitter_end;
        self.load_striker(near, striker);
        if self.judge.is_empty() {
            return Outcome::NoReply(turned(receipt, end));
        }
        let stand = near.stand();
        let mover = near.mover();
        self.search.look(&mut self.judge, &stand);
        let (place, exposure) = self.search.least(&mut self.judge, &stand);
        let spot = Place { place, exposure };
        let least = (place, exposure);
        let exact_above = situation.settings.zone_tolerance + EXACT_ABOVE;
        self.search.field(&mut self.judge, least, exact_above, &mut self.field);
        let levels = [&[situation.settings.zone_tolerance], &WIDER_LEVELS[..]].concat();
        let mut lines = contours(&self.field, exposure, &levels);
        let mut judge = |p: DVec2| f64::from(self.judge.exposure(p.as_vec2()).0);
        let middle = DVec2::new(0.0, place.y);
        let middle = Place { place: middle, exposure: judge(middle) };
        let mut recovery = recover(&situation.hitter, &mover, near.hitter_place, spot, receipt.time, &mut judge);
        let (wedge, azimuth) = wedge(&self.set, receipt.contact.truncate(), situation.settings.edge_chance);
        let (sin, cos) = azimuth.sin_cos();
        let along = DVec2::new(sin, -cos);
        let apex = receipt.contact.truncate();
        let at_depth = apex + along * ((place.y - apex.y) / along.y);
        let mut bisector =
            Bisector { azimuth: 0.0, place: at_depth, exposure: judge(at_depth), offset: at_depth.x - place.x };
        let best = self.two_best(near, &receipt, &mover, spot);

        // Back into the world.
        for line in &mut lines {
            for p in line.rings.iter_mut().flatten() {
                *p = end.turn2(*p);
            }
        }
        let turn_place = |p: Place| Place { place: end.turn2(p.place), exposure: p.exposure };
        recovery.start = end.turn2(recovery.start);
        recovery.reached = turn_place(recovery.reached);
        bisector.place = end.turn2(bisector.place);
        bisector.azimuth = bearing(end.turn2(along));
        bisector.offset *= end.sign();
        Outcome::Play(Box::new(Play {
            receipt: turned(receipt, end),
            wedge: Wedge {
                apex: end.turn2(wedge.apex),
                left: bearing(end.turn2(wedge.left_landing - wedge.apex)),
                right: bearing(end.turn2(wedge.right_landing - wedge.apex)),
                left_landing: end.turn2(wedge.left_landing),
                right_landing: end.turn2(wedge.right_landing),
            },
            spot: turn_place(spot),
            field: turned_field(&self.field, end),
            contours: lines,
            bisector,
            best,
            recovery,
            middle: turn_place(middle),
            replies_weighed: self.set.meta.len(),
        }))
    }

    /// The reply that punishes the spot most, and the most punishing one that pulls the player another way.
    fn two_best(&self, near: &Near<'_>, receipt: &Receipt, mover: &Mover, spot: Place) -> Vec<Reply> {
        let Place { place: spot, exposure } = spot;
        let way = |j: &Judged| {
            (self.judge.columns.place(j.reply * self.set.points + j.point).truncate() - spot).normalize_or_zero()
        };
        // Most often it is among the replies that are nearly as good.
        for below in [NEARLY, 0.2, 1.0] {
            let all = self.judge.all(spot, (exposure - below).max(0.0));
            let Some(first) = all.first() else { return Vec::new() };
            let away = way(first);
            // To the other side if one there is nearly as good, else at least about 70 degrees apart seen from the spot.
            let other_side =
                |j: &&Judged| j.exposure > first.exposure - NEARLY && way(j).x * away.x < 0.0 && way(j).x.abs() > 0.2;
            let mut second = all.iter().find(other_side).or_else(|| all.iter().find(|j| way(j).dot(away) < 0.35));
            if below >= 1.0 {
                // In a service box both ways lie close together: then simply to the other side.
                second = second.or_else(|| all.iter().find(|j| way(j).x * away.x < 0.0));
            }
            if second.is_some() || below >= 1.0 {
                let both = std::iter::once(first).chain(second);
                return both.map(|j| self.reply(near, receipt, mover, spot, j)).collect();
            }
        }
        Vec::new()
    }

    /// The reply that punishes a place most, in the near frame; its own quantities are in the world frame.
    pub(crate) fn worst(&mut self, near: &Near<'_>, receipt: &Receipt, mover: &Mover, place: DVec2) -> Option<Reply> {
        let most = f64::from(self.judge.exposure(place.as_vec2()).0);
        let all = self.judge.all(place, most - 1e-4);
        all.first().map(|judged| self.reply(near, receipt, mover, place, judged))
    }

    fn reply(&self, near: &Near<'_>, receipt: &Receipt, mover: &Mover, spot: DVec2, judged: &Judged) -> Reply {
        let c = &near.situation.conditions;
        let end = near.situation.hitter_end;
        let meta = &self.set.meta[judged.reply];
        let aimed = &self.set.aims[usize::from(meta.aimed)];
        let at = judged.reply * self.set.points + judged.point;
        let columns = &self.judge.columns;
        let (met_at, met_time) = (columns.place(at), f64::from(columns.t[at]));
        let needed = mover.time_needed(spot, met_at).unwrap_or(met_time);
        let launch =
            BallState::launch(receipt.contact, meta.speed, meta.elevation, bearing(aimed.direction), meta.topspin, 0.0);
        let bounces = near.situation.hitter.bounces;
        let path = fly_path(&near.physics, &c.surface, &c.ball, launch, bounces, FLIGHT);
        let contact = receipt.contact.truncate();
        let name = naming::name(
            &c.court,
            meta.stroke,
            contact,
            aimed.landing,
            met_at.truncate(),
            spot,
            first_reach_y(columns, judged.reply * self.set.points..(judged.reply + 1) * self.set.points),
        );
        Reply {
            name,
            stroke: meta.stroke,
            speed: meta.speed,
            topspin: meta.topspin,
            elevation: meta.elevation,
            azimuth: bearing(end.turn2(aimed.direction)),
            landing: end.turn2(aimed.landing),
            landing_time: meta.landing_time,
            chance_in: meta.chance,
            time_to_spare: met_time - needed,
            met_at: end.turn3(met_at),
            exposure: judged.exposure,
            path: sampled(&path, near.situation),
        }
    }
}

/// Where a reply first is within the player's highest reach, y in the near frame.
pub(crate) fn first_reach_y(columns: &Columns, points: std::ops::Range<usize>) -> f64 {
    points.into_iter().find(|&i| columns.share[i] > 0.0).map_or(0.0, |i| f64::from(columns.y[i]))
}

/// Azimuth of a ground direction.
fn bearing(v: DVec2) -> f64 {
    v.x.atan2(v.y)
}

pub(crate) fn turned(mut receipt: Receipt, end: End) -> Receipt {
    receipt.contact = end.turn3(receipt.contact);
    receipt.place = end.turn2(receipt.place);
    receipt
}

/// The field in the world frame: the half-turn reverses both axes, so the values run backwards.
fn turned_field(field: &Field, end: End) -> Field {
    match end {
        End::Near => field.clone(),
        End::Far => {
            let size = DVec2::new((field.columns - 1) as f64, (field.rows - 1) as f64) * field.step;
            Field { origin: -(field.origin + size), values: field.values.iter().rev().copied().collect(), ..*field }
        }
    }
}

/// Points of a path for drawing, world frame, until it ends or leaves the site.
fn sampled(path: &Path, situation: &Situation) -> Vec<PathPoint> {
    let court = &situation.conditions.court;
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
        .map(|p| PathPoint { time: p.time, point: situation.hitter_end.turn3(p.point) })
        .collect()
}

/// The hitter's shot with its numbers.
pub(crate) fn shot_flight(near: &Near<'_>, aimed: &Aim, path: &Path) -> ShotFlight {
    let s = near.situation;
    let end = s.hitter_end;
    let court = &s.conditions.court;
    let landed = aimed.landed.state;
    // A solved aim has crossed the net.
    let crossing = aimed.landed.net.unwrap_or(crate::flight::Crossing { time: 0.0, point: near.shot.contact });
    let net_height = court.net_height(crossing.point.x);
    let chance = shot_chance(near, aimed);
    let points = sampled(path, s);
    let until = points.last().map_or(0.0, |p| p.time);
    ShotFlight {
        elevation: aimed.elevation,
        azimuth: bearing(end.turn2(aimed.launch.velocity.truncate())),
        speed: near.shot.speed,
        net: NetCrossing {
            time: crossing.time,
            x: end.sign() * crossing.point.x,
            height: crossing.point.z,
            net_height,
            clearance: crossing.point.z - near.physics.radius - net_height,
        },
        landing: Landing {
            time: aimed.landed.time,
            place: end.turn2(landed.position.truncate()),
            speed: landed.speed(),
            angle: landed.descent_angle(),
        },
        apex: path.arcs[0].apex().point.z,
        path: points,
        bounces: path.bounces.iter().map(|b| b.0).filter(|&t| t <= until + 1e-9).collect(),
        chance_in: chance.good,
    }
}

/// Chance in of the hitter's own shot, with sensitivities from neighbouring flights.
pub(crate) fn shot_chance(near: &Near<'_>, aimed: &Aim) -> scatter::Chance {
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
    let player = &near.situation.hitter;
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
        height: shot.contact.z,
    };
    let spread = scatter::spread(&scatter::skill_of(player, shot.stroke, wing), &delivery).lofted(aimed.elevation);
    let court = &near.situation.conditions.court;
    let room = match shot.stroke {
        Stroke::Serve => Room::in_box(court, service_line(court), shot.target.x, shot.target.y),
        _ => Room::on(court, shot.target.x, shot.target.y),
    };
    scatter::chance(&flight, &room, &spread)
}

/// The wedge in the frame of the near player and the azimuth of its bisector from the direction `-y`, rad.
///
/// On every row of the lattice the chance of the safest reply is followed outwards until it falls below the wanted
/// one; the widest directions over all rows are the edges.
pub(crate) fn wedge(set: &ReplySet, apex: DVec2, edge_chance: f64) -> (Wedge, f64) {
    let angle = |p: DVec2| (p.x - apex.x).atan2(apex.y - p.y);
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
    for (i, aimed) in set.aims.iter().enumerate() {
        if set.best_chance[i] < edge_chance {
            continue;
        }
        widen(aimed.landing);
        for n in [i.wrapping_sub(1), i + 1] {
            if let Some(next) = set.aims.get(n)
                && next.row == aimed.row
                && set.best_chance[n] < edge_chance
            {
                let (inside, outside) = (set.best_chance[i], set.best_chance[n]);
                widen(aimed.landing.lerp(next.landing, (inside - edge_chance) / (inside - outside)));
            }
        }
    }
    // A stretched opponent may have no direction this safe; then the safest one is all there is.
    let safest = || {
        let best = (0..set.aims.len()).max_by(|&a, &b| set.best_chance[a].total_cmp(&set.best_chance[b]));
        best.map_or((0.0, apex - DVec2::Y), |i| (angle(set.aims[i].landing), set.aims[i].landing))
    };
    // The striker faces -y, so +x is on their left.
    let (l, r) = (left.unwrap_or_else(safest), right.unwrap_or_else(safest));
    (Wedge { apex, left: l.0, right: r.0, left_landing: l.1, right_landing: r.1 }, 0.5 * (l.0 + r.0))
}
