//! The board: conditions, players, pages and shots.
//!
//! Places are in the world frame, all units are SI. Pages are shared: cloning a board, which [`crate::history`] does
//! at each step, copies no page until that page changes.

use std::sync::Arc;

use glam::DVec2;
use standpoint_geometry::{
    Air, Ball, BallType, Conditions, End, FlightLaw, Player, ReadyArea, ReceiptChoice, Settings, Shot, Situation,
    Stroke,
};

use crate::chart::Chart;
use crate::choices::{CourtChoice, SurfaceChoice, Units};
use crate::marks::Marks;
use crate::play_area::PlayArea;
use crate::player_card::PlayerCard;

/// A whole board.
#[derive(Debug, Clone, PartialEq)]
pub struct Board {
    /// What the board is about, one line.
    pub title: String,
    /// Lines, net and the ground around.
    pub court: CourtChoice,
    /// What the ball bounces on.
    pub surface: SurfaceChoice,
    /// Which ball.
    pub ball: BallType,
    /// Temperature and altitude.
    pub air: Air,
    /// Law of drag and lift.
    pub law: FlightLaw,
    /// The player at the near end.
    pub near: PlayerCard,
    /// The player at the far end.
    pub far: PlayerCard,
    /// The end of the player who is coached.
    pub coached: End,
    /// Units shown.
    pub units: Units,
    /// Name of the court's theme; a program that does not know it uses its own default.
    pub theme: String,
    /// Settings of the answer.
    pub settings: Settings,
    /// Pages in order, at least one.
    pub pages: Vec<Arc<Page>>,
    /// The chart, if kept with the board; with players and conditions of its own.
    pub chart: Option<Arc<Chart>>,
}

/// A page: a rally with its texts.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// One line.
    pub title: String,
    /// Free text, may have several lines.
    pub notes: String,
    /// What to say and look for, one short line each.
    pub cues: Vec<String>,
    /// The drill.
    pub drill: Drill,
    /// The rally, at least one shot.
    pub shots: Vec<ShotSpec>,
    /// The marks of the page.
    pub marks: Marks,
}

/// The drill of a page: free text for the printed sheet; each part may have several lines.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Drill {
    /// The feed: by whom, from where, how often.
    pub feed: String,
    /// Targets, and what counts.
    pub targets: String,
    /// Harder and easier variants.
    pub progression: String,
    /// Equipment besides the marks.
    pub equipment: String,
}

impl Drill {
    /// Whether it is empty.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// One shot of a rally and where both players were when it was struck.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShotSpec {
    /// The end from which it is struck.
    pub hitter_end: End,
    /// Contact, stroke, target, speed and spin.
    pub shot: Shot,
    /// Where the opponent meets the ball.
    pub receipt: ReceiptChoice,
    /// Where the hitter's body is; `None` derives it from the contact, see [`Board::hitter_place`].
    pub hitter_place: Option<DVec2>,
    /// Where the opponent's body is when the ball is struck.
    pub opponent_place: DVec2,
    /// Whether contact and places come from the shot before; never for the first one.
    pub follows: bool,
    /// Where the hitter goes afterwards; `None` follows the model.
    pub recover_to: Option<DVec2>,
    /// The part of the court that the hitter recovers to: the net for an approach. `None` uses [`Board::ready_area`].
    pub recover_in: Option<ReadyArea>,
}

/// Comfortable distance of a ball from the body, as a share of the wing's full reach.
///
/// A choice: the hitting arm is then bent and free to swing, and a lunge has the other half left.
pub const COMFORTABLE_PART_OF_REACH: f64 = 0.5;

impl Board {
    /// The page with this index.
    #[must_use]
    pub fn page(&self, page: usize) -> Option<&Page> {
        self.pages.get(page).map(Arc::as_ref)
    }

    /// The page with this index, to be changed; only this page is copied when history still holds it.
    pub fn page_mut(&mut self, page: usize) -> Option<&mut Page> {
        self.pages.get_mut(page).map(Arc::make_mut)
    }

    /// A shot by page and place in the rally.
    #[must_use]
    pub fn shot(&self, page: usize, shot: usize) -> Option<&ShotSpec> {
        self.page(page)?.shots.get(shot)
    }

