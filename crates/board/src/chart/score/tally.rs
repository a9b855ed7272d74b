//! Counts a match.

use standpoint_geometry::End;

use super::at;
use super::error::ScoreError;
use super::format::{GameRule, LastSet, MatchFormat, SetRule};
use crate::chart::ends::Ends;

/// The half of the court that a serve is struck from, as the server faces the net.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum CourtSide {
    /// The right half, where every game begins (Rule 17).
    Deuce,
    /// The left half.
    Ad,
}

impl CourtSide {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Deuce, Self::Ad];
}

/// The kind of game.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum GameKind {
    /// Love, 15, 30, 40.
    Standard,
    /// A tie-break to this many points.
    TieBreak(u8),
}

/// A finished set, the player who began at the near end first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct SetScore {
    /// Games of each; 1 and 0 for a tie-break in place of a set.
    pub games: [u8; 2],
    /// Points of the tie-break that ended the set, where there was one and they are known.
    pub tie_break: Option<[u32; 2]>,
}

impl SetScore {
    /// Who won it.
    #[must_use]
    pub fn winner(&self) -> End {
        if self.games[0] > self.games[1] { End::Near } else { End::Far }
    }
}

/// The stakes of a point: what it can decide, and for whom.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Stakes {
    /// Who wins the game with it; both can be true only on a deciding point.
    pub game: [bool; 2],
    /// Whether the receiver wins the game with it.
    pub break_point: bool,
    /// Who wins the set with it.
    pub set: [bool; 2],
    /// Who wins the match with it.
    pub match_: [bool; 2],
}

/// State of a match before a point.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Standing {
    /// Who serves.
    pub server: End,
    /// From which side; `None` where the receiver chooses.
    pub side: Option<CourtSide>,
    /// The ends of the players; `None` where a given score leaves them open.
    pub ends: Option<Ends>,
    /// The set, counted from 1.
    pub set: usize,
    /// The kind of game.
    pub game: GameKind,
    /// Games in the set.
    pub games: [u8; 2],
    /// Points in the game.
    pub points: [u32; 2],
    /// Stakes of the point.
    pub stakes: Stakes,
}

/// The count of a match.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tally {
    pub(super) format: MatchFormat,
    pub(super) first_server: End,
    pub(super) sets: Vec<SetScore>,
    pub(super) games: [u8; 2],
    pub(super) points: [u32; 2],
    pub(super) ends: Option<Ends>,
}

impl Tally {
    /// A match at its beginning.
    #[must_use]
    pub fn new(format: MatchFormat, first_server: End) -> Self {
        Self { format, first_server, sets: Vec::new(), games: [0; 2], points: [0; 2], ends: Some(Ends::AsBegun) }
    }

    /// Format of the match.
    #[must_use]
    pub fn format(&self) -> &MatchFormat {
        &self.format
    }

    /// Finished sets.
    #[must_use]
    pub fn sets(&self) -> &[SetScore] {
        &self.sets
    }

    /// Games in the current set.
    #[must_use]
    pub fn games(&self) -> [u8; 2] {
        self.games
    }

    /// Points in the current game.
    #[must_use]
    pub fn points(&self) -> [u32; 2] {
        self.points
    }

    /// Sets won by each.
    #[must_use]
    pub fn sets_won(&self) -> [u8; 2] {
        let mut won = [0; 2];
        self.sets.iter().for_each(|set| won[at(set.winner())] += 1);
        won
    }

    /// Who has won the match.
    #[must_use]
    pub fn winner(&self) -> Option<End> {
        let needed = self.format.sets.count();
        [End::Near, End::Far].into_iter().find(|player| self.sets_won()[at(*player)] >= needed)
    }

    /// Whether this is the deciding set.
    fn is_last_set(&self) -> bool {
        self.sets_won() == [self.format.sets.count() - 1; 2]
    }

    /// The rule of the current set.
    pub(super) fn set_rule(&self) -> SetRule {
        match self.format.last_set {
            LastSet::Advantage if self.is_last_set() => SetRule::Advantage,
            LastSet::LongTieBreak if self.is_last_set() && !self.format.set.has_tie_break() => SetRule::TieBreak,
            _ => self.format.set,
        }
    }

    /// Whether a tie-break replaces the set.
    pub(super) fn is_match_tie_break(&self) -> bool {
        matches!(self.format.last_set, LastSet::MatchTieBreak7 | LastSet::MatchTieBreak10) && self.is_last_set()
    }

