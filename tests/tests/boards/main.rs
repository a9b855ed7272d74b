//! Checks of boards across crates: files of every version, damage, reports, and the direction of dependencies.

#![allow(clippy::unwrap_used, reason = "a check that cannot read its own data has failed")]

mod architecture;
mod coach;
mod crashes;
mod damage;
mod golden;
mod kills;
mod patterns;
mod rallies;
mod reports;
mod round_trip;
mod samples;
mod strategies;
mod teaching;
mod troubles;
