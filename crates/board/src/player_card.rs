//! A player on the board: name, hands, and figures from a level or entered by hand.

use standpoint_geometry::{BackhandGrip, Hand, Level, Player, ReplyHabits};

use crate::chart::date::Date;

/// Source of a player's figures.
#[derive(Debug, Clone, PartialEq)]
pub enum Figures {
    /// The figures of a level.
    Level(Level),
    /// Entered for this player. Hand and grip are those of the card, not the ones inside.
    Custom(Box<Player>),
}

/// One of the two players.
#[derive(Debug, Clone, PartialEq)]
pub struct PlayerCard {
    /// Name shown beside the player.
    pub name: String,
    /// Racket hand.
    pub hand: Hand,
    /// How the backhand is held.
    pub grip: BackhandGrip,
    /// The player's figures.
    pub figures: Figures,
    /// The player's habits, if any were counted.
    pub habits: Option<Box<KnownHabits>>,
}

/// Known habits of a player: counts with their origin.
#[derive(Debug, Clone, PartialEq)]
pub struct KnownHabits {
    /// The player they were counted from.
    pub of: String,
    /// Number of matches.
    pub matches: u32,
    /// The day of the last of them, where it is known.
    pub last: Option<Date>,
    /// Whether the answers of the board use them.
    pub used: bool,
    /// The counts.
    pub counts: ReplyHabits,
}

impl PlayerCard {
    /// A right-handed player of `level` with two hands on the backhand.
    #[must_use]
    pub fn of_level(name: impl Into<String>, level: Level) -> Self {
        Self {
            name: name.into(),
            hand: Hand::Right,
            grip: BackhandGrip::TwoHanded,
            figures: Figures::Level(level),
            habits: None,
        }
    }

    /// The player of the computation, with the card's hand and grip.
    #[must_use]
    pub fn player(&self) -> Player {
        match &self.figures {
            Figures::Level(level) => level.player(self.hand, self.grip),
            Figures::Custom(player) => Player { hand: self.hand, grip: self.grip, ..**player },
        }
    }

    /// The habits used in answers: none where nothing was seen, or where they are switched off.
    #[must_use]
    pub fn habits_used(&self) -> Option<ReplyHabits> {
        self.habits.as_ref().filter(|known| known.used && known.counts.shots() > 0).map(|known| known.counts)
    }

    /// Mirrors the player: the racket in the other hand and the habits mirrored with it.
    pub fn mirror(&mut self) {
        self.hand = self.hand.mirrored();
        if let Some(known) = &mut self.habits {
            known.counts = known.counts.mirrored();
        }
    }

    /// The level the figures come from, unless they were entered by hand.
    #[must_use]
    pub fn level(&self) -> Option<Level> {
        match self.figures {
            Figures::Level(level) => Some(level),
            Figures::Custom(_) => None,
        }
    }

    /// Turns the figures of a level into the same figures entered by hand, ready to be changed one by one.
    pub fn make_custom(&mut self) -> &mut Player {
        if let Figures::Level(_) = self.figures {
            self.figures = Figures::Custom(Box::new(self.player()));
        }
        match &mut self.figures {
            Figures::Custom(player) => player,
            Figures::Level(_) => unreachable!("the level was replaced above"),
        }
    }
}
