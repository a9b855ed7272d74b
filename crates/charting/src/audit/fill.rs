//! Builds the model's input from an observed shot: fills in what was not seen, and records what was filled in.
//!
//! The choices made here are common practice without a source unless one is named; `docs/charting.md` lists them.

use glam::{DVec2, DVec3};
use serde::Serialize;
use standpoint_geometry::{
    AimError, Court, End, Interception, Meeting, Player, ReadyArea, ReceiptChoice, Shot, Situation, SolveError, Stroke,
    Wing, usual_delivery,
};

use super::ask::Ask;
use standpoint_board::chart::lines::{limits, out_by};
use standpoint_board::chart::model::ObservedShot;
pub use standpoint_board::chart::score::Miss;
use standpoint_board::model::{Board, COMFORTABLE_PART_OF_REACH, ShotSpec};

/// Distance by which a landing noted out may be moved onto the line when the ball was played on, m.
const PLAYED_ON_M: f64 = 0.3;
/// Distance from a line up to which a ball's centre still touches it, m.
const TOUCH_M: f64 = 0.05;
/// Distance inside the lines of a landing that was moved in, m.
const INSIDE_M: f64 = 0.02;
/// Assumed landing of a volleyed ball beyond the contact, m.
const BEYOND_VOLLEY_M: f64 = 3.0;
/// Assumed place of an opponent who was not seen: behind the middle of the baseline, m.
const WAITS_BEHIND_M: f64 = 1.0;
/// Times this close count as equal, s.
const SAME_TIME_S: f64 = 0.03;
/// Factor of a speed change tried until a shot can be played.
const SPEED_STEP: f64 = 1.12;
/// Number of such changes.
const SPEED_TRIES: usize = 8;

/// What was filled in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize)]
pub struct Assumed {
    /// Kind of stroke.
    pub stroke: bool,
    /// Wing.
    pub wing: bool,
    /// Height of the contact.
    pub height: bool,
    /// Landing.
    pub landing: bool,
    /// Speed, or a speed that had to be changed so that the shot can be played.
    pub speed: bool,
    /// Where the opponent met the ball.
    pub met: bool,
    /// Where the opponent stood at the contact.
    pub opponent: bool,
    /// When the opponent met the ball.
    pub time: bool,
}

/// Facts of a shot before the model computes it. Places are in the hitter's frame, facing `+y`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Facts {
    /// The end at which the hitter began.
    pub began: End,
    /// The hitter's end on the board, and the turn from the chart to it.
    pub turned: bool,
    pub hitter: Player,
    pub opponent: Player,
    pub stroke: Stroke,
    pub wing: Wing,
    pub contact: DVec3,
    pub landing: DVec2,
    pub miss: Option<Miss>,
    pub assumed: Assumed,
}

impl Facts {
    /// Collects the facts of a shot, and fills in those that need no model.
    pub fn of(ask: &Ask, court: &Court, players: (Player, Player)) -> Self {
        let (hitter, opponent) = players;
        let shot = &ask.shot;
        let mut assumed = Assumed::default();
        let own = |place: DVec2| shot.hitter.turn2(place);
        let contact = own(shot.contact);
        let service = service_line(court);
        let stroke = shot.stroke.unwrap_or_else(|| {
            assumed.stroke = true;
            let near_net = contact.y > -(service - 0.5);
            match shot.contact_height {
                Some(height) if near_net && height > 0.72 * hitter.reach.overhead => Stroke::Overhead,
                _ if near_net => Stroke::Volley,
                _ => Stroke::Topspin,
            }
        });
        let wing = match (stroke, shot.wing, shot.hitter_place) {
            (Stroke::Serve | Stroke::Overhead, ..) => Wing::Forehand,
            (_, Some(wing), _) => wing,
            (_, None, place) => {
                assumed.wing = true;
                hitter.wing_for(place.map_or(contact.x, |place| contact.x - own(place).x))
            }
        };
        let height = shot.contact_height.unwrap_or_else(|| {
            assumed.height = true;
            usual_height(&hitter, stroke)
        });
        let landing = shot.landing.map(own).unwrap_or_else(|| {
            assumed.landing = true;
            let met = shot.met.map_or(DVec2::new(0.0, 0.7 * court.half_length()), own);
            let beyond = met + (met - contact).normalize_or(DVec2::Y) * BEYOND_VOLLEY_M;
            inside(court, stroke, contact, beyond, 0.5)
        });
        let (landing, miss) = if assumed.landing {
            (landing, None)
        } else {
            let slack = if shot.met.is_some() || ask.after.is_some() { PLAYED_ON_M } else { TOUCH_M };
            match out_by(court, stroke, contact, landing) {
                Some((_, Miss::Net)) => (landing, Some(Miss::Net)),
                Some((by, miss)) if by > slack => (landing, Some(miss)),
                _ => (inside(court, stroke, contact, landing, INSIDE_M), None),
            }
        };
        let began = ask.ends.began(shot.hitter);
        let turned = began != shot.hitter;
        Self { began, turned, hitter, opponent, stroke, wing, contact: contact.extend(height), landing, miss, assumed }
    }
}

