//! Files that an answer goes to.

use std::path::Path;

use standpoint_board::store::{self, GrowingFile, SaveError};

use crate::{
    EXIT_STOPPED, complain,
    fault::{Fault, line},
    signals,
};

/// Begins a file that takes its place only when it is complete. Says so when the former one has other names.
///
/// # Errors
/// A file that cannot be written.
pub fn begin(path: &Path) -> Result<GrowingFile, Box<Fault>> {
    let file = GrowingFile::begin(path).map_err(|error| fault(&error))?;
    tell_of_names(path);
    let temporary = file.temporary().to_owned();
    // An audit has seen to its own end before it begins a file, and that counts.
    signals::at_the_first(move || {
        let _ = std::fs::remove_file(&temporary);
        std::process::exit(i32::from(EXIT_STOPPED));
    });
    Ok(file)
}

/// Says when a file that is about to be replaced has other names.
pub fn tell_of_names(path: &Path) {
    if store::other_names(path) > 0 {
        let remedy = "Link them anew to what is written here.";
        complain(&line(&path.display().to_string(), "its other names (hard links) keep what was there before", remedy));
    }
}

/// Why a file could not be written.
pub fn fault(error: &SaveError) -> Box<Fault> {
    Fault::new("output", "standpoint", error.to_string(), error.remedy())
}
