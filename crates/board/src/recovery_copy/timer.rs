//! Timing of recovery copies.

/// Time from a change to its copy, s: a few strokes of a pen.
pub const EVERY_S: f64 = 4.0;

/// The next act.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Act {
    /// Nothing.
    Nothing,
    /// Write a copy of the current board.
    Keep,
    /// The board is saved: remove the copy.
    Remove,
}

/// Decides when a copy is written. Called in every frame with the time.
///
/// ```
/// use standpoint_board::recovery_copy::{Act, Autosave};
/// let mut autosave = Autosave::new(4.0);
/// assert_eq!(autosave.asked(0.0, 0, true), Act::Nothing);
/// // Changed at 1 s, and again and again: kept 4 s after the first change.
/// assert_eq!(autosave.asked(1.0, 1, false), Act::Nothing);
/// assert_eq!(autosave.wait_s(1.0), Some(4.0));
/// assert_eq!(autosave.asked(4.9, 7, false), Act::Nothing);
/// assert_eq!(autosave.asked(5.0, 8, false), Act::Keep);
/// assert_eq!(autosave.asked(9.0, 8, false), Act::Nothing);
/// assert_eq!(autosave.asked(9.5, 8, true), Act::Remove);
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Autosave {
    every_s: f64,
    /// Time when the next copy is due.
    due: Option<f64>,
    /// Revision in the copy.
    kept: Option<u64>,
}

impl Autosave {
    /// Keeps a copy `every_s` seconds after a change.
    #[must_use]
    pub fn new(every_s: f64) -> Self {
        Self { every_s, due: None, kept: None }
    }

    /// The timer of a board restored from a copy, which exists already.
    #[must_use]
    pub fn restored(every_s: f64, revision: u64) -> Self {
        Self { kept: Some(revision), ..Self::new(every_s) }
    }

    /// The act due at `now`, s, for the board of this revision ([`crate::History::revision`]), saved or not.
    pub fn asked(&mut self, now: f64, revision: u64, is_saved: bool) -> Act {
        if is_saved {
            self.due = None;
            return if self.kept.take().is_some() { Act::Remove } else { Act::Nothing };
        }
        if self.kept == Some(revision) {
            self.due = None;
            return Act::Nothing;
        }
        let due = *self.due.get_or_insert(now + self.every_s);
        if now < due {
            return Act::Nothing;
        }
        self.due = None;
        self.kept = Some(revision);
        Act::Keep
    }

    /// Reports that the last copy could not be written: it is tried again `every_s` seconds after the next call of
    /// [`Self::asked`].
    pub fn failed(&mut self) {
        // A copy of an earlier revision may exist; no revision has this number.
        self.kept = Some(u64::MAX);
    }

    /// Seconds until the next act; `None` if nothing is due. An idle window may ask again then.
    #[must_use]
    pub fn wait_s(&self, now: f64) -> Option<f64> {
        self.due.map(|due| (due - now).max(0.0))
    }
}

impl Default for Autosave {
    fn default() -> Self {
        Self::new(EVERY_S)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn drawing_without_a_pause_is_kept_every_few_seconds() {
        let mut autosave = Autosave::new(4.0);
        let kept: Vec<u64> = (1..=1000).filter(|i| autosave.asked(*i as f64 * 0.016, *i, false) == Act::Keep).collect();
        assert_eq!(kept.len(), 3, "{kept:?}");
    }

    #[test]
    fn undoing_to_what_the_copy_holds_needs_no_new_one_and_saving_at_once_none_at_all() {
        let mut autosave = Autosave::new(4.0);
        assert_eq!(autosave.asked(0.0, 1, false), Act::Nothing);
        assert_eq!(autosave.asked(1.0, 2, true), Act::Nothing);
        assert_eq!(autosave.wait_s(1.0), None);
        let mut restored = Autosave::restored(4.0, 0);
        assert_eq!(restored.asked(0.0, 0, false), Act::Nothing);
        assert_eq!(restored.wait_s(0.0), None);
        assert_eq!(restored.asked(1.0, 0, true), Act::Remove);
    }

    #[test]
    fn a_copy_that_failed_is_tried_again() {
        let mut autosave = Autosave::new(4.0);
        assert_eq!((autosave.asked(0.0, 1, false), autosave.asked(4.0, 1, false)), (Act::Nothing, Act::Keep));
        autosave.failed();
        assert_eq!((autosave.asked(5.0, 1, false), autosave.asked(9.0, 1, false)), (Act::Nothing, Act::Keep));
    }
}
