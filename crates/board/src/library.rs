//! Library of teaching boards: built-in ones, and those in a folder of the user.
//!
//! A board's first page describes it: the first line of the notes is the summary, and words that begin with `#` are its
//! tags, also for boards of the user.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use glam::DVec2;
use standpoint_geometry::End;

use crate::choices::CourtChoice;
use crate::file;
use crate::marks::Mark;
use crate::model::{Board, Page};
use crate::store::{self, LoadError};
use crate::teaching;

/// Most boards listed from the user's folder.
pub const OWN_LIMIT: usize = 500;

/// The boards shipped with the program, in the order they are listed.
const SHIPPED: [(&str, &str); 15] = [
    ("cross-court", include_str!("../../../assets/boards/cross-court.standpoint")),
    ("down-the-line", include_str!("../../../assets/boards/down-the-line.standpoint")),
    ("middle", include_str!("../../../assets/boards/middle.standpoint")),
    ("short-angle", include_str!("../../../assets/boards/short-angle.standpoint")),
    ("weaker-backhand", include_str!("../../../assets/boards/weaker-backhand.standpoint")),
    ("left-hander", include_str!("../../../assets/boards/left-hander.standpoint")),
    ("approach", include_str!("../../../assets/boards/approach.standpoint")),
    ("approach-and-volley", include_str!("../../../assets/boards/approach-and-volley.standpoint")),
    ("too-close-to-the-net", include_str!("../../../assets/boards/too-close-to-the-net.standpoint")),
    ("serve-wide-plus-one", include_str!("../../../assets/boards/serve-wide-plus-one.standpoint")),
    ("return-of-serve", include_str!("../../../assets/boards/return-of-serve.standpoint")),
    ("high-deep-and-move-up", include_str!("../../../assets/boards/high-deep-and-move-up.standpoint")),
    ("two-line-drill", include_str!("../../../assets/boards/two-line-drill.standpoint")),
    ("orange-court", include_str!("../../../assets/boards/orange-court.standpoint")),
    ("wheelchair", include_str!("../../../assets/boards/wheelchair.standpoint")),
];

/// Where a board comes from.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Source {
    /// Built in, with this name. It opens as a new board without a file.
    Shipped(&'static str),
    /// A file of the user.
    Own(PathBuf),
}

/// A board to choose.
#[derive(Debug, Clone)]
pub struct Entry {
    /// Its title.
    pub title: String,
    /// What it is about, in a sentence; may be empty.
    pub summary: String,
    /// Its tags without `#`, in lower case.
    pub tags: Vec<String>,
    /// Where it comes from.
    pub source: Source,
    /// The board.
    pub board: Arc<Board>,
    /// All its text, in lower case.
    words: String,
}

/// Boards to choose from.
#[derive(Debug, Default)]
pub struct Library {
    /// Shipped boards first, then the user's own by name.
    pub entries: Vec<Entry>,
    /// The user's files that cannot be opened, and why.
    pub unreadable: Vec<(PathBuf, LoadError)>,
}

impl Library {
    /// The boards shipped with the program.
    #[must_use]
    pub fn shipped() -> Self {
        let mut library = Self::default();
        for (name, text) in SHIPPED {
            match file::from_text(text) {
                Ok(board) => library.entries.push(Entry::shipped(board, name)),
                Err(report) => {
                    let path = PathBuf::from(name);
                    library.unreadable.push((path.clone(), LoadError::Content { path, report }));
                }
            }
        }
        library
    }

    /// Adds the boards of a folder, at most [`OWN_LIMIT`]; a missing folder has none. This reads every file, so call it
    /// outside the frame loop.
    #[must_use]
    pub fn with_folder(mut self, folder: &Path) -> Self {
        let Ok(entries) = fs::read_dir(folder) else { return self };
        let boards = entries.flatten().map(|entry| entry.path());
        let mut paths: Vec<PathBuf> =
            boards.filter(|path| path.extension().is_some_and(|ending| ending == file::EXTENSION)).collect();
        paths.sort();
        for path in paths.into_iter().take(OWN_LIMIT) {
            match store::load_board(&path) {
                Ok(board) => self.entries.push(Entry::of(board, Source::Own(path))),
                Err(error) => self.unreadable.push((path, error)),
            }
        }
        self
    }

    /// The entries that contain every one of the words, those with the words in title or tags first. Without words, all
    /// entries.
    #[must_use]
    pub fn search(&self, words: &str) -> Vec<&Entry> {
        let words: Vec<String> =
            words.split_whitespace().map(|word| word.trim_start_matches('#').to_lowercase()).collect();
        let mut found: Vec<(usize, &Entry)> =
            self.entries.iter().filter_map(|entry| Some((entry.rank(&words)?, entry))).collect();
        found.sort_by_key(|(rank, _)| std::cmp::Reverse(*rank));
        found.into_iter().map(|(_, entry)| entry).collect()
    }

