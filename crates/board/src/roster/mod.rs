//! The roster: players as files in a folder, each with hand, figures, and dated entries of measurements, matches and
//! rehearsals.

pub mod file;

use std::fs;
use std::path::{Path, PathBuf};

use standpoint_geometry::ReplyHabits;
use standpoint_language::{mark, text};

use crate::chart::date::Date;
use crate::file::Named;
use crate::player_card::{KnownHabits, PlayerCard};
use crate::store::{LoadError, SaveError};

/// A player of the roster.
#[derive(Debug, Clone, PartialEq)]
pub struct RosterPlayer {
    /// Name, hands and figures.
    pub card: PlayerCard,
    /// Free text, may have several lines.
    pub notes: String,
    /// Entries of measurements, matches and rehearsals, in the order they were added.
    pub log: Vec<Entry>,
    /// Habits, match by match.
    pub matches: Vec<MatchHabits>,
}

/// Habits of a player in a match.
#[derive(Debug, Clone, PartialEq)]
pub struct MatchHabits {
    /// The match, one line.
    pub title: String,
    /// Its day, where it is known.
    pub date: Option<Date>,
    /// The counts.
    pub counts: ReplyHabits,
}

/// A dated entry of the log.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// Date, where it is known.
    pub date: Option<Date>,
    /// Kind of entry.
    pub kind: EntryKind,
    /// Result, one line.
    pub text: String,
    /// File name, if there is one.
    pub file: String,
}

/// Kind of an entry.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum EntryKind {
    /// A figure was measured.
    Measured,
    /// A match was charted.
    Match,
    /// Situations were rehearsed.
    Rehearsal,
}

impl EntryKind {
    /// A name for lists.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::Measured => text("measured"),
            Self::Match => text("match"),
            Self::Rehearsal => text("rehearsal"),
        }
    }
}

impl Named for EntryKind {
    const NAMES: &'static [(&'static str, Self)] =
        &[("Measured", Self::Measured), ("Match", Self::Match), ("Rehearsal", Self::Rehearsal)];
}

/// The players of a folder, by name.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Roster {
    /// The folder.
    pub folder: PathBuf,
    /// Each with its file.
    pub players: Vec<(PathBuf, RosterPlayer)>,
    /// Files that could not be read, and why.
    pub unread: Vec<(PathBuf, String)>,
}