    /// A shot by page and place in the rally, to be changed.
    pub fn shot_mut(&mut self, page: usize, shot: usize) -> Option<&mut ShotSpec> {
        self.page_mut(page)?.shots.get_mut(shot)
    }

    /// The player at an end.
    #[must_use]
    pub fn card(&self, end: End) -> &PlayerCard {
        match end {
            End::Near => &self.near,
            End::Far => &self.far,
        }
    }

    /// The player at an end, to be changed.
    pub fn card_mut(&mut self, end: End) -> &mut PlayerCard {
        match end {
            End::Near => &mut self.near,
            End::Far => &mut self.far,
        }
    }

    /// Court, surface, ball and air of the computation.
    #[must_use]
    pub fn conditions(&self) -> Conditions {
        Conditions {
            court: self.court.court(),
            surface: self.surface.surface(),
            ball: Ball::new(self.ball),
            air: self.air,
            law: self.law,
        }
    }

    /// The area allowed for places.
    #[must_use]
    pub fn play_area(&self) -> PlayArea {
        PlayArea::of(&self.court)
    }

    /// The hitter's place: the given one, or else beside the contact.
    ///
    /// Without a given place the ball is taken on the forehand when it is met on the forehand half of the court and on
    /// the backhand otherwise, [`COMFORTABLE_PART_OF_REACH`] away from the body and level with it,
    /// but on the site.
    #[must_use]
    pub fn hitter_place(&self, spec: &ShotSpec) -> DVec2 {
        let beside = || beside(&self.card(spec.hitter_end).player(), spec);
        spec.hitter_place.unwrap_or_else(|| self.play_area().clamp_at(spec.hitter_end, beside()))
    }

    /// The part of the court that the hitter of a shot recovers to: the one chosen for the shot, or that of the board.
    /// Where neither is set, the hitter of a volley or an overhead from in front of the service line stays at the net.
    #[must_use]
    pub fn ready_area(&self, spec: &ShotSpec) -> ReadyArea {
        spec.recover_in.unwrap_or(match self.settings.ready {
            ReadyArea::Anywhere if self.struck_at_net(spec) => ReadyArea::Net,
            usual => usual,
        })
    }

    /// Whether a shot is a volley or an overhead from in front of the service line (or where that line would be).
    fn struck_at_net(&self, spec: &ShotSpec) -> bool {
        let court = self.court.court();
        let line = court.service_line.unwrap_or(0.5 * court.half_length());
        matches!(spec.shot.stroke, Stroke::Volley | Stroke::Overhead) && spec.shot.contact.y.abs() <= line
    }

    /// The situation of a shot, or `None` if there is no such page or shot.
    #[must_use]
    pub fn situation(&self, page: usize, shot: usize) -> Option<Situation> {
        self.shot(page, shot).map(|spec| self.situation_of(spec))
    }

    /// The situation of a shot that need not be on the board.
    #[must_use]
    pub fn situation_of(&self, spec: &ShotSpec) -> Situation {
        Situation {
            conditions: self.conditions(),
            hitter_end: spec.hitter_end,
            hitter: self.card(spec.hitter_end).player(),
            opponent: self.card(spec.hitter_end.other()).player(),
            hitter_place: self.hitter_place(spec),
            opponent_place: spec.opponent_place,
            hitter_pressure: 0.0,
            hitter_habits: self.card(spec.hitter_end).habits_used(),
            opponent_habits: self.card(spec.hitter_end.other()).habits_used(),
            shot: spec.shot,
            receipt: spec.receipt,
            settings: Settings { ready: self.ready_area(spec), ..self.settings },
        }
    }
}

/// The body's place beside a ball met at a comfortable distance.
fn beside(hitter: &Player, spec: &ShotSpec) -> DVec2 {
    let contact = spec.hitter_end.turn2(spec.shot.contact.truncate());
    let forehand = hitter.hand.forehand_sign();
    let (side, reach) = if contact.x * forehand >= 0.0 {
        (forehand, hitter.reach.forehand)
    } else {
        (-forehand, hitter.reach.backhand)
    };
    spec.hitter_end.turn2(contact - DVec2::new(side * reach * COMFORTABLE_PART_OF_REACH, 0.0))
}
