//! The chart: players, conditions, and what was seen of each shot.
//!
//! Places are in the world frame, all units are SI. What was not seen is `None`; the audit fills it in and marks it as
//! assumed.

use std::sync::Arc;

use glam::DVec2;
use standpoint_geometry::{Air, BallType, End, FlightLaw, Hand, Level, Settings, Stroke, Wing};

use super::date::Date;
use super::ends::Ends;
use super::score::{CourtSide, Ending, MatchFormat, Miss, ServeCall, ServeNumber};
use crate::choices::{CourtChoice, SurfaceChoice};
use crate::model::{Board, Page};
use crate::player_card::PlayerCard;

/// A charted session.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// Players and conditions.
    pub setup: Setup,
    /// Points in the order in which they were played.
    pub points: Vec<Point>,
}

/// Players and conditions of a chart.
#[derive(Debug, Clone, PartialEq)]
pub struct Setup {
    /// What was charted, one line.
    pub title: String,
    /// Free text, may have several lines.
    pub notes: String,
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
    /// The player who began at the near end.
    pub near: PlayerCard,
    /// The player who began at the far end.
    pub far: PlayerCard,
    /// Settings of the model's answer.
    pub settings: Settings,
    /// Facts about sessions besides their points.
    pub sessions: Vec<SessionInfo>,
}

/// Facts about a day or a match besides its points.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct SessionInfo {
    /// The session that points name.
    pub name: String,
    /// When it was.
    pub date: Option<Date>,
    /// Format of the match; `None` where it was not noted, which counts as the best of three tie-break sets.
    pub format: Option<MatchFormat>,
    /// Who served first, by where they began; without it the first point decides.
    pub first_server: Option<End>,
    /// File name of its video.
    pub video: String,
    /// Whether its times were taken by hand as strokes were noted: good enough to find a moment in a video, but not to
    /// measure the speed of a ball.
    pub times_by_hand: bool,
}

/// A point: a short row of shots.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Point {
    /// Session: a day, a match, a set. Trends compare sessions.
    pub session: String,
    /// Label of the point, such as its number or the score.
    pub label: String,
    /// Whether the players were still at the ends where they began.
    pub ends: Ends,
    /// The shots in order.
    pub shots: Vec<ObservedShot>,
    /// The end of the server, where it was noted; a noted serve gives it too.
    pub server: Option<End>,
    /// Side of the serve, where it was noted; a noted serve gives it too.
    pub side: Option<CourtSide>,
    /// The end of the winner, where it was noted; the ending or the last shot may give it too.
    pub winner: Option<End>,
    /// How the point ended, where it was noted; the last shot may give it too.
    pub ending: Option<Ending>,
    /// Where the last ball went that was missed, where it was noted; its landing may give it too.
    pub miss: Option<Miss>,
    /// The noted score before the point, see [`super::score::notation`]; empty where there is none.
    pub score: String,
    /// Seconds to add to the times of this point and those after it for the position in the video; `None` keeps the
    /// offset of the point before.
    pub video_offset: Option<f64>,
}

/// What was seen of one shot.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ObservedShot {
    /// The end from which it was struck.
    pub hitter: End,
    /// Where the racket met the ball, on the ground below.
    pub contact: DVec2,
    /// Height of the ball's centre there, m.
    pub contact_height: Option<f64>,
    /// Where it landed; `None` when it was taken from the air, or not seen.
    pub landing: Option<DVec2>,
    /// Where the opponent met it; `None` when it was not met, or not seen.
    pub met: Option<DVec2>,
    /// Where the hitter stood when the opponent met it: the place that is audited.
    pub stood: Option<DVec2>,
    /// Where the hitter's body was at the contact.
    pub hitter_place: Option<DVec2>,
    /// Where the opponent stood at the contact.
    pub opponent_place: Option<DVec2>,
    /// Kind of stroke.
    pub stroke: Option<Stroke>,
    /// Wing.
    pub wing: Option<Wing>,
    /// Speed off the racket, m/s.
    pub speed: Option<f64>,
    /// Topspin positive, backspin negative, rad/s.
    pub topspin: Option<f64>,
    /// Time of the contact, s; the zero is arbitrary but the same for the whole point.
    pub time: Option<f64>,
    /// Time when the opponent met it, s, from the same zero.
    pub met_time: Option<f64>,
    /// The hitter, where that is not the player on the card.
    pub struck_by: Who,
    /// The opponent, where that is not the player on the card.
    pub against: Who,
    /// First or second serve, where it was noted; faults before it tell it too.
    pub serve: Option<ServeNumber>,
    /// The call of a serve, where it was noted; the landing and what followed give it too.
    pub call: Option<ServeCall>,
}

