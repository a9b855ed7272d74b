//! Changes whose steps belong to a history outside the notebook, such as that of a board with its notes.

use std::hash::{DefaultHasher, Hash as _, Hasher as _};

use super::{Join, Notebook};

/// Result of a change.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Recorded {
    /// A step.
    Step {
        /// Label in menus.
        label: &'static str,
        /// Steps with the same key may be joined.
        series: Option<u64>,
    },
    /// No step, such as selecting a shot; the next step is not joined.
    Sealed,
    /// Nothing.
    Nothing,
}

impl Notebook {
    /// Makes a change and returns its step instead of keeping it in this notebook's history.
    pub fn record<R>(&mut self, change: impl FnOnce(&mut Self) -> R) -> (R, Recorded) {
        self.past.clear();
        self.joinable = Some(Join::Open);
        let result = change(self);
        let step = self.past.drain(..).next_back();
        self.future.clear();
        let recorded = match (step, self.joinable.take()) {
            (Some((_, label)), join) => Recorded::Step { label, series: join.map(series) },
            (None, Some(Join::Open)) => Recorded::Nothing,
            (None, _) => Recorded::Sealed,
        };
        (result, recorded)
    }

    /// Whether the notes are equal, apart from history and selection.
    #[must_use]
    pub fn is_as(&self, other: &Self) -> bool {
        self.now.is_as(&other.now)
    }

    /// Time on the clock.
    #[must_use]
    pub fn clock(&self) -> Option<f64> {
        self.clock
    }
}

/// Key of the series of steps that may be joined.
fn series(join: Join) -> u64 {
    let mut hasher = DefaultHasher::new();
    ("notes", join).hash(&mut hasher);
    hasher.finish()
}

#[cfg(test)]
mod tests {
    use glam::dvec2;
    use standpoint_board::chart::model::{Chart, Setup};

    use super::*;

    #[test]
    fn a_change_hands_over_its_step() {
        let mut notes = Notebook::new(Chart::new(Setup::default()));
        let (placed, step) = notes.record(|notes| notes.place(dvec2(2.0, -12.0)));
        assert_eq!((placed, step), (Ok(()), Recorded::Step { label: "Contact", series: None }));
        assert!(notes.undo_label().is_none(), "the step is kept elsewhere");
        let (refused, step) = notes.record(|notes| notes.place(dvec2(2.0, -6.0)));
        assert!(refused.is_err() && step == Recorded::Nothing);
        assert_eq!(notes.record(|notes| notes.pick(None)).1, Recorded::Sealed);
    }

    #[test]
    fn typing_is_one_series_and_another_text_another_one() {
        let mut notes = Notebook::new(Chart::new(Setup::default()));
        let mut series = |text: &str, title: bool| {
            let text = text.to_owned();
            let typed = notes.record(|notes| if title { notes.set_title(text) } else { notes.set_session(text) });
            let Recorded::Step { series, .. } = typed.1 else { panic!("{typed:?}") };
            series.unwrap()
        };
        let (a, b, c) = (series("S", true), series("Su", true), series("D", false));
        assert!(a == b && b != c);
    }
}