/// The model's input for a shot, with what was filled in for it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Question {
    /// The shot on a board on which each player is at the end where they began.
    pub spec: ShotSpec,
    pub situation: Situation,
    /// Where the hitter stood, on the same board.
    pub stood: DVec2,
    /// Time from the hitter's contact to the opponent's, where it was measured, s.
    pub available: Option<f64>,
    pub assumed: Assumed,
    /// The last computed meeting of the ball.
    meeting: Option<Meeting>,
}

/// Builds the model's input for a shot that was not missed and whose hitter was seen standing.
pub(crate) fn question(
    ask: &Ask,
    facts: &Facts,
    board: &Board,
    court: &Court,
    stood: DVec2,
    ready: Option<ReadyArea>,
) -> Result<Question, SolveError> {
    let shot = &ask.shot;
    let end = facts.began;
    let mut assumed = facts.assumed;
    // From the chart's frame to the board's, and from the hitter's to the board's.
    let turn = |place: DVec2| if facts.turned { -place } else { place };
    let from_own = |place: DVec2| end.turn2(place);
    let contact = facts.contact.truncate();
    let area = board.play_area();
    let beside = || {
        let player = &facts.hitter;
        let (side, reach) = match facts.wing {
            Wing::Forehand => (player.hand.forehand_sign(), player.reach.forehand),
            Wing::Backhand => (-player.hand.forehand_sign(), player.reach.backhand),
        };
        area.clamp_at(end, from_own(contact - DVec2::new(side * reach * COMFORTABLE_PART_OF_REACH, 0.0)))
    };
    let (before, after) = (opposite(ask.before, shot), opposite(ask.after, shot));
    let met = shot.met.or(after.map(|after| after.contact)).map(turn);
    assumed.met = met.is_none();
    let opponent_place =
        shot.opponent_place.or(before.and_then(|before| before.stood)).map(turn).unwrap_or_else(|| {
            assumed.opponent = true;
            from_own(DVec2::new(0.0, court.half_length() + WAITS_BEHIND_M))
        });
    let met_time = shot.met_time.or(after.and_then(|after| after.time));
    let available = shot.time.zip(met_time).map(|(struck, met)| met - struck).filter(|time| *time > 0.05);
    assumed.time = available.is_none();
    let contact = end.turn3(facts.contact);
    let target = from_own(facts.landing);
    let conditions = board.conditions();
    let usual = usual_delivery(&conditions, &facts.hitter, facts.wing, facts.stroke, facts.contact, facts.landing);
    assumed.speed = shot.speed.is_none();
    let spec = ShotSpec {
        hitter_end: end,
        shot: Shot {
            contact,
            stroke: facts.stroke,
            target,
            speed: shot.speed.unwrap_or(usual.0),
            topspin: shot.topspin.unwrap_or(usual.1),
            sidespin: 0.0,
        },
        receipt: met.map_or(ReceiptChoice::Best, ReceiptChoice::Near),
        hitter_place: Some(shot.hitter_place.map_or_else(beside, turn)),
        opponent_place,
        ..ShotSpec::cross_court()
    };
    let mut situation = board.situation_of(&spec);
    (situation.hitter, situation.opponent) = (facts.hitter, facts.opponent);
    let stood = turn(stood);
    situation.settings.ready = ready.unwrap_or_else(|| part_of_court(court, end.turn2(stood)));
    let mut question = Question { spec, situation, stood, available, assumed, meeting: None };
    let mut receipt = question.make_playable()?;
    if let Some(met) = met {
        receipt = question.let_the_opponent_reach(met, receipt)?;
    }
    if let (Some(wanted), None, Some(receipt)) = (available, shot.speed, receipt) {
        question.keep_time(wanted, receipt);
    }
    question.spec.shot = question.situation.shot;
    question.spec.opponent_place = question.situation.opponent_place;
    Ok(question)
}

impl Question {
    /// The meeting of the ball in the current situation.
    ///
    /// # Errors
    /// When the shot cannot be played.
    pub fn meeting(&mut self) -> Result<&Meeting, SolveError> {
        let known = self.meeting.take().filter(|meeting| *meeting.situation() == self.situation);
        let meeting = known.map_or_else(|| Meeting::of(&self.situation), Ok)?;
        Ok(self.meeting.insert(meeting))
    }

