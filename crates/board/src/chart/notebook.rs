//! Charting by hand while one watches: place after place, with undo.
//!
//! A shot takes four places: contact, landing, where the opponent met it, and where the hitter stood then. Within a point
//! the place where a shot was met is the next one's contact, so that every further shot takes three.

use std::sync::Arc;

use glam::DVec2;
use standpoint_geometry::frame::End;
use standpoint_geometry::player::Wing;
use standpoint_geometry::situation::Stroke;

use super::check::IN_THE_NET;
use super::model::{Chart, Ends, ObservedShot, Point, Setup};
use crate::site::Site;

/// Steps of undo that are kept.
const KEPT: usize = 500;

/// What is to be placed next.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Step {
    /// Where the ball is struck.
    Contact,
    /// Where it lands.
    Landing,
    /// Where the opponent meets it.
    Met,
    /// Where the hitter stands then.
    Stood,
}

/// Why a place was not taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Refusal {
    /// At the hitter's end, where it must be beyond the net.
    #[error("the {0} is beyond the net, at the other end than the contact")]
    BeyondNet(&'static str),
    /// Beyond the net, where it must be at the hitter's end.
    #[error("the hitter stands at the end from which the ball was struck")]
    OwnEnd,
    /// A shot that neither lands nor is met.
    #[error("a shot has to land or to be met")]
    Nowhere,
}

/// What has been seen of the shot that is being noted.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Draft {
    /// The end of the hitter.
    pub hitter: End,
    /// Contact.
    pub contact: Option<DVec2>,
    /// Landing: not yet noted, or noted as a place or as none.
    pub landing: Option<Option<DVec2>>,
    /// Where the opponent met it.
    pub met: Option<DVec2>,
    /// Kind of stroke.
    pub stroke: Option<Stroke>,
    /// Wing.
    pub wing: Option<Wing>,
}

impl Draft {
    /// What is to be placed next.
    #[must_use]
    pub fn step(&self) -> Step {
        match (self.contact, self.landing, self.met) {
            (None, ..) => Step::Contact,
            (_, None, _) => Step::Landing,
            (_, _, None) => Step::Met,
            _ => Step::Stood,
        }
    }

    fn shot(&self, stood: Option<DVec2>) -> Option<ObservedShot> {
        let landing = self.landing.flatten();
        let contact = self.contact.filter(|_| landing.is_some() || self.met.is_some())?;
        let (hitter, met, stroke, wing) = (self.hitter, self.met, self.stroke, self.wing);
        Some(ObservedShot { hitter, contact, landing, met, stood, stroke, wing, ..ObservedShot::default() })
    }
}

/// Everything that undo brings back.
#[derive(Debug, Clone, PartialEq)]
struct State {
    setup: Arc<Setup>,
    points: Vec<Arc<Point>>,
    draft: Draft,
    /// Whether the last point goes on.
    open: bool,
    session: String,
    ends: Ends,
    /// Tells states apart, to know whether this one is saved.
    version: u64,
}

