//! The selected shot: changes of its places and facts, and its neighbours.

use glam::DVec2;
use standpoint_geometry::{End, Stroke, Wing, units::KMH};
use standpoint_language::mark;

use super::state::{State, held};
use super::{At, Draft, IN_THE_NET, Join, Notebook, ObservedShot, PlayArea, Refusal, ShotPlace};
use standpoint_board::file::{as_written, read_back};

impl Notebook {
    /// The selected shot and its position.
    #[must_use]
    pub fn picked(&self) -> Option<(At, &ObservedShot)> {
        let at = self.now.picked?;
        Some((at, self.now.get(at)?))
    }

    /// Selects a shot, or none. Not a step.
    pub fn pick(&mut self, at: Option<At>) {
        self.joinable = None;
        self.now.picked = at.filter(|at| self.now.get(*at).is_some());
    }

    /// Selects the next shot or the previous one; from none, the last.
    pub fn pick_beside(&mut self, forward: bool) {
        let points = self.points();
        let shots = |point: usize| points.get(point).map_or(0, |point| point.shots.len());
        let last_in = |range: std::ops::Range<usize>| {
            range.rev().find(|point| shots(*point) > 0).map(|point| At { point, shot: shots(point) - 1 })
        };
        let to = match self.now.picked {
            None => last_in(0..points.len()),
            Some(at) if forward && at.shot + 1 < shots(at.point) => Some(At { shot: at.shot + 1, ..at }),
            Some(at) if forward => (at.point + 1..points.len())
                .find(|point| shots(*point) > 0)
                .map(|point| At { point, shot: 0 })
                .or(Some(at)),
            Some(At { point, shot: 0 }) => last_in(0..point).or(self.now.picked),
            Some(at) => Some(At { shot: at.shot - 1, ..at }),
        };
        self.pick(to);
    }

    /// The nearest allowed position of a place of the shot.
    #[must_use]
    pub fn pick_held(&self, step: ShotPlace, place: DVec2) -> Option<DVec2> {
        let (_, shot) = self.picked()?;
        let area = PlayArea::of(&self.now.setup.court);
        let end = match step {
            ShotPlace::Contact | ShotPlace::Stood => shot.hitter,
            // A ball in the net comes down just before it.
            ShotPlace::Landing if (-IN_THE_NET..=0.0).contains(&(place.y * shot.hitter.sign())) => shot.hitter,
            ShotPlace::Landing | ShotPlace::Met => shot.hitter.other(),
        };
        Some(held(&area, end, place))
    }

    /// Moves a place of the shot. The meeting of one shot and the contact of the next are the same place, and stay so.
    pub fn pick_place(&mut self, step: ShotPlace, place: DVec2) {
        let (Some((at, _)), Some(place)) = (self.picked(), self.pick_held(step, place)) else { return };
        let label = match step {
            ShotPlace::Contact => mark("Move the contact"),
            ShotPlace::Landing => mark("Move the landing"),
            ShotPlace::Met => mark("Move the opponent's contact"),
            ShotPlace::Stood => mark("Move where the hitter stood"),
        };
        self.step(label, Some(Join::Place(at, step)), |state| state.move_place(at, step, place));
    }

    /// Ends a series of joined moves.
    pub fn seal(&mut self) {
        self.joinable = None;
    }

    /// Notes that a place of the shot was not there or not seen.
    ///
    /// # Errors
    /// A shot that neither lands nor is met; every shot has a contact.
    pub fn pick_unseen(&mut self, step: ShotPlace) -> Result<(), Refusal> {
        let Some((at, shot)) = self.picked() else { return Ok(()) };
        let left = |step: ShotPlace| step.of(shot).is_none();
        if step == ShotPlace::Contact {
            return Err(Refusal::NoContact);
        }
        if (step == ShotPlace::Landing && left(ShotPlace::Met)) || (step == ShotPlace::Met && left(ShotPlace::Landing))
        {
            return Err(Refusal::Nowhere);
        }
        self.change(mark("Not seen"), |state| {
            let Some(shot) = state.get_mut(at) else { return };
            match step {
                ShotPlace::Contact => {}
                ShotPlace::Landing => shot.landing = None,
                ShotPlace::Met => (shot.met, shot.met_time) = (None, None),
                ShotPlace::Stood => shot.stood = None,
            }
        });
        Ok(())
    }

    /// Notes the kind of stroke; noting the same one again clears it.
    pub fn pick_stroke(&mut self, stroke: Stroke) {
        self.pick_change(mark("Stroke"), |shot| {
            shot.stroke = Some(stroke).filter(|_| shot.stroke != Some(stroke));
        });
    }

    /// Notes the wing; noting the same one again clears it.
    pub fn pick_wing(&mut self, wing: Wing) {
        self.pick_change(mark("Wing"), |shot| {
            shot.wing = Some(wing).filter(|_| shot.wing != Some(wing));
        });
    }

