//! Comparison of shots from one contact.

use glam::DVec2;

use crate::{
    player::Wing,
    shot::{
        aim::usual_delivery,
        quality::{Quality, quality},
        situation::{Shot, Situation},
        stroke::Stroke,
    },
    solver::{Near, SolveError, Solver, answer::Answer, shot_chance, sound},
};

/// The usual choices from a contact.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Choice {
    /// The shot as it is on the board.
    AsDrawn,
    /// Diagonally, deep.
    CrossCourt,
    /// Along the near sideline.
    DownTheLine,
    /// Through the middle, deep.
    Middle,
    /// Diagonally and short, leaving over the sideline.
    ShortAngle,
    /// From the backhand side with the forehand to the opponent's backhand corner.
    InsideOut,
    /// Over the opponent.
    Lob,
    /// Dies behind the net.
    Drop,
    /// First serve to the outside of the box.
    ServeWide,
    /// First serve at the receiver.
    ServeBody,
    /// First serve down the centre line.
    ServeT,
    /// Second serve, with more spin and room.
    SecondServe,
}

impl Choice {
    /// All choices in the order tables list them.
    pub const ALL: [Self; 12] = [
        Self::AsDrawn,
        Self::CrossCourt,
        Self::DownTheLine,
        Self::Middle,
        Self::ShortAngle,
        Self::InsideOut,
        Self::Lob,
        Self::Drop,
        Self::ServeWide,
        Self::ServeBody,
        Self::ServeT,
        Self::SecondServe,
    ];

    /// The shot of this choice, from the contact of a situation, at its usual place; [`Solver::aimed`] finds the place
    /// where it wins most.
    ///
    /// Targets leave the room that is usual in practice (no source): deep ones 1.9 m before the baseline and 1 m inside
    /// the sideline, scaled on smaller courts. Drives keep the stroke, speed and spin of the board's shot when it is a
    /// drive; touch shots take their own. `None` where the choice does not exist: an inside-out from the forehand side,
    /// a rally shot when the drawn one is a serve and the other way round.
    #[must_use]
    pub fn shot(self, situation: &Situation) -> Option<Shot> {
        let drawn = situation.shot;
        if self == Self::AsDrawn {
            return Some(drawn);
        }
        let serve = matches!(self, Self::ServeWide | Self::ServeBody | Self::ServeT | Self::SecondServe);
        if serve != (drawn.stroke == Stroke::Serve) {
            return None;
        }
        if serve {
            return self.serve(situation);
        }
        let end = situation.hitter_end;
        let court = &situation.conditions.court;
        let scale = (court.half_length() / 11.885, court.half_width() / 4.115);
        let contact = end.turn3(drawn.contact);
        let place = end.turn2(situation.hitter_place);
        let opponent = end.turn2(situation.opponent_place);
        let wing = situation.hitter.wing_for(contact.x - place.x);
        // At the centre line "cross" is the natural direction of a drive: across the body.
        let natural = match wing {
            Wing::Forehand => situation.hitter.hand.forehand_sign(),
            Wing::Backhand => -situation.hitter.hand.forehand_sign(),
        };
        let side = if contact.x.abs() < 0.3 { natural } else { contact.x.signum() };
        let half = court.half_width();
        let wide = half - 1.0 * scale.1;
        let deep = court.half_length() - 1.9 * scale.0;
        let at = |x: f64, y: f64| end.turn2(DVec2::new(x, y));
        let in_the_air = matches!(drawn.stroke, Stroke::Volley | Stroke::Overhead);
        // A ball struck in the air keeps its stroke.
        let short_stroke = (!in_the_air).then_some(Stroke::Topspin);
        let (stroke, target) = match self {
            Self::AsDrawn | Self::ServeWide | Self::ServeBody | Self::ServeT | Self::SecondServe => return None,
            Self::CrossCourt => (None, at(-side * wide, deep)),
            Self::DownTheLine => (None, at(side * wide, deep)),
            Self::Middle => (None, at(0.0, deep)),
            Self::ShortAngle => (short_stroke, at(-side * (half - 0.6 * scale.1), 5.2 * scale.0)),
            Self::InsideOut => {
                // Struck with the forehand from the backhand side, towards the side to which a forehand from there
                // pulls.
                let forehand = situation.hitter.hand.forehand_sign();
                if wing != Wing::Forehand || contact.x * forehand > -0.3 {
                    return None;
                }
                (None, at(forehand * wide, deep))
            }
            Self::Lob => {
                // Over the backhand shoulder: the smash from there is the harder one.
                let backhand = situation.opponent.hand.forehand_sign();
                (Some(Stroke::Lob), at(backhand * 0.55 * half, court.half_length() - 1.4 * scale.0))
            }
            Self::Drop => {
                let away = if opponent.x.abs() < 0.5 { -side } else { -opponent.x.signum() };
                (Some(Stroke::Drop), at(away * 0.62 * half, 2.6 * scale.0))
            }
        };
        let mut shot = Shot { target, sidespin: 0.0, ..drawn };
        let drives = in_the_air || matches!(drawn.stroke, Stroke::Topspin | Stroke::Flat | Stroke::Slice);
        let wanted = stroke.unwrap_or(if drives { drawn.stroke } else { Stroke::Topspin });
        if wanted != drawn.stroke || (stroke.is_none() && !drives) {
            let turned = end.turn2(target);
            shot.stroke = wanted;
            (shot.speed, shot.topspin) =
                usual_delivery(&situation.conditions, &situation.hitter, wing, wanted, contact, turned);
        }
        if self == Self::ShortAngle && !in_the_air {
            // The angle lands in only with less speed and more spin than a deep drive.
            shot.speed *= 0.8;
            shot.topspin = shot.topspin.max(situation.hitter.wing(wing).topspin * 1.15);
        }
        Some(shot)
    }
}

