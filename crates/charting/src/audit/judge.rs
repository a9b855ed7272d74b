//! The audit of one shot.

use glam::DVec2;
use standpoint_geometry::{
    Court, End, Judgement, Level, Player, ReadyArea, SolveError, Solver, Stroke, Verdict, Way, Wing,
};

use super::ask::{Ask, Origin};
use super::context::Context;
use super::direction::{Direction, FromSide};
use super::fill::{Assumed, Facts, Miss, question};
use standpoint_board::chart::model::{Setup, Who};
use standpoint_board::model::{Board, Page, ShotSpec};

/// Least distance across between the ends of a run to the spot and one to the middle for a shot to distinguish them, m.
pub const APART_M: f64 = 0.4;
/// Share of the way to the recommended place below which a player has recovered to the middle.
pub const MIDDLE_SHARE: f64 = 0.35;

/// Area in which the model searches the spot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Compare {
    /// In the part of the court where the player stood, at the net or in the back.
    #[default]
    SamePart,
    /// Anywhere on the player's side.
    Anywhere,
}

/// A shot with the model's verdict.
#[derive(Debug, Clone, PartialEq)]
pub struct AuditedShot {
    /// Its origin in the chart.
    pub origin: Origin,
    /// The end at which the hitter began, whose card counts.
    pub began: End,
    /// Level of the hitter, unless figures were entered by hand.
    pub level: Option<Level>,
    /// Kind of stroke.
    pub stroke: Stroke,
    /// Wing.
    pub wing: Wing,
    /// Direction.
    pub direction: Direction,
    /// The way of the ball, as habits are counted.
    pub way: Way,
    /// Side of the court it was struck from.
    pub side: FromSide,
    /// Contact, in the hitter's frame.
    pub contact: DVec2,
    /// Landing, in the hitter's frame.
    pub landing: DVec2,
    /// Context of the shot.
    pub context: Context,
    /// What was filled in.
    pub assumed: Assumed,
    /// Outcome.
    pub outcome: Outcome,
}

/// Outcome of a shot.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// The place was judged.
    Judged(Box<Judged>),
    /// The model's opponent would not have reached the ball: no place matters.
    Winner,
    /// The model's opponent would hardly have put the ball back: no place matters.
    NoReply,
    /// The shot was missed.
    Missed(Miss),
    /// Nobody noted where the hitter stood.
    NotSeen,
    /// The model finds no flight from contact to landing, for this reason.
    NotPlayable(SolveError),
}

/// A judged place. Places are in the hitter's frame, facing `+y`, with `y < 0` on the hitter's side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Judged {
    /// Where the hitter stood when the opponent met the ball.
    pub stood: DVec2,
    /// The place of least exposure.
    pub spot: DVec2,
    /// The best place that could be reached in time; the spot, when there was time.
    pub goal: DVec2,
    /// End of a run to the middle.
    pub middle: DVec2,
    /// Where the opponent met the ball.
    pub met: DVec2,
    /// Whether the spot could be reached in time.
    pub reachable: bool,
    /// Distance by which the spot was out of reach, m.
    pub short_by: f64,
    /// Time from the hitter's contact to the opponent's, s.
    pub available: f64,
    /// Time needed for a run to the spot, s.
    pub needed: f64,
    /// Exposure where the hitter stood.
    pub exposure: f64,
    /// Exposure beyond that at the spot.
    pub extra: f64,
    /// Exposure beyond that at the best reachable place; not negative. The player's avoidable cost.
    pub avoidable: f64,
    /// Whether the hitter stood in the middle instead of the recommended place; `None` if both are about the same.
    pub to_the_middle: Option<bool>,
    /// The shot on a board, with each player at the end where they began.
    pub spec: ShotSpec,
    /// Area in which the spot was searched.
    pub ready: ReadyArea,
    /// The hitter, where that is not the player on the card.
    pub struck_by: Who,
    /// The opponent, where that is not the player on the card.
    pub against: Who,
}

impl Judged {
    /// Offset of the player from the spot: to their right, and behind it, m.
    #[must_use]
    pub fn from_spot(&self) -> (f64, f64) {
        (self.stood.x - self.spot.x, self.spot.y - self.stood.y)
    }

    /// Offset from the best reachable place.
    #[must_use]
    pub fn from_goal(&self) -> (f64, f64) {
        (self.stood.x - self.goal.x, self.goal.y - self.stood.y)
    }
}

