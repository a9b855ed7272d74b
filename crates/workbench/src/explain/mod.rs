//! How the figures are computed: the chain for the shot on the board, in words, with its numbers.

mod describe;

use standpoint_language::text;

pub use describe::describe;

/// A step of the chain.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum ExplainStep {
    /// The hitter's shot through the air.
    #[default]
    Flight,
    /// Whether it goes in.
    GoesIn,
    /// How the court plays.
    Pace,
    /// Where the opponent meets it.
    Meeting,
    /// The opponent's replies.
    Replies,
    /// Where the hitter can be in time.
    TimeToSpare,
    /// What a place costs.
    Exposure,
    /// The place that costs least.
    Spot,
    /// Simple rules for comparison.
    Rules,
    /// The way there.
    Recovery,
}

impl ExplainStep {
    /// All steps, in the order of the chain.
    pub const ALL: [Self; 10] = [
        Self::Flight,
        Self::GoesIn,
        Self::Pace,
        Self::Meeting,
        Self::Replies,
        Self::TimeToSpare,
        Self::Exposure,
        Self::Spot,
        Self::Rules,
        Self::Recovery,
    ];

    /// Its title.
    #[must_use]
    pub fn title(self) -> &'static str {
        match self {
            Self::Flight => text("The ball flies"),
            Self::GoesIn => text("It goes in, or not"),
            Self::Pace => text("The court takes it up"),
            Self::Meeting => text("The opponent meets it"),
            Self::Replies => text("What the opponent can do"),
            Self::TimeToSpare => text("What there is time for"),
            Self::Exposure => text("What a place costs"),
            Self::Spot => text("The spot and the zone"),
            Self::Rules => text("The middle and the bisector"),
            Self::Recovery => text("The recovery"),
        }
    }
}

/// Text of a step.
#[derive(Debug, Clone, PartialEq)]
pub struct Paragraph {
    /// The step.
    pub step: ExplainStep,
    /// This shot's numbers, sentence by sentence.
    pub sentences: Vec<String>,
    /// The formula, if it fits one line.
    pub formula: Option<&'static str>,
    /// Sources of its figures, and choices of our own.
    pub source: &'static str,
}
