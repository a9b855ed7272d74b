//! The worth of a ball: the rally played out.
//!
//! The point is a zero-sum stochastic game (Shapley 1953) between two players. `W(state)`, the striker's chance to win it,
//! is solved by value iteration over the contact (place, height, before or after the bounce), the wing, the time to spare
//! to a proper stance, the direction the ball came from and the other player's place. Choices follow a quantal response
//! (McKelvey & Palfrey 1995): the chance of a stroke to a landing place is proportional to its prior, the area it stands
//! for, times `exp(Q / temperature)`. Strokes miss by a Gaussian error of their launch, and worth is averaged over where
//! they land, as in Chan, Fearing, Fernandes & Kovalchik (2022).
//!
//! * [`Behaviour`] holds every constant; `flights` and `strokes` the playable strokes; `fast_mover` the
//!   movement of players.
//! * `response` is the common look-ahead by one stroke; `look` the same for a live answer.
//! * [`Game`] is solved by rounds of it; [`Games`] gives the game for a pair of players, from `levels` until their own
//!   one is solved; `store` packs tables.
//! * [`Simulation`] plays points with the same code.
//!
//! ```
//! use standpoint_geometry::{Level, Wing, worth::{matchup, stand_in}};
//! let (game, _) = stand_in(&matchup(Level::Club));
//! let (worth, _) = game.worth_at(0, [0.0, 13.0, 1.0], false, Wing::Forehand, 0.5);
//! assert!((0.3..0.7).contains(&worth));
//! ```

mod behaviour;
mod blur;
mod choice;
mod fast_mover;
mod flights;
mod games;
mod lanes;
mod lattice;
mod levels;
mod look;
mod matchup;
mod paths;
mod played;
mod prospect;
mod response;
mod serve;
mod simulate;
mod solve;
mod store;
mod strokes;
mod targets;

pub use behaviour::Behaviour;
pub use games::{Basis, Games, stand_in};
pub use levels::{file_name, matchup};
pub use matchup::Matchup;
pub use played::{Ending, PlayedStroke};
pub use serve::ServeWorth;
pub use simulate::Simulation;
pub use solve::Game;
pub use store::{key_of, load, pack};

/// Version of the model and of the packed tables: tables of other versions are solved anew.
const FORMAT: u32 = 1;

pub(crate) use fast_mover::{Meeting, Ramp};
pub(crate) use look::{Contact, Habit, Stance};
pub(crate) use paths::{Path as ReplyPath, Sample};
pub(crate) use prospect::Prospect;
pub(crate) use response::Duel;
pub(crate) use strokes::Kind;
