//! System locks on small files: released with the process, however it ends.

use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, ErrorKind};
use std::path::Path;

/// Creates a folder that only this user can access, and those above it.
pub(crate) fn private_folder(folder: &Path) -> io::Result<()> {
    let mut builder = fs::DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
    builder.create(folder)
}

/// The file, created if missing, locked for this process alone; `None` when another process has locked it.
pub(crate) fn take(path: &Path) -> io::Result<Option<File>> {
    loop {
        let file = OpenOptions::new().read(true).write(true).create(true).truncate(false).open(path)?;
        match file.try_lock() {
            Ok(()) if is_at(&file, path) => return Ok(Some(file)),
            // The holder removed the file on exit, and another may have been created.
            Ok(()) => {}
            Err(TryLockError::WouldBlock) => return Ok(None),
            Err(TryLockError::Error(error)) => return Err(error),
        }
    }
}

/// A new file, locked for this process alone; `None` when the name is taken.
pub(crate) fn make(path: &Path) -> io::Result<Option<File>> {
    let file = match OpenOptions::new().read(true).write(true).create_new(true).open(path) {
        Err(error) if error.kind() == ErrorKind::AlreadyExists => return Ok(None),
        other => other?,
    };
    file.lock()?;
    // The file may have been swept before it was locked.
    Ok(is_at(&file, path).then_some(file))
}

/// Whether a process has the file locked; `Err` where the system cannot tell.
pub(crate) fn is_held(path: &Path) -> io::Result<bool> {
    let file = match OpenOptions::new().read(true).write(true).open(path) {
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(false),
        other => other?,
    };
    // A shared lock, so that two processes checking at the same time do not take each other for the holder.
    match file.try_lock_shared() {
        Ok(()) => Ok(false),
        Err(TryLockError::WouldBlock) => Ok(true),
        Err(TryLockError::Error(error)) => Err(error),
    }
}

/// Removes a file that this process has locked and is about to release.
///
/// Removes it only where [`take`] can detect that the locked file no longer has its name; elsewhere the file stays for
/// the next process.
pub(crate) fn give_back(path: &Path) {
    if cfg!(unix) {
        let _ = fs::remove_file(path);
    }
}

/// Whether the open file is the one of this name.
#[cfg(unix)]
fn is_at(file: &File, path: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    match (file.metadata(), fs::metadata(path)) {
        (Ok(ours), Ok(named)) => (ours.dev(), ours.ino()) == (named.dev(), named.ino()),
        _ => false,
    }
}

#[cfg(not(unix))]
fn is_at(_file: &File, path: &Path) -> bool {
    path.exists()
}

/// A hash: FNV-1a with 64 bits (G. Fowler, L. C. Noll, K.-P. Vo, D. Eastlake, "The FNV
/// Non-Cryptographic Hash Algorithm"). It stays the same from one build of the program to the next.
pub(crate) fn fingerprint(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, |hash, byte| (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3))
}
