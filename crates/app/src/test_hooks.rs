//! Hooks for programs that measure and drive the real window from outside.

use std::time::{SystemTime, UNIX_EPOCH};

use egui::Context;
use standpoint_canvas::handles::handles;
use standpoint_ui::{commands::catalogue::CATALOGUE, transform::Transform};
use standpoint_workbench::session::Session;

/// First frame that reports handles: by then the window has its size.
const SETTLED: u32 = 10;
/// Least time between reports of moving handles, s.
const EVERY_S: f64 = 0.5;

/// Enabled hooks and what was reported.
#[derive(Debug, Default)]
pub struct TestHooks {
    /// Whether to print handles whenever they move, and all commands at the beginning.
    pub say_handles: bool,
    /// Whether to print when the first frame has been painted.
    pub say_painted: bool,
    /// Whether to panic, and after how many seconds.
    pub fault_after_s: Option<f64>,
    /// Frames so far.
    pub frames: u32,
    /// The places said last.
    pub said: String,
    /// When that was, s.
    pub said_at: f64,
}

impl TestHooks {
    /// Runs the hooks that are due.
    ///
    /// # Panics
    ///
    /// If enabled.
    pub fn frame(&mut self, ctx: &Context) {
        self.frames = self.frames.saturating_add(1);
        let waiting = (self.say_painted && self.frames < 2) || (self.say_handles && self.frames < SETTLED);
        if waiting {
            ctx.request_repaint();
        }
        // The second frame begins once the first has been painted and shown.
        if self.say_painted && self.frames == 2 {
            let now = SystemTime::now().duration_since(UNIX_EPOCH).map_or(0.0, |d| d.as_secs_f64());
            eprintln!("painted {now:.6}");
        }
        if self.say_handles && self.frames == SETTLED {
            say_commands();
        }
        if let Some(after) = self.fault_after_s {
            let now = ctx.input(|i| i.time);
            assert!(now < after, "a fault that was asked for");
            ctx.request_repaint_after_secs((after - now) as f32);
        }
    }

    /// Whether a report of handles is due.
    #[must_use]
    pub fn says_handles(&self, ctx: &Context) -> bool {
        let wait = self.said_at + EVERY_S - ctx.input(|i| i.time);
        self.say_handles && self.frames >= SETTLED && (self.said.is_empty() || wait <= 0.0)
    }

    /// Prints the handles if they have moved.
    pub fn handles(&mut self, ctx: &Context, at: &Transform, session: &Session) {
        let mut places = String::new();
        for handle in handles(session) {
            let p = at.screen_from_court(handle.place) * ctx.pixels_per_point();
            places.push_str(&format!("handle {:?} {:.0} {:.0}\n", handle.id, p.x, p.y));
        }
        if places != self.said {
            eprint!("{places}");
            self.said = places;
            self.said_at = ctx.input(|i| i.time);
        }
    }
}

/// Prints every command with its keys.
fn say_commands() {
    for spec in CATALOGUE.iter() {
        let keys = spec.shortcut.map_or_else(String::new, |keys| {
            let held =
                [(keys.modifiers.command, "ctrl+"), (keys.modifiers.alt, "alt+"), (keys.modifiers.shift, "shift+")];
            let held: String = held.iter().filter(|(held, _)| *held).map(|(_, name)| *name).collect();
            held + keys.logical_key.name()
        });
        eprintln!("command {:?} [{keys}] {}", spec.command, spec.label());
    }
}
