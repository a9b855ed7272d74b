//! The serves of one point (Rules 19, 20 and 22).

use super::error::ScoreError;

/// First or second serve.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ServeNumber {
    /// The first.
    First,
    /// The second, after a fault.
    Second,
}

/// The call of a serve.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ServeCall {
    /// Good: the ball is in play.
    In,
    /// A fault, of the ball (Rule 19) or of the foot (Rule 18).
    Fault,
    /// To be served again (Rules 22 and 23).
    Let,
}

/// Result of a serve.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum AfterServe {
    /// The ball is in play.
    InPlay(ServeNumber),
    /// The same serve again.
    Again(ServeNumber),
    /// The second serve.
    Second,
    /// The point is lost.
    DoubleFault,
}

/// The serves of one point.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct ServeCount {
    due: Option<ServeNumber>,
}

impl Default for ServeCount {
    fn default() -> Self {
        Self { due: Some(ServeNumber::First) }
    }
}

impl ServeCount {
    /// The serve that is due; `None` when the ball is in play or the point is over.
    #[must_use]
    pub fn due(self) -> Option<ServeNumber> {
        self.due
    }

    /// A second serve alone implies a first fault.
    pub fn skip_to(&mut self, number: ServeNumber) {
        self.due = self.due.map(|due| due.max(number));
    }

    /// A let during the rally: the whole point is replayed (Rule 23).
    pub fn replay(&mut self) {
        *self = Self::default();
    }

    /// Counts a serve.
    ///
    /// # Errors
    /// [`ScoreError::NoServeDue`] when the ball is in play or the point is over.
    pub fn serve(&mut self, call: ServeCall) -> Result<AfterServe, ScoreError> {
        let due = self.due.ok_or(ScoreError::NoServeDue)?;
        let (due, after) = match (call, due) {
            (ServeCall::In, number) => (None, AfterServe::InPlay(number)),
            // A let does not cancel a previous fault.
            (ServeCall::Let, number) => (Some(number), AfterServe::Again(number)),
            (ServeCall::Fault, ServeNumber::First) => (Some(ServeNumber::Second), AfterServe::Second),
            (ServeCall::Fault, ServeNumber::Second) => (None, AfterServe::DoubleFault),
        };
        self.due = due;
        Ok(after)
    }
}
