//! The history in its file: read once, written as a whole after every answer, by one window at a time.
//!
//! A file that cannot be read is set aside under another name and never overwritten; one of a newer program, or one
//! held by another window, is left alone. Then answers are kept in memory only while the window is open, and
//! [`Log::notice`] reports it.

use std::{
    fs,
    path::{Path, PathBuf},
};

use standpoint_language::{text, tr};

use super::{
    file::{self, Unreadable},
    history::{Attempt, History},
};
use crate::{
    lock::{self, Claimed, FileClaim},
    store::{self, LoadError, SaveError},
};

/// Name of the file in its folder.
pub const FILE: &str = "history.rehearsal";
/// Most names tried for a file set aside.
const ASIDE: u32 = 10_000;

/// The history with its file.
#[derive(Debug, Default)]
pub struct Log {
    history: History,
    /// Its file; `None` if it is only kept in memory.
    path: Option<PathBuf>,
    /// State of the file when it was last read or written.
    known: Option<Vec<u8>>,
    claim: Option<FileClaim>,
    notice: Option<String>,
}

impl Log {
    /// A history in memory only.
    #[must_use]
    pub fn nowhere() -> Self {
        Self::default()
    }

    /// Opens the history in a folder, which is made when it is missing. `claims` is the folder of [`lock::claim`], `now`
    /// the time in s since the beginning of 1970.
    #[must_use]
    pub fn open(folder: &Path, claims: &Path, now: f64) -> Self {
        let path = folder.join(FILE);
        let mut log = Self::default();
        if let Err(error) = fs::create_dir_all(folder) {
            log.notice = Some(tr!("Answers are not kept: {} cannot be made ({})", folder.display(), error));
            return log;
        }
        let claim = match lock::claim(claims, &path, "another window", now) {
            Claimed::Ours(claim) => Some(claim),
            Claimed::Theirs(_) => {
                // Read-only.
                log.history = read(&path).ok().map(|(history, _)| history).unwrap_or_default();
                log.notice = Some(tr!(
                    "Another window is rehearsing: what you answer here is not kept. Close one of them and begin again."
                ));
                return log;
            }
            Claimed::Unguarded(_) => None,
        };
        log.claim = claim;
        log.load(path);
        log
    }

    fn load(&mut self, path: PathBuf) {
        match read(&path) {
            Ok((history, bytes)) => {
                (self.history, self.known, self.path) = (history, bytes, Some(path));
            }
            Err(Trouble::Newer(version)) => {
                self.notice = Some(tr!(
                    "{} is of version {}: it is left alone, and what you answer here is not kept. Use the newer program.",
                    path.display(),
                    version
                ));
            }
            Err(Trouble::Unread(error)) => {
                let remedy = error.remedy();
                self.notice = Some(tr!("Answers are not kept: {}. {}", error, remedy));
            }
            Err(Trouble::Damaged(what)) => match set_aside(&path) {
                Ok(aside) => {
                    self.notice = Some(tr!(
                        "The history could not be read ({}). It is kept aside as {}; a new one begins.",
                        what,
                        aside.display()
                    ));
                    self.path = Some(path);
                }
                Err(error) => {
                    self.notice = Some(tr!(
                        "The history could not be read ({}) nor set aside ({}): it is left alone, and what you answer \
                         here is not kept. Move {} away.",
                        what,
                        error,
                        path.display()
                    ));
                }
            },
        }
    }

    /// All answers so far.
    #[must_use]
    pub fn history(&self) -> &History {
        &self.history
    }

    /// The notice for the trainee about the file, if any.
    #[must_use]
    pub fn notice(&self) -> Option<&str> {
        self.notice.as_deref()
    }

    /// Whether answers are kept.
    #[must_use]
    pub fn kept(&self) -> bool {
        self.path.is_some()
    }

    /// Adds an answer and writes the file.
    pub fn record(&mut self, attempt: Attempt) {
        self.history.attempts.push(attempt);
        self.write();
    }

    fn write(&mut self) {
        let Some(path) = self.path.clone() else { return };
        let on_disk = store::load_bytes(&path, file::SIZE_LIMIT);
        let unchanged = match (&on_disk, &self.known) {
            (Ok(bytes), Some(known)) => bytes == known,
            (Err(LoadError::NotThere(_)), _) => true,
            _ => false,
        };
        if !unchanged {
            // Another program has written: its answers are merged, or the file is set aside if unreadable.
            let ours = std::mem::take(&mut self.history);
            self.path = None;
            self.load(path.clone());
            self.history.merge(ours);
            if self.path.is_none() {
                return;
            }
        }
        let text = file::to_text(&self.history);
        match store::save_text(&path, &text) {
            Ok(()) => self.known = Some(text.into_bytes()),
            Err(SaveError::Unconfirmed { .. }) => {
                self.notice = Some(tr!("The answers are written, but the disk did not confirm it."));
                self.known = Some(text.into_bytes());
            }
            Err(error) => self.notice = Some(tr!("The answer is not kept: {}. {}", error, error.remedy())),
        }
    }
}

/// Why the file was not read.
enum Trouble {
    Newer(u32),
    Damaged(String),
    Unread(LoadError),
}

/// The history of a file with its bytes; an empty one where there is no file.
fn read(path: &Path) -> Result<(History, Option<Vec<u8>>), Trouble> {
    let bytes = match store::load_bytes(path, file::SIZE_LIMIT) {
        Ok(bytes) => bytes,
        Err(LoadError::NotThere(_)) => return Ok((History::default(), None)),
        Err(LoadError::Content { .. }) => return Err(Trouble::Damaged(tr!("it is too large"))),
        Err(error) => return Err(Trouble::Unread(error)),
    };
    match file::from_bytes(&bytes) {
        Ok(history) => Ok((history, Some(bytes))),
        Err(Unreadable::Newer(version)) => Err(Trouble::Newer(version)),
        Err(error) => Err(Trouble::Damaged(error.to_string())),
    }
}

/// Renames a file to a new name beside its former one, and returns it. No other file is replaced.
fn set_aside(path: &Path) -> std::io::Result<PathBuf> {
    for number in 1..=ASIDE {
        let aside = path.with_extension(format!("damaged-{number}.{}", file::EXTENSION));
        if aside.try_exists()? {
            continue;
        }
        // A link keeps an existing file where a rename would replace it; file systems without links take the rename.
        return match fs::hard_link(path, &aside) {
            Ok(()) => fs::remove_file(path).map(|()| aside),
            Err(error) if error.kind() == std::io::ErrorKind::AlreadyExists => continue,
            Err(_) => fs::rename(path, &aside).map(|()| aside),
        };
    }
    Err(std::io::Error::other(text("there are too many damaged ones already")))
}

#[cfg(test)]
mod tests;
