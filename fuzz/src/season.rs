//! A folder of matches: every file is a match or is told, and all matches of a player make one chart that can be kept.

use std::{fs, path::PathBuf, process};

use standpoint_board::chart::{Setup, check};
use standpoint_charting::{import::Mapping, season::read_folder};

use super::chart::comes_back;

/// What stands between two files.
const BETWEEN: &[u8] = b"\n-----\n";
/// Files of a folder, at most.
const FILES: usize = 4;

/// Reads bytes as the files of a folder; those that begin as a chart does have the ending of one.
pub fn check(bytes: &[u8]) {
    let folder = Folder::new();
    let mut files = 0;
    let mut rest = Some(bytes);
    while let Some(bytes) = rest.filter(|_| files < FILES) {
        let at = bytes.windows(BETWEEN.len()).position(|window| window == BETWEEN);
        let (file, after) = at.map_or((bytes, None), |at| (&bytes[..at], Some(&bytes[at + BETWEEN.len()..])));
        let ending = if file.starts_with(b"(") { "chart" } else { "csv" };
        fs::write(folder.0.join(format!("2026-05-0{} match.{ending}", files + 1)), file).expect("a file is written");
        files += 1;
        rest = after;
    }
    let season = read_folder(&folder.0, |headings| Mapping::default().suggested(headings), &Setup::default());
    let season = season.expect("the folder is there");
    assert_eq!(season.matches.len() + season.unread.len(), files);
    assert!(season.unread.iter().all(|file| !file.reason.is_empty() && !file.remedy.is_empty()));
    for player in season.players() {
        let about = season.about(&player, |_| true).expect("the player has a match");
        assert_eq!(check::check(&about), []);
        comes_back(&about);
    }
}

/// A folder that goes away with the check.
struct Folder(PathBuf);

impl Folder {
    fn new() -> Self {
        use std::sync::atomic::{AtomicU64, Ordering};
        static COUNT: AtomicU64 = AtomicU64::new(0);
        let name = format!("standpoint-season-{}-{}", process::id(), COUNT.fetch_add(1, Ordering::Relaxed));
        let path = std::env::temp_dir().join(name);
        fs::create_dir_all(&path).expect("a folder is made");
        Self(path)
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        // Only tidying up.
        let _ = fs::remove_dir_all(&self.0);
    }
}