    /// Notes the height of the contact, m.
    pub fn pick_height(&mut self, height: Option<f64>) {
        self.pick_figure(mark("Height of the contact"), |shot| shot.contact_height = written(height, 1.0));
    }

    /// Notes the speed off the racket, m/s.
    pub fn pick_speed(&mut self, speed: Option<f64>) {
        self.pick_figure(mark("Speed"), |shot| shot.speed = written(speed, KMH));
    }

    fn pick_figure(&mut self, label: &'static str, change: impl FnOnce(&mut ObservedShot)) {
        let Some((at, _)) = self.picked() else { return };
        self.step(label, Some(Join::Figure(at, label)), |state| {
            if let Some(shot) = state.get_mut(at) {
                change(shot);
            }
        });
    }

    fn pick_change(&mut self, label: &'static str, change: impl FnOnce(&mut ObservedShot)) {
        let Some((at, _)) = self.picked() else { return };
        self.change(label, |state| {
            if let Some(shot) = state.get_mut(at) {
                change(shot);
            }
        });
    }

    /// Removes the shot, and the point with its last shot; selects the next shot of the point, or the one before.
    pub fn pick_remove(&mut self) {
        let Some((at, _)) = self.picked() else { return };
        self.change(mark("Delete the shot"), |state| state.remove_shot(at));
    }

    /// Puts the next noted shot before or after the selected one, and clears the selection. A shot after it is
    /// the opponent's, struck where they met this one.
    pub fn insert(&mut self, behind: bool) {
        let Some((at, shot)) = self.picked() else { return };
        let (shot, at) = (*shot, At { shot: at.shot + usize::from(behind), ..at });
        self.change(mark("Insert a shot"), |state| {
            // A shot begun elsewhere is kept if enough of it is noted.
            let begun = state.open.filter(|_| state.draft.shot(None).is_some());
            state.shot(None);
            let shifted = begun.is_some_and(|open| open.point == at.point && open.shot <= at.shot);
            state.open = Some(At { shot: at.shot + usize::from(shifted), ..at });
            let contact = shot.met.filter(|_| behind);
            state.draft = Draft { hitter: shot.hitter.other(), contact, ..Draft::default() };
            state.picked = None;
        });
    }
}

/// A figure rounded to the precision of the file, in its unit.
fn written(figure: Option<f64>, unit: f64) -> Option<f64> {
    figure.map(|figure| read_back(as_written(figure, unit), unit))
}

impl State {
    fn move_place(&mut self, at: At, step: ShotPlace, place: DVec2) {
        let area = PlayArea::of(&self.setup.court);
        let Some(shot) = self.get_mut(at) else { return };
        let before = step.of(shot);
        match step {
            ShotPlace::Contact => shot.contact = place,
            ShotPlace::Landing => shot.landing = Some(place),
            ShotPlace::Met => shot.met = Some(place),
            ShotPlace::Stood => shot.stood = Some(place),
        }
        // The body keeps its offset from the ball.
        if step == ShotPlace::Contact
            && let (Some(before), Some(body)) = (before, shot.hitter_place)
        {
            shot.hitter_place = Some(held(&area, shot.hitter, body + place - before));
        }
        let hitter = shot.hitter;
        self.move_neighbour(at, step, before, place, hitter);
    }

    /// Moves the neighbour's place that equals the moved one.
    fn move_neighbour(&mut self, at: At, step: ShotPlace, before: Option<DVec2>, place: DVec2, hitter: End) {
        match step {
            ShotPlace::Met => {
                let next = At { shot: at.shot + 1, ..at };
                if let Some(next) = self.get_mut(next).filter(|next| Some(next.contact) == before) {
                    next.contact = place;
                } else if self.open == Some(next) && self.draft.contact == before && self.draft.hitter != hitter {
                    self.draft.contact = Some(place);
                }
            }
            ShotPlace::Contact => {
                let last = at.shot.checked_sub(1).and_then(|shot| self.get_mut(At { shot, ..at }));
                if let Some(last) = last.filter(|last| last.met == before) {
                    last.met = Some(place);
                }
            }
            ShotPlace::Landing | ShotPlace::Stood => {}
        }
    }

    fn remove_shot(&mut self, at: At) {
        let Some(left) = self.points.get(at.point).map(|point| point.shots.len()) else { return };
        if left <= 1 {
            return self.remove_point(at.point);
        }
        self.with_point(at.point, |point| {
            point.shots.remove(at.shot);
        });
        if let Some(open) = &mut self.open
            && open.point == at.point
            && open.shot > at.shot
        {
            open.shot -= 1;
        }
        self.picked = Some(At { shot: at.shot.min(left - 2), ..at });
    }
}
