//! A score as a text: the finished sets, the games of the set and the points of the game, the player first who began at
//! the near end: `6-4 2-3 40-30`. A set ended by a tie-break may have the points of its loser: `7-6(5)`.

use standpoint_geometry::End;

use super::error::ScoreError;
use super::format::{GameRule, MatchFormat};
use super::tally::{GameKind, SetScore, Tally};
use crate::chart::ends::Ends;

const STANDARD: [&str; 4] = ["0", "15", "30", "40"];
/// Letter for advantage.
const ADVANTAGE: &str = "A";

/// The points of a game.
#[must_use]
pub fn points(tally: &Tally) -> String {
    let [near, far] = tally.points;
    if matches!(tally.game(), GameKind::TieBreak(_)) {
        return format!("{near}-{far}");
    }
    let one = |own: u32, other: u32| match own {
        0..=2 => STANDARD[own as usize],
        _ if own > other && other >= 3 => ADVANTAGE,
        _ => STANDARD[3],
    };
    format!("{}-{}", one(near, far), one(far, near))
}

/// A whole score.
#[must_use]
pub fn write(tally: &Tally) -> String {
    let set = |set: &SetScore| {
        let [near, far] = set.games;
        let loser = set.tie_break.map(|[near, far]| near.min(far));
        loser.map_or_else(|| format!("{near}-{far}"), |loser| format!("{near}-{far}({loser})"))
    };
    let mut parts: Vec<String> = tally.sets.iter().map(set).collect();
    if tally.winner().is_none() {
        parts.push(format!("{}-{}", tally.games[0], tally.games[1]));
        parts.push(points(tally));
    }
    parts.join(" ")
}

/// A match at this score before a point.
///
/// The ends are unknown where a finished tie-break is given without its points.
///
/// # Errors
/// A text that is not a score, or a score that is impossible in such a match.
pub fn read(text: &str, format: MatchFormat, first_server: End) -> Result<Tally, ScoreError> {
    let no_score = || ScoreError::NotAScore { found: crate::file::tree::shortened(text) };
    let parts: Vec<&str> = text.split_whitespace().collect();
    let [sets @ .., games, points] = parts.as_slice() else { return Err(no_score()) };
    let mut tally = Tally::new(format, first_server);
    for (i, set) in sets.iter().enumerate() {
        take_set(&mut tally, i + 1, set).ok_or_else(no_score)??;
    }
    if tally.winner().is_some() {
        return Err(ScoreError::MatchOver);
    }
    take_games(&mut tally, games).ok_or_else(no_score)??;
    take_points(&mut tally, points).ok_or_else(no_score)??;
    Ok(tally)
}

/// The score with the players in the other order; other text stays unchanged.
#[must_use]
pub fn swapped(text: &str) -> String {
    let one = |part: &str| {
        let (pair, loser) = part.split_at(part.find('(').unwrap_or(part.len()));
        pair.split_once('-').map_or_else(|| part.to_owned(), |(near, far)| format!("{far}-{near}{loser}"))
    };
    text.split_whitespace().map(one).collect::<Vec<_>>().join(" ")
}

/// Whether a text has the form of a score.
#[must_use]
pub fn is_written_as_one(text: &str) -> bool {
    let parts: Vec<&str> = text.split_whitespace().collect();
    let [sets @ .., games, points] = parts.as_slice() else { return false };
    let set = |text: &str| {
        let (games, loser) = text.strip_suffix(')').and_then(|text| text.split_once('(')).unwrap_or((text, "0"));
        pair::<u8>(games).is_some() && loser.parse::<u32>().is_ok()
    };
    let advantage = matches!(*points, "A-40" | "40-A");
    sets.iter().all(|text| set(text)) && pair::<u8>(games).is_some() && (advantage || pair::<u32>(points).is_some())
}

fn pair<T: std::str::FromStr>(text: &str) -> Option<[T; 2]> {
    let (near, far) = text.split_once('-')?;
    Some([near.parse().ok()?, far.parse().ok()?])
}

