//! The current shot, noted place after place.

use glam::DVec2;
use standpoint_geometry::{End, Stroke, Wing};
use standpoint_language::{mark, text};

use standpoint_board::chart::model::ObservedShot;
use standpoint_board::chart::score::{ServeCall, ServeNumber};

/// The places of a shot, in the order they are noted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ShotPlace {
    /// Where the ball is struck.
    Contact,
    /// Where it lands.
    Landing,
    /// Where the opponent meets it.
    Met,
    /// Where the hitter stands at that time.
    Stood,
}

impl ShotPlace {
    /// All, in their order.
    pub const ALL: [Self; 4] = [Self::Contact, Self::Landing, Self::Met, Self::Stood];

    /// The place of a shot, where it was seen.
    #[must_use]
    pub fn of(self, shot: &ObservedShot) -> Option<DVec2> {
        match self {
            Self::Contact => Some(shot.contact),
            Self::Landing => shot.landing,
            Self::Met => shot.met,
            Self::Stood => shot.stood,
        }
    }
}

/// Refusal of a landing at the hitter's end.
pub(super) const LANDING: Refusal =
    Refusal::BeyondNet(mark("the landing is beyond the net, at the other end than the contact"));
/// Refusal of an opponent at the hitter's end.
pub(super) const OPPONENT: Refusal =
    Refusal::BeyondNet(mark("the opponent is beyond the net, at the other end than the contact"));

/// Why a place was refused.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Refusal {
    /// The place is at the hitter's end but must be beyond the net.
    #[error("{}", text(.0))]
    BeyondNet(&'static str),
    /// The place is beyond the net but must be at the hitter's end.
    #[error("{}", text("the hitter stands at the end from which the ball was struck"))]
    OwnEnd,
    /// A shot that neither lands nor is met.
    #[error("{}", text("a shot has to land or to be met"))]
    Nowhere,
    /// A point after the last one.
    #[error("{}", text("the match is over; begin another session, or check how many sets it has"))]
    MatchOver,
    /// No ball has been noted yet.
    #[error("{}", text("note where the ball lands first"))]
    NoBall,
    /// A shot without a contact.
    #[error("{}", text("a shot has to be struck somewhere; delete it instead"))]
    NoContact,
}

/// What has been noted of the current shot.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Draft {
    /// The end of the hitter.
    pub hitter: End,
    /// Contact.
    pub contact: Option<DVec2>,
    /// Landing: not yet noted, or noted as a place or as none.
    pub landing: Option<Option<DVec2>>,
    /// Where the opponent met it.
    pub met: Option<DVec2>,
    /// Kind of stroke.
    pub stroke: Option<Stroke>,
    /// Wing.
    pub wing: Option<Wing>,
    /// When it was struck, s.
    pub time: Option<f64>,
    /// When the opponent met it, s.
    pub met_time: Option<f64>,
    /// Which serve it is.
    pub serve: Option<ServeNumber>,
    /// What was called of a serve.
    pub call: Option<ServeCall>,
    /// Where the hitter stood, of a shot that is noted again.
    pub stood: Option<DVec2>,
}

impl Draft {
    /// The place to be noted next.
    #[must_use]
    pub fn step(&self) -> ShotPlace {
        match (self.contact, self.landing, self.met) {
            (None, ..) => ShotPlace::Contact,
            (_, None, _) => ShotPlace::Landing,
            (_, _, None) => ShotPlace::Met,
            _ => ShotPlace::Stood,
        }
    }

    /// The draft of a noted shot, to note it again.
    pub(super) fn again(shot: &ObservedShot) -> Self {
        let ObservedShot { hitter, contact, landing, met, stroke, wing, time, met_time, serve, call, stood, .. } =
            *shot;
        let (contact, landing) = (Some(contact), Some(landing));
        Self { hitter, contact, landing, met, stroke, wing, time, met_time, serve, call, stood }
    }

    /// The shot, once enough of it is noted.
    pub(super) fn shot(&self, stood: Option<DVec2>) -> Option<ObservedShot> {
        let landing = self.landing.flatten();
        let contact = self.contact.filter(|_| landing.is_some() || self.met.is_some())?;
        let Self { hitter, met, stroke, wing, time, serve, call, .. } = *self;
        let met_time = self.met_time.filter(|met| time.is_none_or(|time| *met > time));
        let seen = ObservedShot { hitter, contact, landing, met, stood, stroke, wing, ..ObservedShot::default() };
        Some(ObservedShot { time, met_time, serve, call, ..seen })
    }
}
