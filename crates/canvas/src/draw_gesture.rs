//! The drawing tools as one state machine: idle, pressed, dragging.
//!
//! It works on places and points only; callers carry out its effects.

use egui::Pos2;
use glam::DVec2;
use standpoint_board::marks::{Form, MarkId, Pattern};
use standpoint_language::{mark, text};
use standpoint_workbench::sketch::tool::Tool;

use super::grips::Grip;

/// What is under the pointer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Over {
    /// The bare court.
    Bare,
    /// A mark that has its anchor at a place.
    Mark(MarkId, DVec2),
    /// A part of a chosen mark at a place.
    Grip(Grip, DVec2),
}

/// Input of pointer or keyboard.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Input {
    /// Goes down.
    Press {
        /// Where on the screen.
        at: Pos2,
        /// Where on the court.
        place: DVec2,
        /// Over what.
        over: Over,
        /// Whether the current choice is kept.
        add: bool,
    },
    /// Moves while it is down.
    Move {
        /// Where on the screen.
        at: Pos2,
        /// Where on the court.
        place: DVec2,
        /// The mark under it.
        over: Option<MarkId>,
    },
    /// Goes up.
    Release,
    /// The gesture is cancelled.
    Cancel,
}

/// What follows.
#[derive(Debug, Clone, PartialEq)]
pub enum Effect {
    /// A change begins that lasts until it is committed or cancelled.
    Begin(&'static str),
    /// It is done.
    Commit,
    /// It is taken back.
    Cancel,
    /// A new mark.
    Add(Form),
    /// Words begin at a place.
    Write(DVec2),
    /// A mark goes.
    Erase(MarkId),
    /// Toggles one mark, or clears the choice.
    Choose(Option<MarkId>, bool),
    /// The marks inside a rectangle are chosen.
    Gather(DVec2, DVec2, bool),
    /// The chosen marks move along with this one, whose anchor moves to a place.
    Carry(MarkId, DVec2),
    /// A part of a mark moves to a place.
    Pull(Grip, DVec2),
}

/// Least movement that begins a drag, points: a finger is never quite still.
const STILL: f32 = 3.0;
/// Least distance between points of the pen on the screen.
const APART: f32 = 1.5;

/// State of the current tool.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum DrawGesture {
    /// Nothing is begun.
    #[default]
    Idle,
    /// A line is being drawn by hand.
    Drawing {
        /// Its points so far.
        points: Vec<DVec2>,
        /// Where the last one is on the screen.
        last: Pos2,
    },
    /// Something with two ends is being drawn.
    Stretching {
        /// With which tool.
        tool: Tool,
        /// Where it began.
        from: DVec2,
        /// Where it has come to.
        to: DVec2,
        /// Where it was begun on the screen.
        pressed: Pos2,
        /// Whether it has moved at all.
        far: bool,
    },
    /// Something is about to be placed.
    Placing {
        /// With which tool.
        tool: Tool,
        /// Where.
        place: DVec2,
    },
    /// Marks are being erased.
    Erasing,
    /// Pressed on a mark that has not moved yet.
    Pressed {
        /// Which.
        mark: MarkId,
        /// From the pointer to its anchor.
        hold: DVec2,
        /// Where it was pressed.
        from: Pos2,
        /// Whether the current choice is kept.
        add: bool,
    },
    /// Carries the chosen marks.
    Carrying {
        /// The mark under the pointer.
        mark: MarkId,
        /// From the pointer to its anchor.
        hold: DVec2,
    },
    /// Pressed on a part of a mark, or pulling it.
    Pulling {
        /// Which part.
        grip: Grip,
        /// From the pointer to the part.
        hold: DVec2,
        /// Where it was pressed.
        from: Pos2,
        /// Whether it has begun to move.
        moved: bool,
    },
    /// A rectangle is drawn round marks to choose them.
    Gathering {
        /// Where it began.
        from: DVec2,
        /// Where it has come to.
        to: DVec2,
        /// Where it was begun on the screen.
        pressed: Pos2,
        /// Whether it has moved at all.
        far: bool,
        /// Whether the current choice is kept.
        add: bool,
    },
}

impl DrawGesture {
    /// Whether it is idle.
    #[must_use]
    pub fn is_idle(&self) -> bool {
        *self == Self::Idle
    }

