//! Copies of unsaved work, kept while a window is open and offered after a crash.
//!
//! Each window keeps at most one copy of its board, and one of a chart that is a file of its own, in a folder that the
//! program chooses. The copy is a file like any other, with a few comments at its beginning that name the original; it
//! is replaced atomically. While the window is open it holds a lock beside the copy; the system releases the lock
//! however the process ends. A copy whose lock nobody holds was left by a crash: [`find_left`] lists it,
//! [`Left::restore`] takes it over.
//!
//! * [`Autosave`] decides when to write; it is given the time and has no clock.
//! * [`RecoveryWriter`] writes on a thread of its own, so that no frame waits for a disk.
//! * [`RecoveryCopy`] is the copy itself.

use std::ffi::OsStr;
use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};

use standpoint_language::{text, tr};

use crate::chart::{Chart, file as chart_file};
use crate::file;
use crate::lock::system;
use crate::model::Board;
use crate::problem::Report;
use crate::store::{self, LoadError, SaveError};

mod header;
mod timer;
mod writer;

pub use header::About;
pub use timer::{Act, Autosave, EVERY_S};
pub use writer::{RecoveryWriter, Written};

/// Most copies kept after crashes; beyond that the oldest are removed.
pub const COPIES_KEPT: usize = 50;
/// Most bytes of copies kept after crashes; beyond that the oldest are removed.
pub const BYTES_KEPT: u64 = 256 * 1024 * 1024;

/// Ending of the lock beside a copy.
const LOCK: &str = "lock";

/// Kind of work in a copy.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Kind {
    /// A board, with the chart that is kept with it.
    Board,
    /// A chart that is a file of its own.
    Chart,
}

impl Kind {
    const ALL: [Self; 2] = [Self::Board, Self::Chart];

    fn ending(self) -> &'static str {
        match self {
            Self::Board => file::EXTENSION,
            Self::Chart => chart_file::EXTENSION,
        }
    }

    fn of(path: &Path) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| path.extension() == Some(OsStr::new(kind.ending())))
    }
}

/// Work in a copy.
#[derive(Debug, Clone, PartialEq)]
pub enum Work {
    /// A board.
    Board(Box<Board>),
    /// A chart.
    Chart(Box<Chart>),
}

impl From<Board> for Work {
    fn from(board: Board) -> Self {
        Self::Board(Box::new(board))
    }
}

impl From<Chart> for Work {
    fn from(chart: Chart) -> Self {
        Self::Chart(Box::new(chart))
    }
}

impl Work {
    /// Its title.
    #[must_use]
    pub fn title(&self) -> &str {
        match self {
            Self::Board(board) => &board.title,
            Self::Chart(chart) => &chart.setup.title,
        }
    }

    fn text(&self) -> Result<String, Report> {
        match self {
            Self::Board(board) => file::to_text(board),
            Self::Chart(chart) => chart_file::to_text(chart),
        }
    }
}

/// Why recovery copies cannot be used.
#[derive(Debug, thiserror::Error)]
pub enum RecoveryError {
    /// The folder cannot be made or written to.
    #[error("{}", tr!("the folder `{}` for recovery copies cannot be used: {}", folder.display(), source))]
    Folder {
        /// The folder.
        folder: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// Another window has restored or discarded the copy meanwhile.
    #[error("{}", tr!("another window has taken this copy"))]
    Taken,
    /// The copy cannot be opened.
    #[error(transparent)]
    Load(#[from] LoadError),
}

impl RecoveryError {
    /// What to do about it.
    #[must_use]
    pub fn remedy(&self) -> &'static str {
        match self {
            Self::Folder { .. } => text("Save often: until the folder can be written to, unsaved work is not kept."),
            Self::Taken => text("Look for it in the other window."),
            Self::Load(_) => text("Keep the file and correct it by hand, or discard it."),
        }
    }
}

/// The copy of one window; this process holds its lock.
#[derive(Debug)]
pub struct RecoveryCopy {
    path: PathBuf,
    lock: PathBuf,
    _locked: File,
}

impl RecoveryCopy {
    /// Claims a place for the copy of a window; nothing is written yet. Old copies beyond [`COPIES_KEPT`] and
    /// [`BYTES_KEPT`] are swept away.
    ///
    /// # Errors
    /// [`RecoveryError::Folder`].
    pub fn open(folder: &Path, kind: Kind) -> Result<Self, RecoveryError> {
        Self::make(folder, kind).map_err(|source| RecoveryError::Folder { folder: folder.to_owned(), source })
    }

    fn make(folder: &Path, kind: Kind) -> io::Result<Self> {
        system::private_folder(folder)?;
        sweep(folder);
        let process = std::process::id();
        for count in 0..u64::MAX {
            let path = folder.join(format!("{process}-{count}")).with_extension(kind.ending());
            let lock = path.with_extension(LOCK);
            // A copy of this name may be left from a process that had the same number.
            if Kind::ALL.iter().all(|kind| !path.with_extension(kind.ending()).exists())
                && let Some(locked) = system::make(&lock)?
            {
                return Ok(Self { path, lock, _locked: locked });
            }
        }
        Err(io::ErrorKind::AlreadyExists.into())
    }

    /// Path of the copy.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Replaces the copy by the work as it stands.
    ///
    /// # Errors
    /// As for saving; the former copy stays.
    pub fn write(&self, work: &Work, about: &About) -> Result<(), SaveError> {
        let text = work.text().map_err(SaveError::Board)?;
        store::save_text(&self.path, &(header::text(work.title(), about) + &text))
    }

    /// Removes the copy, as after a save. The place stays this window's.
    ///
    /// # Errors
    /// The system's error; a missing copy is no error.
    pub fn remove(&self) -> io::Result<()> {
        match fs::remove_file(&self.path) {
            Err(error) if error.kind() != io::ErrorKind::NotFound => Err(error),
            _ => Ok(()),
        }
    }