/// A chart that is being written, with its history.
#[derive(Debug, Clone, PartialEq)]
pub struct Notebook {
    now: State,
    past: Vec<(State, &'static str)>,
    future: Vec<(State, &'static str)>,
    versions: u64,
    saved: u64,
}

impl Notebook {
    /// A notebook that goes on from a chart, which counts as saved.
    #[must_use]
    pub fn new(chart: Chart) -> Self {
        let last = chart.points.last();
        let (session, ends) = last.map_or_else(Default::default, |point| (point.session.clone(), point.ends));
        let points = chart.points.into_iter().map(Arc::new).collect();
        let setup = Arc::new(chart.setup);
        let now = State { setup, points, draft: Draft::default(), open: false, session, ends, version: 0 };
        Self { now, past: Vec::new(), future: Vec::new(), versions: 0, saved: 0 }
    }

    /// The chart as noted so far, without the shot that is begun.
    #[must_use]
    pub fn chart(&self) -> Chart {
        let points = self.now.points.iter().map(|point| (**point).clone()).collect();
        Chart { setup: (*self.now.setup).clone(), points }
    }

    /// Players and conditions.
    #[must_use]
    pub fn setup(&self) -> &Arc<Setup> {
        &self.now.setup
    }

    /// The points, in order.
    #[must_use]
    pub fn points(&self) -> &[Arc<Point>] {
        &self.now.points
    }

    /// How many shots there are.
    #[must_use]
    pub fn shots(&self) -> usize {
        self.now.points.iter().map(|point| point.shots.len()).sum()
    }

    /// The point that goes on, if one does.
    #[must_use]
    pub fn open_point(&self) -> Option<&Point> {
        self.now.points.last().filter(|_| self.now.open).map(|point| &**point)
    }

    /// The shot that is being noted.
    #[must_use]
    pub fn draft(&self) -> &Draft {
        &self.now.draft
    }

    /// The session that new points belong to.
    #[must_use]
    pub fn session(&self) -> &str {
        &self.now.session
    }

    /// At which ends the players are in new points.
    #[must_use]
    pub fn ends(&self) -> Ends {
        self.now.ends
    }

    /// Tells states of the notebook apart.
    #[must_use]
    pub fn version(&self) -> u64 {
        self.now.version
    }

    /// Whether everything is saved.
    #[must_use]
    pub fn is_saved(&self) -> bool {
        self.now.version == self.saved
    }

    /// The state with this version has been saved.
    pub fn saved(&mut self, version: u64) {
        self.saved = version;
    }

    /// Counts as changed, as after an import.
    pub fn unsaved(&mut self) {
        self.saved = u64::MAX;
    }

    /// What undo takes back.
    #[must_use]
    pub fn undo_label(&self) -> Option<&'static str> {
        self.past.last().map(|(_, label)| *label)
    }

    /// What redo makes again.
    #[must_use]
    pub fn redo_label(&self) -> Option<&'static str> {
        self.future.last().map(|(_, label)| *label)
    }

