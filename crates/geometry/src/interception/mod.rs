//! The interception: where and when the opponent meets the ball, at the point of most worth to them.
//!
//! Each point of the ball's path that can be struck has a worth: the chance to reach it times the worth of the rally
//! from there. The opponent chooses among the points by the quantal response, so that the meeting point moves smoothly
//! with the shot.

pub(crate) mod coverage;

use glam::{DVec2, DVec3};

use crate::{
    ball::bounce::Path,
    player::{Player, Wing},
    shot::situation::ReceiptChoice,
    worth::{Duel, Meeting, Ramp, Sample, Stance},
};

/// Spacing of the points tried along the path, s.
const STEP_S: f64 = 0.025;
/// Chance of reaching the ball below which it gets past.
const LEAST_REACH: f32 = 0.04;
/// Least fall of worth between two peaks along the path for them to be two ways of meeting the ball, in points won.
const DIP: f32 = 0.004;
/// Share below which a way does not count; the other shares are reduced by as much, so that no way appears with a jump.
const LEAST_WAY: f64 = 0.03;

/// How the opponent meets the ball, in the near frame of the hitter.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct MetBall {
    pub time: f64,
    pub point: DVec3,
    pub bounces: u8,
    /// Chance to reach the ball there.
    pub reach: f64,
    /// Time between the racket's arrival at the point and the ball's, s.
    pub margin: f64,
    /// Stances, the likelier wing first.
    pub stances: Vec<Stance>,
    /// Sideways metres per metre of depth of the incoming ball, as seen by the opponent.
    pub slope: f32,
    /// Worth of the ball to the opponent: reach times the chance to win from there.
    pub worth: f64,
    /// How often the ball is met in about this way.
    pub share: f64,
    /// Other likely ways of meeting it: much earlier or later, or in the air.
    pub others: Vec<Self>,
}

/// Result of the meeting.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Intercept {
    At(MetBall),
    /// The ball gets past.
    Past {
        /// Time missing at the best point, s.
        late_by: f64,
        /// That point.
        closest: DVec3,
    },
}

#[derive(Debug, Clone, Copy)]
struct Candidate {
    time: f64,
    sample: Sample,
    reach: f32,
    spare: [f32; 2],
    worth: [f32; 2],
}

impl Candidate {
    fn worth(&self) -> f32 {
        self.reach * self.worth[0].max(self.worth[1])
    }
}

/// The shot to be met.
pub(crate) struct Incoming<'a> {
    pub duel: &'a Duel<'a>,
    pub path: &'a Path,
    /// Where the opponent stands when the ball is struck, near frame.
    pub opponent_place: DVec2,
    pub opponent: &'a Player,
    /// Where the hitter's body is at contact, near frame.
    pub hitter_place: DVec2,
    /// Whether the hitter may go to the net.
    pub may_come_in: bool,
    /// Whether the ball must bounce before it is met, as a serve must (ITF Rules of Tennis, Rule 19).
    pub must_bounce: bool,
    /// The hitter's place regardless of the shot, near frame; by default the place the rally sends them to.
    pub fixed: Option<DVec2>,
}