    /// Every tag with the number of boards that have it, the most frequent first.
    #[must_use]
    pub fn tags(&self) -> Vec<(String, usize)> {
        let mut tags: Vec<(String, usize)> = Vec::new();
        for tag in self.entries.iter().flat_map(|entry| &entry.tags) {
            match tags.iter_mut().find(|(known, _)| known == tag) {
                Some((_, count)) => *count += 1,
                None => tags.push((tag.clone(), 1)),
            }
        }
        tags.sort_by(|a, b| b.1.cmp(&a.1).then_with(|| a.0.cmp(&b.0)));
        tags
    }
}

impl Entry {
    /// A shipped board in the current language; its English words are searched too.
    fn shipped(board: Board, name: &'static str) -> Self {
        let english = words_of(&board);
        let mut entry = Self::of(teaching::spoken(board), Source::Shipped(name));
        if entry.words != english {
            entry.words += &english;
        }
        entry
    }

    fn of(board: Board, source: Source) -> Self {
        let notes = board.page(0).map(|page| page.notes.as_str()).unwrap_or_default();
        let summary = notes.lines().next().filter(|line| !line.starts_with('#')).unwrap_or_default().to_owned();
        let tags = notes.split_whitespace().filter_map(tag).collect();
        let words = words_of(&board);
        Self { title: board.title.clone(), summary, tags, source, board: Arc::new(board), words }
    }

    /// The thumbnail of its first page.
    #[must_use]
    pub fn thumbnail(&self) -> Thumbnail {
        let page = self.board.page(0).cloned().unwrap_or_else(Page::blank);
        Thumbnail::of(&self.board, &page)
    }

    /// Score of the words; `None` if one is missing.
    fn rank(&self, words: &[String]) -> Option<usize> {
        let (title, summary) = (self.title.to_lowercase(), self.summary.to_lowercase());
        let ranks = words.iter().map(|word| {
            let in_tags = self.tags.iter().any(|tag| tag == word);
            let places =
                [(in_tags || title.contains(word), 4), (summary.contains(word), 2), (self.words.contains(word), 1)];
            let rank: usize = places.iter().filter(|(is_there, _)| *is_there).map(|(_, rank)| rank).sum();
            (rank > 0).then_some(rank)
        });
        ranks.sum()
    }
}

/// All text of a board, in lower case.
fn words_of(board: &Board) -> String {
    let mut words = vec![board.title.as_str(), &board.near.name, &board.far.name];
    for page in &board.pages {
        words.extend([page.title.as_str(), &page.notes]);
        words.extend(page.cues.iter().map(String::as_str));
    }
    words.join("\n").to_lowercase()
}

/// The tag in a word of the notes.
fn tag(word: &str) -> Option<String> {
    let tag = word.strip_prefix('#')?.trim_end_matches(['.', ',', ';', ':', '!', '?']);
    (!tag.is_empty() && !tag.contains('#')).then(|| tag.to_lowercase())
}

/// Contents of a thumbnail of a page. Nothing is computed for it: following shots are drawn
/// from where they were last seen.
#[derive(Debug, Clone, PartialEq)]
pub struct Thumbnail {
    /// The court.
    pub court: CourtChoice,
    /// Name of the court's theme.
    pub theme: String,
    /// The shots: from where, to where, by whom.
    pub shots: Vec<(DVec2, DVec2, End)>,
    /// Where the near player is at the first shot.
    pub near: DVec2,
    /// Where the far player is at the first shot.
    pub far: DVec2,
    /// Marks that are shown, from the ground up.
    pub marks: Vec<Mark>,
}

impl Thumbnail {
    /// The thumbnail of a page.
    #[must_use]
    pub fn of(board: &Board, page: &Page) -> Self {
        let way = |spec: &crate::ShotSpec| (spec.shot.contact.truncate(), spec.shot.target, spec.hitter_end);
        let (hitter, other) = match page.shots.first() {
            Some(first) => (board.hitter_place(first), first.opponent_place),
            None => (DVec2::ZERO, DVec2::ZERO),
        };
        let (near, far) = match page.shots.first().map(|first| first.hitter_end) {
            Some(End::Far) => (other, hitter),
            _ => (hitter, other),
        };
        Self {
            court: board.court,
            theme: board.theme.clone(),
            shots: page.shots.iter().map(way).collect(),
            near,
            far,
            marks: page.marks.shown().cloned().collect(),
        }
    }
}

#[cfg(test)]
mod tests;
