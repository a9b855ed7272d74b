//! A picture of the window, made by the program itself for its documentation.

use std::{
    fs::File,
    io::BufWriter,
    path::{Path, PathBuf},
    sync::{Arc, Mutex},
};

use egui::{ColorImage, Context, ViewportCommand};

/// Frames before the picture, so that the layout has settled.
const SETTLE: u32 = 8;

/// A picture that is to be made; the window closes afterwards.
pub struct Picture {
    path: PathBuf,
    frames: u32,
    taken: Arc<Mutex<Option<Arc<ColorImage>>>>,
}

impl Picture {
    /// A picture to be written here.
    #[must_use]
    pub fn new(path: PathBuf) -> Self {
        Self { path, frames: 0, taken: Arc::default() }
    }

    /// Counts a frame, and takes the picture when it is due.
    pub fn frame(&mut self, ctx: &Context, busy: bool) {
        let taken = self.taken.lock().ok().and_then(|mut image| image.take());
        if let Some(image) = taken {
            if let Err(problem) = write(&self.path, &image) {
                eprintln!("standpoint: {} cannot be written: {problem}", self.path.display());
            }
            ctx.send_viewport_cmd(ViewportCommand::Close);
            return;
        }
        if !busy {
            self.frames += 1;
        }
        if self.frames == SETTLE {
            let (slot, waker) = (Arc::clone(&self.taken), ctx.clone());
            ctx.request_screenshot(move |image| {
                if let Ok(mut slot) = slot.lock() {
                    *slot = Some(image);
                }
                waker.request_repaint();
            });
        } else if self.frames < SETTLE {
            ctx.request_repaint();
        }
    }
}

fn write(path: &Path, image: &ColorImage) -> Result<(), png::EncodingError> {
    let file = BufWriter::new(File::create(path)?);
    let [width, height] = image.size.map(|side| side as u32);
    let mut encoder = png::Encoder::new(file, width, height);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    let bytes: Vec<u8> = image.pixels.iter().flat_map(|p| [p.r(), p.g(), p.b()]).collect();
    encoder.write_header()?.write_image_data(&bytes)
}
