//! The worth of a ball: the rally played out.

mod behaviour;
mod flights;
mod lanes;
mod lattice;
mod legs;
mod response;
mod serve;
mod simulate;
mod solve;
mod strokes;

pub use behaviour::Behaviour;
pub use serve::ServeWorth;
pub use simulate::{Ending, PlayedStroke, Simulation};
pub use solve::Game;