/// Why a player was not kept.
#[derive(Debug, thiserror::Error)]
pub enum KeepError {
    /// A player without a name.
    #[error("{}", text("a player of the roster needs a name"))]
    NoName,
    /// The file is there and cannot be read, so it is not written over.
    #[error(transparent)]
    Unreadable(#[from] LoadError),
    /// It cannot be written.
    #[error(transparent)]
    Save(#[from] SaveError),
}

impl KeepError {
    /// What to do about it.
    #[must_use]
    pub fn remedy(&self) -> String {
        match self {
            Self::NoName => text("Give the player a name first.").to_owned(),
            Self::Unreadable(error) => error.remedy().to_string(),
            Self::Save(error) => error.remedy().to_string(),
        }
    }
}

/// File name of a player whose name has no letter that a file name may have.
const NAMELESS: &str = mark("player");

/// The name of a player's file: the letters and digits of their name, with hyphens between.
#[must_use]
pub fn file_name(player: &str) -> String {
    let mut name = String::new();
    for c in player.trim().chars() {
        if c.is_alphanumeric() {
            name.extend(c.to_lowercase());
        } else if !name.is_empty() && !name.ends_with('-') {
            name.push('-');
        }
    }
    let name = name.trim_end_matches('-');
    format!("{}.{}", if name.is_empty() { NAMELESS } else { name }, file::EXTENSION)
}

impl KnownHabits {
    /// The habits of a player in these matches combined, switched on; `None` where nothing was seen.
    #[must_use]
    pub fn of_matches(player: &str, matches: &[MatchHabits]) -> Option<Self> {
        let mut counts = ReplyHabits::default();
        for of in matches {
            for case in ReplyHabits::cases() {
                let (known, more) = (counts.counts(case), of.counts.counts(case));
                counts.set(case, [0, 1, 2].map(|way| known[way].saturating_add(more[way])));
            }
        }
        (counts.shots() > 0).then(|| Self {
            of: player.to_owned(),
            matches: u32::try_from(matches.len()).unwrap_or(u32::MAX),
            last: matches.iter().filter_map(|of| of.date).max(),
            used: true,
            counts,
        })
    }
}

impl RosterPlayer {
    /// A player with nothing but a card.
    #[must_use]
    pub fn new(card: PlayerCard) -> Self {
        Self { card, notes: String::new(), log: Vec::new(), matches: Vec::new() }
    }

    /// The habits of all matches combined, for a board; switched on.
    #[must_use]
    pub fn habits(&self) -> Option<KnownHabits> {
        KnownHabits::of_matches(&self.card.name, &self.matches)
    }

    /// The card with the habits of all matches, for a board.
    #[must_use]
    pub fn card_with_habits(&self) -> PlayerCard {
        PlayerCard { habits: self.habits().map(Box::new), ..self.card.clone() }
    }

    /// Adds a match; a new count of the same match replaces the former one.
    pub fn add_match(&mut self, of: MatchHabits) {
        match self.matches.iter_mut().find(|known| known.title == of.title && known.date == of.date) {
            Some(known) => *known = of,
            None => self.matches.push(of),
        }
    }

    /// The last day something was done.
    #[must_use]
    pub fn last(&self) -> Option<Date> {
        self.log.iter().filter_map(|entry| entry.date).max()
    }

    /// Adds an entry unless it is there already.
    pub fn add(&mut self, entry: Entry) {
        if !self.log.contains(&entry) {
            self.log.push(entry);
        }
    }
}

impl Roster {
    /// Reads a folder; a missing one has no players. Files with other extensions are ignored.
    #[must_use]
    pub fn read(folder: &Path) -> Self {
        let mut roster = Self { folder: folder.to_owned(), ..Self::default() };
        let Ok(entries) = fs::read_dir(folder) else { return roster };
        let mut paths: Vec<PathBuf> = entries.flatten().map(|entry| entry.path()).collect();
        paths.retain(|path| path.extension().is_some_and(|ending| ending == file::EXTENSION));
        paths.sort();
        for path in paths {
            match file::load(&path) {
                Ok(player) => roster.players.push((path, player)),
                Err(error) => {
                    // What is wrong with a file ends with a remedy, and thus a full stop, already.
                    let said = error.to_string();
                    roster.unread.push((path, format!("{}. {}", said.trim_end_matches('.'), error.remedy())));
                }
            }
        }
        roster.players.sort_by_key(|(_, a)| a.card.name.to_lowercase());
        roster
    }

    /// The player of a name.
    #[must_use]
    pub fn player(&self, name: &str) -> Option<&RosterPlayer> {
        self.players.iter().map(|(_, player)| player).find(|player| player.card.name.trim() == name.trim())
    }

    /// Keeps a card under its name, with the player's existing log and habits, and adds an entry if there is one.
    ///
    /// # Errors
    /// See [`KeepError`].
    pub fn keep(folder: &Path, card: &PlayerCard, entry: Option<Entry>) -> Result<PathBuf, KeepError> {
        Self::change(folder, card, |player| {
            if let Some(entry) = entry {
                player.add(entry);
            }
        })
    }

    /// Keeps a card under its name with a chart: its entry, and the player's habits in its matches.
    ///
    /// # Errors
    /// See [`KeepError`].
    pub fn keep_matches(
        folder: &Path,
        card: &PlayerCard,
        entry: Entry,
        matches: Vec<MatchHabits>,
    ) -> Result<PathBuf, KeepError> {
        Self::change(folder, card, |player| {
            player.add(entry);
            matches.into_iter().filter(|of| of.counts.shots() > 0).for_each(|of| player.add_match(of));
        })
    }

    fn change(folder: &Path, card: &PlayerCard, change: impl FnOnce(&mut RosterPlayer)) -> Result<PathBuf, KeepError> {
        if card.name.trim().is_empty() {
            return Err(KeepError::NoName);
        }
        fs::create_dir_all(folder).map_err(|source| LoadError::Other { path: folder.to_owned(), source })?;
        let known = Self::read(folder);
        let own = known.players.into_iter().find(|(_, player)| player.card.name.trim() == card.name.trim());
        let (path, mut player) = match own {
            Some(own) => own,
            None => {
                let path = Self::free(folder, &card.name);
                (path, RosterPlayer::new(card.clone()))
            }
        };
        player.card = PlayerCard { habits: None, ..card.clone() };
        change(&mut player);
        file::save(&path, &player)?;
        Ok(path)
    }

    /// A file name not in use: two names may have the same letters.
    fn free(folder: &Path, name: &str) -> PathBuf {
        let first = folder.join(file_name(name));
        let numbered = |i: usize| {
            let stem = first.file_stem().unwrap_or_default().to_string_lossy();
            folder.join(format!("{stem}-{i}.{}", file::EXTENSION))
        };
        std::iter::once(first.clone()).chain((2..).map(numbered)).find(|path| !path.exists()).unwrap_or(first)
    }
}

#[cfg(test)]
mod tests {
    use standpoint_geometry::{Hand, Level};

    use super::*;

    fn measured(day: &str) -> Entry {
        Entry {
            date: day.parse().ok(),
            kind: EntryKind::Measured,
            text: "Top speed 6.4 m/s (6.1 to 6.7)".to_owned(),
            file: String::new(),
        }
    }

    #[test]
    fn players_are_kept_by_name_with_their_log_and_found_again() {
        let folder = tempfile::tempdir().unwrap();
        let mut card = PlayerCard::of_level("Mara Quell", Level::Tournament);
        card.hand = Hand::Left;
        let path = Roster::keep(folder.path(), &card, Some(measured("2026-05-03"))).unwrap();
        assert_eq!(path.file_name().unwrap(), "mara-quell.player");
        card.make_custom().movement.v_max = 6.4;
        Roster::keep(folder.path(), &card, Some(measured("2026-06-01"))).unwrap();
        Roster::keep(folder.path(), &card, Some(measured("2026-06-01"))).unwrap();
        // Another name with the same letters is another player.
        Roster::keep(folder.path(), &PlayerCard::of_level("mara  quell", Level::Club), None).unwrap();
        let roster = Roster::read(folder.path());
        assert_eq!((roster.players.len(), roster.unread.len()), (2, 0));
        let player = roster.player("Mara Quell").unwrap();
        assert_eq!((&player.card, player.log.len(), player.last()), (&card, 2, "2026-06-01".parse().ok()));
        assert!(Roster::keep(folder.path(), &PlayerCard::of_level(" ", Level::Club), None).is_err());
    }

    #[test]
    fn a_file_that_cannot_be_read_is_told_and_nothing_is_lost() {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("bad.player"), "(standpoint_player: 1, notes: 3)").unwrap();
        fs::write(folder.path().join("other.txt"), "not a player").unwrap();
        let roster = Roster::read(folder.path());
        assert!(roster.players.is_empty() && roster.unread.len() == 1);
        assert!(roster.unread[0].1.contains("player"), "{}", roster.unread[0].1);
        fs::write(folder.path().join("bad.player"), "broken").unwrap();
        let said = Roster::read(folder.path()).unread.remove(0).1;
        assert!(said.contains(".player. ") && !said.contains(".player.."), "{said}");
        assert_eq!(Roster::read(&folder.path().join("none")).players.len(), 0);
    }
}
