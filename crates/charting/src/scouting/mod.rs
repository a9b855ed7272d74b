//! The habits of an opponent: where they send the ball from each wing and zone, hurried or not, and where they serve.
//!
//! Shares are smoothed by a Dirichlet prior: so many shots of what is expected are added to those that were counted. How
//! many is said with every figure. What is expected of a case comes from the model, where it is given, and then from the
//! player's wider habit: a wing, that wing from a side, the same under pressure.
//!
//! [`tells`] are habits that the evidence carries: what differs from the player's other shots beyond luck, by Fisher's exact
//! test with Bonferroni's correction, the clearest first and each told once.

mod advice;
mod case;
mod counts;
mod habit;
mod profile;
mod tell;
mod words;

pub use advice::{nothing, play, stand};
pub use case::{Case, Way};
pub use counts::Choices;
pub use habit::{Habit, STRENGTH, Share, Smoothing};
pub use profile::{Count, Profile, ReturnProfile, ServeProfile, WingProfile, profile};
pub use tell::{CHANCE, FEWEST, LEAST_DIFFERENCE, Tell, tells};
pub use words::{case as case_in_words, sentence};