/// Audits shots one by one and keeps the solver's buffers. One per thread.
pub struct Auditor {
    board: Board,
    court: Court,
    setup: Setup,
    cards: [Player; 2],
    compare: Compare,
    solver: Solver,
}

impl Auditor {
    /// An auditor for players and conditions.
    #[must_use]
    pub fn new(setup: &Setup, compare: Compare) -> Self {
        let board = setup.board(vec![Page::blank().into()]);
        let court = board.conditions().court;
        let cards = [setup.near.player(), setup.far.player()];
        Self { board, court, setup: setup.clone(), cards, compare, solver: Solver::new() }
    }

    /// Audits a shot.
    pub fn audit(&mut self, ask: &Ask) -> AuditedShot {
        let shot = &ask.shot;
        let began = ask.ends.began(shot.hitter);
        let players = (self.player(began, shot.struck_by), self.player(began.other(), shot.against));
        let facts = Facts::of(ask, &self.court, players);
        let contact = facts.contact.truncate();
        let hand = facts.hitter.hand;
        let mut audited = AuditedShot {
            origin: ask.origin.clone(),
            began,
            level: shot.struck_by.level.or(self.setup.card(began).level()),
            stroke: facts.stroke,
            wing: facts.wing,
            direction: Direction::of(&self.court, hand, facts.wing, facts.stroke, contact, facts.landing),
            way: Way::of(&self.court, hand, facts.wing, facts.stroke, contact, facts.landing),
            side: FromSide::of(&self.court, contact),
            contact,
            landing: facts.landing,
            context: Context::of(ask, facts.stroke),
            assumed: facts.assumed,
            outcome: Outcome::NotSeen,
        };
        if let Some(miss) = facts.miss {
            audited.outcome = Outcome::Missed(miss);
        } else if let Some(stood) = shot.stood {
            (audited.assumed, audited.outcome) = self.judge(ask, &facts, stood);
        }
        audited
    }

    fn player(&self, began: End, who: Who) -> Player {
        if who.is_someone() {
            return who.card(self.setup.card(began)).player();
        }
        match began {
            End::Near => self.cards[0],
            End::Far => self.cards[1],
        }
    }

    fn judge(&mut self, ask: &Ask, facts: &Facts, stood: DVec2) -> (Assumed, Outcome) {
        let ready = match self.compare {
            Compare::SamePart => None,
            Compare::Anywhere => Some(ReadyArea::Anywhere),
        };
        let mut question = match question(ask, facts, &self.board, &self.court, stood, ready) {
            Ok(question) => question,
            Err(error) => return (facts.assumed, Outcome::NotPlayable(error)),
        };
        let (stood, available) = (question.stood, question.available);
        let verdict = question.meeting().map(|meeting| self.solver.judge_meeting(meeting, stood, available));
        let outcome = match verdict {
            Ok(Verdict::Winner { .. }) => Outcome::Winner,
            Ok(Verdict::NoReply(_)) => Outcome::NoReply,
            Ok(Verdict::Judged(found)) => {
                let judged = judged(&found, facts.began, question.spec, question.situation.settings.ready);
                Outcome::Judged(Box::new(Judged { struck_by: ask.shot.struck_by, against: ask.shot.against, ..judged }))
            }
            Err(error) => Outcome::NotPlayable(error),
        };
        (question.assumed, outcome)
    }
}

fn judged(found: &Judgement, end: End, spec: ShotSpec, ready: ReadyArea) -> Judged {
    let own = |place: DVec2| end.turn2(place);
    let (stood, goal, middle) = (own(found.stood.place), own(found.goal.place), own(found.middle.place));
    let apart = goal.x - middle.x;
    Judged {
        stood,
        spot: own(found.spot.place),
        goal,
        middle,
        met: own(found.receipt.contact.truncate()),
        reachable: found.recovery.short_by <= 0.0,
        short_by: found.recovery.short_by,
        available: found.recovery.available,
        needed: found.recovery.needed,
        exposure: found.stood.exposure,
        extra: found.stood.exposure - found.spot.exposure,
        avoidable: (found.stood.exposure - found.goal.exposure).max(0.0),
        to_the_middle: (apart.abs() >= APART_M).then(|| (stood.x - middle.x).abs() <= MIDDLE_SHARE * apart.abs()),
        spec,
        ready,
        struck_by: Who::default(),
        against: Who::default(),
    }
}
