//! Seeded chance: the same seed gives the same numbers on every machine.

/// A pseudo-random number generator.
#[derive(Debug, Clone)]
pub struct Dice {
    state: u64,
}

impl Dice {
    /// A generator with this seed.
    #[must_use]
    pub fn new(seed: u64) -> Self {
        Self { state: seed }
    }

    /// 64 random bits (SplitMix64: Steele, Lea & Flood, OOPSLA 2014, Figure 17).
    pub fn bits(&mut self) -> u64 {
        self.state = self.state.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.state;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// Evenly between 0 (included) and 1 (not).
    pub fn even(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// Evenly between two numbers.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.even()
    }

    /// Normally distributed with mean 0 and deviation 1 (Box and Muller, 1958).
    pub fn normal(&mut self) -> f64 {
        let radius = (-2.0 * (1.0 - self.even()).ln()).sqrt();
        radius * (std::f64::consts::TAU * self.even()).cos()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_numbers_are_those_of_the_published_generator() {
        // From the reference implementation with seed 1234567.
        let mut dice = Dice::new(1_234_567);
        assert_eq!([dice.bits(), dice.bits()], [6_457_827_717_110_365_317, 3_203_168_211_198_807_973]);
    }

    #[test]
    fn normal_numbers_have_mean_zero_and_deviation_one() {
        let mut dice = Dice::new(7);
        let thrown: Vec<f64> = (0..20_000).map(|_| dice.normal()).collect();
        let count = thrown.len() as f64;
        let mean = thrown.iter().sum::<f64>() / count;
        let variance = thrown.iter().map(|value| (value - mean).powi(2)).sum::<f64>() / (count - 1.0);
        assert!(mean.abs() < 0.03 && (variance.sqrt() - 1.0).abs() < 0.02);
    }
}
