//! Changes of the chart's setup and points: title, names, sessions, ends, whole points.

use std::sync::Arc;

use standpoint_board::chart::ends::Ends;
use standpoint_board::chart::model::{Chart, Point, SessionInfo, Setup};
use standpoint_geometry::End;
use standpoint_language::mark;

use super::state::State;
use super::{Join, Notebook};

impl Notebook {
    /// Sets the title of the chart. Typing is one step.
    pub fn set_title(&mut self, title: String) {
        self.step(mark("Title of the chart"), Some(Join::Title), |state| Arc::make_mut(&mut state.setup).title = title);
    }

    /// Sets the name of the player who began at an end.
    pub fn set_name(&mut self, began: End, name: String) {
        self.step(mark("Name of a player"), Some(Join::Name(began)), |state| {
            let setup = Arc::make_mut(&mut state.setup);
            match began {
                End::Near => setup.near.name = name,
                End::Far => setup.far.name = name,
            }
        });
    }

    /// Sets the session that new points belong to.
    pub fn set_session(&mut self, session: String) {
        self.step(mark("Session"), Some(Join::Session), |state| state.session = session);
    }

    /// Sets the session of a point.
    pub fn set_session_of(&mut self, point: usize, session: String) {
        self.step(mark("Session of the point"), Some(Join::SessionOf(point)), |state| {
            state.with_point(point, |point| point.session = session);
        });
    }

    /// Sets the label of a point.
    pub fn set_label(&mut self, point: usize, label: String) {
        self.step(mark("Name of the point"), Some(Join::Label(point)), |state| {
            state.with_point(point, |point| point.label = label);
        });
    }

    /// Changes the ends of the players.
    pub fn change_ends(&mut self) {
        self.change(mark("Change of ends"), |state| {
            state.shot(None);
            state.end_point();
            state.ends = match state.ends {
                Ends::AsBegun => Ends::Changed,
                Ends::Changed => Ends::AsBegun,
            };
        });
    }

    /// Removes a point.
    pub fn remove_point(&mut self, index: usize) {
        self.change(mark("Delete the point"), |state| state.remove_point(index));
    }

    /// Replaces players and conditions.
    pub fn set_setup(&mut self, label: &'static str, setup: Setup) {
        self.change(label, |state| state.setup = Arc::new(setup));
    }

    /// Replaces the chart, as one step.
    pub fn set_chart(&mut self, label: &'static str, chart: Chart) {
        self.change(label, |state| *state = State { version: state.version, ..State::of(chart) });
    }

    /// Appends points of another notebook, with the facts about their sessions, as one step.
    pub fn add_points(&mut self, label: &'static str, points: &[Arc<Point>], sessions: &[SessionInfo]) {
        self.change(label, |state| {
            if !sessions.is_empty() {
                Arc::make_mut(&mut state.setup).take_sessions(sessions);
            }
            state.shot(None);
            state.end_point();
            Arc::make_mut(&mut state.points).extend_from_slice(points);
        });
    }
}