impl Incoming<'_> {
    /// Finds the meeting point.
    pub fn meet(&self, choice: ReceiptChoice) -> Intercept {
        let candidates = self.candidates();
        let value = |c: &Candidate| match choice {
            ReceiptChoice::Best => f64::from(c.worth()),
            // The nearest point of the path that can be reached at all.
            ReceiptChoice::Near(wanted) => {
                let place = DVec2::new(-f64::from(c.sample.x), f64::from(c.sample.depth));
                -place.distance(wanted) - if c.reach < 0.05 { 100.0 } else { 0.0 }
            }
        };
        let Some(best) = candidates.iter().max_by(|a, b| value(a).total_cmp(&value(b))) else {
            let end = self.path.position(self.path.end_time());
            return Intercept::Past { late_by: self.late_by(end, self.path.end_time()), closest: end };
        };
        if best.reach < LEAST_REACH {
            let point = self.path.position(best.time);
            return Intercept::Past { late_by: self.late_by(point, best.time), closest: point };
        }
        if let ReceiptChoice::Near(_) = choice {
            return Intercept::At(self.of(best));
        }
        let mut ways = self.ways(&candidates);
        ways.sort_by(|a, b| b.share.total_cmp(&a.share));
        let mut ways = ways.into_iter();
        let Some(mut main) = ways.next() else { return Intercept::At(self.of(best)) };
        main.others = ways.collect();
        Intercept::At(main)
    }

    /// The ways of meeting the ball: consecutive points of the path with one peak of worth form one way.
    fn ways(&self, candidates: &[Candidate]) -> Vec<MetBall> {
        let temperature = self.duel.behaviour.meeting_temperature;
        let best = candidates.iter().map(Candidate::worth).fold(0.0, f32::max);
        // Time, share and peak of each way, and the lowest worth since the last peak.
        let mut ways: Vec<(f64, f64, f32)> = Vec::new();
        let (mut dip, mut last) = (0.0_f32, None::<&Candidate>);
        for c in candidates {
            let worth = c.worth();
            let follows = last.is_some_and(|l| l.sample.air == c.sample.air && c.time - l.time < 1.5 * STEP_S);
            let weight = f64::from(((worth - best) / temperature).exp());
            match ways.last_mut() {
                Some(way) if follows && (worth - dip).min(way.2 - dip) < DIP => {
                    way.0 += weight * c.time;
                    way.1 += weight;
                    way.2 = way.2.max(worth);
                    dip = if worth >= way.2 { worth } else { dip.min(worth) };
                }
                _ => {
                    ways.push((weight * c.time, weight, worth));
                    dip = worth;
                }
            }
            last = Some(c);
        }
        let total: f64 = ways.iter().map(|w| w.1).sum();
        let share = |weight: f64| (weight / total - LEAST_WAY).max(0.0);
        let kept: f64 = ways.iter().map(|w| share(w.1)).sum();
        ways.iter()
            .filter(|w| share(w.1) > 0.0)
            .filter_map(|w| self.at(w.0 / w.1).map(|met| MetBall { share: share(w.1) / kept, ..met }))
            .collect()
    }

    /// The meeting at a time, if the ball can be struck then.
    fn at(&self, time: f64) -> Option<MetBall> {
        self.candidate(time).map(|c| self.of(&c))
    }

    fn of(&self, c: &Candidate) -> MetBall {
        let temperature = self.duel.behaviour.meeting_temperature;
        let best = c.worth[0].max(c.worth[1]);
        let weight = c.worth.map(|w| ((w - best) / temperature).exp());
        let total = weight[0] + weight[1];
        let mut stances: Vec<Stance> = [Wing::Forehand, Wing::Backhand]
            .into_iter()
            .zip(0..2)
            .map(|(wing, i)| Stance { wing, spare: c.spare[i], weight: weight[i] / total })
            .collect();
        stances.sort_by(|a, b| b.weight.total_cmp(&a.weight));
        let point = self.path.position(c.time);
        let mover = crate::interception::coverage::Mover::new(self.opponent, crate::court::frame::End::Far);
        let needed = mover.time_needed(self.opponent_place, point).unwrap_or(c.time);
        MetBall {
            time: c.time,
            point,
            bounces: self.path.bounces_by(c.time) as u8,
            reach: f64::from(c.reach),
            margin: c.time - needed,
            stances,
            slope: self.slope(c.time),
            worth: f64::from(c.worth()),
            share: 1.0,
            others: Vec::new(),
        }
    }

    fn late_by(&self, point: DVec3, time: f64) -> f64 {
        let mover = crate::interception::coverage::Mover::new(self.opponent, crate::court::frame::End::Far);
        let low = DVec3::new(point.x, point.y, point.z.min(1.0));
        (mover.time_needed(self.opponent_place, low).unwrap_or(time) - time).max(0.01)
    }

    fn slope(&self, time: f64) -> f32 {
        let v = self.path.velocity(time);
        (-v.x / v.y.max(1.0)) as f32
    }

    fn candidates(&self) -> Vec<Candidate> {
        let start = self.path.arcs[0].crossing_y(0.0).map_or(0.0, |c| c.time);
        let steps = ((self.path.end_time() - start) / STEP_S).floor().max(0.0) as usize;
        (1..=steps).filter_map(|i| self.candidate(start + i as f64 * STEP_S)).collect()
    }

    /// A point of the path, if it can be struck: beyond the net, on the site, not over the highest reach.
    fn candidate(&self, time: f64) -> Option<Candidate> {
        let point = self.path.position(time);
        let limits = self.duel.limits;
        let bounces = self.path.bounces_by(time);
        let air = bounces == 0;
        let (x, depth, height) = (-point.x as f32, point.y as f32, point.z as f32);
        let on_site = x.abs() < limits.half_width && depth < limits.half_length && depth > 0.3;
        if !on_site || height > limits.overhead || (air && (self.must_bounce || depth > limits.air_depth)) {
            return None;
        }
        let since = if air { -1.0 } else { (time - self.path.bounces[bounces - 1].0) as f32 };
        let sample = Sample { x, depth, height, time: time as f32, since, air };
        let meeting: Meeting = self.duel.opponent.meeting(&sample);
        let (reach, forehand, backhand) =
            self.duel.opponent.at(&meeting, -self.opponent_place.x as f32, self.opponent_place.y as f32);
        let worth = if reach > 0.0 {
            let from = [self.hitter_place.x as f32, -self.hitter_place.y as f32];
            let slope = self.slope(time);
            let w = match self.fixed {
                None => self.duel.meeting_worth(from, self.may_come_in, slope, &sample),
                Some(goal) => {
                    let to = [goal.x as f32, -goal.y as f32];
                    self.duel.meeting_worth_at(self.duel.legs.recover(from, to, sample.time), slope, &sample)
                }
            };
            let ramp = Ramp::new(&w);
            [ramp.at(forehand, 0), ramp.at(backhand, 1)]
        } else {
            [0.0; 2]
        };
        Some(Candidate { time, sample, reach, spare: [forehand, backhand], worth })
    }
}
