//! Direction of a shot, from contact and landing.

use glam::DVec2;
use serde::Serialize;
use standpoint_geometry::{Court, Hand, Stroke, Third, Way, Wing};

use standpoint_board::file::Named;

/// Direction of a shot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Direction {
    /// Diagonally across the court.
    CrossCourt,
    /// Along the nearer sideline.
    DownTheLine,
    /// Through the middle.
    Middle,
    /// Diagonally, with the forehand from the backhand side.
    InsideOut,
    /// Along the line, with the forehand from the backhand side.
    InsideIn,
    /// A serve to the middle line.
    ServeMiddle,
    /// A serve at the body.
    ServeBody,
    /// A serve to the sideline.
    ServeWide,
}

impl Named for Direction {
    const NAMES: &'static [(&'static str, Self)] = &[
        ("CrossCourt", Self::CrossCourt),
        ("DownTheLine", Self::DownTheLine),
        ("Middle", Self::Middle),
        ("InsideOut", Self::InsideOut),
        ("InsideIn", Self::InsideIn),
        ("ServeMiddle", Self::ServeMiddle),
        ("ServeBody", Self::ServeBody),
        ("ServeWide", Self::ServeWide),
    ];
}

impl Named for FromSide {
    const NAMES: &'static [(&'static str, Self)] =
        &[("Left", Self::Left), ("Middle", Self::Middle), ("Right", Self::Right)];
}

impl Direction {
    /// All directions, in the order tables list them.
    pub const ALL: [Self; 8] = [
        Self::CrossCourt,
        Self::DownTheLine,
        Self::Middle,
        Self::InsideOut,
        Self::InsideIn,
        Self::ServeMiddle,
        Self::ServeBody,
        Self::ServeWide,
    ];

    /// The direction of a shot in the frame of a near hitter.
    #[must_use]
    pub fn of(court: &Court, hand: Hand, wing: Wing, stroke: Stroke, contact: DVec2, landing: DVec2) -> Self {
        let way = Way::of(court, hand, wing, stroke, contact, landing);
        if stroke == Stroke::Serve {
            return match way {
                Way::Line => Self::ServeMiddle,
                Way::Middle => Self::ServeBody,
                Way::Across => Self::ServeWide,
            };
        }
        let forehand = wing == Wing::Forehand;
        let central = court.is_central(contact);
        let from_backhand_side = contact.x * hand.forehand_sign() < 0.0 && !central;
        match way {
            Way::Middle => Self::Middle,
            Way::Across if forehand && from_backhand_side => Self::InsideOut,
            Way::Across => Self::CrossCourt,
            Way::Line if forehand && from_backhand_side => Self::InsideIn,
            Way::Line if forehand && central => Self::InsideOut,
            Way::Line => Self::DownTheLine,
        }
    }

    /// Name of the direction.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::CrossCourt => "cross-court",
            Self::DownTheLine => "down the line",
            Self::Middle => "through the middle",
            Self::InsideOut => "inside-out",
            Self::InsideIn => "inside-in",
            Self::ServeMiddle => "serve to the middle",
            Self::ServeBody => "serve at the body",
            Self::ServeWide => "serve wide",
        }
    }
}

/// The side of the court a ball was struck from, as the hitter faces the net.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FromSide {
    /// The left third.
    Left,
    /// The middle third.
    Middle,
    /// The right third.
    Right,
}

impl FromSide {
    /// All, from left to right.
    pub const ALL: [Self; 3] = [Self::Left, Self::Middle, Self::Right];

    /// The side of a contact in the frame of a near hitter: thirds of the singles court.
    #[must_use]
    pub fn of(court: &Court, contact: DVec2) -> Self {
        match Third::of(court, contact.x) {
            Third::Left => Self::Left,
            Third::Middle => Self::Middle,
            Third::Right => Self::Right,
        }
    }

    /// Name of the side.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::Left => "from the left",
            Self::Middle => "from the middle",
            Self::Right => "from the right",
        }
    }
}

#[cfg(test)]
mod tests {
    use standpoint_geometry::{NetPosts, Stage};

    use super::*;

    #[test]
    fn directions_have_the_names_a_coach_gives_them() {
        use Direction as D;
        let court = Court::new(Stage::Full, NetPosts::SinglesSticks);
        let of = |hand, wing, x: f64, to: f64| {
            Direction::of(&court, hand, wing, Stroke::Topspin, DVec2::new(x, -12.0), DVec2::new(to, 9.0))
        };
        use {Hand::Left, Hand::Right, Wing::Backhand, Wing::Forehand};
        assert_eq!(of(Right, Forehand, 3.0, -3.0), D::CrossCourt);
        assert_eq!(of(Right, Forehand, 3.0, 3.0), D::DownTheLine);
        assert_eq!(of(Right, Forehand, 3.0, 0.5), D::Middle);
        assert_eq!(of(Right, Forehand, -2.5, 3.0), D::InsideOut);
        assert_eq!(of(Right, Forehand, -2.5, -3.0), D::InsideIn);
        assert_eq!(of(Right, Backhand, -3.0, 3.0), D::CrossCourt);
        assert_eq!(of(Right, Backhand, -3.0, -3.0), D::DownTheLine);
        assert_eq!(of(Left, Forehand, -3.0, 3.0), D::CrossCourt);
        assert_eq!(of(Left, Forehand, 2.5, -3.0), D::InsideOut);
        assert_eq!(of(Right, Forehand, 0.0, -3.0), D::CrossCourt);
        assert_eq!(of(Right, Forehand, 0.0, 3.0), D::InsideOut);
        assert_eq!(of(Right, Backhand, 0.0, 3.0), D::CrossCourt);
    }
}
