//! Comparison of two means.

use crate::chance::beyond_student;
use crate::stats::{Estimate, Moments, student};

/// Welch's test of two means (Biometrika 34, 1947).
#[derive(Debug, Clone, Copy)]
pub(super) struct Welch {
    pub difference: f64,
    pub t: f64,
    freedom: f64,
}

impl Welch {
    pub fn of(a: &Moments, b: &Moments) -> Option<Self> {
        let part = |moments: &Moments| Some(moments.deviation()?.powi(2) / moments.count as f64);
        let (u, v) = (part(a)?, part(b)?);
        let difference = a.mean()? - b.mean()?;
        let error = u + v;
        if error <= 0.0 {
            return None;
        }
        let freedom = error * error / (u * u / (a.count - 1) as f64 + v * v / (b.count - 1) as f64);
        Some(Self { difference, t: difference / error.sqrt(), freedom })
    }

    /// The chance of a difference as large, on either side.
    pub fn beyond(self) -> f64 {
        beyond_student(self.t, self.freedom)
    }

    /// The difference with its interval at 95 percent.
    pub fn interval(self) -> Estimate {
        let half = if self.t.abs() > 0.0 { (self.difference / self.t).abs() * student(self.freedom) } else { 0.0 };
        Estimate { value: self.difference, low: self.difference - half, high: self.difference + half }
    }
}
