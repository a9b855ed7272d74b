//! The worth of a ball: the rally played out.

mod behaviour;
mod flights;
mod games;
mod lanes;
mod lattice;
mod legs;
mod levels;
mod look;
mod response;
mod serve;
mod simulate;
mod solve;
mod store;
mod strokes;

pub use behaviour::Behaviour;
pub use games::{Basis, Games, Matchup, stand_in};
pub use levels::{file_name, matchup};
pub use serve::ServeWorth;
pub use simulate::{Ending, PlayedStroke, Simulation};
pub use solve::Game;
pub use store::{key_of, load, pack};

/// Version of the model and of the packed tables: tables of another one are solved anew.
const FORMAT: u32 = 1;

pub(crate) use legs::{Meeting, Ramp};
pub(crate) use look::{Contact, Look, Stance};
pub(crate) use response::Duel;
pub(crate) use strokes::{Kind, Path as ReplyPath, Sample};
