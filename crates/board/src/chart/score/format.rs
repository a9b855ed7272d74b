//! Format of a match.

/// Format of a match.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct MatchFormat {
    /// Sets it takes to win (Rule 7).
    pub sets: SetsToWin,
    /// How a game is won (Rule 5, Appendix V).
    pub game: GameRule,
    /// How a set is won (Rule 6, Appendix V).
    pub set: SetRule,
    /// How the last set is played.
    pub last_set: LastSet,
    /// When ends are changed in a tie-break (Rule 10, Appendix V).
    pub tie_break_ends: TieBreakEnds,
}

/// Sets it takes to win.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum SetsToWin {
    /// One set is the match.
    One,
    /// Best of three.
    #[default]
    Two,
    /// Best of five.
    Three,
}

impl SetsToWin {
    /// All.
    pub const ALL: [Self; 3] = [Self::One, Self::Two, Self::Three];

    /// Number of sets.
    #[must_use]
    pub fn count(self) -> u8 {
        match self {
            Self::One => 1,
            Self::Two => 2,
            Self::Three => 3,
        }
    }
}

/// How a game is won.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum GameRule {
    /// Two points in a row after deuce.
    #[default]
    Advantage,
    /// One deciding point at deuce; the receiver chooses the side.
    NoAd,
}

impl GameRule {
    /// All.
    pub const ALL: [Self; 2] = [Self::Advantage, Self::NoAd];
}

/// How a set is won.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum SetRule {
    /// Six games and two more than the opponent; a tie-break at six all.
    #[default]
    TieBreak,
    /// Six games and two more than the opponent, however long.
    Advantage,
    /// Four games and two more than the opponent; a tie-break at four all.
    Short,
}

impl SetRule {
    /// All.
    pub const ALL: [Self; 3] = [Self::TieBreak, Self::Advantage, Self::Short];

    /// Games needed to win a set, apart from the lead of two.
    #[must_use]
    pub fn games(self) -> u8 {
        match self {
            Self::TieBreak | Self::Advantage => 6,
            Self::Short => 4,
        }
    }

    /// Whether a tie-break is played when both have that many games.
    #[must_use]
    pub fn has_tie_break(self) -> bool {
        self != Self::Advantage
    }
}

/// Rule of the last set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum LastSet {
    /// As the other sets.
    #[default]
    AsOthers,
    /// As an advantage set.
    Advantage,
    /// With a tie-break to ten points at the end.
    LongTieBreak,
    /// A tie-break to seven points in its place.
    MatchTieBreak7,
    /// A tie-break to ten points in its place.
    MatchTieBreak10,
}

impl LastSet {
    /// All.
    pub const ALL: [Self; 5] =
        [Self::AsOthers, Self::Advantage, Self::LongTieBreak, Self::MatchTieBreak7, Self::MatchTieBreak10];
}

/// When ends are changed in a tie-break.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum TieBreakEnds {
    /// After every six points.
    #[default]
    Six,
    /// After the first point and then after every four.
    OneThenFour,
}

impl TieBreakEnds {
    /// All.
    pub const ALL: [Self; 2] = [Self::Six, Self::OneThenFour];

    /// Whether ends are changed after this many points of an unfinished tie-break.
    #[must_use]
    pub fn changed_after(self, points: u32) -> bool {
        match self {
            Self::Six => points > 0 && points.is_multiple_of(6),
            Self::OneThenFour => points % 4 == 1,
        }
    }

    /// Number of changes of ends within an unfinished tie-break after this many points.
    #[must_use]
    pub fn changes(self, points: u32) -> u32 {
        match self {
            Self::Six => points / 6,
            Self::OneThenFour => points.div_ceil(4),
        }
    }
}
