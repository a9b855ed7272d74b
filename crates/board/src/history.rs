//! Undo and redo. One gesture is one step, and the selection comes back with the document.
//!
//! A step keeps the whole former document; [`crate::Board`] shares its pages, so that a step costs the changed page
//! and a few hundred bytes. No step is dropped within a session. There is no clock: the caller that handles pointer
//! and keyboard marks the beginning and the end of a gesture.
//!
//! ```
//! use standpoint_board::History;
//! let mut history = History::new(10, "start");
//! history.begin("Drag");
//! *history.doc_mut() += 1;
//! *history.doc_mut() += 1;
//! history.commit("ball");
//! assert_eq!((*history.doc(), *history.selection()), (12, "ball"));
//! assert_eq!(history.undo(), Some("Drag"));
//! assert_eq!((*history.doc(), *history.selection()), (10, "start"));
//! assert_eq!(history.redo(), Some("Drag"));
//! assert_eq!((*history.doc(), *history.selection()), (12, "ball"));
//! ```

use standpoint_language::mark;

/// A document with its past and future. `S` is the caller's selection.
#[derive(Debug, Clone)]
pub struct History<D, S> {
    doc: D,
    selection: S,
    past: Vec<UndoStep<D, S>>,
    future: Vec<UndoStep<D, S>>,
    gesture: Option<Open<D, S>>,
    /// Key of the last step while the next one with the same key may still join it.
    joinable: Option<u64>,
    /// Length of `past` when the document was last saved; `None` once that state cannot be reached any more.
    saved: Option<usize>,
    /// Counts changes of the document.
    revision: u64,
}

/// A step already taken (in `past`, with the document before it) or undone (in `future`, with the document after it).
#[derive(Debug, Clone)]
struct UndoStep<D, S> {
    label: &'static str,
    doc: D,
    selection_before: S,
    selection_after: S,
}

/// A gesture that has begun.
#[derive(Debug, Clone)]
struct Open<D, S> {
    label: &'static str,
    doc: D,
    selection: S,
}

impl<D: Clone + PartialEq, S: Clone> History<D, S> {
    /// A history that starts here, saved.
    #[must_use]
    pub fn new(doc: D, selection: S) -> Self {
        Self {
            doc,
            selection,
            past: Vec::new(),
            future: Vec::new(),
            gesture: None,
            joinable: None,
            saved: Some(0),
            revision: 0,
        }
    }

    /// The current document, also in the middle of a gesture.
    #[must_use]
    pub fn doc(&self) -> &D {
        &self.doc
    }

    /// Cache key; changes with the document.
    #[must_use]
    pub fn revision(&self) -> u64 {
        self.revision
    }

    /// The selection.
    #[must_use]
    pub fn selection(&self) -> &S {
        &self.selection
    }

    /// Changes the selection; this alone is no step.
    pub fn select(&mut self, selection: S) {
        self.selection = selection;
        self.joinable = None;
    }

    /// Begins a gesture. One that is still open is committed first.
    ///
    /// `label` names the step in menus: "Undo Move ball".
    pub fn begin(&mut self, label: &'static str) {
        if self.gesture.is_some() {
            self.commit(self.selection.clone());
        }
        self.gesture = Some(Open { label, doc: self.doc.clone(), selection: self.selection.clone() });
    }

    /// Whether a gesture is open.
    #[must_use]
    pub fn in_gesture(&self) -> bool {
        self.gesture.is_some()
    }

    /// The document, to be changed by the open gesture. Without one, a gesture called "Change" begins here, so that
    /// no change escapes the history.
    pub fn doc_mut(&mut self) -> &mut D {
        if self.gesture.is_none() {
            self.begin(mark("Change"));
        }
        self.revision += 1;
        &mut self.doc
    }

    /// Ends the open gesture as one step and selects; a gesture that changed nothing leaves no step. Returns whether
    /// there is a new step.
    pub fn commit(&mut self, selection: S) -> bool {
        self.selection = selection;
        let Some(open) = self.gesture.take() else { return false };
        if open.doc == self.doc {
            return false;
        }
        self.forget_future();
        self.past.push(UndoStep {
            label: open.label,
            doc: open.doc,
            selection_before: open.selection,
            selection_after: self.selection.clone(),
        });
        self.joinable = None;
        true
    }

    /// Changes parts that belong to no step and no revision, such as a selection inside the document.
    pub fn amend(&mut self, change: impl FnOnce(&mut D)) {
        change(&mut self.doc);
    }