    /// Takes the last step back; what it was.
    pub fn undo(&mut self) -> Option<&'static str> {
        let (before, label) = self.past.pop()?;
        self.future.push((std::mem::replace(&mut self.now, before), label));
        Some(label)
    }

    /// Makes a step again that was taken back; what it is.
    pub fn redo(&mut self) -> Option<&'static str> {
        let (after, label) = self.future.pop()?;
        self.past.push((std::mem::replace(&mut self.now, after), label));
        Some(label)
    }

    fn change(&mut self, label: &'static str, change: impl FnOnce(&mut State)) {
        let before = self.now.clone();
        change(&mut self.now);
        if self.now == before {
            return;
        }
        self.versions += 1;
        self.now.version = self.versions;
        self.future.clear();
        self.past.push((before, label));
        if self.past.len() > KEPT {
            self.past.remove(0);
        }
    }

    /// Notes the next place.
    ///
    /// # Errors
    /// A place at an end where it cannot be.
    pub fn place(&mut self, place: DVec2) -> Result<(), Refusal> {
        let site = Site::of(&self.now.setup.court);
        let draft = self.now.draft;
        let end_of = |place: DVec2| if place.y > 0.0 { End::Far } else { End::Near };
        let across = |place: DVec2, what| {
            if end_of(place) == draft.hitter { Err(Refusal::BeyondNet(what)) } else { Ok(()) }
        };
        match draft.step() {
            Step::Contact => {
                let hitter = end_of(place);
                let contact = site.clamp_at(hitter, place);
                self.change("Contact", |state| {
                    state.draft = Draft { hitter, contact: Some(contact), ..state.draft };
                });
            }
            Step::Landing => {
                if place.y * draft.hitter.sign() < -IN_THE_NET {
                    return Err(Refusal::BeyondNet("landing"));
                }
                let in_the_net = end_of(place) == draft.hitter;
                let held = if in_the_net {
                    site.clamp_at(draft.hitter, place)
                } else {
                    site.clamp_at(draft.hitter.other(), place)
                };
                self.change("Landing", |state| {
                    state.draft.landing = Some(Some(held));
                    if in_the_net {
                        state.shot(None);
                        state.end_point();
                    }
                });
            }
            Step::Met => {
                across(place, "opponent")?;
                let met = site.clamp_at(draft.hitter.other(), place);
                self.change("Opponent's contact", |state| state.draft.met = Some(met));
            }
            Step::Stood => {
                if end_of(place) != draft.hitter {
                    return Err(Refusal::OwnEnd);
                }
                let stood = site.clamp_at(draft.hitter, place);
                self.change("Where the hitter stood", |state| state.shot(Some(stood)));
            }
        }
        Ok(())
    }

    /// Notes that the next place was not there or not seen: taken from the air, not met, or not seen standing.
    ///
    /// # Errors
    /// A shot that neither lands nor is met.
    pub fn skip(&mut self) -> Result<(), Refusal> {
        match self.now.draft.step() {
            Step::Contact => {}
            Step::Landing => self.change("Taken from the air", |state| state.draft.landing = Some(None)),
            Step::Met if self.now.draft.landing.flatten().is_none() => return Err(Refusal::Nowhere),
            Step::Met => self.end_point(),
            Step::Stood => self.change("Not seen", |state| state.shot(None)),
        }
        Ok(())
    }

    /// Ends the point; what has been noted of the last shot is kept if it is a shot already.
    pub fn end_point(&mut self) {
        self.change("End of the point", |state| {
            state.shot(None);
            state.end_point();
        });
    }

    /// Notes the kind of stroke of the shot that is begun, or of the last one.
    pub fn stroke(&mut self, stroke: Stroke) {
        self.change("Stroke", |state| match state.noted() {
            Some(shot) => shot.stroke = Some(stroke),
            None => state.draft.stroke = Some(stroke),
        });
    }

    /// Notes the wing of the shot that is begun, or of the last one.
    pub fn wing(&mut self, wing: Wing) {
        self.change("Wing", |state| match state.noted() {
            Some(shot) => shot.wing = Some(wing),
            None => state.draft.wing = Some(wing),
        });
    }

    /// The session that new points belong to. Typing is one step.
    pub fn set_session(&mut self, session: String) {
        const LABEL: &str = "Session";
        let typing = self.undo_label() == Some(LABEL) && self.future.is_empty();
        self.change(LABEL, |state| state.session = session);
        if typing && self.past.len() > 1 {
            self.past.pop();
        }
    }

    /// The players change ends.
    pub fn change_ends(&mut self) {
        self.change("Change of ends", |state| {
            state.shot(None);
            state.end_point();
            state.ends = match state.ends {
                Ends::AsBegun => Ends::Changed,
                Ends::Changed => Ends::AsBegun,
            };
        });
    }

    /// Takes a point out.
    pub fn remove_point(&mut self, index: usize) {
        self.change("Delete the point", |state| {
            if index < state.points.len() {
                if index + 1 == state.points.len() {
                    (state.open, state.draft) = (false, Draft::default());
                }
                state.points.remove(index);
            }
        });
    }

    /// Other players or conditions.
    pub fn set_setup(&mut self, label: &'static str, setup: Setup) {
        self.change(label, |state| state.setup = Arc::new(setup));
    }

    /// Another chart in its place, as one step.
    pub fn set_chart(&mut self, label: &'static str, chart: Chart) {
        self.change(label, |state| {
            state.setup = Arc::new(chart.setup);
            state.points = chart.points.into_iter().map(Arc::new).collect();
            (state.open, state.draft) = (false, Draft::default());
        });
    }
}

impl State {
    /// The shot that letters are about when none is begun: within a point the next contact is known already, but nothing
    /// of its stroke has been seen.
    fn noted(&mut self) -> Option<&mut ObservedShot> {
        if self.draft.contact.is_some() || !self.open {
            return None;
        }
        Arc::make_mut(self.points.last_mut()?).shots.last_mut()
    }

    /// Puts the shot that is being noted into the point, if it is one, and begins the next where it was met.
    fn shot(&mut self, stood: Option<DVec2>) {
        let Some(shot) = self.draft.shot(stood) else { return };
        if !self.open {
            let label = self.points.iter().filter(|point| point.session == self.session).count() + 1;
            let point =
                Point { session: self.session.clone(), label: label.to_string(), ends: self.ends, shots: Vec::new() };
            self.points.push(Arc::new(point));
            self.open = true;
        }
        if let Some(point) = self.points.last_mut() {
            Arc::make_mut(point).shots.push(shot);
        }
        self.draft = Draft { hitter: shot.hitter.other(), contact: shot.met, ..Draft::default() };
    }

