//! Progress over the weeks.

use super::{
    exercise::Item,
    history::{Attempt, History},
    schedule::DAY,
    theme::Theme,
};

/// One week of answers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Week {
    /// Weeks since the one that holds the first answer.
    pub number: u64,
    /// How many answers.
    pub answers: usize,
    /// Mean of their points, 0 to 100.
    pub mean: f64,
    /// Share of them that were right.
    pub right: f64,
}

/// The Monday that begins the week of a time, in days since the beginning of 1970, which was a Thursday.
fn monday(at: u64) -> u64 {
    let day = at / DAY;
    (day + 3) / 7 * 7
}

/// The weeks in which something was answered, in order; `wanted` chooses the answers. Weeks begin on Monday, in
/// universal time.
#[must_use]
pub fn weeks(history: &History, wanted: impl Fn(&Attempt) -> bool) -> Vec<Week> {
    let wanted: Vec<&Attempt> = history.attempts.iter().filter(|attempt| wanted(attempt)).collect();
    let Some(first) = wanted.iter().map(|attempt| monday(attempt.at)).min() else { return Vec::new() };
    let mut by_week: std::collections::BTreeMap<u64, Vec<&Attempt>> = std::collections::BTreeMap::new();
    for attempt in wanted {
        by_week.entry((monday(attempt.at) - first) / 7).or_default().push(attempt);
    }
    let summed = |(number, attempts): (u64, Vec<&Attempt>)| {
        let answers = attempts.len();
        let of = |part: &dyn Fn(&Attempt) -> f64| attempts.iter().map(|a| part(a)).sum::<f64>() / answers as f64;
        Week {
            number,
            answers,
            mean: of(&|attempt| f64::from(attempt.score)),
            right: of(&|attempt| f64::from(u8::from(attempt.right()))),
        }
    };
    by_week.into_iter().map(summed).collect()
}

/// Whether an answer is about a situation drawn for a theme.
#[must_use]
pub fn is_of(attempt: &Attempt, theme: Theme) -> bool {
    matches!(&attempt.item, Item::Drawn { theme: drawn, .. } if *drawn == theme)
}

#[cfg(test)]
mod tests {
    use super::{super::Question, *};

    #[test]
    fn weeks_begin_on_monday_and_empty_ones_leave_a_gap() {
        let attempt = |day: u64, score: u8| Attempt {
            at: day * DAY + 3600,
            item: Item::Board { print: 0, title: String::new() },
            question: Question::Place,
            score,
            lost: 0.0,
            distance: 0.0,
        };
        // 1970-01-04 was a Sunday, 1970-01-05 a Monday (ISO 8601 counts weeks from Monday).
        let history = History { attempts: vec![attempt(3, 40), attempt(4, 80), attempt(10, 100), attempt(18, 50)] };
        let weeks = weeks(&history, |_| true);
        let seen: Vec<(u64, usize, f64)> = weeks.iter().map(|week| (week.number, week.answers, week.mean)).collect();
        assert_eq!(seen, [(0, 1, 40.0), (1, 2, 90.0), (3, 1, 50.0)]);
        assert!((weeks[1].right - 1.0).abs() < 1e-12);
    }
}
