//! Reads the bytes of a file within a limit.

use std::fs::{self, File};
use std::io::{self, ErrorKind, Read};
use std::path::Path;

use super::error::LoadError;
use crate::problem::{Problem, ProblemKind, Report};

/// Reads a file of at most `limit` bytes; the size is checked before reading.
///
/// # Errors
///
/// See [`LoadError`]; a larger file is a [`LoadError::Content`].
pub fn load_bytes(path: &Path, limit: u64) -> Result<Vec<u8>, LoadError> {
    let failed = |source: io::Error| match source.kind() {
        ErrorKind::NotFound | ErrorKind::NotADirectory => LoadError::NotThere(path.to_owned()),
        ErrorKind::PermissionDenied => LoadError::NotAllowed(path.to_owned()),
        _ => LoadError::Other { path: path.to_owned(), source },
    };
    let too_large = |bytes| {
        let report = Report::of(Problem::new("", ProblemKind::TooLarge { bytes, limit }));
        LoadError::Content { path: path.to_owned(), report }
    };
    // Checked before opening: opening a pipe would wait for a writer.
    let metadata = fs::metadata(path).map_err(failed)?;
    if metadata.is_dir() {
        return Err(LoadError::IsFolder(path.to_owned()));
    }
    if !metadata.is_file() {
        return Err(LoadError::NotAFile(path.to_owned()));
    }
    if metadata.len() > limit {
        return Err(too_large(metadata.len()));
    }
    let mut bytes = Vec::with_capacity(metadata.len() as usize);
    // The file may grow meanwhile.
    File::open(path).map_err(failed)?.take(limit + 1).read_to_end(&mut bytes).map_err(failed)?;
    if bytes.len() as u64 > limit {
        return Err(too_large(bytes.len() as u64));
    }
    Ok(bytes)
}
