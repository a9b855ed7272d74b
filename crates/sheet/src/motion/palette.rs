//! The colours of a GIF: the most frequent ones exactly, the rest by a neural quantiser.

use std::collections::HashMap;

use color_quant::NeuQuant;

use crate::raster::Pixels;

/// Index of the transparent colour.
pub const THROUGH: u8 = 255;
/// Number of exact colours: grounds, lines and letters are flat.
const KEPT: usize = 96;
/// All colours but the transparent one.
const ALL: usize = 255;
/// Number of frames sampled for colours, and step between sampled pixels.
const LOOKED_AT: (usize, usize) = (3, 3);
/// Sampling factor of the quantiser, 1 (best) to 30.
const THOROUGHNESS: i32 = 10;

/// A palette for all frames of a moving picture.
pub struct Palette {
    colors: Vec<[u8; 3]>,
    known: HashMap<[u8; 3], u8>,
}

impl Palette {
    /// The palette of some frames.
    pub fn of(frames: &[Pixels]) -> Self {
        let mut counts: HashMap<[u8; 3], u32> = HashMap::new();
        let step = frames.len().div_ceil(LOOKED_AT.0).max(1);
        for frame in frames.iter().step_by(step) {
            for pixel in frame.rgba.chunks_exact(4).step_by(LOOKED_AT.1) {
                *counts.entry([pixel[0], pixel[1], pixel[2]]).or_default() += 1;
            }
        }
        let mut ranked: Vec<([u8; 3], u32)> = counts.into_iter().collect();
        ranked.sort_by(|a, b| b.1.cmp(&a.1).then(a.0.cmp(&b.0)));
        let mut colors: Vec<[u8; 3]> = ranked.iter().take(KEPT).map(|(color, _)| *color).collect();
        let rest = &ranked[colors.len()..];
        if rest.len() <= ALL - KEPT {
            colors.extend(rest.iter().map(|(color, _)| *color));
        } else {
            let bytes: Vec<u8> = rest.iter().flat_map(|([r, g, b], _)| [*r, *g, *b, 255]).collect();
            let learned = NeuQuant::new(THOROUGHNESS, ALL - KEPT, &bytes).color_map_rgb();
            colors.extend(learned.chunks_exact(3).map(|c| [c[0], c[1], c[2]]));
        }
        colors.truncate(ALL);
        let known = colors.iter().enumerate().rev().map(|(i, color)| (*color, i as u8)).collect();
        Self { colors, known }
    }

    /// The bytes of the palette, all 256 entries.
    pub fn colors(&self) -> Vec<u8> {
        let mut bytes: Vec<u8> = self.colors.iter().flatten().copied().collect();
        bytes.resize(256 * 3, 0);
        bytes
    }

    /// A frame as colour indices.
    pub fn indexed(&mut self, frame: &Pixels) -> Vec<u8> {
        let mut last = ([0, 0, 0], None);
        let pixels = frame.rgba.chunks_exact(4);
        pixels
            .map(|p| {
                let color = [p[0], p[1], p[2]];
                match last {
                    (same, Some(index)) if same == color => index,
                    _ => {
                        let index = self.index(color);
                        last = (color, Some(index));
                        index
                    }
                }
            })
            .collect()
    }

    fn index(&mut self, color: [u8; 3]) -> u8 {
        if let Some(index) = self.known.get(&color) {
            return *index;
        }
        let distance =
            |other: &[u8; 3]| -> i32 { (0..3).map(|k| (i32::from(other[k]) - i32::from(color[k])).pow(2)).sum() };
        let nearest = (0..self.colors.len()).min_by_key(|i| distance(&self.colors[*i])).unwrap_or(0) as u8;
        self.known.insert(color, nearest);
        nearest
    }
}
