//! Probabilities: how likely a difference arises by luck alone.

/// Logarithm of the gamma function for positive numbers, by Lanczos' approximation (SIAM J. Numer. Anal. B 1, 1964) with
/// the coefficients for g = 7 and nine terms; good to some 14 digits.
#[must_use]
pub fn ln_gamma(x: f64) -> f64 {
    const TERMS: [f64; 8] = [
        676.520_368_121_885_1,
        -1_259.139_216_722_402_8,
        771.323_428_777_653_1,
        -176.615_029_162_140_6,
        12.507_343_278_686_905,
        -0.138_571_095_265_720_12,
        9.984_369_578_019_572e-6,
        1.505_632_735_149_311_6e-7,
    ];
    if x < 0.5 {
        // By reflection.
        let pi = std::f64::consts::PI;
        return (pi / (pi * x).sin()).ln() - ln_gamma(1.0 - x);
    }
    let x = x - 1.0;
    let sum = TERMS.iter().zip(1u8..).fold(0.999_999_999_999_809_9, |sum, (term, i)| sum + term / (x + f64::from(i)));
    let t = x + 7.5;
    0.5 * std::f64::consts::TAU.ln() + (x + 0.5) * t.ln() - t + sum.ln()
}

/// The regularized incomplete beta function: the chance that a number with this beta distribution is at most `x`.
///
/// By its continued fraction (Abramowitz & Stegun 26.5.8), evaluated by the method of Lentz.
#[must_use]
pub fn beta(x: f64, a: f64, b: f64) -> f64 {
    if x <= 0.0 {
        return 0.0;
    }
    if x >= 1.0 {
        return 1.0;
    }
    // The fraction converges fast below the mean.
    if x > (a + 1.0) / (a + b + 2.0) {
        return 1.0 - beta(1.0 - x, b, a);
    }
    let front = a * x.ln() + b * (1.0 - x).ln() + ln_gamma(a + b) - ln_gamma(a) - ln_gamma(b);
    (front.exp() * fraction(x, a, b) / a).clamp(0.0, 1.0)
}

fn fraction(x: f64, a: f64, b: f64) -> f64 {
    const TINY: f64 = 1e-300;
    let whole = |value: f64| if value.abs() < TINY { TINY } else { value };
    let mut d = 1.0 / whole(1.0 - (a + b) * x / (a + 1.0));
    let (mut c, mut h) = (1.0, d);
    for m in 1..500u32 {
        let m = f64::from(m);
        let even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        let mut step = 1.0;
        for term in [even, odd] {
            d = 1.0 / whole(1.0 + term * d);
            c = whole(1.0 + term / c);
            step = d * c;
            h *= step;
        }
        if (step - 1.0).abs() < 1e-14 {
            break;
        }
    }
    h
}

/// Quantile of a beta distribution, by bisection.
#[must_use]
pub fn beta_quantile(chance: f64, a: f64, b: f64) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if beta(middle, a, b) < chance { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}

/// Two-sided tail probability of Student's distribution beyond `t`.
#[must_use]
pub fn beyond_student(t: f64, freedom: f64) -> f64 {
    beta(freedom / (freedom + t * t), 0.5 * freedom, 0.5)
}

/// Probability of at least `hits` successes in `trials`, each with probability `share`.
#[must_use]
pub fn at_least(hits: u64, trials: u64, share: f64) -> f64 {
    if hits == 0 { 1.0 } else { beta(share, hits as f64, (trials - hits) as f64 + 1.0) }
}

/// Probability that `trials` drawn from `all`, of which `marked` are marked, contain at least `hits` marked ones
/// (the hypergeometric distribution; Fisher's exact test on one side).
#[must_use]
pub fn drawn_at_least(hits: u64, trials: u64, marked: u64, all: u64) -> f64 {
    let choose = |n: u64, k: u64| {
        let f = |x: u64| ln_gamma(x as f64 + 1.0);
        f(n) - f(k) - f(n - k)
    };
    let possible = hits.max((trials + marked).saturating_sub(all))..=trials.min(marked);
    let one = |k: u64| (choose(marked, k) + choose(all - marked, trials - k) - choose(all, trials)).exp();
    possible.map(one).sum::<f64>().min(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(a: f64, b: f64) -> bool {
        (a - b).abs() < 1e-10 * b.abs().max(1.0)
    }

    #[test]
    fn the_gamma_function_has_its_known_values() {
        // Gamma(n) = (n - 1)!, Gamma(1/2) = sqrt(pi).
        assert!(close(ln_gamma(1.0), 0.0) && close(ln_gamma(11.0), 3_628_800f64.ln()));
        assert!(close(ln_gamma(0.5), 0.5 * std::f64::consts::PI.ln()));
        assert!(close(ln_gamma(171.0), 706.573_062_245_787_5));
    }

    #[test]
    fn beta_distributions_agree_with_their_closed_forms() {
        // I_x(1, b) = 1 - (1 - x)^b and I_x(a, 1) = x^a; I_1/2(a, a) = 1/2 (Abramowitz & Stegun 26.5).
        for x in [0.01, 0.2, 0.5, 0.9] {
            assert!(close(beta(x, 1.0, 7.0), 1.0 - (1.0f64 - x).powi(7)) && close(beta(x, 3.0, 1.0), x.powi(3)));
        }
        assert!(close(beta(0.5, 40.0, 40.0), 0.5));
        let x = beta_quantile(0.975, 8.0, 3.0);
        assert!(close(beta(x, 8.0, 3.0), 0.975));
    }

    #[test]
    fn tails_agree_with_printed_tables() {
        // Student: 2.228 for 10 degrees of freedom, 1.984 for 100, each 0.05 on both sides (any table of it).
        assert!(
            (beyond_student(2.228, 10.0) - 0.05).abs() < 1e-4 && (beyond_student(1.984, 100.0) - 0.05).abs() < 1e-4
        );
        // One degree of freedom is Cauchy's: half lies beyond 1.
        assert!(close(beyond_student(1.0, 1.0), 0.5));
        // 8 or more heads of 10: 56 of 1024.
        assert!(close(at_least(8, 10, 0.5), 56.0 / 1024.0) && close(at_least(0, 10, 0.5), 1.0));
        // Fisher's tea: all four of eight cups guessed, 1 of 70; three or more, 17 of 70.
        assert!(close(drawn_at_least(4, 4, 4, 8), 1.0 / 70.0) && close(drawn_at_least(3, 4, 4, 8), 17.0 / 70.0));
        assert!(close(drawn_at_least(0, 4, 4, 8), 1.0));
    }
}
