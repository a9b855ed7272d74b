//! Frame times while the target is dragged, measured by the window itself.

use std::{f64::consts::TAU, time::Duration};

use egui::{Context, ViewportCommand};
use glam::DVec2;
use standpoint_workbench::edit::Edit;

/// Frames left out at the beginning, while fonts and flights are made.
const WARM: usize = 20;

/// A measurement in progress: the target goes round, frame after frame.
pub struct FrameTiming {
    frames: usize,
    around: DVec2,
    whole: Vec<f32>,
    answers: Vec<f32>,
    showing: Vec<f32>,
    told: bool,
}

impl FrameTiming {
    /// A measurement over so many frames, with the target going round a place.
    #[must_use]
    pub fn new(frames: usize, around: DVec2) -> Self {
        Self { frames, around, whole: Vec::new(), answers: Vec::new(), showing: Vec::new(), told: false }
    }

    /// Takes the time of the last frame, s, and returns the move of the target in this one.
    pub fn frame(&mut self, ctx: &Context, last: Option<f32>) -> Option<Edit> {
        self.whole.extend(last);
        if self.told {
            return None;
        }
        if self.whole.len() >= self.frames + WARM {
            self.report();
            ctx.send_viewport_cmd(ViewportCommand::Close);
            return None;
        }
        ctx.request_repaint();
        let turn = TAU * self.whole.len() as f64 / 90.0;
        Some(Edit::Target(self.around + DVec2::new(turn.sin(), turn.cos())))
    }

    /// Takes the parts of a frame: the answer, and showing it.
    pub fn parts(&mut self, answer: Duration, showing: Duration) {
        self.answers.push(answer.as_secs_f32());
        self.showing.push(showing.as_secs_f32());
    }

    fn report(&mut self) {
        for (what, times) in
            [("whole frame", &mut self.whole), ("answer", &mut self.answers), ("panels and court", &mut self.showing)]
        {
            let mut times = times.split_off(WARM.min(times.len()));
            times.sort_by(f32::total_cmp);
            let at = |part: f64| times.get((times.len() as f64 * part) as usize).map_or(0.0, |s| s * 1e3);
            eprintln!("{what}: median {:.2} ms, 95 % {:.2} ms, {} frames", at(0.5), at(0.95), times.len());
        }
        self.told = true;
    }
}
