//! Score of a match by the ITF Rules of Tennis (Rules 5 to 10, 14, 17, 19 to 24 and the alternatives of Appendix V).
//!
//! * [`MatchFormat`] is the format of the match, [`Tally`] counts it point by point and knows who serves, from which
//!   side, at which ends, and what the next point can decide.
//! * [`ServeCount`] follows the serves of one point, [`Ending`] is its result.
//! * [`notation`] writes a score and reads it.
//! * [`log`] infers all of this from the points of a chart and reports inconsistencies.
//!
//! A player is named by the end where they began, as everywhere in a chart.

mod ending;
mod error;
mod format;
pub mod log;
pub mod notation;
mod point;
mod serve;
mod tally;

pub use ending::{Ending, Miss};
pub use error::ScoreError;
pub use format::{GameRule, LastSet, MatchFormat, SetRule, SetsToWin, TieBreakEnds};
pub use log::{Log, ScoredPoint, SessionLog, Trouble, TroubleKind, is_match_point};
pub use point::{PointFacts, facts, serves};
pub use serve::{AfterServe, ServeCall, ServeCount, ServeNumber};
pub use tally::{CourtSide, GameKind, SetScore, Stakes, Standing, Tally};

use standpoint_geometry::End;

/// Position of a player in a pair.
pub fn at(player: End) -> usize {
    usize::from(player == End::Far)
}

#[cfg(test)]
mod tests;