/// Facts of a player that differ from the card.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Who {
    /// Level of play.
    pub level: Option<Level>,
    /// Racket hand.
    pub hand: Option<Hand>,
}

impl Who {
    /// Whether it has any fact.
    #[must_use]
    pub fn is_someone(self) -> bool {
        self != Self::default()
    }

    /// The card of this player, based on the common card.
    #[must_use]
    pub fn card(self, card: &PlayerCard) -> PlayerCard {
        let mut card = card.clone();
        if let Some(level) = self.level {
            card.figures = crate::player_card::Figures::Level(level);
        }
        card.hand = self.hand.unwrap_or(card.hand);
        card
    }
}

impl Setup {
    /// Players and conditions of a board. Its known habits are left out: a chart has habits of its own.
    #[must_use]
    pub fn of_board(board: &Board) -> Self {
        Self {
            title: board.title.clone(),
            notes: String::new(),
            court: board.court,
            surface: board.surface,
            ball: board.ball,
            air: board.air,
            law: board.law,
            near: PlayerCard { habits: None, ..board.near.clone() },
            far: PlayerCard { habits: None, ..board.far.clone() },
            settings: board.settings,
            sessions: Vec::new(),
        }
    }

    /// The facts about a session.
    #[must_use]
    pub fn session(&self, name: &str) -> Option<&SessionInfo> {
        self.sessions.iter().find(|session| session.name == name)
    }

    /// The facts about a session, to be changed; new ones are added where there were none.
    pub fn session_mut(&mut self, name: &str) -> &mut SessionInfo {
        let known = self.sessions.iter().position(|session| session.name == name);
        let at = known.unwrap_or_else(|| {
            self.sessions.push(SessionInfo { name: name.to_owned(), ..SessionInfo::default() });
            self.sessions.len() - 1
        });
        &mut self.sessions[at]
    }

    /// Adds the facts about sessions of another chart; existing facts are kept.
    pub fn take_sessions(&mut self, sessions: &[SessionInfo]) {
        for other in sessions {
            let known = self.session_mut(&other.name);
            known.date = known.date.or(other.date);
            known.format = known.format.or(other.format);
            known.first_server = known.first_server.or(other.first_server);
            if known.video.is_empty() {
                known.video.clone_from(&other.video);
            }
            known.times_by_hand |= other.times_by_hand;
        }
    }

    /// Whether another chart has the same players and conditions, whatever its title.
    #[must_use]
    pub fn is_alike(&self, other: &Self) -> bool {
        let bare =
            |setup: &Self| Self { title: String::new(), notes: String::new(), sessions: Vec::new(), ..setup.clone() };
        bare(self) == bare(other)
    }

    /// A board of these players and conditions with these pages, at least one.
    #[must_use]
    pub fn board(&self, pages: Vec<Arc<Page>>) -> Board {
        Board {
            title: self.title.clone(),
            court: self.court,
            surface: self.surface,
            ball: self.ball,
            air: self.air,
            law: self.law,
            near: self.near.clone(),
            far: self.far.clone(),
            settings: self.settings,
            pages,
            ..Board::blank()
        }
    }

    /// The card of the player who began at an end.
    #[must_use]
    pub fn card(&self, began: End) -> &PlayerCard {
        match began {
            End::Near => &self.near,
            End::Far => &self.far,
        }
    }
}

impl Default for Setup {
    /// The players and conditions of a new board.
    fn default() -> Self {
        let mut setup = Self::of_board(&Board::blank());
        setup.title = "New chart".to_owned();
        setup
    }
}

impl Chart {
    /// An empty chart.
    #[must_use]
    pub fn new(setup: Setup) -> Self {
        Self { setup, points: Vec::new() }
    }

    /// Appends the points of another chart of the same players and conditions.
    ///
    /// # Errors
    /// The other chart, where its players or conditions are not the same.
    pub fn add(&mut self, other: Self) -> Result<(), Box<Self>> {
        if !self.setup.is_alike(&other.setup) {
            return Err(Box::new(other));
        }
        self.setup.take_sessions(&other.setup.sessions);
        self.points.extend(other.points);
        Ok(())
    }

    /// The chart with the players in the other order: each keeps their shots and places.
    #[must_use]
    pub fn with_players_swapped(mut self) -> Self {
        std::mem::swap(&mut self.setup.near, &mut self.setup.far);
        for session in &mut self.setup.sessions {
            session.first_server = session.first_server.map(End::other);
        }
        for point in &mut self.points {
            point.ends = point.ends.other();
            point.score = super::score::notation::swapped(&point.score);
        }
        self
    }

    /// How many shots there are.
    #[must_use]
    pub fn shots(&self) -> usize {
        self.points.iter().map(|point| point.shots.len()).sum()
    }
}
