//! Judges the place where a player stood.
//!
//! The chain is that of [`Solver::solve`] up to the spot and the recovery run, without the field, the level lines, the
//! wedge and the drawn paths. An audit of many shots needs no more, and it takes a fraction of the time.

use glam::DVec2;

use crate::{
    ball::bounce::Path,
    interception::Intercept,
    shot::situation::Situation,
    solver::{
        Loaded, Near, SolveError, Solver,
        answer::{Interception, Place, Recovery},
        choose_for, hitters, receipt,
    },
};

/// The model's judgement of the place where a player stood.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Judgement {
    /// Where and how the opponent meets the ball.
    pub receipt: Interception,
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

/// The result of judging a place.
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
    NoReply(Interception),
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
        let meeting = self.meeting(situation)?;
        Ok(self.judge_meeting(&meeting, place, available))
    }

    /// Flies the shot of a situation and finds where the opponent meets it.
    ///
    /// # Errors
    /// As [`Solver::solve`].
    pub fn meeting(&mut self, situation: &Situation) -> Result<Meeting, SolveError> {
        let begun = self.begin(situation)?;
        Ok(Meeting { situation: *situation, path: begun.path, met: begun.met })
    }

    /// Judges a place in a situation already computed up to the opponent's contact.
    pub fn judge_meeting(&mut self, meeting: &Meeting, place: DVec2, available: Option<f64>) -> Verdict {
        let Meeting { situation, met, .. } = meeting;
        let near = Near::new(situation);
        let turn = near.turn;
        let met = match met {
            Intercept::Past { late_by, .. } => return Verdict::Winner { late_by: *late_by },
            Intercept::At(met) => met,
        };
        let (game, _) = self.game(&near);
        self.load(&near, &game, met);
        let receipt = receipt(&near, met);
        if self.look.is_empty() {
            return Verdict::NoReply(receipt);
        }
        let time = available.unwrap_or(met.time);
        let (spot, recovery) = choose_for(self, &near, &game, time);
        let legs = &game.side(0).legs;
        let from = hitters(near.hitter_place);
        let goal = if recovery.short_by > 0.0 { recovery.reached } else { spot };
        let run = |to: DVec2| {
            let end = legs.recover(from, hitters(to), time as f32);
            DVec2::new(f64::from(end[0]), -f64::from(end[1]))
        };
        let stood = turn.turn2(place);
        let middle = run(DVec2::new(0.0, spot.place.y));
        let judged = self.judge(&game, &[middle, stood]);
        let [middle, stood] =
            [(middle, judged[0]), (stood, judged[1])].map(|(place, exposure)| Place { place, exposure });
        let stood_reachable = run(stood.place).distance(stood.place) < 0.01;
        let turn_place = |p: Place| Place { place: turn.turn2(p.place), exposure: p.exposure };
        Verdict::Judged(Box::new(Judgement {
            receipt,
            spot: turn_place(spot),
            recovery: Recovery { start: turn.turn2(recovery.start), reached: turn_place(recovery.reached), ..recovery },
            goal: turn_place(goal),
            middle: turn_place(middle),
            stood: turn_place(stood),
            stood_reachable,
        }))
    }
}

/// The result of running to a place until the opponent strikes; all places in the world frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Run {
    /// Where the run ends: the place itself when there is time.
    pub reached: Place,
    /// The spot.
    pub spot: Place,
    /// The best that can be reached in the time: the spot itself, or the place on the way to it that serves best.
    pub goal: Place,
}

impl Solver {
    /// Judges runs to places by where each ends when the opponent strikes, at the back and at the net alike; `None` when the
    /// shot is a winner or leaves no reply.
    ///
    /// # Errors
    /// As [`Self::solve`].
    pub fn runs(&mut self, situation: &Situation, places: &[DVec2]) -> Result<Option<Vec<Run>>, SolveError> {
        let Some(Loaded { near, game, met, spot, recovery }) = self.loaded(situation)? else { return Ok(None) };
        let (legs, from) = (&game.side(0).legs, hitters(near.hitter_place));
        let ends: Vec<DVec2> = places
            .iter()
            .map(|place| {
                let end = legs.recover(from, hitters(near.turn.turn2(*place)), met.time as f32);
                DVec2::new(f64::from(end[0]), -f64::from(end[1]))
            })
            .collect();
        let judged = self.judge(&game, &ends);
        let turned = |p: Place| Place { place: near.turn.turn2(p.place), exposure: p.exposure };
        let (spot, goal) = (turned(spot), turned(recovery.reached));
        let runs = ends.iter().zip(judged).map(|(&place, exposure)| turned(Place { place, exposure }));
        Ok(Some(runs.map(|reached| Run { reached, spot, goal }).collect()))
    }
}

/// A situation computed up to the opponent's contact, if there is one.
#[derive(Debug, Clone, PartialEq)]
pub struct Meeting {
    situation: Situation,
    path: Path,
    met: Intercept,
}

impl Meeting {
    /// Flies the shot and finds where the opponent meets it.
    ///
    /// # Errors
    /// As [`Solver::solve`].
    pub fn of(situation: &Situation) -> Result<Self, SolveError> {
        Solver::new().meeting(situation)
    }

    /// The situation.
    #[must_use]
    pub fn situation(&self) -> &Situation {
        &self.situation
    }

    /// The path of the shot in the frame of a near, right-handed hitter.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Where the opponent meets the ball, world frame; `None` when it gets past.
    #[must_use]
    pub fn receipt(&self) -> Option<Interception> {
        match &self.met {
            Intercept::Past { .. } => None,
            Intercept::At(met) => Some(receipt(&Near::new(&self.situation), met)),
        }
    }
}

/// Where the opponent of a situation meets the ball, world frame; `None` when it gets past.
///
/// # Errors
/// As [`Solver::solve`].
pub fn meeting(situation: &Situation) -> Result<Option<Interception>, SolveError> {
    Meeting::of(situation).map(|meeting| meeting.receipt())
}

#[cfg(test)]
pub(crate) mod tests {
    use glam::DVec3;

    use super::*;
    use crate::court::frame::End;
    use crate::{
        ball::{Ball, BallType, air::Air, flight::FlightLaw},
        court::{
            Court, NetPosts, Stage,
            surface::{Surface, SurfaceKind},
        },
        player::{BackhandGrip, Hand, presets::Level},
        shot::{
            situation::{Conditions, ReceiptChoice, Settings, Shot},
            stroke::Stroke,
        },
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
            hitter_habits: None,
            opponent_habits: None,
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
