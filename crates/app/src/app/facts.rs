//! The facts that decide which commands are enabled.

use standpoint_board::Units;
use standpoint_ui::commands::{CompareFacts, Facts, RallyFacts};
use standpoint_workbench::chart::NotesLocation;

use super::App;

impl App {
    pub(super) fn facts(&self) -> Facts {
        let history = self.session.history();
        let alone = self.room.is_open() && self.room.kept == NotesLocation::Alone;
        let notes = Some(&self.room.alone.notes).filter(|_| alone);
        Facts {
            undo: notes.map_or_else(|| history.undo_label(), |notes| notes.undo_label()),
            redo: notes.map_or_else(|| history.redo_label(), |notes| notes.redo_label()),
            unsaved: !self.session.document().is_saved(),
            busy: self.files.busy(),
            receipt_moved: self.session.receipt_moved(),
            hitter_moved: self.session.written_shot().is_some_and(|s| s.hitter_place.is_some() && !s.follows),
            fitted: self.view.moved.is_none(),
            parts: self.part_facts(),
            feet: self.session.units() == Units::Feet,
            rally: self.rally_facts(),
            comparison: self.compare_facts(),
            sketch: self.sketch_facts(),
            settings: self.settings.clone(),
            colours: self.session.colours(),
            chart: self.room.facts(self.session.document()),
        }
    }

    fn compare_facts(&self) -> CompareFacts {
        let state = self.comparison.state();
        let approach = standpoint_workbench::compare::is_approach(&self.session);
        let on_court = state.on_court(&self.settings);
        CompareFacts { page: state.page, on_court, to_middle: state.to_middle, approach }
    }

    fn rally_facts(&self) -> RallyFacts {
        let written = self.session.written_shot();
        RallyFacts {
            at: self.session.selection(),
            shots: self.session.page().map_or(0, |page| page.shots.len()),
            pages: self.session.board().pages.len(),
            follows: written.is_some_and(|spec| spec.follows),
            met: self.session.play().is_some(),
            recovers_elsewhere: written.is_some_and(|spec| spec.recover_to.is_some()),
            playback: self.session.playback(),
            duration: self.session.timeline().duration(),
        }
    }
}
