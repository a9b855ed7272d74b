//! Where and when the opponent meets the ball.
//!
//! Along the ball's path, before the last bounce allowed, the opponent takes the point that serves best: reachable with
//! time in hand, at a comfortable height, not needlessly deep or late. The weights are choices, set so that rally balls
//! of the usual depth are met about a metre behind the baseline at hip height, as measured (`players.md` section 4).

use glam::{DVec2, DVec3};

use crate::{
    answer::Receipt,
    bounce::Path,
    court::Court,
    coverage::Mover,
    exposure::quality,
    frame::End,
    player::{Player, Wing},
    scatter::pressure,
    situation::ReceiptChoice,
};

/// Spacing of the points tried along the path, s.
const STEP_S: f64 = 0.02;
/// A ball that passes this far on the backhand side is still taken on the forehand, m. Common practice, no source.
const RUN_AROUND_M: f64 = 0.25;
/// Sideways distance of the body from the ball at contact when there is time, m. From memory.
const STANCE_M: f64 = 0.8;

/// What the opponent makes of the ball.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Met {
    /// It is met.
    At(Receipt),
    /// It gets past.
    Past {
        /// Time missing at the best point, s.
        late_by: f64,
        /// That point.
        closest: DVec3,
    },
}

/// Finds the meeting point of a far opponent, in the frame of a near hitter.
#[must_use]
pub fn receive(
    court: &Court,
    path: &Path,
    opponent: &Player,
    place: DVec2,
    choice: ReceiptChoice,
    must_bounce: bool,
) -> Met {
    let view = View { court, path, mover: Mover::new(opponent, End::Far), place, must_bounce };
    let Some(candidate) = (match choice {
        ReceiptChoice::Best => view.best(),
        ReceiptChoice::Near(wanted) => view.nearest(wanted),
    }) else {
        let end = path.position(path.end_time());
        return Met::Past { late_by: 0.0, closest: end };
    };
    if candidate.spare < 0.0 {
        return Met::Past { late_by: -candidate.spare, closest: candidate.point };
    }
    Met::At(view.receipt(opponent, candidate))
}

#[derive(Debug, Clone, Copy)]
struct Candidate {
    time: f64,
    point: DVec3,
    spare: f64,
    worth: f64,
}

struct View<'a> {
    court: &'a Court,
    path: &'a Path,
    mover: Mover,
    place: DVec2,
    /// Whether the ball may not be met before its first bounce, as a serve (ITF Rules of Tennis, Rule 19).
    must_bounce: bool,
}

