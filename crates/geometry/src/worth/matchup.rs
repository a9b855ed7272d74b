//! Two players on a court: the input of a solved rally.

use super::behaviour::Behaviour;
use crate::{player::Player, shot::situation::Conditions};

/// Two players on a court: the input of a solved game.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Matchup {
    /// Court, surface, ball and air.
    pub conditions: Conditions,
    /// The players; either may serve or strike.
    pub players: [Player; 2],
}

impl Matchup {
    /// Cache key; changes with any input of the solution. Also the name of its file.
    #[must_use]
    pub fn key(&self) -> u64 {
        // Debug prints every figure to its last digit. FNV-1a (Fowler, Noll & Vo).
        let text = format!("{self:?} {:?} {}", Behaviour::default(), super::FORMAT);
        text.bytes().fold(0xcbf2_9ce4_8422_2325, |h, b| (h ^ u64::from(b)).wrapping_mul(0x0100_0000_01b3))
    }

    /// The same rally with the players exchanged.
    pub(super) fn swapped(self) -> Self {
        Self { players: [self.players[1], self.players[0]], ..self }
    }

    /// The same rally in a mirror.
    pub(super) fn mirrored(self) -> Self {
        Self { players: self.players.map(Player::mirrored), ..self }
    }

    /// The form in which the rally is solved: of the four equivalent ones, the one with the lowest key among those
    /// whose first player is right-handed.
    #[must_use]
    pub fn canonical(&self) -> Self {
        let right = |m: Self| if m.players[0].hand.forehand_sign() > 0.0 { m } else { m.mirrored() };
        let (a, b) = (right(*self), right(self.swapped()));
        if a.key() <= b.key() { a } else { b }
    }
}
