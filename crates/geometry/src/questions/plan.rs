//! A plan of two shots: the opponent's likely replies to a shot, and the best next shot against each.

use glam::{DVec2, DVec3};

use crate::{
    court::frame::End,
    questions::compare::{Choice, Pace},
    replies::naming::{self, Direction},
    shot::{
        aim::usual_delivery,
        situation::{ReadyArea, ReceiptChoice, Settings, Shot, Situation},
        stroke::Stroke,
    },
    solver::{
        Loaded, Near, SolveError, Solver,
        answer::{Outcome, PathPoint, ReplyName},
    },
};

/// Number of replies that are planned for.
const REPLIES: usize = 2;
/// Least share of a reply that is planned for. A choice: one ball in twenty.
const LEAST_SHARE: f64 = 0.05;
/// Choices compared for the next shot.
const NEXT: [Choice; 6] =
    [Choice::CrossCourt, Choice::DownTheLine, Choice::Middle, Choice::ShortAngle, Choice::Drop, Choice::Lob];
/// Share of the highest reach above which a ball met in the air is smashed.
const SMASHED: f64 = 0.7;

/// One reply with the next shot against it.
#[derive(Debug, Clone, PartialEq)]
pub struct Planned {
    /// Name of the reply, by its direction.
    pub reply: ReplyName,
    /// How often the opponent plays a reply of this name, 0 to 1.
    pub share: f64,
    /// The likeliest reply of this name, world frame; its contact is where the opponent meets the ball.
    pub shot: Shot,
    /// Its path until it is met.
    pub path: Vec<PathPoint>,
    /// The next shot; `None` when the reply is not reached.
    pub next: Option<Next>,
}

/// The best shot against a reply.
#[derive(Debug, Clone, PartialEq)]
pub struct Next {
    /// Choice of the shot.
    pub choice: Choice,
    /// The shot, aimed at its best place, world frame.
    pub shot: Shot,
    /// Its path to the first bounce.
    pub path: Vec<PathPoint>,
    /// Where the player meets the ball, on the ground, world frame.
    pub place: DVec2,
    /// The chance to win the point with it, 0 to 1.
    pub win: f64,
    /// The next best and its chance.
    pub other: Option<(Choice, f64)>,
}

/// Replies of one name, near frame.
struct Group {
    name: ReplyName,
    share: f64,
    /// Share, stroke, landing, speed and topspin of the likeliest.
    likeliest: (f64, Stroke, DVec2, f64, f64),
}

impl Solver {
    /// The likeliest replies to a situation's shot, the likelier first, each with the best next shot: from where the
    /// player then meets the ball, with both players at the places they have reached. Empty when the shot is a winner
    /// or leaves no reply.
    ///
    /// # Errors
    /// As [`Solver::solve`].
    pub fn plan(&mut self, situation: &Situation) -> Result<Vec<Planned>, SolveError> {
        let Some(Loaded { near, game, met, recovery, .. }) = self.loaded(situation)? else { return Ok(Vec::new()) };
        let receipt = crate::solver::receipt(&near, &met);
        let reached = recovery.reached.place;
        let groups = self.likeliest(&near, &game, reached);
        let turn = near.turn;
        let mut planned = Vec::new();
        for group in groups {
            let (_, stroke, landing, speed, topspin) = group.likeliest;
            let shot =
                Shot { contact: receipt.contact, stroke, target: turn.turn2(landing), speed, topspin, sidespin: 0.0 };
            let theirs = Situation {
                hitter_end: situation.hitter_end.other(),
                hitter: situation.opponent,
                opponent: situation.hitter,
                hitter_habits: situation.opponent_habits,
                opponent_habits: situation.hitter_habits,
                hitter_place: receipt.place,
                opponent_place: turn.turn2(reached),
                hitter_pressure: receipt.pressure,
                shot,
                receipt: ReceiptChoice::Best,
                settings: settings_after(situation, &shot),
                ..*situation
            };
            // Balls for which the flight law and the table disagree are left out.
            let Ok(answer) = self.solve(&theirs) else { continue };
            let until = match &answer.outcome {
                Outcome::Play(play) => play.receipt.time,
                Outcome::NoReply(receipt) => receipt.time,
                Outcome::Winner { .. } => f64::INFINITY,
            };
            let next = match &answer.outcome {
                Outcome::Play(play) => {
                    let met = &play.receipt;
                    let shot = drawn(situation, met.contact, met.place, met.bounces == 0);
                    let mine = Situation {
                        hitter_place: play.receipt.place,
                        opponent_place: play.recovery.reached.place,
                        hitter_pressure: play.receipt.pressure,
                        shot,
                        receipt: ReceiptChoice::Best,
                        settings: settings_after(situation, &shot),
                        ..*situation
                    };
                    self.next(&mine)?
                }
                _ => None,
            };
            let path = answer.shot.path.iter().filter(|p| p.time <= until).copied().collect();
            planned.push(Planned { reply: named(group.name, turn.mirrors()), share: group.share, shot, path, next });
        }
        Ok(planned)
    }

