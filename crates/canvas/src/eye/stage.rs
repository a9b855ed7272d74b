//! Who stands where as the opponent strikes, and the camera that sees it.

use glam::{DVec2, DVec3, dvec2};
use standpoint_geometry::{End, Outcome, Player};
use standpoint_workbench::{session::Session, settings::Sight};

use crate::pinhole::Pinhole;

/// Height of the eyes as a part of stature: Drillis and Contini, Body Segment Parameters, 1966 (from memory).
pub(super) const EYES: f64 = 0.936;
/// Height at which a serve is struck as a part of stature (common practice, no source). A player in a wheelchair sits as
/// much lower as they serve.
const SERVE: f64 = 1.5;
/// How far beyond the outermost thing the view through the eyes reaches on either side, and its bounds, rad.
const BESIDE: f64 = 0.10;
const WIDTHS: (f64, f64) = (0.80, 1.75);
/// How far behind the baseline a player waits while nothing has been told, m.
const UNTOLD: f64 = 1.5;
/// Where the camera behind the court stands: so far behind the player and so high, m; and how wide it looks, rad.
const BEHIND: (f64, f64) = (7.5, 4.6);
const BEHIND_WIDTH: f64 = 1.05;
/// A player looks down at the court: the horizon stands so far up the upper half of the picture.
const LOOKS_DOWN: f64 = 0.5;
/// A picture wider than so many times its height shows less of what lies above and below than a person sees.
const WIDEST: f64 = 2.2;

/// Height of a player's eyes, m.
#[must_use]
pub fn eye_height(player: &Player) -> f64 {
    player.serve.height * EYES / SERVE
}

/// Who stands where as the opponent strikes; in the frame of the player whose view it is.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stage {
    /// The end of the player whose view it is.
    pub(super) end: End,
    pub(super) me: DVec2,
    pub(super) eyes: f64,
    pub(super) other: DVec2,
    /// Stature of the opponent, m.
    pub(super) tall: f64,
    pub(super) ball: Option<DVec3>,
}

impl Stage {
    /// As the opponent meets the shot being looked at, or as far as it gets.
    ///
    /// Until the answer is `told`, the player waits in the middle behind the baseline.
    pub(super) fn of(session: &Session, told: bool) -> Option<Self> {
        let spec = session.shot()?;
        let end = session.hitter_end();
        let board = session.board();
        let (me, other) = (board.card(end).player(), board.card(end.other()).player());
        let (place, ball) = match session.answer().map(|answer| &answer.outcome) {
            Some(Outcome::Play(play)) => (play.receipt.place, Some(play.receipt.contact)),
            Some(Outcome::NoReply(receipt)) => (receipt.place, Some(receipt.contact)),
            Some(Outcome::Winner { closest, .. }) => (closest.truncate(), None),
            None => (spec.opponent_place, None),
        };
        let spot = spec.recover_to.or_else(|| session.play().map(|play| play.spot.place)).map(|place| end.turn2(place));
        let middle = dvec2(0.0, -session.court().half_length() - UNTOLD);
        Some(Self {
            end,
            me: if told { spot.unwrap_or_else(|| end.turn2(board.hitter_place(spec))) } else { middle },
            eyes: eye_height(&me),
            other: end.turn2(place),
            tall: other.serve.height / SERVE,
            ball: ball.map(|ball| end.turn3(ball)),
        })
    }

    /// As the hitter is about to strike: for the choice of a shot.
    pub(super) fn striking(session: &Session) -> Option<Self> {
        let spec = session.shot()?;
        let end = session.hitter_end();
        let board = session.board();
        let place = board.hitter_place(spec);
        let (me, other) = (board.card(end).player(), board.card(end.other()).player());
        Some(Self {
            end,
            me: end.turn2(place),
            eyes: eye_height(&me),
            other: end.turn2(spec.opponent_place),
            tall: other.serve.height / SERVE,
            ball: None,
        })
    }

    pub(super) fn eye(&self) -> DVec3 {
        self.me.extend(self.eyes)
    }

    /// The camera, so that all these places are in the picture as far as a person can see them.
    pub(super) fn camera(&self, sight: Sight, watched: &[DVec3], ratio: f64) -> Pinhole {
        match sight {
            Sight::Eyes => {
                let eye = self.eye();
                let middle = self.other.extend(0.9);
                let ahead = (middle - eye).truncate();
                let beside = |place: &DVec3| ahead.angle_to((*place - eye).truncate()).abs();
                let reach = watched.iter().map(beside).fold(0.0, f64::max) + BESIDE;
                let width = (2.0 * reach).clamp(WIDTHS.0, WIDTHS.1);
                // What lands near the feet is in sight as well.
                let low = watched.iter().map(|place| (eye.z - place.z) / (*place - eye).truncate().length().max(0.5));
                let low = low.fold(0.0, f64::max).min(0.9);
                let half_height = (width / 2.0).tan() / ratio;
                let least = LOOKS_DOWN * half_height.atan();
                let down = (low.atan() - half_height.atan() + 0.08).clamp(least, 0.5_f64.max(least));
                let along = ahead.normalize_or(DVec2::Y);
                Pinhole::new(eye, eye + along.extend(-down.tan()), width)
            }
            Sight::Behind => {
                let back = self.me.y.min(-11.885) - BEHIND.0;
                let eye = DVec3::new(self.me.x * 0.6, back, BEHIND.1);
                let width = if ratio > WIDEST { BEHIND_WIDTH * 1.25 } else { BEHIND_WIDTH };
                Pinhole::new(eye, DVec3::new(self.me.x * 0.2, -6.0, 0.0), width)
            }
        }
    }
}
