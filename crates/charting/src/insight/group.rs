//! Groups of shots by their properties.

use serde::{Deserialize, Serialize};
use standpoint_geometry::{Stroke, Wing};

use crate::audit::by_name;
use crate::audit::{AuditedShot, Direction, FromSide, Length, Pressure, Role};

/// The properties that distinguish shots.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub(super) struct Key {
    #[serde(with = "by_name")]
    pub wing: Wing,
    #[serde(with = "by_name")]
    pub side: FromSide,
    #[serde(with = "by_name")]
    pub direction: Direction,
    #[serde(with = "by_name")]
    pub stroke: Stroke,
    #[serde(with = "by_name::optional")]
    pub pressure: Option<Pressure>,
    #[serde(with = "by_name")]
    pub length: Length,
    #[serde(with = "by_name::optional")]
    pub role: Option<Role>,
}

impl Key {
    pub fn of(shot: &AuditedShot) -> Self {
        let AuditedShot { wing, side, direction, stroke, context, .. } = *shot;
        Self { wing, side, direction, stroke, pressure: context.pressure, length: context.length, role: context.role }
    }
}

/// A group of shots; `None` accepts anything.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct ShotGroup {
    /// Wing.
    pub wing: Option<Wing>,
    /// Side of the court, as the hitter faces the net.
    pub side: Option<FromSide>,
    /// Direction.
    pub direction: Option<Direction>,
    /// Kind of stroke.
    pub stroke: Option<Stroke>,
    /// Whether it was hurried.
    pub pressure: Option<Pressure>,
    /// Length of the point before the shot.
    pub length: Option<Length>,
    /// Whether the hitter served in the point.
    pub role: Option<Role>,
}

fn fits<T: PartialEq>(wanted: Option<T>, found: Option<T>) -> bool {
    wanted.is_none() || wanted == found
}

impl ShotGroup {
    /// Whether a shot belongs to it.
    #[must_use]
    pub fn holds(&self, shot: &AuditedShot) -> bool {
        self.holds_key(&Key::of(shot))
    }

    pub(super) fn holds_key(&self, key: &Key) -> bool {
        fits(self.wing, Some(key.wing))
            && fits(self.side, Some(key.side))
            && fits(self.direction, Some(key.direction))
            && fits(self.stroke, Some(key.stroke))
            && fits(self.pressure, key.pressure)
            && fits(self.length, Some(key.length))
            && fits(self.role, key.role)
    }

    /// The groups that are tested: by one property, and by the pairs used by coaches.
    #[must_use]
    pub fn all() -> Vec<Self> {
        let none = Self::default();
        let wings = [Wing::Forehand, Wing::Backhand];
        let mut all = Vec::new();
        all.extend(wings.map(|wing| Self { wing: Some(wing), ..none }));
        all.extend(FromSide::ALL.map(|side| Self { side: Some(side), ..none }));
        all.extend(Direction::ALL.map(|direction| Self { direction: Some(direction), ..none }));
        all.extend(Stroke::ALL.map(|stroke| Self { stroke: Some(stroke), ..none }));
        all.extend(Pressure::ALL.map(|pressure| Self { pressure: Some(pressure), ..none }));
        all.extend(Length::ALL.map(|length| Self { length: Some(length), ..none }));
        all.extend(Role::ALL.map(|role| Self { role: Some(role), ..none }));
        for wing in wings.map(Some) {
            all.extend(FromSide::ALL.map(|side| Self { wing, side: Some(side), ..none }));
            all.extend(Direction::ALL[..3].iter().map(|direction| Self { wing, direction: Some(*direction), ..none }));
            all.extend(Pressure::ALL.map(|pressure| Self { wing, pressure: Some(pressure), ..none }));
        }
        for side in FromSide::ALL.map(Some) {
            all.extend(Pressure::ALL.map(|pressure| Self { side, pressure: Some(pressure), ..none }));
        }
        all
    }
}
