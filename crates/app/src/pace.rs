//! How long a frame takes while the ball is dragged, measured by the window itself.

use std::f64::consts::TAU;

use egui::{Context, ViewportCommand};
use glam::DVec2;

use crate::edit::Edit;

/// Frames left out at the beginning, while fonts and flights are made.
const WARM: usize = 20;

/// A measurement in progress: the target goes round, frame after frame.
pub struct Pace {
    frames: usize,
    around: DVec2,
    taken: Vec<f32>,
    told: bool,
}

impl Pace {
    /// A measurement over so many frames, with the target going round a place.
    #[must_use]
    pub fn new(frames: usize, around: DVec2) -> Self {
        Self { frames, around, taken: Vec::with_capacity(frames + WARM), told: false }
    }

    /// Takes the time of the last frame, in seconds, and says where the target goes in this one.
    pub fn frame(&mut self, ctx: &Context, last: Option<f32>) -> Option<Edit> {
        self.taken.extend(last);
        if self.told {
            return None;
        }
        if self.taken.len() >= self.frames + WARM {
            self.report();
            ctx.send_viewport_cmd(ViewportCommand::Close);
            return None;
        }
        ctx.request_repaint();
        let turn = TAU * self.taken.len() as f64 / 90.0;
        Some(Edit::Target(self.around + DVec2::new(turn.sin(), turn.cos())))
    }

    fn report(&mut self) {
        let mut times = self.taken.split_off(WARM.min(self.taken.len()));
        times.sort_by(f32::total_cmp);
        let at = |part: f64| times.get((times.len() as f64 * part) as usize).map_or(0.0, |s| s * 1e3);
        eprintln!("frame cpu ms over {} frames: median {:.2}, 95 % {:.2}", times.len(), at(0.5), at(0.95));
        self.told = true;
    }
}
