//! Charting by hand during a match, place by place, and corrections, with undo.
//!
//! A shot takes four places: contact, landing, where the opponent met it, and where the hitter stood then. Within a point
//! the place where a shot was met is the next one's contact, so that every further shot takes three.
//!
//! * [`Notebook::place`] and similar methods note the next fact; [`Notebook::insert`] puts it between other shots.
//! * [`Notebook::tell`] notes facts of the match; the score decides the ends of later points.
//! * [`Notebook::pick`] selects a noted shot; methods with `pick` in their name change that one.

mod about;
mod blank;
mod draft;
mod facts;
mod live;
mod pick;
mod record;
mod state;

use std::sync::Arc;

use glam::DVec2;
use standpoint_geometry::{End, Stroke, Wing};
use standpoint_language::mark;

use standpoint_board::chart::check::IN_THE_NET;
use standpoint_board::chart::ends::Ends;
use standpoint_board::chart::model::{Chart, ObservedShot, Point, Setup};
use standpoint_board::chart::score::AfterServe;
use standpoint_board::play_area::PlayArea;

pub use draft::{Draft, Refusal, ShotPlace};
pub use facts::Tell;
pub use live::{DueServe, Live};
pub use record::Recorded;
use state::{State, held, next_version};

/// Most steps of undo.
const KEPT: usize = 500;

/// A shot by its point and its place in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct At {
    /// The point.
    pub point: usize,
    /// The shot.
    pub shot: usize,
}

/// Kinds of changes that repeat while typing or moving; repeats form one step.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
enum Join {
    /// The next change sets what may be joined; see [`Notebook::record`].
    Open,
    Title,
    Name(End),
    Session,
    SessionOf(usize),
    Label(usize),
    Place(At, ShotPlace),
    Figure(At, &'static str),
    Tell(usize, &'static str),
    About(Option<usize>),
}

/// A chart in progress, with its history.
#[derive(Debug, Clone, PartialEq)]
pub struct Notebook {
    now: State,
    past: Vec<(State, &'static str)>,
    future: Vec<(State, &'static str)>,
    /// Key of changes that may join the last step.
    joinable: Option<Join>,
    saved: u64,
    /// Time on the clock.
    clock: Option<f64>,
    /// Mode of live noting; `None` when a match is noted place by place.
    live: Option<Live>,
    counted: live::Counted,
}

impl Notebook {
    /// A notebook that continues a chart, which counts as saved.
    #[must_use]
    pub fn new(chart: Chart) -> Self {
        let now = State::of(chart);
        let saved = now.version;
        let is_match = now.setup.session(&now.session).is_some_and(|session| session.format.is_some());
        Self {
            now,
            past: Vec::new(),
            future: Vec::new(),
            joinable: None,
            saved,
            clock: None,
            live: is_match.then(Live::default),
            counted: live::Counted::default(),
        }
    }

    /// The chart as noted so far, without the current shot.
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

    /// The open point, if any.
    #[must_use]
    pub fn open_point(&self) -> Option<&Point> {
        self.now.points.get(self.now.open?.point).map(|point| &**point)
    }

    /// Where the next shot goes in the open point.
    #[must_use]
    pub fn open_at(&self) -> Option<At> {
        self.now.open
    }

    /// The current shot.
    #[must_use]
    pub fn draft(&self) -> &Draft {
        &self.now.draft
    }

    /// The session that new points belong to.
    #[must_use]
    pub fn session(&self) -> &str {
        &self.now.session
    }

    /// The ends of the players in new points.
    #[must_use]
    pub fn ends(&self) -> Ends {
        self.now.ends
    }

    /// Cache key; unique for every state of every notebook.
    #[must_use]
    pub fn version(&self) -> u64 {
        self.now.version
    }

    /// Whether everything is saved.
    #[must_use]
    pub fn is_saved(&self) -> bool {
        self.now.version == self.saved
    }

    /// Marks the state with this version as saved.
    pub fn saved(&mut self, version: u64) {
        self.saved = version;
    }

    /// Marks the notebook as changed, as after a crash.
    pub fn unsaved(&mut self) {
        self.saved = u64::MAX;
    }

    /// Label of the step to undo.
    #[must_use]
    pub fn undo_label(&self) -> Option<&'static str> {
        self.past.last().map(|(_, label)| *label)
    }

    /// Label of the step to redo.
    #[must_use]
    pub fn redo_label(&self) -> Option<&'static str> {
        self.future.last().map(|(_, label)| *label)
    }

    /// Undoes the last step and returns its label.
    pub fn undo(&mut self) -> Option<&'static str> {
        let (before, label) = self.past.pop()?;
        self.joinable = None;
        self.future.push((std::mem::replace(&mut self.now, before), label));
        Some(label)
    }

    /// Redoes a step and returns its label.
    pub fn redo(&mut self) -> Option<&'static str> {
        let (after, label) = self.future.pop()?;
        self.joinable = None;
        self.past.push((std::mem::replace(&mut self.now, after), label));
        Some(label)
    }

