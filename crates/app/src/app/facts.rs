//! What the catalogue of commands has to know.

use standpoint_board::Units;
use standpoint_ui::commands::{Facts, RallyFacts, WeighFacts};

use super::App;

impl App {
    pub(super) fn facts(&self) -> Facts {
        let history = self.session.history();
        let notes = Some(self.room.notes()).filter(|_| self.room.is_open());
        Facts {
            undo: notes.map_or_else(|| history.undo_label(), |notes| notes.undo_label()),
            redo: notes.map_or_else(|| history.redo_label(), |notes| notes.redo_label()),
            unsaved: !self.board_is_saved(),
            busy: self.files.busy(),
            receipt_moved: self.session.receipt_moved(),
            hitter_moved: self.session.written_shot().is_some_and(|s| s.hitter_place.is_some() && !s.follows),
            fitted: self.view.moved.is_none(),
            parts: self.part_facts(),
            feet: self.session.units() == Units::Feet,
            rally: self.rally_facts(),
            weigh: self.weigh_facts(),
            sketch: self.sketch_facts(),
            settings: self.settings.clone(),
            colours: self.session.colours(),
            chart: self.room.facts(),
        }
    }

    fn weigh_facts(&self) -> WeighFacts {
        let weighing = self.weigh.weighing();
        let approach = standpoint_workbench::weigh::is_approach(&self.session);
        let on_court = weighing.on_court(&self.settings);
        WeighFacts { page: weighing.page, on_court, to_middle: weighing.to_middle, approach }
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
