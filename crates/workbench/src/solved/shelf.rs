//! Solved games on disk, in a folder of bounded size.

use std::{
    fs::{self, File},
    io,
    path::{Path, PathBuf},
    time::SystemTime,
};

use standpoint_board::store;
use standpoint_geometry::worth::{Game, Matchup, load};

/// Environment variable: cache directory.
pub const CACHE_DIR_VARIABLE: &str = "STANDPOINT_CACHE_DIR";
/// Most games kept, and their total size, bytes.
const MOST_FILES: usize = 40;
const MOST_BYTES: u64 = 40 << 20;
/// Largest file that is read, bytes: several times the size of a game.
const FILE_LIMIT: u64 = 16 << 20;
const ENDING: &str = "worth";

/// The folder in which solved games are kept.
#[derive(Debug, Clone)]
pub struct Shelf {
    folder: Option<PathBuf>,
    most_files: usize,
    most_bytes: u64,
}

impl Shelf {
    /// The folder of the platform's cache, if it has one.
    #[must_use]
    pub fn usual() -> Self {
        let cache = std::env::var_os(CACHE_DIR_VARIABLE)
            .map(PathBuf::from)
            .or_else(|| crate::settings::platform(directories::ProjectDirs::cache_dir));
        Self::new(cache.map(|cache| cache.join("solved")))
    }

    /// A shelf in this folder.
    #[must_use]
    pub fn in_folder(folder: PathBuf) -> Self {
        Self::new(Some(folder))
    }

    /// Nothing is kept.
    #[must_use]
    pub fn nowhere() -> Self {
        Self::new(None)
    }

    fn new(folder: Option<PathBuf>) -> Self {
        Self { folder, most_files: MOST_FILES, most_bytes: MOST_BYTES }
    }

    fn file(&self, canonical: &Matchup) -> Option<PathBuf> {
        Some(self.folder.as_ref()?.join(format!("{:016x}.{ENDING}", canonical.key())))
    }

    /// The game of a matchup in its canonical form; `None` when it is missing or damaged.
    #[must_use]
    pub fn take(&self, canonical: &Matchup) -> Option<Game> {
        let file = self.file(canonical)?;
        let bytes = store::load_bytes(&file, FILE_LIMIT).ok()?;
        let game = load(canonical, &bytes)?;
        touch(&file);
        Some(game)
    }

    /// Keeps the packed game of a matchup in its canonical form; the least recently used ones are removed for it.
    ///
    /// # Errors
    /// A folder or file that cannot be written.
    pub fn put(&self, canonical: &Matchup, bytes: &[u8]) -> io::Result<()> {
        let Some((folder, file)) = self.folder.as_ref().zip(self.file(canonical)) else { return Ok(()) };
        fs::create_dir_all(folder)?;
        store::save_data(&file, bytes).map_err(io::Error::other)?;
        self.make_room(folder, &file)
    }

    /// Removes the least recently used games until the folder is within its bounds.
    fn make_room(&self, folder: &Path, newest: &Path) -> io::Result<()> {
        let mut kept: Vec<(SystemTime, u64, PathBuf)> = Vec::new();
        for entry in fs::read_dir(folder)? {
            let path = entry?.path();
            if path.extension().is_none_or(|ending| ending != ENDING) || path == newest {
                continue;
            }
            // Another window may have removed it meanwhile.
            let Ok(about) = fs::metadata(&path) else { continue };
            if about.is_file() {
                kept.push((about.modified().unwrap_or(SystemTime::UNIX_EPOCH), about.len(), path));
            }
        }
        kept.sort();
        let mut count = kept.len() + 1;
        let mut size = kept.iter().map(|k| k.1).sum::<u64>() + fs::metadata(newest).map_or(0, |m| m.len());
        for (_, bytes, path) in kept {
            if count <= self.most_files && size <= self.most_bytes {
                break;
            }
            fs::remove_file(path)?;
            count -= 1;
            size -= bytes;
        }
        Ok(())
    }
}

/// Marks a file as used now. On failure the file is only removed sooner.
fn touch(file: &Path) {
    let now = fs::FileTimes::new().set_modified(SystemTime::now());
    let _ = File::options().append(true).open(file).and_then(|file| file.set_times(now));
}

