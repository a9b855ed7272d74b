//! The system's request to end: SIGTERM, SIGINT and SIGHUP, as when a session ends.

use std::{
    process,
    sync::atomic::{AtomicBool, Ordering},
    thread,
    time::Duration,
};

use egui::Context;
use standpoint_cli::{EXIT_STOPPED, signals};

static WANTED: AtomicBool = AtomicBool::new(false);
/// How long the window may take to keep unsaved work. A window that draws nothing more has its copies of a few seconds
/// before.
const PATIENCE: Duration = Duration::from_secs(2);

/// Wakes the window when the system asks the program to end. A second request ends it at once.
pub fn watch(ctx: &Context) {
    let ctx = ctx.clone();
    signals::at_the_first(move || {
        WANTED.store(true, Ordering::Relaxed);
        ctx.request_repaint();
        thread::spawn(|| {
            thread::sleep(PATIENCE);
            process::exit(i32::from(EXIT_STOPPED));
        });
    });
}

/// Whether the system wants the program to end.
#[must_use]
pub fn wanted() -> bool {
    WANTED.load(Ordering::Relaxed)
}
