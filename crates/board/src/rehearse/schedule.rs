//! Repetition of situations: Leitner's boxes (S. Leitner, *So lernt man lernen*, 1972; from memory).
//!
//! Every situation begins in the first box. A right answer moves it to the next box, a wrong one back to the first; the
//! later the box, the longer the wait. The waiting times are a choice, the usual doubling and more.

use std::collections::BTreeMap;

use super::{
    exercise::Item,
    history::{History, Question},
};

/// A day, s.
pub const DAY: u64 = 24 * 60 * 60;
/// Waiting time of each box, s: situations of the first are repeated in the same session.
pub const WAITS: [u64; 5] = [0, DAY, 3 * DAY, 7 * DAY, 21 * DAY];
/// Least number of other questions before a situation is asked again, unless nothing else is due.
pub const APART: usize = 3;

/// State of a situation in the schedule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Standing {
    /// The box, from 0.
    pub place: usize,
    /// Time when it is due, s since the beginning of 1970.
    pub due: u64,
}

/// The state of every question asked so far.
#[must_use]
pub fn standings(history: &History) -> BTreeMap<(Item, Question), Standing> {
    let mut all: BTreeMap<(Item, Question), Standing> = BTreeMap::new();
    for attempt in &history.attempts {
        let key = (attempt.item.clone(), attempt.question);
        let before = all.get(&key).map(|standing| standing.place);
        let place = match before {
            _ if !attempt.right() => 0,
            // A first right answer is not repeated the same day.
            None => 1,
            Some(before) => (before + 1).min(WAITS.len() - 1),
        };
        all.insert(key, Standing { place, due: attempt.at.saturating_add(WAITS[place]) });
    }
    all
}

/// The situation due now among those that `wanted` allows: from the lowest box, the one due longest.
///
/// Situations of the last [`APART`] questions wait; `None` when nothing else is due.
#[must_use]
pub fn due(history: &History, now: u64, wanted: impl Fn(&Item, Question) -> bool) -> Option<(Item, Question)> {
    let last = history.attempts.iter().rev().take(APART);
    let lately: Vec<_> = last.map(|attempt| (&attempt.item, attempt.question)).collect();
    standings(history)
        .into_iter()
        .filter(|((item, question), standing)| {
            standing.due <= now && wanted(item, *question) && !lately.contains(&(item, *question))
        })
        .min_by_key(|(_, standing)| (standing.place, standing.due))
        .map(|(key, _)| key)
}

#[cfg(test)]
mod tests {
    use standpoint_geometry::Level;

    use super::{
        super::{Attempt, Theme, Trainee},
        *,
    };

    fn item(seed: u64) -> Item {
        Item::Drawn { theme: Theme::Line, seed, trainee: Trainee::of_level(Level::Club, false) }
    }

    fn answers(list: &[(u64, u64, u8)]) -> History {
        let attempt = |&(at, seed, score): &(u64, u64, u8)| Attempt {
            at,
            item: item(seed),
            question: Question::Place,
            score,
            lost: 0.0,
            distance: 0.0,
        };
        History { attempts: list.iter().map(attempt).collect() }
    }

    #[test]
    fn what_went_wrong_comes_back_before_what_went_well() {
        let history = answers(&[(0, 1, 95), (10, 2, 20)]);
        let all = standings(&history);
        let due = |seed| all[&(item(seed), Question::Place)].due;
        assert!(due(2) < due(1));
        assert_eq!((due(1), due(2)), (DAY, 10));
    }

    #[test]
    fn right_answers_move_on_box_by_box_and_a_wrong_one_goes_back_to_the_first() {
        let mut list = Vec::new();
        let mut at = 0;
        for (round, wait) in WAITS.iter().enumerate().skip(1) {
            list.push((at, 1, 90));
            let standing = standings(&answers(&list))[&(item(1), Question::Place)];
            assert_eq!(standing, Standing { place: round, due: at + wait });
            at = standing.due;
        }
        list.push((at, 1, 90));
        assert_eq!(
            standings(&answers(&list))[&(item(1), Question::Place)].place,
            WAITS.len() - 1,
            "there is no box beyond"
        );
        list.push((at + 5, 1, 10));
        assert_eq!(standings(&answers(&list))[&(item(1), Question::Place)], Standing { place: 0, due: at + 5 });
    }

    #[test]
    fn the_same_is_not_asked_again_at_once() {
        let mut list = vec![(0, 1, 10)];
        let any = |_: &Item, _: Question| true;
        assert_eq!(due(&answers(&list), 100, any), None);
        list.extend([(1, 2, 95), (2, 3, 95), (3, 4, 95)]);
        assert_eq!(due(&answers(&list), 100, any), Some((item(1), Question::Place)));
        assert_eq!(due(&answers(&list), 100, |_, question| question == Question::Shot), None);
    }

    #[test]
    fn the_lowest_box_comes_first_however_long_the_others_wait() {
        let list = [(0, 1, 95), (DAY, 2, 10), (DAY + 1, 3, 95), (DAY + 2, 4, 95), (DAY + 3, 5, 95)];
        let next = due(&answers(&list), 100 * DAY, |_, _| true);
        assert_eq!(next, Some((item(2), Question::Place)));
    }
}
