//! Numbers as a language writes them.

use super::{Language, spoken};

/// A number with this many decimals, the decimal point of the current language, a typographic minus
/// and no negative zero.
#[must_use]
pub fn decimal(value: f64, figures: usize) -> String {
    written(value, figures, spoken())
}

/// A number of others in a message: four decimals at most, none that are nought, and never a line full of digits.
#[must_use]
pub fn brief(value: f64) -> String {
    short(value, spoken())
}

/// The same as it is typed into a file, in every language: with a point and a hyphen.
#[must_use]
pub fn brief_in_file(value: f64) -> String {
    short(value, Language::English).replace('−', "-")
}

fn short(value: f64, language: Language) -> String {
    let text = written(value, 4, language);
    match text.find(['.', ',']) {
        Some(_) if value.abs() < DIGITS_BEYOND => text.trim_end_matches('0').trim_end_matches(['.', ',']).to_owned(),
        _ => text,
    }
}

/// A whole number with separated thousands.
#[must_use]
pub fn whole(value: usize) -> String {
    let digits = value.to_string();
    let mut text = String::with_capacity(digits.len() + digits.len() / 3);
    for (i, digit) in digits.chars().enumerate() {
        if i > 0 && (digits.len() - i).is_multiple_of(3) {
            text.push(match spoken() {
                Language::English => ',',
                Language::German => '.',
            });
        }
        text.push(digit);
    }
    text
}

/// From here on a number is told by its first digits and a power of ten.
const DIGITS_BEYOND: f64 = 1e15;

fn written(value: f64, figures: usize, language: Language) -> String {
    let mut text = if value.abs() < DIGITS_BEYOND { format!("{value:.figures$}") } else { format!("{value:.2e}") };
    if language == Language::German {
        text = text.replace('.', ",");
    }
    let Some(positive) = text.strip_prefix('-') else { return text };
    if positive.chars().all(|c| matches!(c, '0' | '.' | ',')) { positive.to_owned() } else { format!("−{positive}") }
}

/// Parses a typed number, with a point or a comma, a hyphen or a minus.
#[must_use]
pub fn parse_decimal(typed: &str) -> Option<f64> {
    let plain = typed.trim().replace(',', ".").replace('−', "-");
    plain.parse().ok().filter(|value: &f64| value.is_finite())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_point_follows_the_language() {
        // CLDR, `numbers/symbols`: decimal "." in en and "," in de; minus sign written as U+2212 (common practice).
        assert_eq!(written(-1.25, 1, Language::English), "−1.2");
        assert_eq!(written(-1.25, 1, Language::German), "−1,2");
        assert_eq!(written(-0.001, 2, Language::German), "0,00");
        assert_eq!(written(12.0, 0, Language::German), "12");
    }

    #[test]
    fn a_number_of_three_hundred_digits_is_told_by_its_first() {
        assert_eq!(written(1e300, 2, Language::English), "1.00e300");
        assert_eq!(written(-2.5e20, 0, Language::German), "−2,50e20");
        assert_eq!(brief(f64::MAX), "1.80e308");
        assert_eq!([6.0, -0.25, 1.0 / 3.0, 1e-300, 1200.0].map(brief), ["6", "−0.25", "0.3333", "0", "1200"]);
    }

    #[test]
    fn both_points_are_understood() {
        assert_eq!(parse_decimal(" 1,5 "), Some(1.5));
        assert_eq!(parse_decimal("−0.25"), Some(-0.25));
        assert_eq!(parse_decimal("1.234,5"), None);
        assert_eq!(parse_decimal("inf"), None);
        assert_eq!(parse_decimal("two"), None);
    }

    #[test]
    fn thousands_stand_apart() {
        assert_eq!(whole(1_234_567), "1,234,567");
        assert_eq!(whole(999), "999");
    }
}
