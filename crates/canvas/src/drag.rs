//! Dragging on the court as a state machine: idle, a handle, or the court itself.
//!
//! It works on places and points only; callers carry out its effects.

use egui::{Pos2, Vec2};
use glam::DVec2;

use super::handles::HandleId;

/// Input of the pointer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Input {
    /// Goes down, over a handle that is at a place, or over the court.
    Press {
        /// Where on the screen.
        at: Pos2,
        /// Where on the court.
        place: DVec2,
        /// What is under it, and where that is.
        over: Option<(HandleId, DVec2)>,
    },
    /// Moves while it is down.
    Move {
        /// Where on the screen.
        at: Pos2,
        /// Where on the court.
        place: DVec2,
    },
    /// Goes up.
    Release,
    /// The gesture is cancelled.
    Cancel,
}

/// What follows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Effect {
    /// A handle begins to move.
    Begin(HandleId),
    /// A handle moves to a place.
    Put(HandleId, DVec2),
    /// The move is done.
    Commit,
    /// The move is cancelled.
    Cancel,
    /// The court is pulled along, in points.
    Pan(Vec2),
}

/// State of the drag.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Drag {
    /// Holds nothing.
    #[default]
    Free,
    /// Pressed on a handle that has not moved yet.
    Pressed {
        /// Which.
        handle: HandleId,
        /// From the pointer to the handle's place.
        grip: DVec2,
        /// Where it was pressed.
        from: Pos2,
    },
    /// Moves a handle.
    Dragging {
        /// Which.
        handle: HandleId,
        /// From the pointer to the handle's place.
        grip: DVec2,
    },
    /// Pulls the court.
    Panning {
        /// Where the pointer was.
        last: Pos2,
    },
}

/// Least movement that begins a drag, points: a finger is never quite still.
const STILL: f32 = 3.0;

impl Drag {
    /// The handle that is held.
    #[must_use]
    pub fn held(&self) -> Option<HandleId> {
        match self {
            Self::Pressed { handle, .. } | Self::Dragging { handle, .. } => Some(*handle),
            Self::Free | Self::Panning { .. } => None,
        }
    }

    /// Takes an input and returns its effects, in order.
    pub fn step(&mut self, input: Input) -> Vec<Effect> {
        let (next, effects) = match (*self, input) {
            (_, Input::Press { place, over: Some((handle, is_at)), at }) => {
                (Self::Pressed { handle, grip: is_at - place, from: at }, vec![])
            }
            (_, Input::Press { at, over: None, .. }) => (Self::Panning { last: at }, vec![]),
            (Self::Pressed { handle, grip, from }, Input::Move { at, place }) if at.distance(from) >= STILL => {
                (Self::Dragging { handle, grip }, vec![Effect::Begin(handle), Effect::Put(handle, place + grip)])
            }
            (Self::Dragging { handle, grip }, Input::Move { place, .. }) => {
                (*self, vec![Effect::Put(handle, place + grip)])
            }
            (Self::Panning { last }, Input::Move { at, .. }) if at != last => {
                (Self::Panning { last: at }, vec![Effect::Pan(at - last)])
            }
            (Self::Dragging { .. }, Input::Release) => (Self::Free, vec![Effect::Commit]),
            (Self::Dragging { .. }, Input::Cancel) => (Self::Free, vec![Effect::Cancel]),
            (_, Input::Release | Input::Cancel) => (Self::Free, vec![]),
            (state, Input::Move { .. }) => (state, vec![]),
        };
        *self = next;
        effects
    }
}

#[cfg(test)]
mod tests {
    use egui::{pos2, vec2};
    use glam::dvec2;

    use super::*;

    fn press(over: Option<(HandleId, DVec2)>) -> Input {
        Input::Press { at: pos2(10.0, 10.0), place: dvec2(1.0, 1.0), over }
    }

    #[test]
    fn a_drag_begins_moves_and_is_one_commit() {
        let mut hand = Drag::default();
        assert!(hand.step(press(Some((HandleId::Target, dvec2(1.1, 0.9))))).is_empty());
        let effects = hand.step(Input::Move { at: pos2(30.0, 10.0), place: dvec2(2.0, 1.0) });
        let [Effect::Begin(HandleId::Target), Effect::Put(HandleId::Target, place)] = effects[..] else {
            panic!("{effects:?}")
        };
        assert!((place - dvec2(2.1, 0.9)).length() < 1e-12, "the grip is kept");
        assert_eq!(hand.step(Input::Release), [Effect::Commit]);
        assert_eq!(hand, Drag::Free);
    }

    #[test]
    fn a_still_press_changes_nothing() {
        let mut hand = Drag::default();
        hand.step(press(Some((HandleId::Hitter, dvec2(1.0, 1.0)))));
        assert!(hand.step(Input::Move { at: pos2(11.0, 11.0), place: dvec2(1.1, 1.0) }).is_empty());
        assert!(hand.step(Input::Release).is_empty());
    }

    #[test]
    fn a_drag_can_be_given_up() {
        let mut hand = Drag::default();
        hand.step(press(Some((HandleId::Contact, dvec2(1.0, 1.0)))));
        hand.step(Input::Move { at: pos2(40.0, 10.0), place: dvec2(2.0, 1.0) });
        assert_eq!(hand.step(Input::Cancel), [Effect::Cancel]);
        assert!(hand.step(Input::Move { at: pos2(60.0, 10.0), place: dvec2(3.0, 1.0) }).is_empty());
    }

    #[test]
    fn the_bare_court_is_pulled() {
        let mut hand = Drag::default();
        hand.step(press(None));
        let effects = hand.step(Input::Move { at: pos2(14.0, 7.0), place: dvec2(1.0, 1.0) });
        assert_eq!(effects, [Effect::Pan(vec2(4.0, -3.0))]);
        assert!(hand.step(Input::Release).is_empty());
    }
}