#[cfg(test)]
mod tests {
    use std::time::Duration;

    use standpoint_board::Board;
    use standpoint_geometry::worth::{Games, pack, stand_in};

    use super::*;
    use crate::solved::{Found, ensure, of_board};

    /// The demo players, one slightly faster; the stored game is not a solved one, because solving takes long.
    fn matchup(faster: f64) -> Matchup {
        let mut matchup = of_board(&Board::demo());
        matchup.players[0].movement.v_max += 1e-4 * faster;
        matchup.canonical()
    }

    #[test]
    fn a_kept_game_is_read_back_and_a_damaged_or_foreign_one_is_not() {
        let dir = tempfile::tempdir().unwrap();
        let shelf = Shelf::in_folder(dir.path().join("solved"));
        let (one, other) = (matchup(1.0), matchup(2.0));
        assert!(shelf.take(&one).is_none(), "nothing is kept yet");
        let bytes = pack(&one, &stand_in(&one).0);
        shelf.put(&one, &bytes).unwrap();
        let game = shelf.take(&one).unwrap();
        assert_eq!(pack(&one, &game), bytes);
        assert!(shelf.take(&other).is_none());
        let file = shelf.file(&one).unwrap();
        let mut damaged = bytes.clone();
        let middle = damaged.len() / 2;
        damaged[middle] ^= 0xff;
        for wrong in [&damaged[..], &bytes[..bytes.len() / 2], b"", &pack(&other, &stand_in(&other).0)] {
            fs::write(&file, wrong).unwrap();
            assert!(shelf.take(&one).is_none());
        }
        shelf.put(&one, &bytes).unwrap();
        assert!(shelf.take(&one).is_some(), "it is replaced");
    }

    #[test]
    fn what_was_used_longest_ago_goes_first() {
        let dir = tempfile::tempdir().unwrap();
        let shelf = Shelf { most_files: 3, most_bytes: 35, ..Shelf::in_folder(dir.path().to_owned()) };
        let of: Vec<Matchup> = (0..5).map(|i| matchup(f64::from(i))).collect();
        let age = |i: usize, hours: u64| {
            let then = SystemTime::now() - Duration::from_secs(3600 * hours);
            let file = File::options().append(true).open(shelf.file(&of[i]).unwrap()).unwrap();
            file.set_times(fs::FileTimes::new().set_modified(then)).unwrap();
        };
        let there = || (0..5).filter(|i| shelf.file(&of[*i]).unwrap().exists()).collect::<Vec<_>>();
        of[..3].iter().for_each(|matchup| shelf.put(matchup, &[0; 10]).unwrap());
        [(0, 1), (1, 3), (2, 2)].into_iter().for_each(|(i, hours)| age(i, hours));
        fs::write(dir.path().join("note.txt"), [0; 100]).unwrap();
        shelf.put(&of[3], &[0; 10]).unwrap();
        assert_eq!(there(), [0, 2, 3], "three files");
        shelf.put(&of[4], &[0; 20]).unwrap();
        assert_eq!(there(), [3, 4], "35 bytes");
        assert!(dir.path().join("note.txt").exists(), "files of others stay");
    }

    #[test]
    fn a_game_on_disk_is_taken_up_without_solving() {
        let dir = tempfile::tempdir().unwrap();
        let shelf = Shelf::in_folder(dir.path().to_owned());
        let matchup = matchup(7.0);
        shelf.put(&matchup, &pack(&matchup, &stand_in(&matchup).0)).unwrap();
        let never = std::sync::atomic::AtomicBool::new(true);
        let found = ensure(&matchup, &shelf, 1, &never, || panic!("it is there"));
        assert_eq!(found, Some(Found::Kept));
        assert!(Games::shared().solved(&matchup));
        assert_eq!(ensure(&matchup, &Shelf::nowhere(), 1, &never, || panic!("it is known")), Some(Found::Known));
        let unknown = self::matchup(8.0);
        let mut said = false;
        assert_eq!(ensure(&unknown, &shelf, 1, &never, || said = true), None, "cancelled");
        assert!(said && !Games::shared().solved(&unknown) && shelf.take(&unknown).is_none());
    }
}
