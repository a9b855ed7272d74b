//! The habits of an opponent: the directions of each wing and zone, hurried or not, and of the serve.
//!
//! Shares are smoothed by a Dirichlet prior: a number of expected shots is added to those counted, and
//! reported with every figure. The expectation of a case comes from the model, where given, and then from the
//! player's wider habit: a wing, that wing from a side, the same under pressure.
//!
//! [`tells`] are habits supported by the evidence: differences from the player's other shots beyond luck, by Fisher's exact
//! test with Bonferroni's correction, the clearest first, each reported once.

mod advice;
mod case;
mod counts;
mod habit;
mod known;
mod profile;
mod tell;
mod words;

pub use advice::{nothing, play, stand};
pub use case::Case;
pub use counts::Choices;
pub use habit::{Habit, STRENGTH, Share, Smoothing};
pub use known::{known, matches};
pub use profile::{Count, Profile, ReturnProfile, ServeProfile, WingProfile, profile};
pub use standpoint_geometry::Way;
pub use tell::{CHANCE, FEWEST, LEAST_DIFFERENCE, Tell, tells};
pub use words::{case as case_in_words, sentence};
