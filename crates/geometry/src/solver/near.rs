//! A situation in the frame of a near, right-handed hitter.

use glam::DVec2;

use crate::{
    ball::{
        bounce::{Path, fly_path},
        flight::{BallPhysics, FlyOptions, LAND_STEP, MAX_TIME},
    },
    court::frame::{End, Turn},
    interception::{Incoming, Intercept, coverage::Mover},
    player::Player,
    replies::habits::ReplyHabits,
    shot::{
        aim::{Aim, AimError, aim, legal},
        situation::{ReadyArea, ReceiptChoice, Shot, Situation},
        stroke::Stroke,
    },
    stand::Stand,
    worth::{Duel, Game, Matchup},
};

/// Options of flights that are shown: the step of [`LAND_STEP`] is good to a hundredth of a millimetre.
pub(crate) const FLIGHT: FlyOptions = FlyOptions { step: LAND_STEP, max_time: MAX_TIME };

/// A situation in the frame of a near, right-handed hitter, with derived values.
pub(crate) struct Near<'a> {
    pub situation: &'a Situation,
    pub turn: Turn,
    pub physics: BallPhysics,
    pub shot: Shot,
    pub hitter: Player,
    pub opponent: Player,
    pub hitter_place: DVec2,
    pub opponent_place: DVec2,
    pub opponent_habits: Option<ReplyHabits>,
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
            opponent_habits: situation.opponent_habits.map(|h| if mirrored { h.mirrored() } else { h }),
        }
    }

    /// Aims the shot, after checking that the stroke may be played from there.
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
    pub fn meet(&self, game: &Game, path: &Path) -> Intercept {
        self.meet_with(game, path, None)
    }

    /// As [`Self::meet`], with the hitter sent to a fixed place.
    pub fn meet_with(&self, game: &Game, path: &Path, fixed: Option<DVec2>) -> Intercept {
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

/// The opponent's own frame: x to their right, depth from the net.
pub(crate) fn own(p: DVec2) -> [f32; 2] {
    [-p.x as f32, p.y as f32]
}

/// The hitter's own frame.
pub(crate) fn hitters(p: DVec2) -> [f32; 2] {
    [p.x as f32, -p.y as f32]
}

/// Azimuth of a ground direction.
pub(super) fn bearing(v: DVec2) -> f64 {
    v.x.atan2(v.y)
}
