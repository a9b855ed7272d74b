//! The history as text, and back.
//!
//! RON, one answer a line, with the version at the beginning; lengths are metres, shares go from 0 to 1:
//!
//! ```text
//! (
//!   standpoint_rehearsal: 1,
//!   attempts: [
//!     (at: 1790000000, item: Drawn(theme: "Line", seed: 7, level: "Club", hand: "Right"), asked: "Place", score: 83,
//!      lost: 0.02, distance: 0.6),
//!   ],
//! )
//! ```

use serde::{Deserialize, Serialize};
use standpoint_geometry::{Hand, Level};
use standpoint_language::tr;

use super::{
    exercise::{Item, Trainee},
    history::{Attempt, History, Question},
    theme::Theme,
};
use crate::file::fields::Named;

/// Ending of history files, without the dot.
pub const EXTENSION: &str = "rehearsal";
/// Largest history that is read or written, bytes: more than a hundred thousand answers.
pub const SIZE_LIMIT: u64 = 32 * 1024 * 1024;
/// The version this program writes, and the last that it reads.
///
/// Version 2 adds players with figures of their own; a history without such answers is written as version 1, so that an
/// older program can still read it.
pub const VERSION: u32 = 2;

impl Named for Question {
    const NAMES: &'static [(&'static str, Self)] = &[("Place", Self::Place), ("Shot", Self::Shot)];
}

/// Why a history cannot be read.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Unreadable {
    /// It was written by a newer program.
    #[error("{}", tr!("it is of version {}, and this program reads up to {}", .0, VERSION))]
    Newer(u32),
    /// It is damaged, or something else.
    #[error("{}", tr!("line {}, column {}: {}", line, column, what))]
    Damaged {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
        /// What is wrong.
        what: String,
    },
    /// One of its answers is invalid.
    #[error("{}", tr!("answer {}: {}", number, what))]
    Answer {
        /// Which, from 1.
        number: usize,
        /// What is wrong.
        what: String,
    },
}

#[derive(Deserialize)]
struct Head {
    standpoint_rehearsal: u32,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct HistoryFile {
    standpoint_rehearsal: u32,
    attempts: Vec<AttemptFile>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct AttemptFile {
    at: u64,
    item: ItemFile,
    asked: String,
    score: u8,
    lost: f64,
    distance: f64,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
enum ItemFile {
    Drawn {
        theme: String,
        seed: u64,
        level: String,
        hand: String,
        /// Fingerprint of the trainee's own figures; since version 2.
        #[serde(default, skip_serializing_if = "is_zero")]
        figures: u64,
    },
    Board {
        print: u64,
        title: String,
    },
}

/// The history as text of the current version.
#[must_use]
pub fn to_text(history: &History) -> String {
    let attempts = history.attempts.iter().map(AttemptFile::from).collect();
    let style = ron::ser::PrettyConfig::new().new_line("\n").indentor("  ").depth_limit(2);
    let own = |attempt: &Attempt| matches!(attempt.item, Item::Drawn { trainee: Trainee { figures: 1.., .. }, .. });
    let version = if history.attempts.iter().any(own) { VERSION } else { 1 };
    let file = HistoryFile { standpoint_rehearsal: version, attempts };
    // RON can write all of it: there are plain fields and names only.
    ron::ser::to_string_pretty(&file, style).unwrap_or_default() + "\n"
}

/// The history in the bytes of a file.
///
/// # Errors
///
/// See [`Unreadable`]; nothing is left out silently.
pub fn from_bytes(bytes: &[u8]) -> Result<History, Unreadable> {
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let before = &bytes[..error.valid_up_to()];
        let line = before.iter().filter(|byte| **byte == b'\n').count() + 1;
        let column = before.iter().rev().take_while(|byte| **byte != b'\n').count() + 1;
        Unreadable::Damaged { line, column, what: tr!("this is no text") }
    })?;
    let damaged = |error: ron::error::SpannedError| Unreadable::Damaged {
        line: error.span.start.line,
        column: error.span.start.col,
        what: error.code.to_string(),
    };
    // The rest of a newer version is not read.
    if let Ok(Head { standpoint_rehearsal }) = ron::from_str::<Head>(text)
        && standpoint_rehearsal > VERSION
    {
        return Err(Unreadable::Newer(standpoint_rehearsal));
    }
    let file: HistoryFile = ron::from_str(text).map_err(damaged)?;
    let attempts = file
        .attempts
        .into_iter()
        .enumerate()
        .map(|(i, attempt)| attempt.into_attempt().map_err(|what| Unreadable::Answer { number: i + 1, what }));
    Ok(History { attempts: attempts.collect::<Result<_, _>>()? })
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "the signature that serde asks for")]
fn is_zero(figures: &u64) -> bool {
    *figures == 0
}

