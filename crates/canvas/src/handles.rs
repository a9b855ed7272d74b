//! Handles on the court.

use egui::{Context, Key, Modifiers, Pos2, Vec2};
use glam::{DVec2, DVec3};
use standpoint_geometry::{Outcome, ReceiptChoice};
use standpoint_language::text;
use standpoint_ui::transform::Transform;
use standpoint_workbench::{edit::Edit, session::Session};

/// A thing that can be moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum HandleId {
    /// Where the ball is meant to land.
    Target,
    /// Where the hitter meets the ball.
    Contact,
    /// Where the opponent meets the ball.
    Receipt,
    /// The hitter.
    Hitter,
    /// The opponent.
    Opponent,
    /// Where the hitter recovers to: the spot, or a place chosen instead.
    Recovery,
}

impl HandleId {
    /// All, in the order of the Tab key.
    pub const ALL: [Self; 6] =
        [Self::Target, Self::Contact, Self::Receipt, Self::Hitter, Self::Opponent, Self::Recovery];

    /// Its name.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::Target => text("Ball target"),
            Self::Contact => text("Hitter’s contact"),
            Self::Receipt => text("Opponent’s contact"),
            Self::Hitter => text("Hitter"),
            Self::Opponent => text("Opponent"),
            Self::Recovery => text("Recovery place"),
        }
    }

    /// What moving it means.
    #[must_use]
    pub fn hint(self) -> &'static str {
        match self {
            Self::Target => text("Drag the ball to where it should land"),
            Self::Contact => text("Drag to where the hitter meets the ball"),
            Self::Receipt => {
                text("Drag along the path to where the opponent meets the ball; double-click to let them choose")
            }
            Self::Hitter => text("Drag the hitter; double-click to put them beside the ball"),
            Self::Opponent => text("Drag to where the opponent waits when the ball is struck"),
            Self::Recovery => {
                text("What if the hitter recovers elsewhere? Drag and see; double-click for the spot again")
            }
        }
    }

    /// The change that moves it to a place.
    #[must_use]
    pub fn moved_to(self, place: DVec2) -> Edit {
        match self {
            Self::Target => Edit::Target(place),
            Self::Contact => Edit::Contact(place),
            Self::Receipt => Edit::Receipt(ReceiptChoice::Near(place)),
            Self::Hitter => Edit::HitterPlace(Some(place)),
            Self::Opponent => Edit::OpponentPlace(place),
            Self::Recovery => Edit::RecoverTo(Some(place)),
        }
    }

    /// The change that removes a placement by hand, where optional.
    #[must_use]
    pub fn reset(self) -> Option<Edit> {
        match self {
            Self::Receipt => Some(Edit::Receipt(ReceiptChoice::Best)),
            Self::Hitter => Some(Edit::HitterPlace(None)),
            Self::Recovery => Some(Edit::RecoverTo(None)),
            Self::Target | Self::Contact | Self::Opponent => None,
        }
    }
}

/// A handle where it is now.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Handle {
    /// Which.
    pub id: HandleId,
    /// Where.
    pub place: DVec2,
}

/// The handles of the shot being looked at.
#[must_use]
pub fn handles(session: &Session) -> Vec<Handle> {
    // There are no handles while the rally is played.
    let Some(spec) = session.shot().filter(|_| session.moment().is_none()) else { return Vec::new() };
    let recovery = session.play().map(|play| spec.recover_to.unwrap_or(play.spot.place));
    let receipt = receipt_contact(session).map(|contact| Handle { id: HandleId::Receipt, place: contact.truncate() });
    [
        Some(Handle { id: HandleId::Target, place: spec.shot.target }),
        Some(Handle { id: HandleId::Contact, place: spec.shot.contact.truncate() }),
        receipt,
        Some(Handle { id: HandleId::Hitter, place: session.board().hitter_place(spec) }),
        Some(Handle { id: HandleId::Opponent, place: spec.opponent_place }),
        recovery.map(|place| Handle { id: HandleId::Recovery, place }),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// Where the opponent meets the ball, if they do.
#[must_use]
pub fn receipt_contact(session: &Session) -> Option<DVec3> {
    match &session.answer()?.outcome {
        Outcome::Play(play) => Some(play.receipt.contact),
        Outcome::NoReply(receipt) => Some(receipt.contact),
        Outcome::Winner { .. } => None,
    }
}

/// The handle under a point: the nearest one within reach of a finger.
#[must_use]
pub fn under(handles: &[Handle], at: &Transform, point: Pos2, touch: f32) -> Option<Handle> {
    handles
        .iter()
        .map(|h| (h, at.screen_from_court(h.place).distance(point)))
        .filter(|(_, distance)| *distance <= touch / 2.0)
        .min_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(h, _)| *h)
}

/// Steps of the arrow keys on the board, plain and with Shift, m.
pub const STEPS: (f64, f64) = (0.1, 0.5);

/// Displacement of this frame's arrow keys, with plain and Shift steps; consumes the keys.
#[must_use]
pub fn arrows(ctx: &Context, at: &Transform, steps: (f64, f64)) -> Option<DVec2> {
    let mut by = DVec2::ZERO;
    for (key, arrow) in [
        (Key::ArrowLeft, Vec2::LEFT),
        (Key::ArrowRight, Vec2::RIGHT),
        (Key::ArrowUp, Vec2::UP),
        (Key::ArrowDown, Vec2::DOWN),
    ] {
        for (modifiers, metres) in [(Modifiers::SHIFT, steps.1), (Modifiers::NONE, steps.0)] {
            let times = ctx.input_mut(|i| i.count_and_consume_key(modifiers, key));
            by += nudge(at, arrow, metres) * times as f64;
        }
    }
    (by != DVec2::ZERO).then_some(by)
}

/// Direction of an arrow key on the court, in screen directions.
#[must_use]
fn nudge(at: &Transform, arrow: Vec2, metres: f64) -> DVec2 {
    at.displacement_from_screen(arrow).normalize_or_zero() * metres
}

#[cfg(test)]
mod tests {
    use egui::{Rect, pos2, vec2};
    use glam::dvec2;
    use standpoint_geometry::Court;

    use super::*;
    use standpoint_ui::transform::CourtView;

    fn transform(turn: u8) -> Transform {
        CourtView::fitted(turn).transform(Rect::from_min_size(pos2(0.0, 0.0), vec2(600.0, 900.0)), &Court::default())
    }

    #[test]
    fn the_nearest_handle_is_taken() {
        let at = transform(0);
        let both = [
            Handle { id: HandleId::Hitter, place: dvec2(0.0, -12.0) },
            Handle { id: HandleId::Contact, place: dvec2(0.7, -12.0) },
        ];
        let near_contact = at.screen_from_court(dvec2(0.6, -12.1));
        assert_eq!(under(&both, &at, near_contact, 44.0).map(|h| h.id), Some(HandleId::Contact));
        let beyond = at.screen_from_court(dvec2(-0.7, -12.0));
        assert_eq!(under(&both, &at, beyond, 44.0).map(|h| h.id), Some(HandleId::Hitter));
        assert_eq!(under(&both, &at, pos2(5.0, 5.0), 44.0), None);
    }

    #[test]
    fn arrows_point_the_same_way_on_the_screen_however_the_court_lies() {
        for turn in 0..4 {
            let at = transform(turn);
            let moved = at.screen_displacement(nudge(&at, Vec2::RIGHT, 0.1));
            assert!((moved.normalized() - Vec2::RIGHT).length() < 1e-4);
            assert!((nudge(&at, Vec2::UP, 0.5).length() - 0.5).abs() < 1e-9);
        }
    }
}
