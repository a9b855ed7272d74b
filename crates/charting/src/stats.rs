//! Means, lines and intervals, updated one value at a time.
//!
//! Intervals are at 95 percent. Quantiles come from approximations good to a part in a thousand or better for five
//! degrees of freedom and more, far more accurate than a chart.

use serde::{Deserialize, Serialize};

use crate::exact::{self, Sum};

/// A figure with the interval that holds it at 95 percent.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Estimate {
    /// The figure.
    pub value: f64,
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

impl Estimate {
    /// Whether a value lies inside.
    #[must_use]
    pub fn holds(&self, value: f64) -> bool {
        self.low <= value && value <= self.high
    }

    /// The figure in another unit.
    #[must_use]
    pub fn scaled(self, factor: f64) -> Self {
        Self { value: self.value * factor, low: self.low * factor, high: self.high * factor }
    }
}

/// Mean and spread of values. Sums are exact, so merged parts equal the whole.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Moments {
    /// How many.
    pub count: u64,
    sum: Sum,
    squares: Sum,
}

impl Moments {
    /// Adds a value.
    pub fn add(&mut self, value: f64) {
        let steps = exact::steps(value);
        self.count += 1;
        self.sum.add(steps);
        self.squares.add_product(steps, steps);
    }

    /// The moments of values.
    pub fn of(values: impl IntoIterator<Item = f64>) -> Self {
        let mut moments = Self::default();
        values.into_iter().for_each(|value| moments.add(value));
        moments
    }

    /// Adds the values of another set.
    pub fn merge(&mut self, other: &Self) {
        self.count = self.count.saturating_add(other.count);
        self.sum.merge(other.sum);
        self.squares.merge(other.squares);
    }

    /// The mean; `None` of nothing.
    #[must_use]
    pub fn mean(&self) -> Option<f64> {
        (self.count > 0).then(|| self.sum.of_values() / self.count as f64)
    }

    /// Standard deviation of the values; `None` of fewer than two.
    #[must_use]
    pub fn deviation(&self) -> Option<f64> {
        let n = self.count as f64;
        let spread = Sum::spread(self.squares, self.count, self.sum, self.sum);
        (self.count > 1).then(|| (spread / (n * (n - 1.0))).max(0.0).sqrt())
    }

    /// The mean with its interval, by Student's distribution; `None` of fewer than two values.
    #[must_use]
    pub fn interval(&self) -> Option<Estimate> {
        let (value, n) = (self.mean()?, self.count as f64);
        let half = self.deviation()? / n.sqrt() * student(n - 1.0);
        Some(Estimate { value, low: value - half, high: value + half })
    }
}

/// A straight line `y = level + slope x` by least squares. Sums are exact, as in [`Moments`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Line {
    count: u64,
    x: Sum,
    y: Sum,
    xx: Sum,
    xy: Sum,
    yy: Sum,
}

impl Line {
    /// Adds a point.
    pub fn add(&mut self, x: f64, y: f64) {
        let (x, y) = (exact::steps(x), exact::steps(y));
        self.count += 1;
        self.x.add(x);
        self.y.add(y);
        self.xx.add_product(x, x);
        self.xy.add_product(x, y);
        self.yy.add_product(y, y);
    }

    /// Adds the values of another line.
    pub fn merge(&mut self, other: &Self) {
        self.count = self.count.saturating_add(other.count);
        for (sum, more) in [
            (&mut self.x, other.x),
            (&mut self.y, other.y),
            (&mut self.xx, other.xx),
            (&mut self.xy, other.xy),
            (&mut self.yy, other.yy),
        ] {
            sum.merge(more);
        }
    }

    /// Number of points.
    #[must_use]
    pub fn count(&self) -> u64 {
        self.count
    }

    /// Sums of squares and of products about the means.
    fn about_means(&self) -> (f64, f64, f64) {
        let n = self.count as f64;
        let about = |products, a, b| Sum::spread(products, self.count, a, b) / n;
        (about(self.xx, self.x, self.x), about(self.xy, self.x, self.y), about(self.yy, self.y, self.y))
    }

    /// The slope with its interval; `None` for fewer than three points or when all have about the same `x`.
    #[must_use]
    pub fn slope(&self) -> Option<Estimate> {
        let n = self.count as f64;
        if self.count < 3 {
            return None;
        }
        let (xx, xy, yy) = self.about_means();
        if xx < 1e-9 * n {
            return None;
        }
        let value = xy / xx;
        let residual = (yy - value * xy).max(0.0) / (n - 2.0);
        let half = (residual / xx).sqrt() * student(n - 2.0);
        Some(Estimate { value, low: value - half, high: value + half })
    }

    /// The value at `x = 0`; `None` where there is no slope.
    #[must_use]
    pub fn level(&self) -> Option<f64> {
        let n = self.count as f64;
        Some((self.y.of_values() - self.slope()?.value * self.x.of_values()) / n)
    }
}

/// A histogram with equal steps.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Histogram {
    /// Where the first step begins.
    pub low: f64,
    /// Width of a step.
    pub step: f64,
    /// Values in each step.
    pub counts: Vec<u64>,
    /// Values below the first step.
    pub below: u64,
    /// Values beyond the last step.
    pub beyond: u64,
}

impl Histogram {
    /// An empty one.
    #[must_use]
    pub fn new(low: f64, step: f64, steps: usize) -> Self {
        Self { low, step, counts: vec![0; steps], below: 0, beyond: 0 }
    }

    /// Adds another histogram with the same steps.
    pub fn merge(&mut self, other: &Self) {
        for (count, more) in self.counts.iter_mut().zip(&other.counts) {
            *count = count.saturating_add(*more);
        }
        self.below = self.below.saturating_add(other.below);
        self.beyond = self.beyond.saturating_add(other.beyond);
    }