/// `None` where it is not written as a set.
fn take_set(tally: &mut Tally, number: usize, text: &str) -> Option<Result<(), ScoreError>> {
    let (games, loser) = match text.strip_suffix(')') {
        Some(text) => {
            let (games, loser) = text.split_once('(')?;
            (games, Some(loser.parse::<u32>().ok()?))
        }
        None => (text, None),
    };
    let games: [u8; 2] = pair(games)?;
    let no_such_set = || Some(Err(ScoreError::NoSuchSet { set: number, found: text.to_owned() }));
    if tally.winner().is_some() {
        return Some(Err(ScoreError::MatchOver));
    }
    let rule = tally.set_rule();
    let (more, less) = (games[0].max(games[1]), games[0].min(games[1]));
    let by_tie_break = if tally.is_match_tie_break() {
        (more, less) == (1, 0)
    } else {
        rule.has_tie_break() && (more, less) == (rule.games() + 1, rule.games())
    };
    let plainly = !tally.is_match_tie_break() && more >= rule.games() && more >= less.saturating_add(2);
    let short = more == rule.games() || more == less.saturating_add(2);
    // With a tie-break a player wins at most one game more than needed.
    let bounded = !rule.has_tie_break() || more <= rule.games() + 1;
    let by_games = plainly && short && bounded && loser.is_none();
    if !by_tie_break && !by_games {
        return no_such_set();
    }
    let to = if tally.is_match_tie_break() { tally.game() } else { long_or_not(tally, rule.games()) };
    let GameKind::TieBreak(to) = to else {
        tally.close_set(games, None, false);
        return Some(Ok(()));
    };
    let points = loser.filter(|_| by_tie_break).map(|loser| {
        let winner = u32::from(to).max(loser + 2);
        if games[0] > games[1] { [winner, loser] } else { [loser, winner] }
    });
    tally.close_set(games, points, by_tie_break);
    Some(Ok(()))
}

/// The kind of game played when both have this many games.
fn long_or_not(tally: &Tally, games: u8) -> GameKind {
    Tally { games: [games; 2], ..tally.clone() }.game()
}

fn take_games(tally: &mut Tally, text: &str) -> Option<Result<(), ScoreError>> {
    let games: [u8; 2] = pair(text)?;
    let rule = tally.set_rule();
    let (more, less) = (games[0].max(games[1]), games[0].min(games[1]));
    let over = more >= rule.games() && more >= less.saturating_add(2);
    let beyond = rule.has_tie_break() && more > rule.games();
    if over || beyond || tally.is_match_tie_break() && more > 0 {
        return Some(Err(ScoreError::NoSuchGames { found: text.to_owned() }));
    }
    tally.games = games;
    tally.turn((u32::from(games[0]) + u32::from(games[1])).div_ceil(2));
    Some(Ok(()))
}

fn take_points(tally: &mut Tally, text: &str) -> Option<Result<(), ScoreError>> {
    let wrong = || Some(Err(ScoreError::NoSuchPoints { found: text.to_owned() }));
    let GameKind::TieBreak(to) = tally.game() else {
        let (near, far) = text.split_once('-')?;
        let standard = |text: &str| STANDARD.iter().position(|known| *known == text);
        let points = match (near.trim(), far.trim()) {
            (ADVANTAGE, "40") => [4, 3],
            ("40", ADVANTAGE) => [3, 4],
            (ADVANTAGE, _) | (_, ADVANTAGE) => return wrong(),
            (near, far) => [standard(near)? as u32, standard(far)? as u32],
        };
        if tally.format.game == GameRule::NoAd && points.contains(&4) {
            return wrong();
        }
        tally.points = points;
        return Some(Ok(()));
    };
    let points: [u32; 2] = pair(text)?;
    let (more, less) = (points[0].max(points[1]), points[0].min(points[1]));
    if more > 1000 || more >= u32::from(to) && more >= less + 2 {
        return wrong();
    }
    tally.points = points;
    tally.turn(tally.format.tie_break_ends.changes(more + less));
    Some(Ok(()))
}

impl Tally {
    /// Closes a set that was given as a result instead of counted.
    fn close_set(&mut self, games: [u8; 2], tie_break: Option<[u32; 2]>, by_tie_break: bool) {
        let played = u32::from(games[0]) + u32::from(games[1]);
        match (by_tie_break, tie_break) {
            (true, None) => self.ends = None,
            // The last point ends the game instead of changing ends within it.
            (true, Some([near, far])) => self.turn(self.format.tie_break_ends.changes(near + far - 1)),
            (false, _) => {}
        }
        self.turn(played.div_ceil(2));
        self.sets.push(SetScore { games, tie_break });
    }

    /// Changes ends this many times.
    fn turn(&mut self, times: u32) {
        if times % 2 == 1 {
            self.ends = self.ends.map(Ends::other);
        }
    }
}
