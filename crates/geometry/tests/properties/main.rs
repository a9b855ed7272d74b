//! Properties that hold for any valid input: answers are finite, the same from either end and in the mirror, and
//! monotone where more of something cannot be worse. The relations follow from the definitions in `docs/model.md`;
//! planted answers follow from the input by hand.

#![allow(clippy::unwrap_used, reason = "a check that cannot make its own data has failed")]

mod chances;
mod flights;
mod found;
mod movement;
mod people;
mod tables;
mod whole;

/// Mirrored across the middle of the court.
fn mirrored(place: glam::DVec2) -> glam::DVec2 {
    glam::DVec2::new(-place.x, place.y)
}
