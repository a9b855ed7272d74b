//! Rounding of figures for programs.

/// Rounds to a millionth, without a negative nought.
#[must_use]
pub fn rounded(value: f64) -> f64 {
    (value * 1e6).round() / 1e6 + 0.0
}
