//! Judges the place where a player really stood.
//!
//! The same chain as [`Solver::solve`] up to the spot and the recovery run, without the field, the level lines, the
//! wedge and the paths that are only drawn. It is what an audit of many shots needs, at a fraction of the time.

use glam::DVec2;

use crate::{
    answer::{Place, Receipt, Recovery},
    bounce::Path,
    coverage::Mover,
    receipt::Met,
    recovery::recover,
    situation::Situation,
    solver::{Begun, Near, SolveError, Solver, begin, turned},
    spot::Stand,
};

/// First and last step of the search for the best place within reach, m.
const STEPS_M: (f64, f64) = (0.5, 0.02);
/// A step of which less than this is within reach is none.
const LEAST_PART_OF_STEP: f64 = 0.35;
/// Directions it looks in.
const DIRECTIONS: usize = 16;

/// What the model says of the place where a player stood.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Judgement {
    /// Where and how the opponent meets the ball.
    pub receipt: Receipt,
    /// The place of least exposure.
    pub spot: Place,
    /// The run from the hitter's contact to the spot.
    pub recovery: Recovery,
    /// The best place that the hitter can reach by then: the spot itself when there is time, else the place of least
    /// exposure within the time.
    pub goal: Place,
    /// Where a run to the middle line, at the depth of the spot, leads in the same time.
    pub middle: Place,
    /// Where the hitter stood.
    pub stood: Place,
    /// Whether the model's player could have reached the place where the hitter stood.
    pub stood_reachable: bool,
}

/// What becomes of the question where to stand.
#[derive(Debug, Clone, PartialEq)]
pub enum Verdict {
    /// There is a place to stand.
    Judged(Box<Judgement>),
    /// The opponent does not reach the ball, by so many seconds: no place matters.
    Winner {
        /// Time missing at the best meeting point, s, positive.
        late_by: f64,
    },
    /// The opponent meets the ball, but no reply is worth weighing: no place matters.
    NoReply(Receipt),
}

impl Solver {
    /// Judges a standing place against the spot of a situation; all places in the world frame.
    ///
    /// `available` is the time from the hitter's contact to the opponent's, s, where it was measured; without it the
    /// model's own counts.
    ///
    /// # Errors
    /// As [`Self::solve`].
    pub fn judge_place(
        &mut self,
        situation: &Situation,
        place: DVec2,
        available: Option<f64>,
    ) -> Result<Verdict, SolveError> {
        Ok(self.judge_meeting(&Meeting::of(situation)?, place, available))
    }

    /// The same for a situation that has been taken up to the opponent's contact already.
    pub fn judge_meeting(&mut self, meeting: &Meeting, place: DVec2, available: Option<f64>) -> Verdict {
        let Meeting { situation, path, met } = meeting;
        let (end, near) = (situation.hitter_end, Near::new(situation));
        let receipt = match *met {
            Met::Past { late_by, .. } => return Verdict::Winner { late_by },
            Met::At(receipt) => receipt,
        };
        self.load(&near, path, &receipt);
        if self.judge.is_empty() {
            return Verdict::NoReply(turned(receipt, end));
        }
        let (stand, mover, start) = (near.stand(), near.mover(), near.hitter_place);
        self.search.look_for_least(&mut self.judge, &stand);
        let (spot, exposure) = self.search.least(&mut self.judge, &stand);
        let spot = Place { place: spot, exposure };
        let mut judge = |p: DVec2| f64::from(self.judge.exposure(p.as_vec2()).0);
        let time = available.unwrap_or(receipt.time);
        let recovery = recover(&situation.hitter, &mover, start, spot, time, &mut judge);
        let run = Run {
            start,
            mover: &mover,
            range: mover.stride.distance(time - situation.hitter.movement.follow_through_s),
        };
        let goal = if recovery.short_by > 0.0 { run.best(recovery.reached, &stand, &mut judge) } else { spot };
        let middle = run.towards(DVec2::new(0.0, spot.place.y));
        let stood = end.turn2(place);
        let judged = |place: DVec2, judge: &mut dyn FnMut(DVec2) -> f64| Place { place, exposure: judge(place) };
        let (middle, stood) = (judged(middle, &mut judge), judged(stood, &mut judge));

        let turn = |p: Place| Place { place: end.turn2(p.place), exposure: p.exposure };
        let stood_reachable = run.reaches(stood.place);
        Verdict::Judged(Box::new(Judgement {
            receipt: turned(receipt, end),
            spot: turn(spot),
            recovery: Recovery { start: end.turn2(recovery.start), reached: turn(recovery.reached), ..recovery },
            goal: turn(goal),
            middle: turn(middle),
            stood: turn(stood),
            stood_reachable,
        }))
    }
}

