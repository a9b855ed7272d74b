//! The request to stop: Ctrl-C, or the system's signal to end.

use std::{
    process,
    sync::{
        Once,
        atomic::{AtomicBool, Ordering},
    },
    thread,
    time::Duration,
};

use crate::{EXIT_STOPPED, complain, signals};

/// Set by the first request to stop.
static WANTED: AtomicBool = AtomicBool::new(false);
/// Set when every shot is done, or as many as there will be.
static FINISHING: AtomicBool = AtomicBool::new(false);
/// How long shots that are being computed and rows that are being written may take to end. Everybody is to see the
/// end within a second.
const PATIENCE: Duration = Duration::from_millis(800);
/// How long the answer may take to be finished.
const TO_FINISH: Duration = Duration::from_secs(10);

/// Set by the first request to stop. A second one ends the program at once, and so does the first when the answer
/// cannot be got rid of because nobody reads it.
pub fn wanted() -> &'static AtomicBool {
    static ONCE: Once = Once::new();
    ONCE.call_once(|| {
        signals::at_the_first(|| {
            WANTED.store(true, Ordering::Relaxed);
            thread::spawn(see_to_the_end);
        });
    });
    &WANTED
}

/// Whether a stop is wanted, for what is read before and while [`wanted`] is asked for.
pub fn flag() -> &'static AtomicBool {
    &WANTED
}

/// What has been computed is all there will be; finishing it takes its time.
pub fn finishing() {
    FINISHING.store(true, Ordering::Relaxed);
}

fn see_to_the_end() {
    thread::sleep(PATIENCE);
    if FINISHING.load(Ordering::Relaxed) {
        thread::sleep(TO_FINISH);
    }
    complain("standpoint: stopped; the answer could not be written to its end, because nobody reads it.");
    process::exit(i32::from(EXIT_STOPPED));
}
