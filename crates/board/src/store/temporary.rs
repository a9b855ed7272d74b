//! The temporary file of a save: its name, its lock, and the left-overs of saves that were killed.

use std::fs::{self, File, Metadata, OpenOptions};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};

const BEGINNING: &str = ".standpoint-";
const ENDING: &str = ".tmp";

/// A new, locked file in the folder, under a unique name. It is private until complete when the file it replaces has
/// permissions of its own.
///
/// The lock tells [`sweep`], in this program or another, that the file is in use; it ends with the process.
pub(super) fn create(folder: &Path, former: Option<&Metadata>) -> io::Result<(PathBuf, File)> {
    static COUNTER: AtomicU64 = AtomicU64::new(0);
    let mut options = OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    if former.is_some() {
        std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    }
    #[cfg(not(unix))]
    let _ = former;
    loop {
        let count = COUNTER.fetch_add(1, Ordering::Relaxed);
        let path = folder.join(format!("{BEGINNING}{}-{count}{ENDING}", std::process::id()));
        match options.open(&path) {
            Ok(file) => {
                // A disk without locks is never swept, so nothing is lost without a lock.
                let locked = file.lock().is_ok();
                // The file may have been swept before it was locked.
                if !locked || path.exists() {
                    return Ok((path, file));
                }
            }
            // Left over from a killed program with the same process number.
            Err(error) if error.kind() == ErrorKind::AlreadyExists => {}
            Err(error) => return Err(error),
        }
    }
}

/// Removes files left by killed saves in the folder. Failures are ignored, as this only tidies up.
pub(super) fn sweep(folder: &Path) {
    let Ok(entries) = fs::read_dir(folder) else { return };
    for entry in entries.flatten() {
        let name = entry.file_name();
        let ours = name.to_str().is_some_and(|name| name.starts_with(BEGINNING) && name.ends_with(ENDING));
        if ours && entry.file_type().is_ok_and(|kind| kind.is_file()) {
            remove_abandoned(&entry.path());
        }
    }
}

/// Removes the file if nobody holds its lock. The lock is held until the file is gone: a process that has just created
/// the file waits for it in [`create`] and then sees that the file is gone.
fn remove_abandoned(path: &Path) {
    // Opened for writing because some systems lock only writable files.
    let Ok(file) = OpenOptions::new().write(true).open(path) else { return };
    if file.try_lock().is_ok() {
        let _ = fs::remove_file(path);
    }
}
