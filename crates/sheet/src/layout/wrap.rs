//! Breaking text into lines.

use crate::faces::{Faces, Weight};

/// Style of a text.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Set {
    /// Size, points.
    pub size: f32,
    /// How heavy.
    pub weight: Weight,
}

impl Set {
    /// Width of a text in one line.
    pub fn width(self, text: &str) -> f32 {
        Faces::built_in().width(text, self.size, self.weight)
    }

    /// Width of the longest word.
    pub fn longest_word(self, text: &str) -> f32 {
        text.split_whitespace().map(|word| self.width(word)).fold(0.0, f32::max)
    }
}

/// Share of the column that lines fill: kerning may widen a line slightly.
const FILL: f32 = 0.985;

/// Units, which stay on the line of their figure.
const UNITS: [&str; 7] = ["m", "s", "%", "km/h", "mph", "rpm", "U/min"];

/// Whether a blank between two texts is one between a figure and its unit.
fn holds_a_unit(before: &str, after: &str) -> bool {
    let word = after.split(char::is_whitespace).next().unwrap_or_default();
    before.ends_with(|c: char| c.is_ascii_digit()) && UNITS.contains(&word.trim_end_matches([',', ';', '.', ')', ':']))
}

/// The first line of a text that fits a width, and the rest. A word longer than a line is broken anywhere.
pub fn first_line(text: &str, set: Set, width: f32) -> (&str, &str) {
    let (room, mut used, mut last_gap) = (width * FILL, 0.0, None);
    for (i, c) in text.char_indices() {
        let after = i + c.len_utf8();
        if c == '\n' {
            return (text[..i].trim_end(), &text[after..]);
        }
        if c.is_whitespace() && !holds_a_unit(&text[..i], &text[after..]) {
            last_gap = Some((i, after));
        }
        let mut buffer = [0; 4];
        used += set.width(c.encode_utf8(&mut buffer));
        if used > room && !c.is_whitespace() {
            return match last_gap {
                Some((end, next)) if !text[..end].trim().is_empty() => {
                    (text[..end].trim_end(), text[next..].trim_start_matches(' '))
                }
                _ if i > 0 => (&text[..i], &text[i..]),
                // Not even one character fits; it is placed all the same.
                _ => (&text[..after], &text[after..]),
            };
        }
    }
    (text.trim_end(), "")
}

/// All lines of a text; line breaks are kept.
pub fn lines(text: &str, set: Set, width: f32) -> Vec<&str> {
    let mut rest = text.trim_end();
    let mut lines = Vec::new();
    while !rest.is_empty() {
        let (line, more) = first_line(rest, set, width);
        lines.push(line);
        rest = more;
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    const SET: Set = Set { size: 10.0, weight: Weight::Medium };

    #[test]
    fn every_word_is_kept_and_no_line_is_too_long() {
        let text = "Recover before you look, and split as the other strikes; a-very-long-word-that-fits-nowhere-at-all \
                    wraps too.\n\nSecond paragraph";
        for width in [30.0, 61.5, 120.0, 400.0] {
            let lines = lines(text, SET, width);
            assert!(lines.iter().all(|line| SET.width(line) <= width), "{lines:?}");
            let letters = |s: &str| s.chars().filter(|c| !c.is_whitespace()).collect::<String>();
            assert_eq!(letters(&lines.concat()), letters(text));
        }
        assert_eq!(lines("a\n\nb", SET, 100.0), ["a", "", "b"]);
    }

    #[test]
    fn a_figure_keeps_its_unit() {
        let text = "inside the line, 2.88 m, and on";
        let width = SET.width("inside the line, 2.88") / FILL + 0.1;
        assert_eq!(lines(text, SET, width), ["inside the line,", "2.88 m, and on"]);
    }

    #[test]
    fn a_column_narrower_than_a_letter_ends_all_the_same() {
        assert_eq!(lines("abc", SET, 1.0), ["a", "b", "c"]);
    }
}
