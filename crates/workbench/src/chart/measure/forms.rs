//! Measurements as they are typed.

use standpoint_language::tr;

/// Why a line cannot be read.
pub type Problem = String;

/// A number, with a point or a comma before its decimals.
fn number(word: &str) -> Option<f64> {
    word.replace(',', ".").parse::<f64>().ok().filter(|number| number.is_finite())
}

/// Two numbers a line.
///
/// # Errors
/// Number of the first line that is not valid.
pub fn pairs(text: &str) -> Result<Vec<(f64, f64)>, Problem> {
    let lines = text.lines().enumerate().filter(|(_, line)| !line.trim().is_empty());
    lines
        .map(|(i, line)| {
            let words: Vec<&str> = line.split([' ', '\t', ';']).filter(|word| !word.is_empty()).collect();
            match words[..] {
                [first, second] => number(first).zip(number(second)),
                _ => None,
            }
            .ok_or_else(|| tr!("Line {}: `{}` is no distance and time; write them like 10 1.86.", i + 1, line.trim()))
        })
        .collect()
}

/// Numbers separated by blanks.
///
/// # Errors
/// The first word that is not a number.
pub fn numbers(text: &str) -> Result<Vec<f64>, Problem> {
    let words = text.split([' ', '\t', '\n', '\r', ';']).filter(|word| !word.is_empty());
    words
        .map(|word| number(word).ok_or_else(|| tr!("`{}` is no number; write readings like 96 101 98.", word)))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_typed_is_read_or_told_by_its_line() {
        assert_eq!(pairs("5 1.1\n\n 10; 1,85 \n"), Ok(vec![(5.0, 1.1), (10.0, 1.85)]));
        assert!(pairs("5 1.1\n10").unwrap_err().starts_with("Line 2: `10`"));
        assert!(pairs("5 1 2").is_err() && pairs("5 inf").is_err());
        assert_eq!(numbers("96 101\n98,5"), Ok(vec![96.0, 101.0, 98.5]));
        assert!(numbers("96 km").unwrap_err().contains("`km`"));
        assert_eq!(numbers(" \n"), Ok(Vec::new()));
    }
}
