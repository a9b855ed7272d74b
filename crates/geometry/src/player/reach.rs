//! The share of a player's reach left at a height.

/// Share of the reach left at a height: less at the shoelaces and overhead, none beyond it.
///
/// Choice: full from 0.35 m to 60 % of the overhead reach.
#[must_use]
#[inline]
pub fn reach_share(height: f64, overhead: f64) -> f64 {
    if height > overhead {
        0.0
    } else if height < 0.35 {
        0.75 + 0.25 * (height / 0.35).max(0.0)
    } else {
        let shoulder = 0.6 * overhead;
        1.0 - 0.8 * ((height - shoulder) / (overhead - shoulder)).clamp(0.0, 1.0)
    }
}
