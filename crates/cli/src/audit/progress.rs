//! Progress of an audit, on a terminal only.

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use standpoint_charting::audit::Progress;

/// With a known size.
const KNOWN: &str = "{percent:>3} % {bar:30}  {msg}, {eta} to go";
/// Without.
const UNKNOWN: &str = "{spinner}  {msg}";

/// A line of progress on standard error, if that is a terminal.
pub struct Bar {
    bar: ProgressBar,
    /// Whether the size is in bytes rather than in shots.
    known: bool,
}

impl Bar {
    /// A bar for so many bytes or shots.
    pub fn new(size: Option<u64>) -> Self {
        // Four times a second is often enough to read.
        let bar = ProgressBar::with_draw_target(size, ProgressDrawTarget::stderr_with_hz(4));
        let template = if size.is_some() { KNOWN } else { UNKNOWN };
        if let Ok(style) = ProgressStyle::with_template(template) {
            bar.set_style(style.progress_chars("━╸─"));
        }
        bar.set_message("reading");
        Self { bar, known: size.is_some() }
    }

    /// Says how far it is.
    pub fn show(&self, progress: Progress) {
        let bad = if progress.bad > 0 { format!(", {} bad rows", progress.bad) } else { String::new() };
        let rate = progress.shots as f64 / self.bar.elapsed().as_secs_f64().max(1e-3);
        self.bar.set_message(format!("{} shots{bad}, {rate:.0} a second", progress.shots));
        // A chart has no bytes, and is measured in shots.
        let done = if progress.bytes > 0 { progress.bytes } else { progress.shots };
        if self.known {
            self.bar.set_position(done);
        } else {
            self.bar.tick();
        }
    }

    /// Writes something without mixing with the line of progress.
    pub fn tell(&self, write: impl FnOnce()) {
        self.bar.suspend(write);
    }

    /// Takes the line away.
    pub fn clear(&self) {
        self.bar.finish_and_clear();
    }
}
