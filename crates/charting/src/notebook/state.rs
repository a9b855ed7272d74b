//! The state that undo restores.

use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

use glam::DVec2;
use standpoint_geometry::End;

use super::{At, Draft};
use standpoint_board::chart::ends::Ends;
use standpoint_board::chart::model::{Chart, ObservedShot, Point, Setup};
use standpoint_board::file::as_written;
use standpoint_board::play_area::PlayArea;

/// A state of the notebook.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct State {
    pub setup: Arc<Setup>,
    pub points: Arc<Vec<Arc<Point>>>,
    pub draft: Draft,
    /// The open point, and where in it the next shot goes.
    pub open: Option<At>,
    /// The selected shot.
    pub picked: Option<At>,
    pub session: String,
    pub ends: Ends,
    /// The end of the next point's server, where it is not the player whose turn it is.
    pub serving: Option<End>,
    /// Default players and conditions: while the setup equals them and there are no points, there is no chart to keep.
    pub blank: Option<Arc<Setup>>,
    /// Unique for each state, to know whether this one is saved.
    pub version: u64,
}

/// The nearest place on the site at an end, to the file's 0.1 mm, so that a chart and its file agree exactly.
pub(super) fn held(area: &PlayArea, end: End, place: DVec2) -> DVec2 {
    let place = area.clamp_at(end, place);
    DVec2::new(as_written(place.x, 1.0), as_written(place.y, 1.0))
}

/// A version unique among the states of all notebooks.
pub(super) fn next_version() -> u64 {
    static LAST: AtomicU64 = AtomicU64::new(0);
    LAST.fetch_add(1, Ordering::Relaxed) + 1
}

fn same<T: PartialEq>(a: &Arc<T>, b: &Arc<T>) -> bool {
    Arc::ptr_eq(a, b) || a == b
}

impl State {
    pub(super) fn of(chart: Chart) -> Self {
        let last = chart.points.last();
        let (session, ends) = last.map_or_else(Default::default, |point| (point.session.clone(), point.ends));
        Self {
            setup: Arc::new(chart.setup),
            points: Arc::new(chart.points.into_iter().map(Arc::new).collect()),
            draft: Draft::default(),
            open: None,
            picked: None,
            session,
            ends,
            serving: None,
            blank: None,
            version: next_version(),
        }
    }

    /// Whether the states are equal apart from the selection; shared points are not compared.
    pub(super) fn is_as(&self, before: &Self) -> bool {
        let points = Arc::ptr_eq(&self.points, &before.points)
            || self.points.len() == before.points.len()
                && self.points.iter().zip(before.points.iter()).all(|(a, b)| same(a, b));
        points
            && same(&self.setup, &before.setup)
            && (self.draft, self.open, self.ends, self.serving)
                == (before.draft, before.open, before.ends, before.serving)
            && self.session == before.session
    }

    /// Changes a point, if there is one of this index.
    pub(super) fn with_point(&mut self, index: usize, change: impl FnOnce(&mut Point)) {
        if self.points.get(index).is_some() {
            change(Arc::make_mut(&mut Arc::make_mut(&mut self.points)[index]));
        }
    }

    /// A shot.
    pub(super) fn get(&self, at: At) -> Option<&ObservedShot> {
        self.points.get(at.point)?.shots.get(at.shot)
    }

    /// A shot, to be changed.
    pub(super) fn get_mut(&mut self, at: At) -> Option<&mut ObservedShot> {
        self.get(at)?;
        let point = Arc::make_mut(&mut self.points).get_mut(at.point)?;
        Arc::make_mut(point).shots.get_mut(at.shot)
    }

    /// The shot that stroke keys refer to when none is begun: the last one noted. Within a point the next contact is
    /// known already, but nothing of its stroke has been seen.
    pub(super) fn noted(&mut self) -> Option<&mut ObservedShot> {
        if self.draft.contact.is_some() {
            return None;
        }
        let open = self.open?;
        self.get_mut(At { shot: open.shot.checked_sub(1)?, ..open })
    }

    /// The selected shot, or else the one of [`Self::noted`].
    pub(super) fn meant(&mut self) -> Option<&mut ObservedShot> {
        match self.picked.filter(|at| self.get(*at).is_some()) {
            Some(at) => self.get_mut(at),
            None => self.noted(),
        }
    }

    /// Adds the current shot to the point, if enough of it is noted, and begins the next where it was met.
    pub(super) fn shot(&mut self, stood: Option<DVec2>) {
        let Some(shot) = self.draft.shot(stood) else { return };
        let at = self.open.unwrap_or_else(|| self.new_point());
        self.with_point(at.point, |point| point.shots.insert(at.shot.min(point.shots.len()), shot));
        self.open = Some(At { shot: at.shot + 1, ..at });
        let (hitter, contact, time) = (shot.hitter.other(), shot.met, shot.met_time);
        self.draft = Draft { hitter, contact, time, ..Draft::default() };
    }

    fn new_point(&mut self) -> At {
        let label = self.points.iter().filter(|point| point.session == self.session).count() + 1;
        let (session, label) = (self.session.clone(), label.to_string());
        let point = Point { session, label, ends: self.ends, ..Point::default() };
        Arc::make_mut(&mut self.points).push(Arc::new(point));
        At { point: self.points.len() - 1, shot: 0 }
    }

    pub(super) fn end_point(&mut self) {
        (self.open, self.draft, self.serving) = (None, Draft::default(), None);
    }

    pub(super) fn remove_point(&mut self, index: usize) {
        if index >= self.points.len() {
            return;
        }
        Arc::make_mut(&mut self.points).remove(index);
        match &mut self.open {
            Some(open) if open.point == index => self.end_point(),
            Some(open) if open.point > index => open.point -= 1,
            _ => {}
        }
        self.picked = match self.picked {
            Some(picked) if picked.point == index => None,
            Some(picked) if picked.point > index => Some(At { point: picked.point - 1, ..picked }),
            picked => picked,
        };
    }
}