fn named<T: Named>(name: &str) -> Result<T, String> {
    let known = T::NAMES.iter().find(|(known, _)| *known == name);
    known.map(|(_, choice)| *choice).ok_or_else(|| {
        let names: Vec<&str> = T::NAMES.iter().map(|(name, _)| *name).collect();
        tr!("“{}” is none of {}", name, names.join(", "))
    })
}

impl From<&Attempt> for AttemptFile {
    fn from(attempt: &Attempt) -> Self {
        let item = match &attempt.item {
            Item::Drawn { theme, seed, trainee } => ItemFile::Drawn {
                theme: theme.name().to_owned(),
                seed: *seed,
                level: trainee.level.name().to_owned(),
                hand: if trainee.left_handed { Hand::Left } else { Hand::Right }.name().to_owned(),
                figures: trainee.figures,
            },
            Item::Board { print, title } => ItemFile::Board { print: *print, title: title.clone() },
        };
        // Finer steps than a hundredth of a point in a hundred and a centimetre are never shown.
        let rounded = |value: f64, to: f64| (value * to).round() / to + 0.0;
        Self {
            at: attempt.at,
            item,
            asked: attempt.question.name().to_owned(),
            score: attempt.score,
            lost: rounded(attempt.lost, 1e4),
            distance: rounded(attempt.distance, 1e2),
        }
    }
}

impl AttemptFile {
    fn into_attempt(self) -> Result<Attempt, String> {
        let item = match self.item {
            ItemFile::Drawn { theme, seed, level, hand, figures } => {
                let left_handed = named::<Hand>(&hand)? == Hand::Left;
                let trainee = Trainee { level: named::<Level>(&level)?, left_handed, figures };
                Item::Drawn { theme: named::<Theme>(&theme)?, seed, trainee }
            }
            ItemFile::Board { print, title } => Item::Board { print, title },
        };
        if self.score > 100 {
            return Err(tr!("{} points are more than 100", self.score));
        }
        for (value, name) in [(self.lost, "lost"), (self.distance, "distance")] {
            if !value.is_finite() || !(-1.0..=1000.0).contains(&value) {
                return Err(tr!("{} is {}", name, value));
            }
        }
        Ok(Attempt {
            at: self.at,
            item,
            question: named(&self.asked)?,
            score: self.score,
            lost: self.lost,
            distance: self.distance,
        })
    }
}

#[cfg(test)]
pub(super) mod tests {
    use proptest::prelude::*;

    use super::*;

    /// A history with answers of every kind.
    pub fn some() -> History {
        let trainee = Trainee::of_level(Level::Club, true);
        let drawn = Item::Drawn { theme: Theme::Approach, seed: u64::MAX, trainee };
        let board = Item::Board { print: 7, title: "“Odd” title \\ with\nlines".to_owned() };
        let attempt = |at, item, question, score| Attempt { at, item, question, score, lost: 0.0312, distance: 1.25 };
        History {
            attempts: vec![
                attempt(1_790_000_000, drawn.clone(), Question::Place, 83),
                attempt(1_790_000_060, board, Question::Shot, 12),
                attempt(1_790_090_000, drawn, Question::Place, 100),
            ],
        }
    }

    #[test]
    fn a_history_survives_its_file() {
        let text = to_text(&some());
        assert_eq!(from_bytes(text.as_bytes()).unwrap(), some(), "{text}");
        assert_eq!(text.lines().filter(|line| line.contains("at:")).count(), 3, "one answer a line:\n{text}");
    }

    #[test]
    fn a_newer_file_is_told_from_a_damaged_one() {
        let newer = "(standpoint_rehearsal: 9, attempts: [], more: 3)";
        assert_eq!(from_bytes(newer.as_bytes()), Err(Unreadable::Newer(9)));
        let odd = to_text(&some()).replace("\"Approach\"", "\"Aproach\"");
        assert!(from_bytes(odd.as_bytes()).unwrap_err().to_string().contains("answer 1"), "it says which");
    }

    #[test]
    fn every_truncated_file_is_refused_with_its_place() {
        let text = to_text(&some());
        let whole = text.trim_end().len();
        for length in 0..whole {
            let Some(part) = text.get(..length) else { continue };
            let refused = from_bytes(part.as_bytes()).unwrap_err();
            assert!(matches!(refused, Unreadable::Damaged { line: 1.., column: 1.., .. }), "{length}: {refused:?}");
        }
    }

    #[test]
    fn no_flipped_bit_makes_reading_panic() {
        let bytes = to_text(&some()).into_bytes();
        for i in 0..bytes.len() {
            for bit in 0..8 {
                let mut flipped = bytes.clone();
                flipped[i] ^= 1 << bit;
                if let Ok(history) = from_bytes(&flipped) {
                    assert_eq!(history.attempts.len(), 3, "nothing is left out silently");
                }
            }
        }
    }

    proptest! {
        #[test]
        fn no_bytes_make_reading_panic(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
            let _ = from_bytes(&bytes);
        }
    }
}
