//! Who rehearses at this machine: each has a history in a folder of their own.

use std::path::{Path, PathBuf};

use standpoint_board::rehearse::log::Log;

/// Longest name, characters.
pub const LONGEST: usize = 40;
/// The folder that holds a folder for each player.
const FOLDER: &str = "players";

/// The players of a machine.
#[derive(Debug, Default)]
pub struct Players {
    /// Where histories and claims are kept; nowhere when there is no place.
    places: Option<(PathBuf, PathBuf)>,
    known: Vec<String>,
    /// Who rehearses; nobody in particular without a name.
    pub current: Option<String>,
    /// A name that is being typed.
    pub typed: Option<String>,
}

impl Players {
    /// Those with a history in a folder; `claims` is where other windows say what they have in hand.
    #[must_use]
    pub fn of(histories: &Path, claims: &Path) -> Self {
        let mut known: Vec<String> = std::fs::read_dir(histories.join(FOLDER))
            .into_iter()
            .flatten()
            .flatten()
            .filter(|entry| entry.path().is_dir())
            .filter_map(|entry| entry.file_name().into_string().ok())
            .filter(|name| cleaned(name).as_deref() == Some(name))
            .collect();
        known.sort();
        Self { places: Some((histories.to_owned(), claims.to_owned())), known, current: None, typed: None }
    }

    /// The names known.
    #[must_use]
    pub fn known(&self) -> &[String] {
        &self.known
    }

    /// Whether histories are kept at all.
    #[must_use]
    pub fn kept(&self) -> bool {
        self.places.is_some()
    }

    /// The history of a player, who is known from now on; the common one without a name.
    #[must_use]
    pub fn choose(&mut self, name: Option<&str>, now: f64) -> Log {
        let name = name.and_then(cleaned);
        self.current.clone_from(&name);
        let Some((histories, claims)) = &self.places else { return Log::nowhere() };
        let Some(name) = name else { return Log::open(histories, claims, now) };
        let folder = histories.join(FOLDER).join(&name);
        if let Err(at) = self.known.binary_search(&name) {
            self.known.insert(at, name);
        }
        Log::open(&folder, claims, now)
    }
}

/// A name as a folder may be called: letters, figures, spaces, hyphens and apostrophes.
#[must_use]
pub fn cleaned(name: &str) -> Option<String> {
    let allowed = |c: char| if c.is_alphanumeric() || matches!(c, ' ' | '-' | '_' | '’') { c } else { ' ' };
    let name: String = name.replace('\'', "’").chars().map(allowed).take(LONGEST).collect();
    let name = name.split_whitespace().collect::<Vec<_>>().join(" ");
    (!name.is_empty()).then_some(name)
}

#[cfg(test)]
mod tests {
    use glam::DVec2;
    use standpoint_board::Board;

    use super::*;
    use crate::rehearse::course::{Course, Source};

    #[test]
    fn each_player_has_a_history_of_their_own() {
        let dir = tempfile::tempdir().unwrap();
        let (histories, claims) = (dir.path().join("rehearsal"), dir.path().join("open"));
        let mut players = Players::of(&histories, &claims);
        assert!(players.known().is_empty());
        let mut course = Course::new(&Board::demo(), Source::Mixed, 3, players.choose(Some("Mara"), 0.0), 0.0);
        course.put(DVec2::new(0.0, -13.0));
        course.answer(1.0, false);
        course.change_player(players.choose(Some(" Ivo  T. "), 2.0), 2.0);
        assert_eq!(course.log().history().attempts.len(), 0);
        assert_eq!(players.current.as_deref(), Some("Ivo T"));
        course.change_player(players.choose(Some("Mara"), 3.0), 3.0);
        assert_eq!(course.log().history().attempts.len(), 1);
        course.change_player(players.choose(None, 4.0), 4.0);
        assert_eq!(course.log().history().attempts.len(), 0, "the common history is another one");
        assert_eq!(Players::of(&histories, &claims).known(), ["Ivo T", "Mara"]);
    }

    #[test]
    fn a_name_never_leaves_its_folder() {
        for (name, folder) in
            [("../../x", Some("x")), ("a/b\\c", Some("a b c")), ("..", None), ("Zoë O'Hara", Some("Zoë O’Hara"))]
        {
            assert_eq!(cleaned(name).as_deref(), folder, "{name}");
        }
        assert_eq!(cleaned(&"x".repeat(900)).unwrap().len(), LONGEST);
    }
}
