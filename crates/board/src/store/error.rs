//! Why a file could not be saved or read, and what to do about it.

use std::io;
use std::path::PathBuf;

use standpoint_language::{text, tr};

use crate::problem::Report;

/// Why a board could not be saved. The former file, if any, is unchanged, except after [`SaveError::Unconfirmed`].
#[derive(Debug, thiserror::Error)]
pub enum SaveError {
    /// The board itself is wrong.
    #[error("{}", tr!("the board cannot be saved as it is:\n{}", .0))]
    Board(Report),
    /// The path names no file.
    #[error("{}", tr!("`{}` names no file", .0.display()))]
    NoName(PathBuf),
    /// There is a folder of this name.
    #[error("{}", tr!("`{}` is a folder", .0.display()))]
    IsFolder(PathBuf),
    /// There is something else of this name: a device, a pipe.
    #[error("{}", tr!("`{}` is not an ordinary file", .0.display()))]
    NotAFile(PathBuf),
    /// The folder is not there, or no longer.
    #[error("{}", tr!("the folder `{}` is not there", .0.display()))]
    NoFolder(PathBuf),
    /// The folder, or the disk it is on, can only be read.
    #[error("{}", tr!("the folder `{}` can only be read", .0.display()))]
    ReadOnlyFolder(PathBuf),
    /// The file can only be read.
    #[error("{}", tr!("the file `{}` can only be read", .0.display()))]
    ReadOnlyFile(PathBuf),
    /// No room.
    #[error("{}", tr!("there is no room left on the disk of `{}`", .0.display()))]
    DiskFull(PathBuf),
    /// Another program has saved since the window last read or wrote the file.
    #[error("{}", tr!("`{}` has been changed by another window or program since it was opened here", .0.display()))]
    ChangedOnDisk(PathBuf),
    /// The file existed when it was opened, and is gone.
    #[error("{}", tr!("`{}` is no longer there: it was moved or removed, or its drive is gone", .0.display()))]
    GoneFromDisk(PathBuf),
    /// The new file is in its place, but the disk has not confirmed that it will stay there after a power cut.
    #[error("{}", tr!("`{}` is saved, but the disk did not confirm it: {}", path.display(), source))]
    Unconfirmed {
        /// The file.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// Anything else.
    #[error("{}", tr!("`{}` could not be saved: {}", path.display(), source))]
    Other {
        /// The file.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
}

impl SaveError {
    /// What to do about it.
    #[must_use]
    pub fn remedy(&self) -> &'static str {
        match self {
            Self::Board(_) => text("Correct the board first."),
            Self::NoName(_) => text("Give the file a name."),
            Self::IsFolder(_) | Self::NotAFile(_) => text("Choose another name."),
            Self::NoFolder(_) => text("Connect the drive again, or save elsewhere."),
            Self::ReadOnlyFolder(_) => text("Save elsewhere."),
            Self::ReadOnlyFile(_) => text("Save under another name, or allow writing to the file."),
            Self::DiskFull(_) => text("Free some room, or save elsewhere."),
            Self::ChangedOnDisk(_) => text("Save under another name to keep both, open it again, or save over it."),
            Self::GoneFromDisk(_) => text("Connect the drive again, save elsewhere, or save it there anew."),
            Self::Unconfirmed { .. } => text("Save a second copy elsewhere."),
            Self::Other { .. } => text("Try again, or save elsewhere."),
        }
    }
}

/// Why a file could not be read.
#[derive(Debug, thiserror::Error)]
pub enum LoadError {
    /// There is no such file.
    #[error("{}", tr!("there is no file `{}`", .0.display()))]
    NotThere(PathBuf),
    /// It is a folder.
    #[error("{}", tr!("`{}` is a folder", .0.display()))]
    IsFolder(PathBuf),
    /// It is a device or a pipe.
    #[error("{}", tr!("`{}` is not an ordinary file", .0.display()))]
    NotAFile(PathBuf),
    /// It may not be read.
    #[error("{}", tr!("`{}` may not be read by this user", .0.display()))]
    NotAllowed(PathBuf),
    /// Its content is wrong.
    #[error("{}", tr!("`{}` cannot be opened:\n{}", path.display(), report))]
    Content {
        /// The file.
        path: PathBuf,
        /// All that is wrong.
        report: Report,
    },
    /// Anything else.
    #[error("{}", tr!("`{}` could not be read: {}", path.display(), source))]
    Other {
        /// The file.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
}

impl LoadError {
    /// What to do about it.
    #[must_use]
    pub fn remedy(&self) -> &'static str {
        match self {
            Self::NotThere(_) => text("Look for it elsewhere, or connect the drive again."),
            Self::IsFolder(_) | Self::NotAFile(_) => text("Choose a board in it or beside it."),
            Self::NotAllowed(_) => text("Allow this user to read it."),
            Self::Content { .. } => text("Correct the places named, or open an earlier copy."),
            Self::Other { .. } => text("Try again, or open a copy."),
        }
    }
}