    /// Removes the copy and releases its place, as on a normal close. Dropping without this, as in
    /// a crash, leaves the copy to be found.
    ///
    /// # Errors
    /// The system's error; the copy may then be offered at the next start.
    pub fn close(self) -> io::Result<()> {
        self.remove()?;
        system::give_back(&self.lock);
        Ok(())
    }
}

/// A copy left by a crashed window.
#[derive(Debug, Clone, PartialEq)]
pub struct Left {
    /// The copy.
    pub path: PathBuf,
    /// Kind of work.
    pub kind: Kind,
    /// Title of the board or chart; empty when the copy does not say.
    pub title: String,
    /// The file that the work was opened from or saved to, if any.
    pub original: Option<PathBuf>,
    /// Number of the process that left it.
    pub process: u32,
    /// When it was written, s since the beginning of 1970; 0 when the copy does not say.
    pub kept_at: f64,
    /// How long ago that was, s, not negative.
    pub age_s: f64,
    /// Size of the copy, bytes.
    pub bytes: u64,
}

/// The copies left in the folder by crashed windows, the latest first. A missing folder has none.
///
/// `now` is the time in s since the beginning of 1970.
#[must_use]
pub fn find_left(folder: &Path, now: f64) -> Vec<Left> {
    let mut left: Vec<Left> = copies(folder).into_iter().filter_map(|path| look_at(path, now)).collect();
    left.sort_by(|a, b| b.kept_at.total_cmp(&a.kept_at).then_with(|| b.path.cmp(&a.path)));
    left
}

/// Boards and charts in the folder.
fn copies(folder: &Path) -> Vec<PathBuf> {
    let Ok(entries) = fs::read_dir(folder) else { return Vec::new() };
    let paths = entries.flatten().filter(|entry| entry.file_type().is_ok_and(|kind| kind.is_file()));
    paths.map(|entry| entry.path()).filter(|path| Kind::of(path).is_some()).collect()
}

/// The copy, unless its window is alive.
fn look_at(path: PathBuf, now: f64) -> Option<Left> {
    let kind = Kind::of(&path)?;
    let said = header::read(&path);
    match system::is_held(&path.with_extension(LOCK)) {
        Ok(true) => return None,
        Ok(false) => {}
        // Without locks, check whether the process exists.
        Err(_) if lives(said.process) => return None,
        Err(_) => {}
    }
    let bytes = fs::metadata(&path).ok()?.len();
    let age_s = (now - said.kept_at).max(0.0);
    let (title, original, process, kept_at) = (said.title, said.original, said.process, said.kept_at);
    Some(Left { path, kind, title, original, process, kept_at, age_s, bytes })
}

/// Whether a process has this number, where the system tells.
fn lives(process: u32) -> bool {
    process == std::process::id() || Path::new("/proc").join(process.to_string()).exists()
}

impl Left {
    /// Takes the copy over: the work, to be shown as unsaved work of [`Self::original`], and the copy itself, which
    /// becomes that window's own, so that the work always exists on disk.
    ///
    /// # Errors
    /// [`RecoveryError::Taken`] when another window was faster, [`RecoveryError::Load`] when the copy is damaged.
    pub fn restore(&self) -> Result<(Work, RecoveryCopy), RecoveryError> {
        let copy = self.take()?;
        let work = match self.kind {
            Kind::Board => Work::Board(Box::new(store::load_board(&self.path)?)),
            Kind::Chart => Work::Chart(Box::new(chart_file::load(&self.path)?)),
        };
        Ok((work, copy))
    }

    /// Removes the copy for ever.
    ///
    /// # Errors
    /// [`RecoveryError::Taken`] when another window has restored it, [`RecoveryError::Folder`] when it cannot be
    /// removed.
    pub fn discard(&self) -> Result<(), RecoveryError> {
        let folder = self.path.parent().unwrap_or(Path::new("")).to_owned();
        self.take()?.close().map_err(|source| RecoveryError::Folder { folder, source })
    }

    fn take(&self) -> Result<RecoveryCopy, RecoveryError> {
        let lock = self.path.with_extension(LOCK);
        let locked = match system::take(&lock) {
            Ok(locked) => locked.ok_or(RecoveryError::Taken)?,
            Err(source) => {
                let folder = self.path.parent().unwrap_or(Path::new("")).to_owned();
                return Err(RecoveryError::Folder { folder, source });
            }
        };
        let copy = RecoveryCopy { path: self.path.clone(), lock, _locked: locked };
        if copy.path.exists() {
            return Ok(copy);
        }
        // Another window was faster and has finished with the copy.
        system::give_back(&copy.lock);
        Err(RecoveryError::Taken)
    }
}

/// Removes locks without a copy, and the oldest copies beyond the limits. Failures are ignored, as this only tidies up.
fn sweep(folder: &Path) {
    let mut bytes = 0;
    for (i, left) in find_left(folder, 0.0).into_iter().enumerate() {
        bytes += left.bytes;
        if i >= COPIES_KEPT || bytes > BYTES_KEPT {
            let _ = left.discard();
        }
    }
    let Ok(entries) = fs::read_dir(folder) else { return };
    for lock in entries.flatten().map(|entry| entry.path()).filter(|path| path.extension() == Some(OsStr::new(LOCK))) {
        let there = || Kind::ALL.iter().any(|kind| lock.with_extension(kind.ending()).exists());
        if !there()
            && system::is_held(&lock).is_ok_and(|held| !held)
            && let Ok(Some(_locked)) = system::take(&lock)
            && !there()
        {
            system::give_back(&lock);
        }
    }
}

#[cfg(test)]
mod tests;
