//! State of a file when a window last read or wrote it, to notice changes by others.

use std::fs;
use std::io::ErrorKind;
use std::path::Path;

use super::error::{LoadError, SaveError};
use super::load::load_bytes;
use crate::file::SIZE_LIMIT;
use crate::lock::system::fingerprint;

/// Length and fingerprint of a file's content. The time of its last change is ignored: a file only touched, or copied
/// back, is the same; one changed within a tick of the clock is not.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stamp {
    length: u64,
    fingerprint: u64,
}

/// Comparison of a file with its stamp.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OnDisk {
    /// Unchanged.
    Same,
    /// Content has changed.
    Changed,
    /// File is gone.
    Gone,
}

impl Stamp {
    /// The stamp of a content.
    #[must_use]
    pub fn of(bytes: &[u8]) -> Self {
        Self { length: bytes.len() as u64, fingerprint: fingerprint(bytes) }
    }

    /// The stamp of a file on disk, for instance after [`SaveError::Unconfirmed`].
    ///
    /// # Errors
    ///
    /// See [`LoadError`].
    pub fn at(path: &Path) -> Result<Self, LoadError> {
        load_bytes(path, SIZE_LIMIT).map(|bytes| Self::of(&bytes))
    }

    /// Compares with the file. An unreadable file counts as changed.
    #[must_use]
    pub fn compare(&self, path: &Path) -> OnDisk {
        match fs::metadata(path) {
            Err(error) if matches!(error.kind(), ErrorKind::NotFound | ErrorKind::NotADirectory) => OnDisk::Gone,
            Ok(metadata) if metadata.len() == self.length => match load_bytes(path, SIZE_LIMIT) {
                Ok(bytes) if Self::of(&bytes) == *self => OnDisk::Same,
                Err(LoadError::NotThere(_)) => OnDisk::Gone,
                _ => OnDisk::Changed,
            },
            _ => OnDisk::Changed,
        }
    }

    /// An error unless the file is unchanged.
    pub(crate) fn holds(&self, path: &Path) -> Result<(), SaveError> {
        match self.compare(path) {
            OnDisk::Same => Ok(()),
            OnDisk::Changed => Err(SaveError::ChangedOnDisk(path.to_owned())),
            OnDisk::Gone => Err(SaveError::GoneFromDisk(path.to_owned())),
        }
    }
}
