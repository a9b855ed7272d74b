//! The smallest window of the toolkit: one label. It says when its first frame has been painted, as `standpoint
//! --say-painted` does, and then waits for nothing.

use std::time::{SystemTime, UNIX_EPOCH};

use eframe::egui;

struct Floor {
    frames: u32,
}

impl eframe::App for Floor {
    fn ui(&mut self, ui: &mut egui::Ui, _: &mut eframe::Frame) {
        self.frames += 1;
        match self.frames {
            1 => ui.ctx().request_repaint(),
            // The second frame begins once the first has been painted and shown.
            2 => eprintln!("painted {:.6}", SystemTime::now().duration_since(UNIX_EPOCH).map_or(0.0, |d| d.as_secs_f64())),
            _ => {}
        }
        egui::CentralPanel::default().show(ui, |ui| ui.label("floor"));
    }
}

fn main() -> eframe::Result {
    // The size in points as WIDTHxHEIGHT; otherwise the toolkit's own.
    let size = std::env::args().nth(1);
    let size = size.as_deref().and_then(|size| size.split_once('x')).and_then(|(w, h)| Some([w.parse().ok()?, h.parse().ok()?]));
    let mut options = eframe::NativeOptions::default();
    options.viewport.inner_size = size.map(|[w, h]: [f32; 2]| egui::vec2(w, h));
    eframe::run_native("floor", options, Box::new(|_| Ok(Box::new(Floor { frames: 0 }))))
}
