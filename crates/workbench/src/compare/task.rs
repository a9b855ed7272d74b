//! The work of the threads, piece by piece.

use std::sync::Arc;

use glam::DVec2;
use standpoint_geometry::{
    AimWorth, Cause, Choice, NetPosition, Planned, Situation, SolveError, Solver, Sweep, Weighed, as_approach, sweep,
    to_weaker_wing, weigh,
};

use super::state::Item;

/// Kinds of work, in order of priority.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// Shots side by side.
    Compare,
    /// A place at the net.
    Net,
    /// What comes back, and what to play then.
    Plan,
    /// Two shots over a range of one cause.
    Sweep,
    /// The worth of every target.
    Map,
}

impl Kind {
    /// How many kinds there are.
    pub const COUNT: usize = Self::ALL.len();
    /// All kinds.
    pub const ALL: [Self; 5] = [Self::Compare, Self::Net, Self::Plan, Self::Sweep, Self::Map];
}

/// A piece of work.
#[derive(Debug, Clone, PartialEq)]
pub enum Work {
    /// Compare a shot from the contact of a situation: a usual choice is aimed at its own best place first.
    Compare(Item, Arc<Situation>),
    /// Two shots on from the shot of a situation.
    Plan(Item, Arc<Situation>),
    /// What some targets are worth: cells of the map with their places.
    Cells(Arc<Situation>, Vec<(usize, DVec2)>),
    /// Two shots over a range of a cause.
    Sweep(Arc<Situation>, [Choice; 2], Cause),
    /// The place at the net after an approach.
    Net(Arc<Situation>),
}

/// Result of a piece of work.
#[derive(Debug, Clone, PartialEq)]
pub enum Piece {
    /// An evaluated shot and its situation.
    Weighed(Item, Arc<Situation>, Box<Weighed>),
    /// The likeliest replies to a shot and what to play then, and the situation they were worked out in.
    Planned(Item, Arc<Situation>, Vec<Planned>),
    /// What targets are worth; `None` where no speed of the stroke gets there.
    Cells(Vec<(usize, Option<AimWorth>)>),
    /// A sweep, or why there is none.
    Swept(Result<Box<Sweep>, SolveError>),
    /// What an approach leads to, or why there is none.
    Net(Result<Box<AtNet>, SolveError>),
}

/// What an approach leads to.
#[derive(Debug, Clone, PartialEq)]
pub struct AtNet {
    /// The shot as an approach.
    pub shot: Weighed,
    /// Coverage from the place that the player reaches; `None` when nothing comes back.
    pub position: Option<NetPosition>,
    /// Whether the opponent meets the ball on the weaker wing.
    pub weaker_wing: Option<bool>,
    /// The two usual approaches from the same contact, where they exist: down the line and cross-court.
    pub approaches: Vec<Weighed>,
}

/// Intervals of a sweep.
pub const SWEEP_STEPS: usize = 24;

impl Work {
    /// Does the work, unless it has become stale meanwhile.
    pub fn done(self, solver: &mut Solver, stale: &dyn Fn() -> bool) -> Option<Piece> {
        match self {
            Self::Compare(item, situation) => {
                let choice = match item {
                    Item::Usual(choice) => choice,
                    Item::Target(_) => Choice::AsDrawn,
                };
                let weighed = weigh(solver, &situation, &[choice]).pop()?;
                Some(Piece::Weighed(item, situation, Box::new(weighed)))
            }
            Self::Plan(item, situation) => {
                // A situation that cannot be computed is refused by the live answer, in words.
                let planned = solver.plan(&situation).unwrap_or_default();
                Some(Piece::Planned(item, situation, planned))
            }
            Self::Cells(situation, cells) => {
                let mut found = Vec::with_capacity(cells.len());
                for (cell, target) in cells {
                    if stale() {
                        return None;
                    }
                    // The live answer already explains a situation that is not valid.
                    found.push((cell, solver.worth(&situation, target).unwrap_or(None)));
                }
                Some(Piece::Cells(found))
            }
            Self::Sweep(situation, pair, cause) => {
                let range = cause.range(&situation);
                let swept = sweep(solver, &situation, pair, cause, range, SWEEP_STEPS);
                Some(Piece::Swept(swept.map(Box::new)))
            }
            Self::Net(situation) => Some(Piece::Net(at_net(solver, &situation).map(Box::new))),
        }
    }
}

fn at_net(solver: &mut Solver, situation: &Situation) -> Result<AtNet, SolveError> {
    let approach = as_approach(situation);
    let mut all = weigh(solver, &approach, &[Choice::AsDrawn, Choice::DownTheLine, Choice::CrossCourt]);
    let shot = all.remove(0);
    let (_, answer) = shot.result.as_ref().map_err(Clone::clone)?;
    let weaker_wing = to_weaker_wing(&approach, answer);
    let place = answer.play().map(|play| play.recovery.reached.place);
    let position = match place {
        Some(place) => solver.net_position(&approach, place)?,
        None => None,
    };
    Ok(AtNet { shot, position, weaker_wing, approaches: all })
}