impl Choice {
    /// A serve from the drawn contact: to its part of the box, a metre before the service line (the second serve 1.6 m).
    fn serve(self, situation: &Situation) -> Option<Shot> {
        let end = situation.hitter_end;
        let court = &situation.conditions.court;
        let service_line = court.service_line?;
        let side = if end.turn3(situation.shot.contact).x >= 0.0 { -1.0 } else { 1.0 };
        let skill = &situation.hitter.serve;
        let half = court.half_width();
        // To the receiver's backhand, the usual target of second serves: the side of the receiver's other hand.
        let backhand = situation.opponent.hand.forehand_sign();
        let (across, short, speed, topspin) = match self {
            Self::ServeWide => (0.84, 1.0, skill.first_speed, skill.topspin / 3.0),
            Self::ServeBody => (0.5, 1.0, skill.first_speed, skill.topspin / 3.0),
            Self::ServeT => (0.16, 1.0, skill.first_speed, skill.topspin / 3.0),
            _ => (if backhand * side > 0.0 { 0.72 } else { 0.28 }, 1.6, skill.second_speed, skill.topspin),
        };
        let target = end.turn2(DVec2::new(side * across * half, service_line - short));
        Some(Shot { target, speed, topspin, sidespin: 0.0, ..situation.shot })
    }
}

/// One choice with its results.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Weighed {
    /// Which choice.
    pub choice: Choice,
    /// The shot.
    pub shot: Shot,
    /// The shot's own quality and the answer, or why it cannot be played.
    pub result: Result<(Quality, Answer), SolveError>,
    /// Chance that the hitter wins the point, where the shot can be played.
    pub win: Option<f64>,
}

impl Weighed {
    /// The model's chance that the hitter wins the point with this shot, 0 to 1; `None` if it cannot be played.
    ///
    /// Averaged over where the ball may land, with the recovery that serves best; a first serve that misses leaves the
    /// second.
    #[must_use]
    pub fn win(&self) -> Option<f64> {
        self.result.as_ref().ok()?;
        self.win
    }
}