    /// The likeliest replies against a player at a place, near frame, gathered by direction.
    fn likeliest(&mut self, near: &Near<'_>, game: &crate::worth::Game, reached: DVec2) -> Vec<Group> {
        let duel = game.duel(1);
        let Some(kind) = self.look.main.kind else { return Vec::new() };
        let mut shares = Vec::new();
        self.look.main.shares(&duel, [reached.x as f32, -reached.y as f32], &mut shares);
        let families = duel.strokes.families(kind);
        let court = &near.situation.conditions.court;
        // In the striker's own frame, x to their right.
        let contact = DVec2::new(f64::from(self.look.main.contact[0]), -f64::from(self.look.main.contact[1]));
        let mut groups: Vec<Group> = Vec::new();
        for (path, &(share, _)) in self.look.main.paths.paths.iter().zip(&shares) {
            let own = DVec2::new(f64::from(path.x), f64::from(path.y));
            let family = &families[usize::from(path.family)];
            let name = reply_name(court, family.stroke, contact, own);
            let share = f64::from(share);
            let one = (share, family.stroke, DVec2::new(-own.x, -own.y), f64::from(path.speed), family.topspin);
            match groups.iter_mut().find(|g| g.name == name) {
                Some(group) => {
                    group.share += share;
                    if share > group.likeliest.0 {
                        group.likeliest = one;
                    }
                }
                None => groups.push(Group { name, share, likeliest: one }),
            }
        }
        groups.sort_by(|a, b| b.share.total_cmp(&a.share));
        groups.retain(|g| g.share >= LEAST_SHARE);
        groups.truncate(REPLIES);
        groups
    }

    /// The best shot from a contact, and the next best.
    fn next(&mut self, mine: &Situation) -> Result<Option<Next>, SolveError> {
        let mut all: Vec<(Choice, Shot, f64)> = Vec::new();
        for choice in NEXT {
            let Some(shot) = self.aimed(choice, mine, Pace::Free)? else { continue };
            if let Ok(win) = self.win(&Situation { shot, ..*mine }) {
                all.push((choice, shot, win));
            }
        }
        all.sort_by(|a, b| b.2.total_cmp(&a.2));
        let Some(&(choice, shot, win)) = all.first() else { return Ok(None) };
        let answer = self.solve(&Situation { shot, ..*mine })?;
        let landed = answer.shot.landing.time;
        Ok(Some(Next {
            choice,
            shot,
            path: answer.shot.path.iter().filter(|p| p.time <= landed).copied().collect(),
            place: mine.hitter_place,
            win,
            other: all.get(1).map(|(choice, _, win)| (*choice, *win)),
        }))
    }
}

/// Settings for a shot that follows: a player who volleys or smashes in front of the service line stays at the net.
pub(crate) fn settings_after(situation: &Situation, shot: &Shot) -> Settings {
    let court = &situation.conditions.court;
    let line = court.service_line.unwrap_or(0.5 * court.half_length());
    let at_net = matches!(shot.stroke, Stroke::Volley | Stroke::Overhead) && shot.contact.y.abs() <= line;
    Settings { ready: if at_net { ReadyArea::Net } else { ReadyArea::Anywhere }, ..situation.settings }
}

/// The usual drive or volley from a contact, on which the choices are based.
fn drawn(situation: &Situation, contact: DVec3, place: DVec2, air: bool) -> Shot {
    let end: End = situation.hitter_end;
    let (hitter, court) = (&situation.hitter, &situation.conditions.court);
    let stroke = match air {
        true if contact.z > SMASHED * hitter.reach.overhead && contact.z >= 1.5 => Stroke::Overhead,
        true => Stroke::Volley,
        false => Stroke::Topspin,
    };
    let here = end.turn3(contact);
    let wing = hitter.wing_for(here.x - end.turn2(place).x);
    let target = DVec2::new(0.0, 0.8 * court.half_length());
    let (speed, topspin) = usual_delivery(&situation.conditions, hitter, wing, stroke, here, target);
    Shot { contact, stroke, target: end.turn2(target), speed, topspin, sidespin: 0.0 }
}