    fn end_point(&mut self) {
        (self.open, self.draft) = (false, Draft::default());
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(x: f64, y: f64) -> DVec2 {
        DVec2::new(x, y)
    }

    /// A notebook with a rally of two shots of which the second goes long.
    fn rally() -> Notebook {
        let mut notes = Notebook::new(Chart::new(Setup::default()));
        notes.set_session("Sunday".to_owned());
        for place in [at(2.0, -12.0), at(-3.0, 9.0), at(-3.5, 12.5), at(0.5, -13.0), at(1.0, -12.4)] {
            notes.place(place).unwrap();
        }
        notes.end_point();
        notes
    }

    #[test]
    fn a_further_shot_takes_three_places() {
        let notes = rally();
        let [point] = notes.points() else { panic!() };
        assert_eq!((point.session.as_str(), point.label.as_str(), point.shots.len()), ("Sunday", "1", 2));
        let (first, second) = (point.shots[0], point.shots[1]);
        assert_eq!((first.hitter, first.met, first.stood), (End::Near, Some(at(-3.5, 12.5)), Some(at(0.5, -13.0))));
        assert_eq!((second.hitter, second.contact, second.met), (End::Far, at(-3.5, 12.5), None));
        assert_eq!(notes.draft().step(), Step::Contact);
        assert!(super::super::check::check(&notes.chart()).is_empty());
    }

    #[test]
    fn every_step_can_be_taken_back_and_made_again() {
        let mut notes = rally();
        let whole = notes.chart();
        let mut steps = 0;
        while notes.undo().is_some() {
            steps += 1;
        }
        assert_eq!((steps, notes.shots(), notes.is_saved()), (7, 0, true));
        while notes.redo().is_some() {}
        assert_eq!(notes.chart(), whole);
        assert!(!notes.is_saved());
        notes.saved(notes.version());
        assert!(notes.is_saved() && notes.undo().is_some() && !notes.is_saved());
    }

    #[test]
    fn a_place_at_the_wrong_end_is_refused_and_changes_nothing() {
        let mut notes = Notebook::new(Chart::new(Setup::default()));
        notes.place(at(2.0, -12.0)).unwrap();
        let before = notes.clone();
        assert_eq!(notes.place(at(2.0, -6.0)), Err(Refusal::BeyondNet("landing")));
        assert_eq!(notes, before);
        notes.place(at(2.0, 6.0)).unwrap();
        assert_eq!(notes.place(at(2.0, -6.0)), Err(Refusal::BeyondNet("opponent")));
        notes.place(at(2.0, 12.0)).unwrap();
        assert_eq!(notes.place(at(2.0, 12.0)), Err(Refusal::OwnEnd));
    }

    #[test]
    fn a_ball_in_the_net_ends_the_point_and_one_from_the_air_has_no_landing() {
        let mut notes = Notebook::new(Chart::new(Setup::default()));
        notes.place(at(2.0, 12.0)).unwrap();
        notes.place(at(1.0, 0.5)).unwrap();
        assert_eq!((notes.shots(), notes.draft().step(), notes.open_point()), (1, Step::Contact, None));
        notes.place(at(2.0, -12.0)).unwrap();
        notes.skip().unwrap();
        assert_eq!(notes.skip(), Err(Refusal::Nowhere));
        notes.place(at(-1.0, 2.5)).unwrap();
        notes.skip().unwrap();
        let shot = notes.points()[1].shots[0];
        assert_eq!((shot.landing, shot.met, shot.stood), (None, Some(at(-1.0, 2.5)), None));
        assert_eq!(notes.draft().step(), Step::Landing);
    }

    #[test]
    fn letters_are_about_the_shot_that_is_begun() {
        let mut notes = rally();
        notes.place(at(2.0, -12.0)).unwrap();
        notes.wing(Wing::Backhand);
        notes.stroke(Stroke::Slice);
        notes.place(at(-3.0, 9.0)).unwrap();
        notes.end_point();
        let shot = notes.points()[1].shots[0];
        assert_eq!((shot.wing, shot.stroke), (Some(Wing::Backhand), Some(Stroke::Slice)));
        notes.change_ends();
        notes.place(at(2.0, -12.0)).unwrap();
        notes.place(at(-3.0, 9.0)).unwrap();
        notes.end_point();
        assert_eq!(notes.points()[2].ends, Ends::Changed);
        notes.remove_point(0);
        assert_eq!(notes.points().len(), 2);
    }
}
