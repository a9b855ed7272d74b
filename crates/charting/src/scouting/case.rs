//! Cases of habits.

use serde::{Deserialize, Serialize};
use standpoint_geometry::{HabitCase, Third, Wing};

use crate::audit::by_name;
use crate::audit::{AuditedShot, FromSide, Pressure};
use standpoint_board::chart::score::{CourtSide, ServeNumber};

/// The properties that distinguish cases.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub(super) enum Key {
    Rally {
        forehand: bool,
        #[serde(with = "by_name")]
        side: FromSide,
        #[serde(with = "by_name::optional")]
        pressure: Option<Pressure>,
    },
    Serve {
        #[serde(with = "by_name")]
        side: CourtSide,
        #[serde(with = "by_name")]
        number: ServeNumber,
    },
}

impl Key {
    pub fn of(shot: &AuditedShot) -> Self {
        match shot.context.serve {
            Some((side, number)) => Self::Serve { side, number },
            None => {
                Self::Rally { forehand: shot.wing == Wing::Forehand, side: shot.side, pressure: shot.context.pressure }
            }
        }
    }
}

impl From<Key> for HabitCase {
    /// The case as the model counts it: a stroke of unknown pressure counts as at ease.
    fn from(key: Key) -> Self {
        match key {
            Key::Rally { forehand, side, pressure } => Self::Rally(
                if forehand { Wing::Forehand } else { Wing::Backhand },
                match side {
                    FromSide::Left => Third::Left,
                    FromSide::Middle => Third::Middle,
                    FromSide::Right => Third::Right,
                },
                pressure == Some(Pressure::Hurried),
            ),
            Key::Serve { side, number } => {
                Self::Serve { deuce: side == CourtSide::Deuce, second: number == ServeNumber::Second }
            }
        }
    }
}

/// A case: shots with these properties; `None` accepts anything.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Case {
    /// Strokes of a rally.
    Rally {
        /// Wing.
        wing: Option<Wing>,
        /// Side of the court, as the hitter faces the net.
        side: Option<FromSide>,
        /// Whether they were hurried.
        pressure: Option<Pressure>,
    },
    /// Serves.
    Serve {
        /// Side of the serve.
        side: Option<CourtSide>,
        /// First or second.
        number: Option<ServeNumber>,
    },
}

impl Case {
    /// All strokes of rallies.
    pub const RALLY: Self = Self::Rally { wing: None, side: None, pressure: None };
    /// All serves.
    pub const SERVE: Self = Self::Serve { side: None, number: None };

    pub(super) fn holds(&self, key: &Key) -> bool {
        match (*self, *key) {
            (Self::Rally { wing, side, pressure }, Key::Rally { forehand, side: from, pressure: under }) => {
                wing.is_none_or(|wing| (wing == Wing::Forehand) == forehand)
                    && side.is_none_or(|side| side == from)
                    && pressure.is_none_or(|pressure| under == Some(pressure))
            }
            (Self::Serve { side, number }, Key::Serve { side: from, number: which }) => {
                side.is_none_or(|side| side == from) && number.is_none_or(|number| number == which)
            }
            _ => false,
        }
    }

    /// The next wider case: without the pressure, then without the side, then any wing; `None` for the widest.
    #[must_use]
    pub fn wider(self) -> Option<Self> {
        match self {
            Self::Rally { wing, side, pressure: Some(_) } => Some(Self::Rally { wing, side, pressure: None }),
            Self::Rally { wing, side: Some(_), pressure: None } => {
                Some(Self::Rally { wing, side: None, pressure: None })
            }
            Self::Rally { wing: Some(_), .. } => Some(Self::RALLY),
            Self::Serve { side, number: Some(_) } => Some(Self::Serve { side, number: None }),
            Self::Serve { side: Some(_), .. } => Some(Self::SERVE),
            Self::RALLY | Self::SERVE => None,
        }
    }

    /// All strokes or all serves.
    #[must_use]
    pub fn widest(self) -> Self {
        match self {
            Self::Rally { .. } => Self::RALLY,
            Self::Serve { .. } => Self::SERVE,
        }
    }

    /// The cases that are tested, without the widest.
    #[must_use]
    pub fn all() -> Vec<Self> {
        let some = |wing, side, pressure| Self::Rally { wing, side, pressure };
        let mut all = Vec::new();
        let pressures = [None, Some(Pressure::AtEase), Some(Pressure::Hurried)];
        let sides = [None, Some(FromSide::Left), Some(FromSide::Middle), Some(FromSide::Right)];
        for wing in [None, Some(Wing::Forehand), Some(Wing::Backhand)] {
            for side in sides {
                all.extend(pressures.map(|pressure| some(wing, side, pressure)));
            }
        }
        for side in [None, Some(CourtSide::Deuce), Some(CourtSide::Ad)] {
            let numbers = [None, Some(ServeNumber::First), Some(ServeNumber::Second)];
            all.extend(numbers.map(|number| Self::Serve { side, number }));
        }
        all.retain(|case| case.wider().is_some());
        all
    }
}