/// The name of a reply by its landing, in its striker's own frame.
pub(crate) fn reply_name(court: &crate::court::Court, stroke: Stroke, contact: DVec2, landing: DVec2) -> ReplyName {
    let scale = court.half_width() / 4.115;
    match stroke {
        Stroke::Lob => return ReplyName::Lob,
        Stroke::Drop => return ReplyName::DropShot,
        _ => {}
    }
    let side = if contact.x >= 0.0 { 1.0 } else { -1.0 };
    let way = naming::direction(court, contact, landing, side);
    // Within a metre of the middle no ball counts as down the line or cross-court.
    let central = contact.x.abs() < scale;
    match way {
        Direction::Middle => ReplyName::Middle,
        // The striker's left is the standing player's right.
        _ if central && landing.x < 0.0 => ReplyName::RightCorner,
        _ if central => ReplyName::LeftCorner,
        Direction::Line => ReplyName::DownTheLine,
        Direction::Across => ReplyName::CrossCourt,
    }
}

/// A reply name converted from a mirrored frame.
fn named(name: ReplyName, mirrored: bool) -> ReplyName {
    match name {
        ReplyName::LeftCorner if mirrored => ReplyName::RightCorner,
        ReplyName::RightCorner if mirrored => ReplyName::LeftCorner,
        name => name,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{player::presets::Level, questions::judge_place::tests::drive};

    fn planned(situation: &Situation) -> Vec<Planned> {
        Solver::new().plan(situation).expect("it can be computed")
    }

    #[test]
    fn two_replies_are_answered_from_where_they_are_met() {
        let situation = drive(DVec2::new(-2.9, 9.6), Level::Tournament);
        let answer = Solver::new().solve(&situation).expect("it can be played");
        let play = answer.play().expect("it is met");
        let plan = planned(&situation);
        assert_eq!(plan.len(), 2);
        assert!(plan[0].share >= plan[1].share && plan[0].share + plan[1].share <= 1.0 + 1e-6);
        assert_ne!(plan[0].reply, plan[1].reply);
        let mut solver = Solver::new();
        for reply in &plan {
            assert!(reply.shot.contact.distance(play.receipt.contact) < 1e-9, "struck where it is met");
            let next = reply.next.as_ref().expect("a ball from the back is reached");
            assert!(next.shot.contact.y < 0.0 && next.shot.target.y > 0.0);
            assert!(next.other.is_some_and(|(other, win)| other != next.choice && win <= next.win));
            // Same computation as the board's rally: the reply, then the next shot from there.
            let theirs = Situation {
                hitter_end: End::Far,
                hitter_place: play.receipt.place,
                opponent_place: play.recovery.reached.place,
                hitter_pressure: play.receipt.pressure,
                shot: reply.shot,
                ..situation
            };
            let back = solver.solve(&theirs).expect("it can be played");
            let met = back.play().expect("it is met").receipt;
            assert!(met.contact.distance(next.shot.contact) < 1e-9 && met.place.distance(next.place) < 1e-9);
        }
    }

    #[test]
    fn a_mirrored_situation_has_the_mirrored_plan() {
        let situation = drive(DVec2::new(-2.9, 9.6), Level::Tournament);
        let flip = |p: DVec2| DVec2::new(-p.x, p.y);
        let mut other = situation;
        (other.hitter, other.opponent) = (situation.hitter.mirrored(), situation.opponent.mirrored());
        other.shot.contact.x = -situation.shot.contact.x;
        other.shot.target = flip(situation.shot.target);
        other.hitter_place = flip(situation.hitter_place);
        other.opponent_place = flip(situation.opponent_place);
        for (a, b) in planned(&situation).iter().zip(planned(&other)) {
            assert_eq!((a.reply, a.share.to_bits()), (b.reply, b.share.to_bits()));
            let (a, b) = (a.next.as_ref().unwrap(), b.next.unwrap());
            assert_eq!((a.choice, a.win.to_bits()), (b.choice, b.win.to_bits()));
            assert!((flip(a.shot.target) - b.shot.target).length() < 1e-9);
        }
    }

    #[test]
    fn a_ball_nobody_reaches_needs_no_plan() {
        let mut situation = drive(DVec2::new(-3.9, 11.0), Level::Club);
        situation.opponent_place = DVec2::new(6.0, 17.0);
        situation.shot.speed = 36.0;
        assert!(planned(&situation).is_empty());
    }
}
