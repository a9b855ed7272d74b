//! Decides when background work begins, waits, is dropped or is done: a state machine without threads or a clock.

/// How a kind of work treats a question that changes meanwhile.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Policy {
    /// Time without a change before a question is taken up, s.
    pub patience: f64,
    /// Whether work in progress is finished before the next question; otherwise it is dropped at once.
    pub finishes: bool,
}

/// What is to be done now.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Decision {
    /// Nothing.
    Rest,
    /// Ask again after this many seconds.
    Wait(f64),
    /// Drop the work in progress.
    Cancel,
    /// Begin the work for the question.
    Start,
}

/// The state of one kind of work whose questions are of type `K`.
#[derive(Debug, Clone)]
pub struct Debounce<K> {
    seen: Option<K>,
    /// When the question last changed; the first one counts as unchanged.
    changed: f64,
    asked: Option<K>,
    answered: Option<K>,
    round: u64,
    left: usize,
}

impl<K> Default for Debounce<K> {
    fn default() -> Self {
        Self { seen: None, changed: f64::NEG_INFINITY, asked: None, answered: None, round: 0, left: 0 }
    }
}

impl<K: PartialEq + Clone> Debounce<K> {
    /// The next step for the current question; `None` when nothing is wanted.
    pub fn step(&mut self, wish: Option<&K>, now: f64, manner: Policy) -> Decision {
        let Some(wish) = wish else {
            self.seen = None;
            self.changed = f64::NEG_INFINITY;
            return self.stop();
        };
        if self.seen.as_ref() != Some(wish) {
            if self.seen.is_some() {
                self.changed = now;
            }
            self.seen = Some(wish.clone());
        }
        if self.is_busy() {
            if self.asked.as_ref() == Some(wish) || manner.finishes {
                return Decision::Rest;
            }
            return self.stop();
        }
        if self.answered.as_ref() == Some(wish) {
            return Decision::Rest;
        }
        let stood = now - self.changed;
        if stood < manner.patience { Decision::Wait(manner.patience - stood) } else { Decision::Start }
    }

    fn stop(&mut self) -> Decision {
        if !self.is_busy() {
            return Decision::Rest;
        }
        self.left = 0;
        self.asked = None;
        self.answered = None;
        // Late pieces of dropped work belong to no round.
        self.round += 1;
        Decision::Cancel
    }
}

/// The rounds of one kind of work, whatever its questions are.
pub trait Rounds {
    /// Records that work for the last question has begun in `pieces`; returns its round.
    fn began(&mut self, pieces: usize) -> u64;
    /// Invalidates known and running work, so that it is asked again.
    fn outdate(&mut self);
    /// Takes a piece of a round; returns whether it belongs to the wanted work.
    fn arrived(&mut self, round: u64) -> bool;
    /// The round of the current or last work.
    #[must_use]
    fn round(&self) -> u64;
    /// Whether work goes on.
    #[must_use]
    fn is_busy(&self) -> bool;
    /// Whether the current question is fully answered.
    #[must_use]
    fn is_answered(&self) -> bool;
    /// Whether nothing wanted is missing.
    #[must_use]
    fn is_settled(&self) -> bool;
}

impl<K: PartialEq + Clone> Rounds for Debounce<K> {
    fn began(&mut self, pieces: usize) -> u64 {
        self.round += 1;
        self.left = pieces;
        self.asked = self.seen.clone();
        self.answered = None;
        if pieces == 0 {
            self.answered = self.asked.take();
        }
        self.round
    }

    fn outdate(&mut self) {
        self.left = 0;
        (self.asked, self.answered) = (None, None);
        self.round += 1;
    }

    fn arrived(&mut self, round: u64) -> bool {
        if round != self.round || self.left == 0 {
            return false;
        }
        self.left -= 1;
        if self.left == 0 {
            self.answered = self.asked.take();
        }
        true
    }

    fn round(&self) -> u64 {
        self.round
    }

    fn is_busy(&self) -> bool {
        self.left > 0
    }

    fn is_answered(&self) -> bool {
        self.answered.is_some() && self.answered == self.seen
    }

    fn is_settled(&self) -> bool {
        !self.is_busy() && (self.seen.is_none() || self.is_answered())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const PATIENT: Policy = Policy { patience: 0.1, finishes: false };
    const STEADY: Policy = Policy { patience: 0.0, finishes: true };

    #[test]
    fn the_first_question_is_taken_up_at_once_and_answered_once() {
        let mut slot = Debounce::default();
        assert_eq!(slot.step(Some(&'a'), 5.0, PATIENT), Decision::Start);
        let round = slot.began(2);
        assert_eq!(slot.step(Some(&'a'), 5.0, PATIENT), Decision::Rest);
        assert!(slot.arrived(round) && slot.is_busy());
        assert!(slot.arrived(round) && slot.is_answered());
        assert_eq!(slot.step(Some(&'a'), 6.0, PATIENT), Decision::Rest);
        assert!(!slot.arrived(round), "nothing more is expected");
    }

    #[test]
    fn a_new_question_drops_the_work_and_waits_until_it_stands_still() {
        let mut slot = Debounce::default();
        slot.step(Some(&'a'), 0.0, PATIENT);
        let old = slot.began(9);
        assert_eq!(slot.step(Some(&'b'), 1.0, PATIENT), Decision::Cancel);
        assert!(!slot.arrived(old), "pieces of the dropped round count no more");
        assert!(matches!(slot.step(Some(&'b'), 1.04, PATIENT), Decision::Wait(t) if (t - 0.06).abs() < 1e-9));
        assert!(matches!(slot.step(Some(&'c'), 1.08, PATIENT), Decision::Wait(t) if (t - 0.1).abs() < 1e-9));
        assert_eq!(slot.step(Some(&'c'), 1.2, PATIENT), Decision::Start);
    }

    #[test]
    fn steady_work_is_finished_before_the_next_question() {
        let mut slot = Debounce::default();
        slot.step(Some(&'a'), 0.0, STEADY);
        let round = slot.began(1);
        assert_eq!(slot.step(Some(&'b'), 0.1, STEADY), Decision::Rest);
        assert!(slot.arrived(round));
        assert!(!slot.is_answered(), "what is there answers the former question");
        assert_eq!(slot.step(Some(&'b'), 0.2, STEADY), Decision::Start);
    }

    #[test]
    fn what_nobody_wants_to_know_is_dropped_but_a_whole_answer_is_kept() {
        let mut slot = Debounce::default();
        slot.step(Some(&'a'), 0.0, PATIENT);
        slot.began(1);
        assert_eq!(slot.step(None, 0.1, PATIENT), Decision::Cancel);
        assert_eq!(slot.step(Some(&'a'), 0.2, PATIENT), Decision::Start);
        let round = slot.began(1);
        slot.arrived(round);
        assert_eq!(slot.step(None, 0.3, PATIENT), Decision::Rest);
        assert_eq!(slot.step(Some(&'a'), 0.4, PATIENT), Decision::Rest);
    }
}
