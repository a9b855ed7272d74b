//! The audits of the room: of all shots and of those that are shown, and what is made from them.

use std::sync::Arc;

use standpoint_board::Board;
use standpoint_charting::practice;
use standpoint_workbench::{
    chart::{
        filters::{Compared, Filters},
        worker::Audited,
    },
    document::Document,
};

use super::Room;

impl Room {
    /// Begins the audit of the notes.
    pub fn audit(&mut self, document: &Document, wake: impl Fn() + Send + 'static) {
        let notes = self.notes(document);
        let (chart, version) = (notes.chart(), notes.version());
        self.auditing = self.kept;
        self.worker.start(chart, version, self.desk.compare, wake);
    }

    /// The audit of the notes as they are now, of the shots that are shown.
    #[must_use]
    pub fn audited(&self, document: &Document) -> Option<&Arc<Audited>> {
        self.shown(document).map(|(audited, _)| audited)
    }

    /// The same, of all shots.
    fn whole(&self, document: &Document) -> Option<&Arc<Audited>> {
        let version = self.notes(document).version();
        self.audits[self.kept as usize].as_ref().filter(|audited| audited.version == version)
    }

    /// Pages to practise these findings of the audit from, by their places in the report.
    #[must_use]
    pub fn drills(&self, document: &Document, findings: &[usize]) -> Option<Board> {
        let audited = self.audited(document)?;
        let found: Vec<_> = findings.iter().filter_map(|i| audited.report.findings.get(*i)).map(|of| &of.0).collect();
        practice::board(self.notes(document).setup(), &found, &audited.shots)
    }

    /// The moments of a finding as a board to rehearse from.
    #[must_use]
    pub fn moments_of(&self, document: &Document, finding: usize) -> Option<Board> {
        let audited = self.audited(document)?;
        let insight = &audited.report.findings.get(finding)?.0;
        practice::rehearsal(self.notes(document).setup(), insight, &audited.shots)
    }

    /// Shows these shots of the audit only.
    pub fn filter(&mut self, document: &Document, filters: Filters) {
        let part = self.whole(document).map(|audited| {
            let (part, compared) = filters.part(audited, &self.notes(document).chart());
            (audited.version, Arc::new(part), compared)
        });
        (self.part, self.filters) = (part, filters);
    }

    /// The shots that are shown, as an audit of their own; all of them without a filter.
    pub(super) fn shown(&self, document: &Document) -> Option<(&Arc<Audited>, Option<&Compared>)> {
        let whole = self.whole(document)?;
        match &self.part {
            Some((version, part, compared)) if *version == whole.version => {
                Some((if self.filters.is_all() { whole } else { part }, Some(compared)))
            }
            _ => Some((whole, None)),
        }
    }

    /// Whether an audit is running.
    #[must_use]
    pub fn is_busy(&self) -> bool {
        self.worker.progress().is_some()
    }
}
