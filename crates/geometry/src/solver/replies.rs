//! The opponent's options: the wedge, and the replies by name with their danger.

use glam::{DVec2, DVec3};

use super::{
    Solver,
    drawing::sampled,
    near::{FLIGHT, Near, bearing, hitters},
};
use crate::{
    ball::{bounce::fly_path, flight::BallState},
    replies::naming,
    solver::answer::{Interception, Place, Reply, ReplyName, Wedge},
    worth::{Game, Kind, ReplyPath},
};

/// Least difference of direction of the second best reply, seen from the spot: about 70 degrees.
const OTHER_WAY: f64 = 0.35;

impl Solver {
    /// The wedge in the near frame and the azimuth of its bisector from the direction `-y`, rad.
    ///
    /// On every row of the lattice the chance of the safest reply is followed outwards until it falls below
    /// `edge_chance`; the widest directions over all rows are the edges.
    pub(super) fn wedge(&self, near: &Near<'_>, receipt: Interception, edge_chance: f64) -> (Wedge, f64) {
        let apex = near.turn.turn2(receipt.contact.truncate());
        let angle = |p: DVec2| (p.x - apex.x).atan2(apex.y - p.y);
        // Best chance of each landing place; the striker's x is the negative of the near frame's.
        let mut cells: Vec<(u8, u8, DVec2, f64)> = Vec::new();
        let look = &self.look.main;
        for (i, path) in look.paths.paths.iter().enumerate() {
            let chance: f64 =
                (look.stances.iter().zip(&look.chances)).map(|(s, c)| f64::from(s.weight) * f64::from(c[i].0)).sum();
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
        // A stretched opponent may have no direction this safe; the safest one is used then.
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
        self.look.main.shares(&duel, hitters(place), &mut shares);
        let look = &self.look.main;
        let court = &near.situation.conditions.court;
        let contact = DVec2::new(-f64::from(look.contact[0]), f64::from(look.contact[1]));
        let Some(kind) = look.kind else { return Vec::new() };
        let families = duel.strokes.families(kind);
        let mut threats: Vec<Threat> = Vec::new();
        for (i, (path, &(share, worth))) in look.paths.paths.iter().zip(&shares).enumerate() {
            let landing = DVec2::new(-f64::from(path.x), -f64::from(path.y));
            let way = (landing - contact).normalize_or(-DVec2::Y);
            let passes = contact + way * ((place.y - contact.y) / way.y.min(-1e-3));
            let first = look.paths.samples(path).iter().map(|s| -f64::from(s.depth)).fold(-1e3, f64::max);
            let stroke = families[usize::from(path.family)].stroke;
            let name = naming::name(court, stroke, contact, landing, passes, place, first);
            let chance = (look.stances.iter().zip(&look.chances))
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

    /// The reply that is most dangerous to the spot, and the most dangerous one on the other side.
    pub(super) fn two_best(&mut self, near: &Near<'_>, game: &Game, receipt: &Interception, spot: Place) -> Vec<Reply> {
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
    pub(crate) fn worst(
        &mut self,
        near: &Near<'_>,
        game: &Game,
        receipt: &Interception,
        place: DVec2,
    ) -> Option<Reply> {
        let threat = self.threats(near, game, place).first().copied()?;
        Some(self.reply(near, game, receipt, place, &threat))
    }

    fn reply(&self, near: &Near<'_>, game: &Game, receipt: &Interception, spot: DVec2, threat: &Threat) -> Reply {
        let duel = game.duel(1);
        let c = &near.situation.conditions;
        let turn = near.turn;
        let path = &threat.path;
        let look = &self.look.main;
        let kind = look.kind.unwrap_or(Kind::Ground);
        let family = &duel.strokes.families(kind)[usize::from(path.family)];
        // The best point to meet it, and whether it is met at all.
        let from = duel.body(look.contact[0], look.contact[1]);
        let (mut met, mut most, mut reached) = (None, -1.0_f32, 0.0_f32);
        for s in look.paths.samples(path) {
            let [x, d] = hitters(spot);
            let meeting = duel.opponent.meeting(s);
            let (reach, f, b) = duel.opponent.at(&meeting, x, d);
            reached = reached.max(reach);
            let worth = duel.meeting_worth(from, duel.may_come_in(look.contact[1]), path.incoming(), s);
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
    /// Side of the place on which they pass.
    pub side: f64,
    /// How often one of these replies is chosen.
    pub share: f64,
    /// The opponent's chance to win with such a reply, weighted by how often it is chosen; and with the best of them.
    pub worth: f64,
    pub best: f64,
    pub chance: f64,
    pub way: DVec2,
    /// The reply chosen most often.
    pub path: ReplyPath,
    most: f64,
}
