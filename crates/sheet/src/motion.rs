//! Moving pictures: frames put together to a GIF or an animated PNG.

mod palette;

use std::{num::NonZero, thread};

use gif::{DisposalMethod, Encoder, Frame, Repeat};

use crate::{Drawing, SheetError, raster, raster::Pixels};
use palette::Palette;

/// Frames with the time each is shown.
#[derive(Debug, Clone, PartialEq)]
pub struct Motion {
    /// The frames, all of one size.
    pub frames: Vec<Pixels>,
    /// Frames a second.
    pub rate: f64,
    /// Length of the whole, s; the last frame is shown for what is left of it.
    pub duration: f64,
}

/// How many frames a moving picture of this length has.
#[must_use]
pub fn count(duration: f64, rate: f64) -> usize {
    ((duration * rate - 1e-6).ceil().max(1.0)) as usize
}

impl Motion {
    /// Paints drawings as frames, on as many threads as there are processors.
    ///
    /// # Errors
    /// When a drawing is no proper SVG, or there is none.
    pub fn paint(
        drawings: &[Drawing],
        size: (u32, u32),
        ground: [u8; 3],
        (rate, duration): (f64, f64),
    ) -> Result<Self, SheetError> {
        let threads = thread::available_parallelism().map_or(1, NonZero::get).min(8);
        let each = drawings.len().div_ceil(threads).max(1);
        let parts: Vec<Result<Vec<Pixels>, SheetError>> = thread::scope(|scope| {
            let work = |part: &'_ [Drawing]| part.iter().map(|d| raster::pixels(d, size, ground)).collect();
            let started: Vec<_> = drawings.chunks(each).map(|part| scope.spawn(move || work(part))).collect();
            let failed = || Err(SheetError::NoFrames);
            started.into_iter().map(|thread| thread.join().unwrap_or_else(|_| failed())).collect()
        });
        let mut frames = Vec::with_capacity(drawings.len());
        for part in parts {
            frames.extend(part?);
        }
        if frames.is_empty() {
            return Err(SheetError::NoFrames);
        }
        Ok(Self { frames, rate, duration })
    }

    /// When a frame ends, s.
    fn end(&self, frame: usize) -> f64 {
        if frame + 1 == self.frames.len() { self.duration } else { (frame + 1) as f64 / self.rate }
    }

    /// The moving picture as a GIF that goes on for ever. A GIF counts hundredths of a second, so frames are shown for
    /// a little longer or shorter by turns; the whole is right to the hundredth.
    ///
    /// # Errors
    /// When there is no frame or the writer gives up.
    pub fn to_gif(&self) -> Result<Vec<u8>, SheetError> {
        let first = self.frames.first().ok_or(SheetError::NoFrames)?;
        let (width, height) = (side(first.width)?, side(first.height)?);
        let mut palette = Palette::of(&self.frames);
        let mut bytes = Vec::new();
        let mut encoder = Encoder::new(&mut bytes, width, height, &palette.colors())?;
        encoder.set_repeat(Repeat::Infinite)?;
        let (mut before, mut shown): (Option<Vec<u8>>, u64) = (None, 0);
        for (i, pixels) in self.frames.iter().enumerate() {
            let indexed = palette.indexed(pixels);
            let end = (self.end(i) * 100.0).round() as u64;
            let delay = u16::try_from(end.saturating_sub(shown)).unwrap_or(u16::MAX);
            shown = end.max(shown);
            let mut frame = changed(before.as_deref(), &indexed, width);
            frame.delay = delay;
            frame.dispose = DisposalMethod::Keep;
            encoder.write_frame(&frame)?;
            before = Some(indexed);
        }
        drop(encoder);
        Ok(bytes)
    }

    /// The moving picture as an animated PNG that goes on for ever, in full colour.
    ///
    /// # Errors
    /// When there is no frame or the writer gives up.
    pub fn to_apng(&self) -> Result<Vec<u8>, SheetError> {
        let first = self.frames.first().ok_or(SheetError::NoFrames)?;
        let count = u32::try_from(self.frames.len()).unwrap_or(u32::MAX);
        let mut bytes = Vec::new();
        let mut encoder = png::Encoder::new(&mut bytes, first.width, first.height);
        encoder.set_color(png::ColorType::Rgba);
        encoder.set_depth(png::BitDepth::Eight);
        encoder.set_compression(png::Compression::Fast);
        encoder.set_animated(count, 0)?;
        let mut writer = encoder.write_header()?;
        let mut shown = 0;
        for (i, frame) in self.frames.iter().enumerate() {
            let end = (self.end(i) * 1000.0).round() as u64;
            writer.set_frame_delay(u16::try_from(end.saturating_sub(shown)).unwrap_or(u16::MAX), 1000)?;
            shown = end.max(shown);
            writer.write_image_data(&frame.rgba)?;
        }
        writer.finish()?;
        Ok(bytes)
    }
}

fn side(pixels: u32) -> Result<u16, SheetError> {
    u16::try_from(pixels).map_err(|_| SheetError::Size { width: pixels, height: pixels, most: u16::MAX.into() })
}

/// The smallest changed rectangle, with unchanged pixels transparent.
fn changed(before: Option<&[u8]>, now: &[u8], width: u16) -> Frame<'static> {
    let wide = usize::from(width);
    let Some(before) = before else {
        let height = (now.len() / wide.max(1)) as u16;
        return Frame { width, height, buffer: now.to_vec().into(), ..Frame::default() };
    };
    let differs = |i: usize| before.get(i) != now.get(i);
    let rows = now.len() / wide.max(1);
    let row_differs = |y: usize| (y * wide..(y + 1) * wide).any(differs);
    let (top, bottom) = ((0..rows).find(|y| row_differs(*y)), (0..rows).rfind(|y| row_differs(*y)));
    let (Some(top), Some(bottom)) = (top, bottom) else {
        // Nothing has changed: one transparent pixel.
        let buffer = vec![palette::THROUGH].into();
        return Frame { width: 1, height: 1, buffer, transparent: Some(palette::THROUGH), ..Frame::default() };
    };
    let column_differs = |x: usize| (top..=bottom).any(|y| differs(y * wide + x));
    let left = (0..wide).find(|x| column_differs(*x)).unwrap_or(0);
    let right = (0..wide).rfind(|x| column_differs(*x)).unwrap_or(wide - 1);
    let buffer: Vec<u8> = (top..=bottom)
        .flat_map(|y| (left..=right).map(move |x| y * wide + x))
        .map(|i| if differs(i) { now[i] } else { palette::THROUGH })
        .collect();
    Frame {
        left: left as u16,
        top: top as u16,
        width: (right - left + 1) as u16,
        height: (bottom - top + 1) as u16,
        buffer: buffer.into(),
        transparent: Some(palette::THROUGH),
        ..Frame::default()
    }
}
