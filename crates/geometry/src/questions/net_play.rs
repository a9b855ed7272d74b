//! Standing at the net: the reach of one and two steps, and whether the lob is left open.

use glam::DVec2;

use crate::{
    court::frame::Turn,
    interception::coverage::Mover,
    shot::situation::{ReadyArea, Situation},
    solver::{Loaded, SolveError, Solver, Threat, answer::ReplyName},
};

/// Length of one step at the net, m. From memory; common practice counts an ordinary pass as one step away and a wide
/// one as two.
pub const STEP_M: f64 = 1.0;
/// Least share of a reply to be named as the worst.
const LEAST_SHARE: f64 = 0.03;

/// The coverage of a place at the net.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct NetPosition {
    /// The place, world frame.
    pub place: DVec2,
    /// Exposure there.
    pub exposure: f64,
    /// The most dangerous reply against it.
    pub worst: ReplyName,
    /// Exposure to the best lob; 0 if there is none.
    pub lob: f64,
    /// Exposure to the best pass down the line; 0 if there is none.
    pub line: f64,
    /// Exposure to the best pass across; 0 if there is none.
    pub across: f64,
    /// Whether the lob is the most dangerous reply and a metre back is better.
    pub too_close: bool,
    /// Distance from the net at which the lob stops being the worst reply, on the way back from here, m; `None` when it
    /// is not the worst one.
    pub safe_distance: Option<f64>,
    /// Reach without moving the feet, after one and after two steps: closed outlines on the ground, world frame.
    pub rings: [Vec<DVec2>; 3],
}

impl Solver {
    /// Judges a standing place at the net against the replies of a situation; `None` when the shot is a winner or
    /// leaves no reply.
    ///
    /// # Errors
    /// As [`Solver::solve`].
    pub fn net_position(&mut self, situation: &Situation, place: DVec2) -> Result<Option<NetPosition>, SolveError> {
        let Some(Loaded { near, game, .. }) = self.loaded(situation)? else { return Ok(None) };
        let here = near.turn.turn2(place);
        let threats = self.threats(&near, &game, here);
        // The best ball of each name, among those that are played at all.
        let best = |wanted: &[ReplyName]| {
            threats.iter().filter(|t| wanted.contains(&t.name)).map(|t| t.best).fold(0.0, f64::max)
        };
        let worst_at = |threats: &[Threat]| {
            threats.iter().filter(|t| t.share > LEAST_SHARE).max_by(|a, b| a.best.total_cmp(&b.best)).map(|t| t.name)
        };
        let Some(worst) = worst_at(&threats) else { return Ok(None) };
        let exposure = self.judge(&game, &[here])[0];
        let mut safe_distance = None;
        let mut too_close = false;
        if worst == ReplyName::Lob {
            too_close = self.judge(&game, &[here - DVec2::Y])[0] < exposure;
            let most = -situation.conditions.court.half_length();
            let mut at = here;
            while at.y > most && safe_distance.is_none() {
                at.y -= 0.25;
                if worst_at(&self.threats(&near, &game, at)) != Some(ReplyName::Lob) {
                    safe_distance = Some(-at.y);
                }
            }
        }
        let turn = near.turn;
        let mover = near.mover();
        Ok(Some(NetPosition {
            place,
            exposure,
            worst,
            lob: best(&[ReplyName::Lob]),
            line: best(&[ReplyName::DownTheLine]),
            across: best(&[ReplyName::CrossCourt, ReplyName::ShortAngle]),
            too_close,
            safe_distance,
            rings: [0.0, 1.0, 2.0].map(|steps| ring(&mover, here, steps * STEP_M, turn)),
        }))
    }
}

/// The outline of the ground that a racket reaches from a place after a distance run.
#[must_use]
pub fn ring(mover: &Mover, place: DVec2, run: f64, turn: Turn) -> Vec<DVec2> {
    const POINTS: usize = 48;
    let (forehand, backhand, ahead) = mover.reach;
    (0..=POINTS)
        .map(|i| {
            let direction = DVec2::from_angle(i as f64 / POINTS as f64 * std::f64::consts::TAU);
            let side = if direction.x * mover.forehand_x > 0.0 { forehand } else { backhand };
            let reach = ahead + (side - ahead) * direction.x * direction.x;
            // Backward metres count more, so fewer of them are covered.
            let stretch =
                if direction.y * mover.facing < 0.0 { direction.x.hypot(direction.y * mover.backward) } else { 1.0 };
            turn.turn2(place + direction * ((reach + run) / stretch))
        })
        .collect()
}

/// The situation with the recovery sent to the net: the shot is an approach.
#[must_use]
pub fn as_approach(situation: &Situation) -> Situation {
    let mut s = *situation;
    s.settings.ready = ReadyArea::Net;
    s
}