    /// The kind of the current game.
    #[must_use]
    pub fn game(&self) -> GameKind {
        if self.is_match_tie_break() {
            return GameKind::TieBreak(if self.format.last_set == LastSet::MatchTieBreak10 { 10 } else { 7 });
        }
        let rule = self.set_rule();
        if !rule.has_tie_break() || self.games != [rule.games(); 2] {
            return GameKind::Standard;
        }
        let long = self.format.last_set == LastSet::LongTieBreak && self.is_last_set();
        GameKind::TieBreak(if long { 10 } else { 7 })
    }

    /// Games played so far; a tie-break counts as one.
    fn games_played(&self) -> u32 {
        let of_sets = self.sets.iter().map(|set| u32::from(set.games[0]) + u32::from(set.games[1]));
        of_sets.sum::<u32>() + self.games.iter().map(|games| u32::from(*games)).sum::<u32>()
    }

    /// The server of the next point (Rules 5 b, 14): the order goes on from game to game through all sets.
    #[must_use]
    pub fn server(&self) -> End {
        let points: u32 = self.points.iter().sum();
        let turns = match self.game() {
            GameKind::Standard => 0,
            GameKind::TieBreak(_) => points.div_ceil(2),
        };
        if (self.games_played() + turns).is_multiple_of(2) { self.first_server } else { self.first_server.other() }
    }

    /// The side of the next serve (Rule 17); `None` where the receiver chooses.
    #[must_use]
    pub fn side(&self) -> Option<CourtSide> {
        if self.is_deciding_point() {
            return None;
        }
        let played: u32 = self.points.iter().sum();
        Some(if played.is_multiple_of(2) { CourtSide::Deuce } else { CourtSide::Ad })
    }

    /// Whether the next point decides a game without advantage.
    #[must_use]
    pub fn is_deciding_point(&self) -> bool {
        self.format.game == GameRule::NoAd && self.game() == GameKind::Standard && self.points == [3; 2]
    }

    /// The ends of the players; `None` where a given score leaves them open.
    #[must_use]
    pub fn ends(&self) -> Option<Ends> {
        self.ends
    }

    /// Sets the observed ends.
    pub fn set_ends(&mut self, ends: Ends) {
        self.ends = Some(ends);
    }

    /// The state; `None` when the match is over.
    #[must_use]
    pub fn standing(&self) -> Option<Standing> {
        self.winner().is_none().then(|| Standing {
            server: self.server(),
            side: self.side(),
            ends: self.ends,
            set: self.sets.len() + 1,
            game: self.game(),
            games: self.games,
            points: self.points,
            stakes: self.stakes(),
        })
    }

    /// Stakes of the next point.
    #[must_use]
    pub fn stakes(&self) -> Stakes {
        let mut stakes = Stakes::default();
        for player in [End::Near, End::Far] {
            let mut after = self.clone();
            if after.point(player).is_err() {
                continue;
            }
            let set = after.sets.len() > self.sets.len();
            stakes.game[at(player)] = set || after.games != self.games;
            stakes.set[at(player)] = set;
            stakes.match_[at(player)] = after.winner().is_some();
        }
        let receiver = self.server().other();
        stakes.break_point = self.game() == GameKind::Standard && stakes.game[at(receiver)];
        stakes
    }

    /// Counts a point.
    ///
    /// # Errors
    /// [`ScoreError::MatchOver`] after the last point.
    pub fn point(&mut self, winner: End) -> Result<(), ScoreError> {
        if self.winner().is_some() {
            return Err(ScoreError::MatchOver);
        }
        self.points[at(winner)] += 1;
        let (own, other) = (self.points[at(winner)], self.points[at(winner.other())]);
        let won = match self.game() {
            GameKind::TieBreak(to) => own >= u32::from(to) && own >= other + 2,
            GameKind::Standard if self.format.game == GameRule::NoAd => own >= 4,
            GameKind::Standard => own >= 4 && own >= other + 2,
        };
        if won {
            self.game_won(winner);
        } else if matches!(self.game(), GameKind::TieBreak(_)) && self.format.tie_break_ends.changed_after(own + other)
        {
            self.change_ends();
        }
        Ok(())
    }

    fn game_won(&mut self, winner: End) {
        let tie_break = matches!(self.game(), GameKind::TieBreak(_)).then_some(self.points);
        let (rule, whole) = (self.set_rule(), self.is_match_tie_break());
        self.points = [0; 2];
        self.games[at(winner)] += 1;
        let (own, other) = (self.games[at(winner)], self.games[at(winner.other())]);
        // The ends change after odd games of a set; also at the end of the set, if the number of its games is odd (Rule
        // 10).
        if (own + other) % 2 == 1 {
            self.change_ends();
        }
        if whole || tie_break.is_some() || own >= rule.games() && own >= other + 2 {
            self.sets.push(SetScore { games: self.games, tie_break });
            self.games = [0; 2];
        }
    }

    fn change_ends(&mut self) {
        self.ends = self.ends.map(Ends::other);
    }
}
