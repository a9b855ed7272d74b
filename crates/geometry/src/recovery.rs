//! The run from own contact to the spot.

use glam::DVec2;

use crate::{
    answer::{Place, Recovery},
    coverage::Mover,
    player::Player,
};

/// Places tried along the way when the spot is out of reach.
const STOPS: usize = 8;

/// Runs from `start` towards the spot for `available` seconds, of which the follow-through takes the first part.
///
/// When the spot is out of reach the player stops where the exposure on the way is least, which is nearly always as far
/// along as possible; `exposure` judges a place. All in the frame of a near player.
#[must_use]
pub fn recover(
    player: &Player,
    mover: &Mover,
    start: DVec2,
    spot: Place,
    available: f64,
    mut exposure: impl FnMut(DVec2) -> f64,
) -> Recovery {
    let way = spot.place - start;
    let distance = way.length();
    // Metres away from the net count more.
    let weighted = if way.y * mover.facing < 0.0 { way.x.hypot(way.y * mover.backward) } else { distance };
    let follow = player.movement.follow_through_s;
    let needed = if distance > 1e-6 { follow + mover.stride.time(weighted) } else { 0.0 };
    if needed <= available {
        return Recovery { start, distance, available, needed, short_by: 0.0, reached: spot, extra_exposure: 0.0 };
    }
    let covered = (mover.stride.distance(available - follow) / weighted).clamp(0.0, 1.0);
    let reached = (0..=STOPS)
        .map(|i| {
            let place = start + way * (covered * i as f64 / STOPS as f64);
            Place { place, exposure: exposure(place) }
        })
        .min_by(|a, b| a.exposure.total_cmp(&b.exposure))
        .unwrap_or(spot);
    Recovery {
        start,
        distance,
        available,
        needed,
        short_by: (spot.place - reached.place).length(),
        reached,
        extra_exposure: (reached.exposure - spot.exposure).max(0.0),
    }
}