    /// Cancels the open gesture: restores document and selection of its beginning.
    pub fn cancel(&mut self) {
        if let Some(open) = self.gesture.take() {
            self.doc = open.doc;
            self.selection = open.selection;
            self.revision += 1;
        }
    }

    /// A whole gesture at once, for commands.
    pub fn apply(&mut self, label: &'static str, selection: S, change: impl FnOnce(&mut D)) -> bool {
        self.begin(label);
        change(self.doc_mut());
        self.commit(selection)
    }

    /// Like [`Self::apply`], but joins the last step when that had the same `key` and nothing came between: repeated
    /// arrow keys, a wheel, typing. [`Self::seal`] ends the series.
    pub fn apply_joined(&mut self, key: u64, label: &'static str, selection: S, change: impl FnOnce(&mut D)) -> bool {
        let join = self.joinable == Some(key) && self.gesture.is_none();
        let steps = self.past.len();
        let changed = self.apply(label, selection, change);
        if changed {
            if join {
                self.join_last();
            }
            // A series that returned to its beginning leaves no step to join.
            self.joinable = (self.past.len() >= steps).then_some(key);
        }
        changed
    }

    /// Changes the document at every step, so that undo and redo do not affect the change. For data kept with the
    /// document that is no work on it; whether the document is saved stays unchanged.
    pub fn amend_throughout(&mut self, change: impl Fn(&mut D)) {
        change(&mut self.doc);
        let steps = self.past.iter_mut().chain(&mut self.future);
        steps.for_each(|step| change(&mut step.doc));
        if let Some(open) = &mut self.gesture {
            change(&mut open.doc);
        }
        self.revision += 1;
    }

    /// Ends a series of joined steps: the next one is a step of its own.
    pub fn seal(&mut self) {
        self.joinable = None;
    }

    /// Takes the last step back and returns its label. An open gesture is committed
    /// first and is then the one taken back.
    pub fn undo(&mut self) -> Option<&'static str> {
        self.close();
        let step = self.past.pop()?;
        let (step, label) = self.swap(step, true);
        self.future.push(step);
        Some(label)
    }

    /// Takes the last undone step again and returns its label.
    pub fn redo(&mut self) -> Option<&'static str> {
        self.close();
        let step = self.future.pop()?;
        let (step, label) = self.swap(step, false);
        self.past.push(step);
        Some(label)
    }

    /// Label of the step that [`Self::undo`] would take back.
    #[must_use]
    pub fn undo_label(&self) -> Option<&'static str> {
        match &self.gesture {
            Some(open) if open.doc != self.doc => Some(open.label),
            _ => self.past.last().map(|step| step.label),
        }
    }

    /// Label of the step that [`Self::redo`] would take again.
    #[must_use]
    pub fn redo_label(&self) -> Option<&'static str> {
        self.future.last().map(|step| step.label)
    }

    /// Number of steps that can be undone, and redone.
    #[must_use]
    pub fn steps(&self) -> (usize, usize) {
        (self.past.len(), self.future.len())
    }

    /// Marks the document as saved. An open gesture is committed first.
    pub fn mark_saved(&mut self) {
        self.close();
        self.saved = Some(self.past.len());
    }

    /// Marks the document as unsaved, such as work restored after a crash.
    pub fn mark_unsaved(&mut self) {
        self.saved = None;
    }

    /// Whether the document equals the one last saved. Undoing back to it counts.
    #[must_use]
    pub fn is_saved(&self) -> bool {
        self.saved == Some(self.past.len()) && self.gesture.as_ref().is_none_or(|open| open.doc == self.doc)
    }

    /// Makes one step of the last two; none at all when they cancel out.
    fn join_last(&mut self) {
        let Some(second) = self.past.pop() else { return };
        if self.saved.is_some_and(|saved| saved >= self.past.len()) {
            self.saved = None;
        }
        match self.past.last_mut() {
            Some(first) if first.doc == self.doc => {
                self.past.pop();
            }
            Some(first) => first.selection_after = second.selection_after,
            None => {}
        }
    }

    fn close(&mut self) {
        self.commit(self.selection.clone());
        self.joinable = None;
    }

    fn forget_future(&mut self) {
        self.future.clear();
        if self.saved.is_some_and(|saved| saved > self.past.len()) {
            self.saved = None;
        }
    }

    /// Exchanges the document with the one in the step.
    fn swap(&mut self, mut step: UndoStep<D, S>, back: bool) -> (UndoStep<D, S>, &'static str) {
        std::mem::swap(&mut self.doc, &mut step.doc);
        self.revision += 1;
        self.selection = if back { step.selection_before.clone() } else { step.selection_after.clone() };
        let label = step.label;
        (step, label)
    }
}
