//! Reasons why shots cannot be played, as counted in reports.

use serde::{Deserialize, Deserializer, Serialize, Serializer};
use standpoint_geometry::{AimError, SolveError};

/// Kind of a refusal without the figures of a single shot; reports count by it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum RefusalKind {
    /// Figures outside what can be computed.
    Invalid,
    /// The contact is beyond the net.
    ContactBeyondNet,
    /// The target is on the hitter's side.
    TargetNotBeyondNet,
    /// Into the net.
    Net,
    /// Too slow to reach the target.
    TooSlow,
    /// Target beyond the court.
    Long,
    /// Target beside the court.
    Wide,
    /// The server stands inside the court.
    ServeFromInside,
    /// The server stands beside the half to serve from.
    ServeFromBeside,
    /// The court has no service boxes.
    NoServiceBox,
    /// A volley from behind the baseline.
    VolleyFromBehind,
    /// An overhead below the shoulder.
    OverheadTooLow,
    /// Too fast for the target.
    TooFast,
    /// A reason that this program does not know, in a summary of another version.
    Other,
}

impl RefusalKind {
    /// All kinds.
    pub const ALL: [Self; 14] = [
        Self::Invalid,
        Self::ContactBeyondNet,
        Self::TargetNotBeyondNet,
        Self::Net,
        Self::TooSlow,
        Self::Long,
        Self::Wide,
        Self::ServeFromInside,
        Self::ServeFromBeside,
        Self::NoServiceBox,
        Self::VolleyFromBehind,
        Self::OverheadTooLow,
        Self::TooFast,
        Self::Other,
    ];

    /// The kind of an error.
    #[must_use]
    pub fn of(error: &SolveError) -> Self {
        let aim = match error {
            SolveError::Invalid(_) => return Self::Invalid,
            SolveError::Aim(aim) => aim,
        };
        match aim {
            AimError::ContactBeyondNet => Self::ContactBeyondNet,
            AimError::TargetNotBeyondNet => Self::TargetNotBeyondNet,
            AimError::Net { .. } => Self::Net,
            AimError::TooSlow { .. } => Self::TooSlow,
            AimError::Long { .. } => Self::Long,
            AimError::Wide { .. } => Self::Wide,
            AimError::ServeFromInside { .. } => Self::ServeFromInside,
            AimError::ServeFromBeside => Self::ServeFromBeside,
            AimError::NoServiceBox => Self::NoServiceBox,
            AimError::VolleyFromBehind { .. } => Self::VolleyFromBehind,
            AimError::OverheadTooLow { .. } => Self::OverheadTooLow,
            AimError::TooFast => Self::TooFast,
        }
    }

    /// The reason in words, without figures; also its name in summaries.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Invalid => "figures outside what can be computed",
            Self::ContactBeyondNet => "the contact must be on the hitter's own side of the net",
            Self::TargetNotBeyondNet => "the target must be on the other side of the net",
            Self::Net => "into the net",
            Self::TooSlow => "too slow",
            Self::Long => "long",
            Self::Wide => "wide",
            Self::ServeFromInside => "a serve is struck from behind the baseline",
            Self::ServeFromBeside => "a serve is struck from between the centre mark and the sideline",
            Self::NoServiceBox => "this court has no service boxes",
            Self::VolleyFromBehind => "a volley is not played from so far behind the baseline",
            Self::OverheadTooLow => "an overhead is not struck so low",
            Self::TooFast => "too fast for so short a target",
            Self::Other => "other",
        }
    }

    /// The kind named in a summary. Summaries of earlier versions hold the message itself without its digits (`into the
    /// net by . m`), or the path of the figure (`shot.speed`).
    #[must_use]
    pub fn named(name: &str) -> Self {
        let stem = |kind: &Self| match kind {
            Self::VolleyFromBehind => "a volley is not played",
            Self::OverheadTooLow => "an overhead is not struck",
            kind => kind.words(),
        };
        if !name.contains(' ') && name.contains('.') {
            return Self::Invalid;
        }
        Self::ALL.into_iter().find(|kind| name.starts_with(stem(kind))).unwrap_or(Self::Other)
    }
}

impl Serialize for RefusalKind {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(self.words())
    }
}

impl<'de> Deserialize<'de> for RefusalKind {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        Ok(Self::named(&String::deserialize(from)?))
    }
}

/// The message of an error with its figures rounded for reading.
#[must_use]
pub fn message(error: &SolveError) -> String {
    let SolveError::Invalid(problems) = error else { return error.to_string() };
    let figure = |value: f64| if value.is_finite() { (value * 1e3).round() / 1e3 } else { value };
    let one = |problem: &standpoint_geometry::Problem| {
        let (value, low, high) = (figure(problem.value), figure(problem.low), figure(problem.high));
        format!("{}: {value} is outside {low} to {high} {}", problem.field, problem.unit).trim_end().to_owned()
    };
    problems.iter().map(one).collect::<Vec<_>>().join("; ")
}

#[cfg(test)]
mod tests {
    use standpoint_geometry::Problem;

    use super::*;

    #[test]
    fn every_kind_is_found_by_its_words() {
        for kind in RefusalKind::ALL {
            assert_eq!(RefusalKind::named(kind.words()), kind);
        }
    }

    #[test]
    fn reasons_of_earlier_summaries_are_known() {
        // As version 0.1 wrote them: up to `;` or `:`, without digits.
        for (name, kind) in [
            ("into the net by . m", RefusalKind::Net),
            ("too slow", RefusalKind::TooSlow),
            ("long by . m", RefusalKind::Long),
            ("a volley is not played from . m behind the baseline", RefusalKind::VolleyFromBehind),
            ("an overhead is not struck at . m", RefusalKind::OverheadTooLow),
            ("shot.speed", RefusalKind::Invalid),
            ("other", RefusalKind::Other),
            ("something of a later version", RefusalKind::Other),
        ] {
            assert_eq!(RefusalKind::named(name), kind, "{name}");
        }
    }

    #[test]
    fn figures_of_a_message_are_rounded() {
        let problem = Problem { field: "shot.contact.z", value: 4.300_000_000_1, low: 0.02, high: 4.0, unit: "m" };
        assert_eq!(message(&SolveError::Invalid(vec![problem])), "shot.contact.z: 4.3 is outside 0.02 to 4 m");
    }
}
