//! The request to stop: Ctrl-C, or the system's signal to end.

use std::{
    process,
    sync::{
        Once,
        atomic::{AtomicBool, Ordering},
    },
};

use crate::EXIT_STOPPED;

/// Set by the first request to stop. A second one ends the program at once.
pub fn wanted() -> &'static AtomicBool {
    static WANTED: AtomicBool = AtomicBool::new(false);
    static ONCE: Once = Once::new();
    ONCE.call_once(|| {
        // Without a handler the system ends the program: unfinished files are not in their places yet.
        let _ = ctrlc::set_handler(|| {
            if WANTED.swap(true, Ordering::Relaxed) {
                process::exit(i32::from(EXIT_STOPPED));
            }
        });
    });
    &WANTED
}
