//! History of rehearsals.

use super::{exercise::Item, score};

/// The question asked about a situation.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Question {
    /// Where to stand.
    Place,
    /// Which shot.
    Shot,
}

/// One answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Attempt {
    /// Time, whole s since the beginning of 1970.
    pub at: u64,
    /// The situation.
    pub item: Item,
    /// The question.
    pub question: Question,
    /// Points from 0 to 100, see [`score`].
    pub score: u8,
    /// Loss against the best answer, as a share of points.
    pub lost: f64,
    /// Distance from the spot, m; 0 for the choice of a shot.
    pub distance: f64,
}

impl Attempt {
    /// Whether it counts as right.
    #[must_use]
    pub fn right(&self) -> bool {
        self.score >= score::RIGHT
    }
}

/// All answers, in the order they were given.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct History {
    /// The answers.
    pub attempts: Vec<Attempt>,
}

impl History {
    /// Merges another history, in the order of time.
    pub fn merge(&mut self, other: Self) {
        for attempt in other.attempts {
            if !self.attempts.contains(&attempt) {
                self.attempts.push(attempt);
            }
        }
        self.attempts.sort_by_key(|attempt| attempt.at);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn merging_keeps_what_either_has_once_and_in_order() {
        let attempt = |at: u64| Attempt {
            at,
            item: Item::Board { print: at, title: "Page".to_owned() },
            question: Question::Place,
            score: 90,
            lost: 0.0,
            distance: 0.5,
        };
        let mut one = History { attempts: vec![attempt(1), attempt(3)] };
        one.merge(History { attempts: vec![attempt(1), attempt(2)] });
        assert_eq!(one.attempts, [attempt(1), attempt(2), attempt(3)]);
    }
}