    /// Adds a value.
    pub fn add(&mut self, value: f64) {
        let at = (value - self.low) / self.step;
        if at < 0.0 {
            self.below += 1;
        } else {
            match self.counts.get_mut(at as usize) {
                Some(count) => *count += 1,
                None => self.beyond += 1,
            }
        }
    }
}

/// Share of `part` in `whole` with Wilson's interval; `None` of nothing.
#[must_use]
pub fn share(part: u64, whole: u64) -> Option<Estimate> {
    if whole == 0 {
        return None;
    }
    const Z: f64 = 1.959_963_985;
    let n = whole as f64;
    let p = part as f64 / n;
    let middle = (p + Z * Z / (2.0 * n)) / (1.0 + Z * Z / n);
    let half = Z / (1.0 + Z * Z / n) * (p * (1.0 - p) / n + Z * Z / (4.0 * n * n)).sqrt();
    // Rounding must not push the share itself outside.
    Some(Estimate { value: p, low: (middle - half).clamp(0.0, p), high: (middle + half).clamp(p, 1.0) })
}

/// Interval of a standard deviation estimated with so many degrees of freedom, by the chi-square distribution.
#[must_use]
pub fn deviation_interval(deviation: f64, freedom: f64) -> Estimate {
    let bound = |z: f64| deviation * (freedom / chi_square(freedom, z)).sqrt();
    Estimate { value: deviation, low: bound(1.959_963_985), high: bound(-1.959_963_985) }
}

/// Student's quantile at 97.5 percent, by the expansion of Cornish and Fisher (Abramowitz & Stegun 26.7.5); exact for
/// one and two degrees of freedom, where the expansion is poor.
#[must_use]
pub fn student(freedom: f64) -> f64 {
    const Z: f64 = 1.959_963_985;
    if freedom < 1.5 {
        return 12.7062;
    }
    if freedom < 2.5 {
        return 4.302_65;
    }
    let z2 = Z * Z;
    let g1 = Z * (z2 + 1.0) / 4.0;
    let g2 = Z * ((5.0 * z2 + 16.0) * z2 + 3.0) / 96.0;
    let g3 = Z * (((3.0 * z2 + 19.0) * z2 + 17.0) * z2 - 15.0) / 384.0;
    let g4 = Z * ((((79.0 * z2 + 776.0) * z2 + 1482.0) * z2 - 1920.0) * z2 - 945.0) / 92_160.0;
    let n = freedom;
    Z + (g1 + (g2 + (g3 + g4 / n) / n) / n) / n
}

/// Chi-square quantile where the normal one is `z`, by Wilson and Hilferty (1931).
fn chi_square(freedom: f64, z: f64) -> f64 {
    let s = 2.0 / (9.0 * freedom);
    freedom * (1.0 - s + z * s.sqrt()).max(0.05).powi(3)
}

/// Drops every other value of a sample larger than `most`; returns whether it did. A caller that then keeps only every
/// other new value has an even selection of all, in bounded memory.
pub fn thinned<T>(kept: &mut Vec<T>, most: usize) -> bool {
    if kept.len() <= most {
        return false;
    }
    let mut i = 0;
    kept.retain(|_| {
        i += 1;
        i % 2 == 1
    });
    true
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantiles_agree_with_printed_tables() {
        // Student 0.975: 3.182, 2.571, 2.228, 2.042, 1.984 for 3, 5, 10, 30, 100 (any table of the distribution).
        for (freedom, table) in [(1.0, 12.706), (2.0, 4.303), (3.0, 3.182), (5.0, 2.571), (10.0, 2.228), (100.0, 1.984)]
        {
            assert!((student(freedom) / table - 1.0).abs() < 0.01, "{freedom}: {}", student(freedom));
        }
        // Chi-square for 9 degrees of freedom: 2.700 and 19.023.
        assert!((chi_square(9.0, -1.96) - 2.700).abs() < 0.03 && (chi_square(9.0, 1.96) - 19.023).abs() < 0.05);
    }

    #[test]
    fn a_line_through_exact_points_is_found_again() {
        let mut line = Line::default();
        (0..20).for_each(|i| line.add(f64::from(i) + 1e6, 3.0 - 0.25 * f64::from(i)));
        let slope = line.slope().unwrap();
        assert!((slope.value + 0.25).abs() < 1e-9 && slope.high - slope.low < 1e-4);
        let mut upright = Line::default();
        (0..5).for_each(|i| upright.add(1.0, f64::from(i)));
        assert_eq!(upright.slope(), None);
    }

    #[test]
    fn moments_and_shares_know_their_limits() {
        let moments = Moments::of([1.0, 2.0, 3.0, 4.0]);
        assert_eq!(moments.mean(), Some(2.5));
        assert!((moments.deviation().unwrap() - 1.290_994).abs() < 1e-6);
        assert!(moments.interval().unwrap().holds(2.5));
        let mut parts = Moments::of([1.0, 2.0]);
        parts.merge(&Moments::of([3.0, 4.0]));
        assert_eq!(parts, moments, "to the last digit");
        assert_eq!((Moments::default().mean(), Moments::of([1.0]).deviation()), (None, None));
        // Wilson's interval of 5 in 10: 0.237 to 0.763.
        let half = share(5, 10).unwrap();
        assert!((half.low - 0.2366).abs() < 1e-3 && (half.high - 0.7634).abs() < 1e-3);
        assert!(share(0, 10).unwrap().low.abs() < 1e-12 && share(0, 0).is_none());
    }
}
