//! Reads and writes files so that the former file is never lost.
//!
//! Saving writes a temporary file in the same folder, makes sure that it is on the disk, and only then puts it in the
//! place of the former one, in one step of the file system. A failure before that step leaves the former file
//! unchanged. A file behind a symbolic link is replaced at its target; permissions stay.

use std::fs::{self, File, Metadata};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

use standpoint_language::{text, tr};

use crate::file;
use crate::model::Board;

mod error;
mod growing;
mod load;
mod stamp;
mod temporary;

pub use error::{LoadError, SaveError};
pub use growing::GrowingFile;
pub use load::load_bytes;
pub use stamp::{OnDisk, Stamp};

/// Most links to follow, as on Linux.
const LINK_LIMIT: usize = 40;
/// Bytes written at a time: between two chunks a full disk is noticed, and a test can interrupt.
const CHUNK: usize = 64 * 1024;

/// Saves a board.
///
/// # Errors
///
/// See [`SaveError`].
pub fn save_board(path: &Path, board: &Board) -> Result<(), SaveError> {
    let text = file::to_text(board).map_err(SaveError::Board)?;
    save_text(path, &text)
}

/// Saves a board over the file it was opened from or last saved to, unless somebody else has changed that, and
/// returns the stamp for the next time.
///
/// `expected` is what should be on the disk; `None` overwrites any file. Between checking and replacing is a moment
/// in which another program can still save; windows of this program that respect their [claims](crate::lock) do not.
///
/// # Errors
///
/// See [`SaveError`]. After [`SaveError::Unconfirmed`] the file holds the board, and [`Stamp::at`] it is the stamp.
pub fn save_board_over(path: &Path, board: &Board, expected: Option<&Stamp>) -> Result<Stamp, SaveError> {
    let text = file::to_text(board).map_err(SaveError::Board)?;
    if let Some(expected) = expected {
        // A missing folder is reported as such, not as a missing file.
        if path.parent().is_some_and(|folder| !folder.as_os_str().is_empty() && !folder.exists()) {
            return Err(SaveError::NoFolder(path.parent().unwrap_or(path).to_owned()));
        }
        expected.holds(path)?;
    }
    save_text(path, &text)?;
    Ok(Stamp::of(text.as_bytes()))
}

/// Opens a board.
///
/// # Errors
///
/// See [`LoadError`].
pub fn load_board(path: &Path) -> Result<Board, LoadError> {
    open_board(path).map(|(board, _)| board)
}

/// Opens a board with the stamp that [`save_board_over`] asks for.
///
/// # Errors
///
/// See [`LoadError`].
pub fn open_board(path: &Path) -> Result<(Board, Stamp), LoadError> {
    let bytes = load_bytes(path, file::SIZE_LIMIT)?;
    match file::from_bytes(&bytes) {
        Ok(board) => Ok((board, Stamp::of(&bytes))),
        Err(report) => Err(LoadError::Content { path: path.to_owned(), report }),
    }
}

/// Replaces a file by this text atomically. For any file that must not get lost.
///
/// # Errors
///
/// See [`SaveError`].
pub fn save_text(path: &Path, text: &str) -> Result<(), SaveError> {
    save_bytes(path, text.as_bytes(), &mut |_| Ok(()))
}

/// Replaces a file by these bytes atomically.
///
/// # Errors
///
/// See [`SaveError`].
pub fn save_data(path: &Path, bytes: &[u8]) -> Result<(), SaveError> {
    save_bytes(path, bytes, &mut |_| Ok(()))
}

/// How many other names (hard links) a file has. They keep the former content when the file is saved, because a new
/// one takes its place; whoever saves says so.
#[must_use]
pub fn other_names(path: &Path) -> u64 {
    #[cfg(unix)]
    {
        use std::os::unix::fs::MetadataExt;
        fs::metadata(path).map_or(0, |file| file.nlink().saturating_sub(1))
    }
    #[cfg(not(unix))]
    {
        let _ = path;
        0
    }
}

/// The sentence for a file that was saved; `parted` when it had [`other_names`] before.
#[must_use]
pub fn saved_words(path: &Path, parted: bool) -> String {
    if parted {
        tr!("Saved to {}; its other names (hard links) keep what was there before", path.display())
    } else {
        tr!("Saved to {}", path.display())
    }
}

/// Steps of saving, at which tests inject failures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum SaveStep {
    Create,
    Write,
    Sync,
    Rename,
    SyncFolder,
}

/// Called before each step.
type Gate<'g> = &'g mut dyn FnMut(SaveStep) -> io::Result<()>;