    /// Hint for the current gesture.
    #[must_use]
    pub fn hint(&self) -> Option<&'static str> {
        match self {
            Self::Idle => None,
            Self::Erasing => Some(text("Let go when all is gone that should; Escape brings it back")),
            Self::Gathering { .. } => Some(text("Let go to select what is inside")),
            _ => Some(text("Let go to keep it, Escape to take it back")),
        }
    }

    /// The mark that releasing the pointer would add.
    #[must_use]
    pub fn form(&self, letter: &str) -> Option<Form> {
        match self {
            Self::Drawing { points, .. } if points.len() > 1 => {
                Some(Form::Pen { points: points.clone(), pattern: Pattern::Solid })
            }
            Self::Stretching { tool, from, to, far: true, .. } => stretched(*tool, *from, *to),
            Self::Placing { tool, place } => placed(*tool, *place, letter),
            _ => None,
        }
    }

    /// Takes an input with a tool and returns its effects, in order. `letter` names the next person.
    pub fn step(&mut self, tool: Tool, input: Input, letter: &str) -> Vec<Effect> {
        match input {
            Input::Press { at, place, over, add } => self.press(tool, at, place, over, add),
            Input::Move { at, place, over } => self.drag(at, place, over),
            Input::Release => self.release(letter),
            Input::Cancel => {
                let changing = match self {
                    Self::Erasing | Self::Carrying { .. } => true,
                    Self::Pulling { moved, .. } => *moved,
                    _ => false,
                };
                *self = Self::Idle;
                if changing { vec![Effect::Cancel] } else { vec![] }
            }
        }
    }

    fn press(&mut self, tool: Tool, at: Pos2, place: DVec2, over: Over, add: bool) -> Vec<Effect> {
        let (next, effects) = match (tool, over) {
            (Tool::Eraser, Over::Mark(id, _) | Over::Grip(Grip { mark: id, .. }, _)) => {
                (Self::Erasing, vec![Effect::Begin(mark("Erase")), Effect::Erase(id)])
            }
            (Tool::Eraser, Over::Bare) => (Self::Erasing, vec![Effect::Begin(mark("Erase"))]),
            // The parts of what was just drawn can be pulled without changing the tool.
            (_, Over::Grip(grip, is_at)) => {
                (Self::Pulling { grip, hold: is_at - place, from: at, moved: false }, vec![])
            }
            (Tool::Select, Over::Mark(mark, is_at)) => {
                (Self::Pressed { mark, hold: is_at - place, from: at, add }, vec![])
            }
            (Tool::Select, Over::Bare) => {
                (Self::Gathering { from: place, to: place, pressed: at, far: false, add }, vec![])
            }
            (Tool::Pen, _) => (Self::Drawing { points: vec![place], last: at }, vec![]),
            (Tool::BallWay | Tool::PlayerWay | Tool::Zone | Tool::Oval, _) => {
                (Self::Stretching { tool, from: place, to: place, pressed: at, far: false }, vec![])
            }
            (Tool::Words | Tool::Cone | Tool::Basket | Tool::Person, _) => (Self::Placing { tool, place }, vec![]),
        };
        *self = next;
        effects
    }

    fn drag(&mut self, at: Pos2, place: DVec2, over: Option<MarkId>) -> Vec<Effect> {
        match self {
            Self::Drawing { points, last } => {
                if last.distance(at) >= APART {
                    points.push(place);
                    *last = at;
                }
                vec![]
            }
            Self::Stretching { to, pressed, far, .. } | Self::Gathering { to, pressed, far, .. } => {
                *far |= pressed.distance(at) >= STILL;
                *to = place;
                vec![]
            }
            Self::Placing { place: is_at, .. } => {
                *is_at = place;
                vec![]
            }
            Self::Erasing => over.map(Effect::Erase).into_iter().collect(),
            Self::Pressed { mark, hold, from, .. } if from.distance(at) >= STILL => {
                let (mark, hold) = (*mark, *hold);
                *self = Self::Carrying { mark, hold };
                vec![Effect::Begin(standpoint_language::mark("Move marks")), Effect::Carry(mark, place + hold)]
            }
            Self::Carrying { mark, hold } => vec![Effect::Carry(*mark, place + *hold)],
            Self::Pulling { grip, hold, from, moved } => {
                let begins = !*moved && from.distance(at) >= STILL;
                *moved |= begins;
                let begin = begins.then_some(Effect::Begin(mark("Change a mark")));
                let pull = moved.then_some(Effect::Pull(*grip, place + *hold));
                begin.into_iter().chain(pull).collect()
            }
            Self::Idle | Self::Pressed { .. } => vec![],
        }
    }

    fn release(&mut self, letter: &str) -> Vec<Effect> {
        let added = self.form(letter).map(Effect::Add);
        match std::mem::take(self) {
            Self::Placing { tool: Tool::Words, place } => vec![Effect::Write(place)],
            Self::Drawing { .. } | Self::Placing { .. } => added.into_iter().collect(),
            // A click on empty ground clears the choice.
            Self::Stretching { .. } => vec![added.unwrap_or(Effect::Choose(None, false))],
            Self::Erasing | Self::Carrying { .. } | Self::Pulling { moved: true, .. } => vec![Effect::Commit],
            Self::Pressed { mark, add, .. } => vec![Effect::Choose(Some(mark), add)],
            Self::Gathering { from, to, far: true, add, .. } => vec![Effect::Gather(from, to, add)],
            Self::Gathering { add: false, .. } => vec![Effect::Choose(None, false)],
            Self::Gathering { .. } | Self::Pulling { .. } | Self::Idle => vec![],
        }
    }
}

fn stretched(tool: Tool, from: DVec2, to: DVec2) -> Option<Form> {
    let arrow = |pattern| Form::Arrow { from, to, bend: 0.0, pattern };
    match tool {
        Tool::BallWay => Some(arrow(Pattern::Solid)),
        Tool::PlayerWay => Some(arrow(Pattern::Dashed)),
        Tool::Zone => Some(Form::Zone { from, to, round: false }),
        Tool::Oval => Some(Form::Zone { from, to, round: true }),
        _ => None,
    }
}

fn placed(tool: Tool, at: DVec2, letter: &str) -> Option<Form> {
    match tool {
        Tool::Cone => Some(Form::Cone { at }),
        Tool::Basket => Some(Form::Basket { at }),
        Tool::Person => Some(Form::Person { at, letter: letter.to_owned() }),
        _ => None,
    }
}

#[cfg(test)]
mod tests;
