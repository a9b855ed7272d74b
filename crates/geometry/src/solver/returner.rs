//! The place of the receiver of a serve.

use super::{
    Solver,
    near::{Near, own},
    receipt,
};
use crate::{
    interception::MetBall,
    player::Wing,
    shot::{
        situation::{ReadyArea, Situation},
        stroke::Stroke,
    },
    solver::answer::{Outcome, Play},
    worth::{Contact, Kind, Stance},
};

impl Solver {
    /// Where the receiver of a serve should stand, against all serves possible from this contact: the same chain with
    /// the server as the striker. `None` for every other stroke.
    pub(super) fn returner(&mut self, situation: &Situation) -> Option<Box<Play>> {
        if situation.shot.stroke != Stroke::Serve {
            return None;
        }
        let mut turned = *situation;
        turned.hitter_end = situation.hitter_end.other();
        (turned.hitter, turned.opponent) = (situation.opponent, situation.hitter);
        (turned.hitter_habits, turned.opponent_habits) = (situation.opponent_habits, situation.hitter_habits);
        (turned.hitter_place, turned.opponent_place) = (situation.opponent_place, situation.hitter_place);
        // The receiver waits behind the service line; in front of it they would volley the serve.
        turned.settings.ready = ReadyArea::Back;
        let near = Near::new(&turned);
        let (game, _) = self.game(&near);
        let point = near.shot.contact;
        let [x, depth] = own(point.truncate());
        let second = !situation.is_first_serve();
        let kind = if second { Kind::SecondServe } else { Kind::FirstServe };
        // A first serve that misses is followed by the second.
        let miss = if second { 0.0 } else { game.serve(1, x < 0.0).map_or(0.0, |s| s.worth[1]) };
        let stances = [Stance { wing: Wing::Forehand, spare: 1.0, weight: 1.0 }];
        let contact = Contact {
            place: [x, depth, point.z as f32],
            slope: 0.0,
            stances: &stances,
            miss,
            habits: near.opponent_habits.as_ref(),
        };
        self.load_contact(&near, &game, kind, contact, None);
        let met = MetBall {
            time: 0.0,
            point,
            bounces: 0,
            reach: 1.0,
            margin: 1.0,
            stances: stances.to_vec(),
            slope: 0.0,
            worth: 0.0,
            share: 1.0,
            others: Vec::new(),
        };
        let mut receipt = receipt(&near, &met);
        receipt.place = near.turn.turn2(near.opponent_place);
        match self.play(&near, &game, receipt) {
            Outcome::Play(play) => Some(play),
            Outcome::Winner { .. } | Outcome::NoReply(_) => None,
        }
    }
}