/// A situation taken up to the moment when the opponent meets the ball, or does not.
#[derive(Debug, Clone, PartialEq)]
pub struct Meeting {
    situation: Situation,
    path: Path,
    met: Met,
}

impl Meeting {
    /// Flies the shot and lets the opponent meet it.
    ///
    /// # Errors
    /// As [`Solver::solve`].
    pub fn of(situation: &Situation) -> Result<Self, SolveError> {
        let Begun { path, met, .. } = begin(situation)?;
        Ok(Self { situation: *situation, path, met })
    }

    /// The situation.
    #[must_use]
    pub fn situation(&self) -> &Situation {
        &self.situation
    }

    /// Where the opponent meets the ball, world frame; `None` when it gets past.
    #[must_use]
    pub fn receipt(&self) -> Option<Receipt> {
        match self.met {
            Met::Past { .. } => None,
            Met::At(receipt) => Some(turned(receipt, self.situation.hitter_end)),
        }
    }
}

/// Where the opponent of a situation meets the ball, world frame; `None` when it gets past.
///
/// # Errors
/// As [`Solver::solve`].
pub fn meeting(situation: &Situation) -> Result<Option<Receipt>, SolveError> {
    Meeting::of(situation).map(|meeting| meeting.receipt())
}

/// A run of a near player that lasts a certain time.
struct Run<'a> {
    start: DVec2,
    mover: &'a Mover,
    /// Metres that can be run, those backwards counted more.
    range: f64,
}

