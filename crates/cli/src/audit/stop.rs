//! The wish to stop: Ctrl-C, or the system's request to end.

use std::{
    process,
    sync::{
        Once,
        atomic::{AtomicBool, Ordering},
    },
};

use crate::EXIT_STOPPED;

/// Set once somebody wishes that the audit stops. Whoever asks a second time is not made to wait.
pub fn wanted() -> &'static AtomicBool {
    static WANTED: AtomicBool = AtomicBool::new(false);
    static ONCE: Once = Once::new();
    ONCE.call_once(|| {
        // Where no handler can be set, the system ends the program: the files that grow are not in their places yet.
        let _ = ctrlc::set_handler(|| {
            if WANTED.swap(true, Ordering::Relaxed) {
                process::exit(i32::from(EXIT_STOPPED));
            }
        });
    });
    &WANTED
}
