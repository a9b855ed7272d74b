//! Errors and costs of shots by group.

use serde::{Deserialize, Serialize};
use standpoint_geometry::End;

use super::group::{Key, ShotGroup};
use crate::audit::{AuditedShot, Outcome};
use crate::stats::Moments;

/// Figures of some judged shots.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub(super) struct Figures {
    pub across: Moments,
    pub along: Moments,
    pub cost: Moments,
}

impl Figures {
    pub fn merge(&mut self, other: &Self) {
        self.across.merge(&other.across);
        self.along.merge(&other.along);
        self.cost.merge(&other.cost);
    }
}

/// Judged shots of both players in cells, one for each kind of shot: some thousands at most, however many shots there
/// are.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Cells {
    players: [Vec<(Key, Figures)>; 2],
}

impl Cells {
    /// Adds a shot, if it was judged.
    pub fn add(&mut self, shot: &AuditedShot) {
        let Outcome::Judged(judged) = &shot.outcome else { return };
        let (across, along) = judged.from_goal();
        let figures = among(&mut self.players[standpoint_board::chart::score::at(shot.began)], Key::of(shot));
        figures.across.add(across);
        figures.along.add(along);
        figures.cost.add(judged.avoidable);
    }

    /// Cells of these shots.
    #[must_use]
    pub fn of<'a>(shots: impl IntoIterator<Item = &'a AuditedShot>) -> Self {
        let mut cells = Self::default();
        shots.into_iter().for_each(|shot| cells.add(shot));
        cells
    }

    /// Adds the cells of another part.
    pub fn merge(&mut self, other: &Self) {
        for (own, others) in self.players.iter_mut().zip(&other.players) {
            for (key, figures) in others {
                among(own, *key).merge(figures);
            }
        }
    }

    pub(super) fn of_player(&self, player: End) -> Vec<(Key, Figures)> {
        self.players[standpoint_board::chart::score::at(player)].clone()
    }
}

fn among(cells: &mut Vec<(Key, Figures)>, key: Key) -> &mut Figures {
    let at = cells.iter().position(|(known, _)| *known == key).unwrap_or_else(|| {
        cells.push((key, Figures::default()));
        cells.len() - 1
    });
    &mut cells[at].1
}

/// The figures of a group among some cells, and of the rest.
pub(super) fn split(cells: &[(Key, Figures)], group: &ShotGroup) -> (Figures, Figures) {
    let (mut inside, mut outside) = (Figures::default(), Figures::default());
    for (key, figures) in cells {
        if group.holds_key(key) { inside.merge(figures) } else { outside.merge(figures) }
    }
    (inside, outside)
}