impl Run<'_> {
    /// How far a place is away, metres backwards counted more.
    fn distance(&self, place: DVec2) -> f64 {
        let way = place - self.start;
        if way.y * self.mover.facing < 0.0 { way.x.hypot(way.y * self.mover.backward) } else { way.length() }
    }

    fn reaches(&self, place: DVec2) -> bool {
        self.distance(place) <= self.range + 1e-9
    }

    /// The place, or the last one on the straight way to it.
    fn towards(&self, place: DVec2) -> DVec2 {
        let distance = self.distance(place);
        if distance <= self.range { place } else { self.start + (place - self.start) * (self.range / distance) }
    }

    /// The place of least exposure within the run, from one on the straight way to the spot on.
    ///
    /// A compass as in the search for the spot, whose needle is pulled back to what can be reached.
    fn best(&self, from: Place, stand: &Stand, judge: &mut dyn FnMut(DVec2) -> f64) -> Place {
        let inside = |p: DVec2| p.cmpge(stand.min).all() && p.cmple(stand.max).all();
        let mut best = from;
        if !inside(best.place) {
            return best;
        }
        let mut step = STEPS_M.0;
        while step > STEPS_M.1 {
            let mut moved = false;
            for n in 0..DIRECTIONS {
                let angle = n as f64 * (std::f64::consts::TAU / DIRECTIONS as f64);
                let place = self.towards(best.place + DVec2::from_angle(angle) * step);
                // Out of reach, and pulled back to about where the needle stands.
                let no_way = best.place.distance_squared(place) < (LEAST_PART_OF_STEP * step).powi(2);
                if no_way || !inside(place) {
                    continue;
                }
                let exposure = judge(place);
                if exposure < best.exposure - 1e-7 {
                    best = Place { place, exposure };
                    moved = true;
                    break;
                }
            }
            if !moved {
                step *= 0.45;
            }
        }
        best
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use glam::DVec3;

    use super::*;
    use crate::frame::End;
    use crate::{
        air::Air,
        ball::{Ball, BallType},
        court::{Court, NetPosts, Stage},
        flight::FlightLaw,
        player::{BackhandGrip, Hand},
        presets::Level,
        situation::{Conditions, ReceiptChoice, Settings, Shot, Stroke},
        surface::{Surface, SurfaceKind},
        units::{KMH, RPM},
    };

    pub(crate) fn drive(target: DVec2, level: Level) -> Situation {
        let player = level.player(Hand::Right, BackhandGrip::TwoHanded);
        Situation {
            conditions: Conditions {
                court: Court::new(Stage::Full, NetPosts::SinglesSticks),
                surface: Surface::new(SurfaceKind::Hard),
                ball: Ball::new(BallType::Type2),
                air: Air { temperature_c: 20.0, altitude_m: 0.0 },
                law: FlightLaw::SpinDependent,
            },
            hitter_end: End::Near,
            hitter: player,
            opponent: player,
            hitter_place: DVec2::new(2.4, -12.4),
            opponent_place: DVec2::new(-0.6, 12.8),
            hitter_pressure: 0.0,
            shot: Shot {
                contact: DVec3::new(3.2, -12.4, 0.9),
                stroke: Stroke::Topspin,
                target,
                speed: 100.0 * KMH,
                topspin: 1900.0 * RPM,
                sidespin: 0.0,
            },
            receipt: ReceiptChoice::Best,
            settings: Settings::default(),
        }
    }

    fn judged(situation: &Situation, place: DVec2, available: Option<f64>) -> Judgement {
        match Solver::new().judge_place(situation, place, available) {
            Ok(Verdict::Judged(judgement)) => *judgement,
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn it_says_what_the_whole_answer_says() {
        for target in [DVec2::new(-2.9, 9.6), DVec2::new(2.9, 9.6), DVec2::new(0.0, 9.0)] {
            let situation = drive(target, Level::Tournament);
            let answer = Solver::new().solve(&situation).unwrap();
            let play = answer.play().unwrap();
            let found = judged(&situation, play.recovery.reached.place, None);
            assert_eq!((found.spot, found.receipt), (play.spot, play.receipt));
            assert_eq!(found.recovery, play.recovery);
            assert!((found.stood.exposure - play.recovery.reached.exposure).abs() < 1e-6);
            assert!(found.stood_reachable);
            assert_eq!(meeting(&situation).unwrap(), Some(play.receipt));
        }
    }

    #[test]
    fn the_goal_is_reachable_and_no_worse_than_a_straight_run() {
        // Down the line from wide with little time: the spot is out of reach.
        let situation = drive(DVec2::new(2.9, 9.6), Level::Club);
        let found = judged(&situation, DVec2::new(0.0, -12.9), Some(0.8));
        assert!(found.recovery.short_by > 0.3, "{found:?}");
        assert!(found.goal.exposure <= found.recovery.reached.exposure && found.goal.exposure > found.spot.exposure);
        assert!(judged(&situation, found.goal.place, Some(0.8)).stood_reachable);
        assert!(!found.stood_reachable);
    }

    #[test]
    fn the_far_hitter_is_judged_by_the_half_turn() {
        let near = drive(DVec2::new(-2.9, 9.6), Level::Club);
        let mut far = near;
        far.hitter_end = End::Far;
        for place in [&mut far.hitter_place, &mut far.opponent_place, &mut far.shot.target] {
            *place = End::Far.turn2(*place);
        }
        far.shot.contact = End::Far.turn3(far.shot.contact);
        let (a, b) = (judged(&near, DVec2::new(0.5, -13.0), None), judged(&far, DVec2::new(-0.5, 13.0), None));
        assert!((a.spot.place + b.spot.place).length() < 1e-12 && (a.goal.place + b.goal.place).length() < 1e-12);
        assert!((a.stood.exposure - b.stood.exposure).abs() < 1e-12);
    }

    #[test]
    fn a_ball_nobody_reaches_leaves_no_place_to_judge() {
        let mut situation = drive(DVec2::new(-3.9, 11.0), Level::Club);
        situation.opponent_place = DVec2::new(6.0, 17.0);
        situation.shot.speed = 130.0 * KMH;
        let verdict = Solver::new().judge_place(&situation, DVec2::new(0.0, -12.0), None).unwrap();
        assert!(matches!(verdict, Verdict::Winner { late_by } if late_by > 0.0), "{verdict:?}");
    }
}
