//! Standing at the net: how far one and two steps reach, and whether the lob is left open.

use glam::DVec2;

use crate::{
    answer::ReplyName,
    coverage::Mover,
    frame::End,
    naming,
    situation::{ReadyArea, Situation},
    solver::{SolveError, Solver, first_reach_y},
};

/// Length of one step at the net, m. From memory; common practice counts an ordinary pass as one step away and a wide
/// one as two.
pub const STEP_M: f64 = 1.0;

/// What a place at the net covers.
#[derive(Debug, Clone, PartialEq)]
pub struct NetPosition {
    /// The place, world frame.
    pub place: DVec2,
    /// Exposure there.
    pub exposure: f64,
    /// The reply that punishes it most, and its exposure.
    pub worst: ReplyName,
    /// Exposure to the best lob; 0 if there is none.
    pub lob: f64,
    /// Exposure to the best pass down the line; 0 if there is none.
    pub line: f64,
    /// Exposure to the best pass across; 0 if there is none.
    pub across: f64,
    /// The lob is what punishes the place, and a metre back is better.
    pub too_close: bool,
    /// Distance from the net at which the lob stops being the worst reply, on the way back from here, m; `None` when it
    /// is not the worst one.
    pub safe_distance: Option<f64>,
    /// Reach without moving the feet, after one and after two steps: closed outlines on the ground, world frame.
    pub rings: [Vec<DVec2>; 3],
}

impl Solver {
    /// Examines a standing place at the net against the replies of a situation; `None` when the shot is a winner or
    /// leaves no reply.
    ///
    /// # Errors
    /// As [`Solver::solve`].
    pub fn net_position(&mut self, situation: &Situation, place: DVec2) -> Result<Option<NetPosition>, SolveError> {
        let Some((near, receipt)) = self.loaded(situation)? else { return Ok(None) };
        let end = situation.hitter_end;
        let here = end.turn2(place);
        let contact = receipt.contact.truncate();
        let court = &situation.conditions.court;
        let by_name = |at: DVec2| -> Vec<(ReplyName, f64)> {
            self.judge
                .all(at, 0.0)
                .iter()
                .map(|j| {
                    let meta = &self.set.meta[j.reply];
                    let landing = self.set.aims[usize::from(meta.aimed)].landing;
                    let points = j.reply * self.set.points..(j.reply + 1) * self.set.points;
                    let columns = &self.judge.columns;
                    let met = columns.place(points.start + j.point).truncate();
                    let reach = first_reach_y(columns, points);
                    (naming::name(court, meta.stroke, contact, landing, met, at, reach), j.exposure)
                })
                .collect()
        };
        let named = by_name(here);
        let Some(&(worst, exposure)) = named.first() else { return Ok(None) };
        let best = |wanted: &[ReplyName]| named.iter().find(|n| wanted.contains(&n.0)).map_or(0.0, |n| n.1);
        let mut safe_distance = None;
        let mut too_close = false;
        if worst == ReplyName::Lob {
            let back = by_name(here - DVec2::Y);
            too_close = back.first().is_some_and(|b| b.1 < exposure);
            let most = -situation.conditions.court.half_length();
            let mut at = here;
            while at.y > most && safe_distance.is_none() {
                at.y -= 0.1;
                if by_name(at).first().is_some_and(|b| b.0 != ReplyName::Lob) {
                    safe_distance = Some(-at.y);
                }
            }
        }
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
            rings: [0.0, 1.0, 2.0].map(|steps| ring(&mover, here, steps * STEP_M, end)),
        }))
    }
}

/// The outline of the ground that a racket reaches from a place after a distance run.
#[must_use]
pub fn ring(mover: &Mover, place: DVec2, run: f64, end: End) -> Vec<DVec2> {
    const POINTS: usize = 48;
    let (forehand, backhand, ahead) = mover.reach;
    (0..=POINTS)
        .map(|i| {
            let direction = DVec2::from_angle(i as f64 / POINTS as f64 * std::f64::consts::TAU);
            let side = if direction.x * mover.forehand_x > 0.0 { forehand } else { backhand };
            let reach = ahead + (side - ahead) * direction.x * direction.x;
            // Metres backwards count more, so fewer of them are covered.
            let stretch =
                if direction.y * mover.facing < 0.0 { direction.x.hypot(direction.y * mover.backward) } else { 1.0 };
            end.turn2(place + direction * ((reach + run) / stretch))
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
