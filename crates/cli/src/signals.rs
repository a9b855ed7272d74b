//! The system's request to end: Ctrl-C, SIGTERM, or SIGHUP as when a session ends.

use std::{
    process,
    sync::{Mutex, PoisonError},
    time::{Duration, Instant},
};

use crate::EXIT_STOPPED;

/// Requests that follow each other so quickly are one: `timeout`, a terminal and a session tell both the program and the
/// group it is in.
const ONE_REQUEST: Duration = Duration::from_millis(300);

/// Does something at the first request to end. A second one ends the program at once. Whoever asks first is heard.
pub fn at_the_first(something: impl Fn() + Send + 'static) {
    let first = Mutex::new(None);
    // Without a handler the system ends the program: unfinished files are not in their places yet, and a copy of unsaved
    // work is found at the next start.
    let _ = ctrlc::set_handler(move || {
        let mut first = first.lock().unwrap_or_else(PoisonError::into_inner);
        match *first {
            None => {
                *first = Some(Instant::now());
                something();
            }
            Some(at) if at.elapsed() < ONE_REQUEST => {}
            Some(_) => process::exit(i32::from(EXIT_STOPPED)),
        }
    });
}