    fn meet(&mut self) -> Result<Option<Interception>, SolveError> {
        self.meeting().map(Meeting::receipt)
    }

    /// Changes the speed until the shot clears the net and lands where it was seen to land. Returns where
    /// the opponent meets it, if at all.
    fn make_playable(&mut self) -> Result<Option<Interception>, SolveError> {
        let seen = self.situation.shot;
        let mut was_in_the_net = false;
        for _ in 0..SPEED_TRIES {
            match self.meet() {
                Ok(receipt) => return Ok(receipt),
                Err(SolveError::Aim(AimError::TooSlow { .. })) if !was_in_the_net => {
                    self.situation.shot.speed *= SPEED_STEP;
                }
                Err(SolveError::Aim(AimError::Net { .. } | AimError::TooFast)) => {
                    self.situation.shot.speed /= SPEED_STEP;
                    was_in_the_net = true;
                }
                Err(SolveError::Aim(_)) => break,
                Err(other) => return Err(other),
            }
            self.assumed.speed = true;
        }
        // No flat ball reaches the target, so it was a high one.
        let (end, s) = (self.situation.hitter_end, &self.situation);
        let (contact, target) = (end.turn3(seen.contact), end.turn2(seen.target));
        let (speed, topspin) = usual_delivery(&s.conditions, &s.hitter, Wing::Forehand, Stroke::Lob, contact, target);
        self.situation.shot = Shot { stroke: Stroke::Lob, speed, topspin, ..seen };
        (self.assumed.speed, self.assumed.stroke) = (true, true);
        self.meet()
    }

    /// Moves an opponent who did meet the ball towards it, until the model agrees.
    fn let_the_opponent_reach(
        &mut self,
        met: DVec2,
        mut receipt: Option<Interception>,
    ) -> Result<Option<Interception>, SolveError> {
        let seen = self.situation.opponent_place;
        for part in [0.25, 0.5, 0.75, 1.0] {
            if receipt.is_some() {
                break;
            }
            self.situation.opponent_place = seen.lerp(met, part);
            self.assumed.opponent = true;
            receipt = self.meet()?;
        }
        Ok(receipt)
    }

    /// With a known time and an unknown speed, finds the speed that takes this time, as long as such a ball can be
    /// played and is met.
    fn keep_time(&mut self, wanted: f64, mut receipt: Interception) {
        let usual = self.situation.shot.speed;
        for _ in 0..4 {
            if (receipt.time - wanted).abs() < SAME_TIME_S {
                break;
            }
            let kept = self.situation.shot.speed;
            self.situation.shot.speed = (kept * receipt.time / wanted).clamp(0.5 * usual, 1.8 * usual);
            match self.meet() {
                Ok(Some(next)) => receipt = next,
                Ok(None) | Err(_) => {
                    self.situation.shot.speed = kept;
                    break;
                }
            }
        }
    }
}

/// The neighbouring shot, if the other player struck it.
fn opposite(neighbour: Option<ObservedShot>, shot: &ObservedShot) -> Option<ObservedShot> {
    neighbour.filter(|neighbour| neighbour.hitter == shot.hitter.other())
}

/// The depth that divides the back of the court from the net, m.
pub(crate) fn service_line(court: &Court) -> f64 {
    court.service_line.unwrap_or(court.half_length() * 0.54)
}

/// The part of the court that a place in the hitter's frame belongs to.
pub(crate) fn part_of_court(court: &Court, stood: DVec2) -> ReadyArea {
    // The border between the areas in which the model searches the spot.
    if stood.y < -(service_line(court) + 0.5) { ReadyArea::Back } else { ReadyArea::Net }
}

/// Height at which a stroke is usually struck, m.
///
/// Groundstrokes: 0.94 m on hard courts (median of professionals, open ball tracking of 784 matches), which is 0.36 of
/// their reach overhead; the same share is taken for everyone. The others are common practice.
fn usual_height(player: &Player, stroke: Stroke) -> f64 {
    let share = match stroke {
        Stroke::Topspin | Stroke::Flat => 0.36,
        Stroke::Slice | Stroke::Drop | Stroke::Lob => 0.31,
        Stroke::Volley => 0.45,
        Stroke::Overhead => 0.93,
        Stroke::Serve => return player.serve.height,
    };
    share * player.reach.overhead
}

/// The nearest landing that is in, with a margin.
fn inside(court: &Court, stroke: Stroke, contact: DVec2, landing: DVec2, margin: f64) -> DVec2 {
    let (left, right, deep) = limits(court, stroke, contact);
    landing.clamp(DVec2::new(left + margin, margin.max(0.3)), DVec2::new(right - margin, deep - margin))
}
