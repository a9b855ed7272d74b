//! Moving pictures, read back with the general readers of the `gif` and `png` crates.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

use standpoint_sheet::{
    Drawing,
    motion::{Motion, count},
    raster,
};

/// A ball that flies from left to right, at a frame rate for a duration.
fn flight(rate: f64, duration: f64) -> Motion {
    let frame = |i: usize| {
        let x = 10.0 + 180.0 * i as f64 / rate / duration;
        let body = format!(
            "<rect width=\"200\" height=\"60\" fill=\"#2F659B\"/><circle cx=\"{x:.1}\" cy=\"30\" r=\"8\" fill=\"#E9F25A\"/>"
        );
        Drawing::new(200.0, 60.0, body)
    };
    let drawings: Vec<Drawing> = (0..count(duration, rate)).map(frame).collect();
    Motion::paint(&drawings, (200, 60), [255; 3], (rate, duration)).unwrap()
}

#[test]
fn a_gif_lasts_as_long_as_the_rally_to_the_hundredth_of_a_second() {
    for (rate, duration) in [(15.0, 3.0), (15.0, 2.345), (30.0, 1.01), (7.0, 0.05), (25.0, 12.34)] {
        let bytes = flight(rate, duration).to_gif().unwrap();
        let mut decoder = gif::DecodeOptions::new().read_info(&bytes[..]).unwrap();
        let (mut hundredths, mut frames) = (0_u32, 0);
        while let Some(frame) = decoder.read_next_frame().unwrap() {
            hundredths += u32::from(frame.delay);
            frames += 1;
        }
        assert_eq!(hundredths, (duration * 100.0).round() as u32, "{rate} frames a second, {duration} s");
        assert_eq!(frames, count(duration, rate));
        assert_eq!(decoder.repeat(), gif::Repeat::Infinite);
    }
}

#[test]
fn a_gif_shows_in_each_frame_what_was_painted() {
    let motion = flight(10.0, 1.0);
    let bytes = motion.to_gif().unwrap();
    let mut options = gif::DecodeOptions::new();
    options.set_color_output(gif::ColorOutput::RGBA);
    let mut decoder = options.read_info(&bytes[..]).unwrap();
    let mut screen = vec![0_u8; 200 * 60 * 4];
    for painted in &motion.frames {
        let frame = decoder.read_next_frame().unwrap().unwrap();
        let (left, top, width) = (usize::from(frame.left), usize::from(frame.top), usize::from(frame.width));
        for (i, pixel) in frame.buffer.chunks_exact(4).enumerate().filter(|(_, pixel)| pixel[3] > 0) {
            let at = (top + i / width) * 200 + left + i % width;
            screen[at * 4..at * 4 + 4].copy_from_slice(pixel);
        }
        let worst = screen.iter().zip(&painted.rgba).map(|(a, b)| a.abs_diff(*b)).max().unwrap();
        assert!(worst <= 40, "a colour is off by {worst}");
    }
    assert!(decoder.read_next_frame().unwrap().is_none());
}

#[test]
fn an_animated_png_lasts_as_long_and_has_every_frame() {
    let bytes = flight(15.0, 2.345).to_apng().unwrap();
    let mut reader = png::Decoder::new(std::io::Cursor::new(&bytes)).read_info().unwrap();
    let frames = reader.info().animation_control().unwrap().num_frames;
    let mut seconds = 0.0;
    let mut buffer = vec![0; reader.output_buffer_size().unwrap()];
    for _ in 0..frames {
        reader.next_frame(&mut buffer).unwrap();
        let control = reader.info().frame_control().unwrap();
        seconds += f64::from(control.delay_num) / f64::from(control.delay_den);
    }
    assert_eq!(frames as usize, count(2.345, 15.0));
    assert!((seconds - 2.345).abs() < 5e-4, "{seconds}");
}

#[test]
fn a_picture_is_as_large_as_it_is_asked_for_and_stands_in_the_middle() {
    let drawing = Drawing::new(100.0, 50.0, "<rect width=\"100\" height=\"50\" fill=\"#000000\"/>");
    let pixels = raster::pixels(&drawing, (200, 200), [255; 3]).unwrap();
    let grey = |x: usize, y: usize| pixels.rgba[(y * 200 + x) * 4];
    assert_eq!([grey(100, 20), grey(100, 100), grey(100, 180)], [255, 0, 255]);
    let png = pixels.to_png().unwrap();
    let reader = png::Decoder::new(std::io::Cursor::new(&png)).read_info().unwrap();
    assert_eq!((reader.info().width, reader.info().height), (200, 200));
    assert!(raster::pixels(&drawing, (8, 200), [255; 3]).is_err());
}