impl Solver {
    /// The model's chance that the hitter wins the point with a situation's shot, 0 to 1.
    ///
    /// # Errors
    /// As [`Solver::solve`].
    pub fn win(&mut self, situation: &Situation) -> Result<f64, SolveError> {
        sound(situation)?;
        let near = Near::new(situation);
        let aimed = near.aim()?;
        let chance = shot_chance(&near, &aimed).good;
        let (game, _) = self.game(&near);
        let lost = self.lost(&near, &game, &aimed, None);
        let first = situation.shot.stroke == Stroke::Serve && situation.is_first_serve();
        let miss =
            if first { game.serve(0, near.shot.contact.x < 0.0).map_or(0.0, |s| f64::from(s.worth[1])) } else { 0.0 };
        Ok(chance * (1.0 - lost) + (1.0 - chance) * miss)
    }
}

/// Speeds allowed for a named shot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pace {
    /// The drawn speed only.
    Fixed,
    /// The drawn speed, lowered where the ball would not land in.
    Drawn,
    /// The speed that wins most.
    Free,
}

/// Compares choices from the contact of a situation, each aimed at its own best place; choices that do not exist there
/// are left out.
pub fn weigh(solver: &mut Solver, situation: &Situation, choices: &[Choice]) -> Vec<Weighed> {
    let all = choices.iter().filter_map(|&choice| {
        let usual = choice.shot(situation)?;
        // A situation that cannot be computed is refused by the answer, with its message.
        let shot = solver.aimed(choice, situation, Pace::Drawn).ok().flatten().unwrap_or(usual);
        let situation = Situation { shot, ..*situation };
        let result = solver.solve(&situation).and_then(|answer| Ok((quality(&situation)?, answer)));
        let win = solver.win(&situation).ok();
        Some(Weighed { choice, shot, result, win })
    });
    all.collect()
}

/// How one shot differs from another; every figure is the second minus the first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Difference {
    /// Chance in.
    pub chance_in: f64,
    /// Net clearance, m.
    pub clearance: f64,
    /// Height of the tape at the crossing, m.
    pub net_height: f64,
    /// Time until the opponent's contact, s; negative: less for the opponent.
    pub opponent_time: Option<f64>,
    /// The opponent's time to spare, s.
    pub opponent_spare: Option<f64>,
    /// Opening of the reply wedge, rad.
    pub wedge: Option<f64>,
    /// Length of the recovery run, m.
    pub recovery: Option<f64>,
    /// Time the recovery lacks (positive) or leaves (negative), s.
    pub lack: Option<f64>,
    /// Exposure after the recovery really made.
    pub exposure: Option<f64>,
    /// Chance to win the point.
    pub win: f64,
}

/// The difference between two shots that can both be played.
#[must_use]
pub fn difference(first: &Weighed, second: &Weighed) -> Option<Difference> {
    let (Ok((qa, a)), Ok((qb, b))) = (&first.result, &second.result) else { return None };
    let both = |f: fn(&crate::solver::answer::Play) -> f64| Some(f(b.play()?) - f(a.play()?));
    Some(Difference {
        chance_in: qb.chance.good - qa.chance.good,
        clearance: qb.clearance - qa.clearance,
        net_height: qb.net_height - qa.net_height,
        opponent_time: both(|p| p.receipt.time),
        opponent_spare: both(|p| p.receipt.time_to_spare),
        wedge: both(|p| p.wedge.width()),
        recovery: both(|p| p.recovery.distance),
        lack: both(|p| p.recovery.needed - p.recovery.available),
        exposure: both(|p| p.recovery.reached.exposure),
        win: second.win()? - first.win()?,
    })
}

/// The wing on which the opponent meets a shot, and whether that is the weaker one by speed.
#[must_use]
pub fn to_weaker_wing(situation: &Situation, answer: &Answer) -> Option<bool> {
    let wing = answer.play()?.receipt.wing;
    let other = match wing {
        Wing::Forehand => Wing::Backhand,
        Wing::Backhand => Wing::Forehand,
    };
    let strength = |w| situation.opponent.wing(w).speed / situation.opponent.wing(w).spread_up;
    Some(strength(wing) < strength(other))
}