fn save_bytes(path: &Path, bytes: &[u8], gate: Gate<'_>) -> Result<(), SaveError> {
    let target = follow_links(path)?;
    let former = former(&target)?;
    let folder = match target.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent.to_owned(),
        _ => PathBuf::from("."),
    };
    let failed = |source| save_error(&target, &folder, source);
    gate(SaveStep::Create).map_err(failed)?;
    let (temporary, mut file) = temporary::create(&folder, former.as_ref()).map_err(failed)?;
    // The file stays open, and so locked, until it is in place.
    let placed = fill(&mut file, bytes, former.as_ref(), gate)
        .and_then(|()| gate(SaveStep::Rename))
        .and_then(|()| fs::rename(&temporary, &target));
    if let Err(source) = placed {
        // The save's own error is reported, not that of removing the left-over.
        let _ = fs::remove_file(&temporary);
        return Err(failed(source));
    }
    drop(file);
    temporary::sweep(&folder);
    gate(SaveStep::SyncFolder)
        .and_then(|()| sync_folder(&folder))
        .map_err(|source| SaveError::Unconfirmed { path: target.clone(), source })
}

/// The file that a path leads to; it need not exist yet.
fn follow_links(path: &Path) -> Result<PathBuf, SaveError> {
    let mut target = path.to_owned();
    for _ in 0..LINK_LIMIT {
        if target.file_name().is_none() {
            return Err(if target.is_dir() { SaveError::IsFolder(target) } else { SaveError::NoName(target) });
        }
        match fs::read_link(&target) {
            Ok(link) => target = target.parent().unwrap_or(Path::new("")).join(link),
            // No link, or no file: later steps report which.
            Err(_) => return Ok(target),
        }
    }
    Err(SaveError::Other { path: path.to_owned(), source: io::Error::other(text("its links lead in a circle")) })
}

/// Metadata of the file to be replaced; `None` if there is none.
fn former(target: &Path) -> Result<Option<Metadata>, SaveError> {
    match fs::metadata(target) {
        Ok(metadata) if metadata.is_dir() => Err(SaveError::IsFolder(target.to_owned())),
        Ok(metadata) if !metadata.is_file() => Err(SaveError::NotAFile(target.to_owned())),
        Ok(metadata) if metadata.permissions().readonly() => Err(SaveError::ReadOnlyFile(target.to_owned())),
        Ok(metadata) => Ok(Some(metadata)),
        // No file, or an inaccessible folder: creating the temporary file reports it.
        Err(_) => Ok(None),
    }
}

/// Writes everything and makes sure that it is on the disk.
fn fill(file: &mut File, bytes: &[u8], former: Option<&Metadata>, gate: Gate<'_>) -> io::Result<()> {
    for chunk in bytes.chunks(CHUNK) {
        gate(SaveStep::Write)?;
        file.write_all(chunk)?;
    }
    if let Some(former) = former {
        keep_access(file, former)?;
    }
    gate(SaveStep::Sync)?;
    file.sync_all()
}

/// Gives the file the owner and the permissions of the former one, as far as this user and the disk allow: only an
/// administrator may change the owner, and a memory stick has no permissions. The work is saved even so: losing it
/// would be worse, and a file that keeps its initial mode is the more private one.
fn keep_access(file: &File, former: &Metadata) -> io::Result<()> {
    #[cfg(unix)]
    {
        use std::os::unix::fs::MetadataExt;
        let own = file.metadata()?;
        if (own.uid(), own.gid()) != (former.uid(), former.gid()) {
            let _ = std::os::unix::fs::fchown(file, Some(former.uid()), Some(former.gid()));
        }
    }
    if file.metadata()?.permissions() != former.permissions() {
        let _ = file.set_permissions(former.permissions());
    }
    Ok(())
}

/// Syncs the folder, so that the new name lasts. Some file systems do not support that.
#[cfg(unix)]
fn sync_folder(folder: &Path) -> io::Result<()> {
    match File::open(folder).and_then(|folder| folder.sync_all()) {
        Err(error) if matches!(error.kind(), ErrorKind::InvalidInput | ErrorKind::Unsupported) => Ok(()),
        // A folder may be open to writing but not to reading; it cannot be synced then.
        Err(error) if error.kind() == ErrorKind::PermissionDenied => Ok(()),
        other => other,
    }
}

/// Other systems rely on the rename alone.
#[cfg(not(unix))]
fn sync_folder(_folder: &Path) -> io::Result<()> {
    Ok(())
}

/// Translates a system error.
fn save_error(target: &Path, folder: &Path, source: io::Error) -> SaveError {
    match source.kind() {
        ErrorKind::NotFound | ErrorKind::NotADirectory | ErrorKind::StaleNetworkFileHandle => {
            SaveError::NoFolder(folder.to_owned())
        }
        ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => SaveError::ReadOnlyFolder(folder.to_owned()),
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => SaveError::DiskFull(target.to_owned()),
        ErrorKind::IsADirectory => SaveError::IsFolder(target.to_owned()),
        _ => SaveError::Other { path: target.to_owned(), source },
    }
}

#[cfg(test)]
mod tests;
