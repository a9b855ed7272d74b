//! Sums that are the same to the last digit in any order and any division into parts.
//!
//! A value is rounded once to a grid of 2^-32 (a quarter of a nanometre); all further arithmetic is on whole numbers.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// Steps of the grid in one unit.
const GRID: f64 = 4_294_967_296.0;
/// Limit to which values are clamped: far beyond any figure of a chart, and sums cannot overflow.
const LARGEST: f64 = 1e9;

/// A value as a whole number of steps; NaN counts as zero.
#[must_use]
pub fn steps(value: f64) -> i128 {
    if value.is_nan() { 0 } else { (value.clamp(-LARGEST, LARGEST) * GRID).round() as i128 }
}

/// The value of a number of steps.
#[must_use]
pub fn value(steps: i128) -> f64 {
    steps as f64 / GRID
}

/// A whole number of 256 bits, in two's complement.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Wide {
    high: i128,
    low: u128,
}

impl From<i128> for Wide {
    fn from(value: i128) -> Self {
        Self { high: if value < 0 { -1 } else { 0 }, low: value as u128 }
    }
}

impl Wide {
    /// The sum; sums of charts are far from overflowing.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        let (low, carry) = self.low.overflowing_add(other.low);
        Self { high: self.high.wrapping_add(other.high).wrapping_add(i128::from(carry)), low }
    }

    /// The number with the other sign.
    #[must_use]
    pub fn negated(self) -> Self {
        Self { high: !self.high, low: !self.low }.plus(Self { high: 0, low: 1 })
    }

    /// The product of two whole numbers.
    #[must_use]
    pub fn product(a: i128, b: i128) -> Self {
        let (high, low) = unsigned_product(a.unsigned_abs(), b.unsigned_abs());
        let size = Self { high: high as i128, low };
        if (a < 0) == (b < 0) { size } else { size.negated() }
    }

    /// Multiplies by a count.
    #[must_use]
    pub fn times(self, count: u64) -> Self {
        let (carry, low) = unsigned_product(self.low, u128::from(count));
        Self { high: self.high.wrapping_mul(i128::from(count)).wrapping_add(carry as i128), low }
    }

    /// As a floating-point number, rounded once or twice.
    #[must_use]
    pub fn to_f64(self) -> f64 {
        let negative = self.high < 0;
        let size = if negative { self.negated() } else { self };
        let value = size.high as f64 * 2f64.powi(128) + size.low as f64;
        if negative { -value } else { value }
    }
}

/// High and low half of a product.
fn unsigned_product(a: u128, b: u128) -> (u128, u128) {
    const HALF: u128 = u64::MAX as u128;
    let (a1, a0, b1, b0) = (a >> 64, a & HALF, b >> 64, b & HALF);
    let low = a0 * b0;
    let middle = a1 * b0 + (low >> 64);
    let other = a0 * b1 + (middle & HALF);
    (a1 * b1 + (middle >> 64) + (other >> 64), (other << 64) | (low & HALF))
}

impl fmt::Display for Wide {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:032x}{:032x}", self.high, self.low)
    }
}

/// A text that is not such a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("{}", standpoint_language::text("64 hexadecimal digits expected"))]
pub struct NoWide;

impl FromStr for Wide {
    type Err = NoWide;

    fn from_str(text: &str) -> Result<Self, NoWide> {
        let digits = text.len() == 64 && text.bytes().all(|byte| byte.is_ascii_hexdigit());
        let half = |part: &str| u128::from_str_radix(part, 16).map_err(|_| NoWide);
        if digits { Ok(Self { high: half(&text[..32])? as i128, low: half(&text[32..])? }) } else { Err(NoWide) }
    }
}

impl Serialize for Wide {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Wide {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        text.parse().map_err(serde::de::Error::custom)
    }
}

/// A sum of values and of products: the input of means and lines.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Sum {
    steps: Wide,
}

impl Sum {
    /// Adds a value on the grid.
    pub fn add(&mut self, steps: i128) {
        self.steps = self.steps.plus(steps.into());
    }

    /// Adds a product of two values on the grid.
    pub fn add_product(&mut self, a: i128, b: i128) {
        self.steps = self.steps.plus(Wide::product(a, b));
    }

    /// Adds another sum.
    pub fn merge(&mut self, other: Self) {
        self.steps = self.steps.plus(other.steps);
    }

    /// The sum of values.
    #[must_use]
    pub fn of_values(self) -> f64 {
        self.steps.to_f64() / GRID
    }

    /// `count * products - a * b`, of a sum of products and the sums of their factors: no cancellation, as it is exact.
    #[must_use]
    pub fn spread(products: Self, count: u64, a: Self, b: Self) -> f64 {
        // Sums of single values are far below 2^127 steps.
        let cross = Wide::product(a.steps.low as i128, b.steps.low as i128);
        products.steps.times(count).plus(cross.negated()).to_f64() / (GRID * GRID)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn products_agree_with_sums() {
        // (2^100 + 1)(2^100 - 1) = 2^200 - 1.
        let power = 1i128 << 100;
        let product = Wide::product(power + 1, power - 1);
        assert_eq!(product, Wide { high: 1 << 72, low: 0 }.plus((-1).into()));
        assert_eq!(Wide::product(-7, 6), (-42).into());
        assert_eq!(Wide::from(-42).times(1000), (-42_000).into());
        assert_eq!(Wide { high: 5, low: u128::MAX }.times(3), Wide { high: 17, low: u128::MAX - 2 });
        assert!((Wide::product(i128::MIN, 2).to_f64() + 2f64.powi(128)).abs() < 1.0);
    }

    proptest! {
        #[test]
        fn whole_numbers_of_256_bits_are_read_as_they_are_written(high: i128, low: u128) {
            let wide = Wide { high, low };
            prop_assert_eq!(wide.to_string().parse::<Wide>(), Ok(wide));
            prop_assert_eq!(wide.negated().negated(), wide);
            prop_assert_eq!(wide.plus(wide.negated()), Wide::default());
            prop_assert_eq!(wide.plus(wide).plus(wide), wide.times(3));
        }

        #[test]
        fn products_of_smaller_numbers_are_those_of_the_processor(a: i64, b: i64) {
            let product = i128::from(a) * i128::from(b);
            prop_assert_eq!(Wide::product(a.into(), b.into()), product.into());
            prop_assert!((Wide::from(product).to_f64() - product as f64).abs() <= product.abs() as f64 * 1e-15);
        }

        #[test]
        fn values_come_back_within_half_a_step(number in -1e6..1e6f64) {
            prop_assert!((value(steps(number)) - number).abs() <= 0.5 / GRID + number.abs() * 1e-16);
        }
    }

    #[test]
    fn what_is_no_figure_of_a_chart_does_no_harm() {
        assert_eq!(steps(f64::NAN), 0);
        assert_eq!((steps(f64::INFINITY), steps(-1e300)), (steps(1e9), steps(-1e9)));
        assert_eq!("12".parse::<Wide>(), Err(NoWide));
        assert_eq!(format!("{}é", "0".repeat(62)).parse::<Wide>(), Err(NoWide));
    }
}
