//! Claims on files: a second window learns who has the file open, and since when.
//!
//! A window that opens a board claims it. The claim is a small file in a folder that the program chooses (one that
//! lasts no longer than the session), locked by the system while the window is open; it names the window for the
//! others. The claim of a dead process is no longer locked, so it is taken over without a question.
//!
//! A claim only informs: saving never fails for lack of one. The file itself is guarded by
//! [`crate::store::save_board_over`], which notices a save by another program.

use std::fs::{self, File};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

pub(crate) mod system;

/// The window that has a board open.
#[derive(Debug, Clone, PartialEq)]
pub struct Holder {
    /// Number of the process.
    pub process: u32,
    /// Name of the window for the other window's user, as given to [`claim`]; may be empty.
    pub who: String,
    /// Since when, s since the beginning of 1970, as given to [`claim`].
    pub since: f64,
}

/// The claim on a board; released when dropped, and by the system when the process dies.
#[derive(Debug)]
pub struct FileClaim {
    path: PathBuf,
    _locked: File,
}

/// Result of claiming a board.
#[derive(Debug)]
pub enum Claimed {
    /// This window has it now.
    Ours(FileClaim),
    /// Another window has it: offer to look at it or to open a copy.
    Theirs(Holder),
    /// The folder cannot be used for claims.
    Unguarded(io::Error),
}

/// Claims a board for a window.
///
/// `folder` holds the claims of all windows of this user and is made when it is missing. `board` need not exist yet.
/// `who` names the window in one line, `now` is the time in s since the beginning of 1970.
#[must_use]
pub fn claim(folder: &Path, board: &Path, who: &str, now: f64) -> Claimed {
    let path =
        folder.join(format!("{:016x}.lock", system::fingerprint(real_path(board).as_os_str().as_encoded_bytes())));
    let taken = system::private_folder(folder).and_then(|()| system::take(&path));
    match taken {
        Ok(Some(mut file)) => match tell(&mut file, who, now) {
            Ok(()) => Claimed::Ours(FileClaim { path, _locked: file }),
            Err(error) => Claimed::Unguarded(error),
        },
        Ok(None) => Claimed::Theirs(holder(&path)),
        Err(error) => Claimed::Unguarded(error),
    }
}

impl Drop for FileClaim {
    fn drop(&mut self) {
        system::give_back(&self.path);
    }
}

/// The canonical path of a file, through any link or folder.
fn real_path(board: &Path) -> PathBuf {
    if let Ok(real) = fs::canonicalize(board) {
        return real;
    }
    let folder = board.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    match (fs::canonicalize(folder), board.file_name()) {
        (Ok(folder), Some(name)) => folder.join(name),
        _ => board.to_owned(),
    }
}

fn tell(file: &mut File, who: &str, now: f64) -> io::Result<()> {
    let who: String = who.chars().filter(|c| !c.is_control()).take(200).collect();
    file.set_len(0)?;
    file.write_all(format!("process: {}\nsince: {now}\nwho: {who}\n", std::process::id()).as_bytes())
}

/// The holder's facts; the name is empty while the holder is still writing them.
fn holder(path: &Path) -> Holder {
    let mut text = String::new();
    // An unreadable claim is still a claim.
    let _ = File::open(path).and_then(|file| file.take(4096).read_to_string(&mut text));
    let part = |name: &str| text.lines().find_map(|line| line.strip_prefix(name)).unwrap_or_default();
    Holder {
        process: part("process: ").parse().unwrap_or(0),
        who: part("who: ").to_owned(),
        since: part("since: ").parse().unwrap_or(0.0),
    }
}

#[cfg(test)]
mod tests;