impl View<'_> {
    /// A point of the path, if it can be struck at all: beyond the net, on the site, not over the highest reach.
    fn candidate(&self, time: f64) -> Option<Candidate> {
        let point = self.path.position(time);
        let site = DVec2::new(self.court.site_half_width(), self.court.site_half_length());
        if self.must_bounce && self.path.bounces_by(time) == 0 {
            return None;
        }
        if point.y < 0.3 || point.y > site.y || point.x.abs() > site.x {
            return None;
        }
        let spare = time - self.mover.time_needed(self.place, point)?;
        let worth = self.worth(time, point, spare);
        Some(Candidate { time, point, spare, worth })
    }

    /// How well a point serves the opponent.
    fn worth(&self, time: f64, point: DVec3, spare: f64) -> f64 {
        let bounces = self.path.bounces_by(time);
        let length = self.court.half_length();
        // From the back of the court the ball is left to bounce; near the net it is taken from the air.
        let timing = if bounces == 0 {
            let back = ((point.y / length - 0.45) / 0.25).clamp(0.0, 1.0);
            let overhead = ((point.z - 1.7) / 0.4).clamp(0.0, 1.0);
            1.0 - back * (0.75 - 0.45 * overhead)
        } else {
            1.0 - 0.08 * (bounces as f64 - 1.0)
        };
        // A metre deeper gives the other player time and angle away.
        let depth = 0.018 * (point.y - length - 0.6).max(0.0) + 0.004 * point.y;
        // Rushing in is not needlessly done either: a point far in front of where the player waits costs the way back.
        let rushed = 0.012 * (self.place.y - point.y - 1.5).max(0.0);
        quality(spare - 0.1) * comfort(point.z, self.mover.overhead) * timing - depth - rushed
    }

    fn best(&self) -> Option<Candidate> {
        let mut best: Option<Candidate> = None;
        let start = self.path.arcs[0].crossing_y(0.0).map_or(0.0, |c| c.time);
        let steps = ((self.path.end_time() - start) / STEP_S).floor() as usize;
        for i in 0..=steps {
            if let Some(c) = self.candidate(start + i as f64 * STEP_S)
                && best.is_none_or(|b| better(&c, &b))
            {
                best = Some(c);
            }
        }
        // Between the samples: two rounds of halving the step around the best.
        let mut step = STEP_S / 2.0;
        while step > 0.001 {
            if let Some(b) = best {
                for t in [b.time - step, b.time + step] {
                    if let Some(c) = self.candidate(t)
                        && self.path.bounces_by(t) == self.path.bounces_by(b.time)
                        && best.is_none_or(|b| better(&c, &b))
                    {
                        best = Some(c);
                    }
                }
            }
            step /= 2.0;
        }
        best
    }

    fn nearest(&self, wanted: DVec2) -> Option<Candidate> {
        let steps = (self.path.end_time() / (STEP_S / 4.0)).floor() as usize;
        (0..=steps).filter_map(|i| self.candidate(i as f64 * STEP_S / 4.0)).min_by(|a, b| {
            (a.point.truncate() - wanted).length_squared().total_cmp(&(b.point.truncate() - wanted).length_squared())
        })
    }

    fn receipt(&self, opponent: &Player, c: Candidate) -> Receipt {
        // The far player's right is -x.
        let to_forehand = (c.point.x - self.place.x) * self.mover.forehand_x;
        let wing = if to_forehand >= -RUN_AROUND_M { Wing::Forehand } else { Wing::Backhand };
        let side = match wing {
            Wing::Forehand => self.mover.forehand_x,
            Wing::Backhand => -self.mover.forehand_x,
        };
        let stance = DVec2::new(-side * STANCE_M, 0.2 * -self.mover.facing);
        // With no time in hand the body stays as far away as the reach allows.
        let run = self.mover.stride.distance(c.time - self.mover.reaction);
        let wanted = c.point.truncate() + stance;
        let way = wanted - self.place;
        let body = if way.length() <= run { wanted } else { self.place + way.normalize_or_zero() * run };
        let off_height = (0.5 - c.point.z).max(0.0) * 0.5 + (c.point.z - 1.5).clamp(0.0, 0.5) * 0.4;
        let overhead = c.point.z > 0.72 * opponent.reach.overhead && self.path.bounces_by(c.time) == 0;
        let squeeze = if overhead { 0.0 } else { off_height };
        Receipt {
            contact: c.point,
            time: c.time,
            place: body,
            wing,
            bounces: self.path.bounces_by(c.time) as u8,
            time_to_spare: c.spare,
            pressure: (pressure(c.spare) + squeeze).min(1.0),
        }
    }
}

fn better(a: &Candidate, b: &Candidate) -> bool {
    // A point that can be reached beats one that cannot.
    match (a.spare >= 0.0, b.spare >= 0.0) {
        (true, false) => true,
        (false, true) => false,
        (true, true) => a.worth > b.worth,
        (false, false) => a.spare > b.spare,
    }
}

/// How comfortable a contact height is, 0 to 1: best between 0.7 and 1.2 m.
fn comfort(height: f64, overhead: f64) -> f64 {
    if height < 0.7 {
        let low = (0.7 - height) / 0.7;
        1.0 - 0.45 * low * low
    } else if height <= 1.2 {
        1.0
    } else {
        let shoulder = 1.2 + 0.32 * overhead;
        // Awkward above the shoulder, good again as a smash.
        let awkward = 1.0 - 0.35 * ((height - 1.2) / (shoulder - 1.2)).min(1.0);
        let smash = ((height - shoulder) / (0.9 * overhead - shoulder)).clamp(0.0, 1.0);
        awkward + 0.25 * smash
    }
}