    fn change(&mut self, label: &'static str, change: impl FnOnce(&mut State)) {
        self.step(label, None, change);
    }

    /// Makes one step, joined with the last one if both allow it.
    fn step(&mut self, label: &'static str, join: Option<Join>, change: impl FnOnce(&mut State)) {
        let before = self.now.clone();
        change(&mut self.now);
        if self.now.is_as(&before) {
            return;
        }
        self.now.version = next_version();
        let joined = join.is_some() && join == self.joinable && self.future.is_empty() && !self.past.is_empty();
        self.joinable = join;
        self.future.clear();
        if joined {
            return;
        }
        self.past.push((before, label));
        if self.past.len() > KEPT {
            self.past.remove(0);
        }
    }

    /// Notes the next place.
    ///
    /// # Errors
    /// When the place is at an end where it cannot be.
    pub fn place(&mut self, place: DVec2) -> Result<(), Refusal> {
        if let Some(live) =
            self.live.filter(|_| matches!(self.now.draft.step(), ShotPlace::Contact | ShotPlace::Landing))
        {
            return self.live_place(live, place);
        }
        let area = PlayArea::of(&self.now.setup.court);
        let (noted, clock) = (self.now.draft, self.clock);
        let end_of = |place: DVec2| if place.y > 0.0 { End::Far } else { End::Near };
        match noted.step() {
            ShotPlace::Contact => {
                let hitter = end_of(place);
                let contact = held(&area, hitter, place);
                self.change(mark("Contact"), |state| {
                    state.draft = Draft { hitter, contact: Some(contact), time: clock, ..state.draft };
                });
            }
            ShotPlace::Landing => {
                if place.y * noted.hitter.sign() < -IN_THE_NET {
                    return Err(draft::LANDING);
                }
                let in_the_net = end_of(place) == noted.hitter;
                let landing = held(&area, if in_the_net { noted.hitter } else { noted.hitter.other() }, place);
                self.change(mark("Landing"), |state| {
                    state.draft.landing = Some(Some(landing));
                    match state.after_serve() {
                        Some(AfterServe::Second | AfterServe::Again(_)) => state.end_serve(),
                        None if !in_the_net => {}
                        _ => {
                            state.shot(None);
                            state.end_point();
                            state.follow_score();
                        }
                    }
                });
            }
            ShotPlace::Met => {
                if end_of(place) == noted.hitter {
                    return Err(draft::OPPONENT);
                }
                let met = held(&area, noted.hitter.other(), place);
                let whole = self.live.is_some_and(|live| !live.positions);
                self.change(mark("Opponent's contact"), |state| {
                    state.draft = Draft { met: Some(met), met_time: clock, ..state.draft };
                    if whole {
                        state.draft.met_time = None;
                        state.shot(None);
                    }
                });
            }
            ShotPlace::Stood => {
                if end_of(place) != noted.hitter {
                    return Err(Refusal::OwnEnd);
                }
                let stood = held(&area, noted.hitter, place);
                self.change(mark("Where the hitter stood"), |state| state.shot(Some(stood)));
            }
        }
        Ok(())
    }

    /// Notes that the next place was not there or not seen: taken from the air, not met, or not seen standing.
    ///
    /// # Errors
    /// When the shot would neither land nor be met.
    pub fn skip(&mut self) -> Result<(), Refusal> {
        match self.now.draft.step() {
            ShotPlace::Contact => {}
            ShotPlace::Landing => self.change(mark("Volleyed"), |state| state.draft.landing = Some(None)),
            ShotPlace::Met if self.now.draft.landing.flatten().is_none() => return Err(Refusal::Nowhere),
            ShotPlace::Met => self.end_point(),
            ShotPlace::Stood => self.change(mark("Not seen"), |state| state.shot(None)),
        }
        Ok(())
    }

    /// Ends the point; the current shot is kept if enough of it is noted.
    pub fn end_point(&mut self) {
        self.change(mark("End of the point"), |state| {
            state.shot(None);
            state.end_point();
            state.follow_score();
        });
    }

    /// Notes the kind of stroke of the current shot, or of the last one.
    pub fn stroke(&mut self, stroke: Stroke) {
        self.change(mark("Stroke"), |state| match state.noted() {
            Some(shot) => shot.stroke = Some(stroke),
            None => state.draft.stroke = Some(stroke),
        });
    }

    /// Notes the wing of the current shot, or of the last one.
    pub fn wing(&mut self, wing: Wing) {
        self.change(mark("Wing"), |state| match state.noted() {
            Some(shot) => shot.wing = Some(wing),
            None => state.draft.wing = Some(wing),
        });
    }
}

#[cfg(test)]
mod tests;
