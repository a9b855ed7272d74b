//! Shaded triangles as a picture in their place.

use base64::Engine as _;
use epaint::{Mesh, Pos2, Rect, Vec2};

use crate::xml::number;

/// Pixels a point: enough for soft shading.
const RESOLUTION: f32 = 1.25;
/// Most pixels each way.
const MOST: f32 = 4096.0;

/// A mesh as an image element, or nothing when there is nothing to see.
pub fn image(mesh: &Mesh, by: Vec2) -> Option<String> {
    let seen = |t: &&[u32]| t.iter().any(|i| mesh.vertices.get(*i as usize).is_some_and(|v| v.color.a() > 0));
    let corners = mesh.indices.chunks_exact(3).filter(seen).flatten();
    let mut rect = Rect::NOTHING;
    corners.filter_map(|i| mesh.vertices.get(*i as usize)).for_each(|v| rect.extend_with(v.pos));
    if !rect.is_positive() {
        return None;
    }
    let size = (rect.size() * RESOLUTION).ceil().clamp(Vec2::splat(1.0), Vec2::splat(MOST));
    let mut picture = Picture::new(size.x as usize, size.y as usize);
    let scale = size / rect.size();
    for triangle in mesh.indices.chunks_exact(3) {
        let corner = |i: usize| mesh.vertices.get(triangle[i] as usize);
        if let (Some(a), Some(b), Some(c)) = (corner(0), corner(1), corner(2)) {
            let corners = [a, b, c].map(|v| {
                let at = (v.pos - rect.min) * scale;
                (Pos2::new(at.x, at.y), v.color.to_array().map(f32::from))
            });
            picture.triangle(corners);
        }
    }
    let data = base64::engine::general_purpose::STANDARD.encode(picture.png()?);
    let at = rect.min + by;
    Some(format!(
        "<image x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" preserveAspectRatio=\"none\" \
         xlink:href=\"data:image/png;base64,{data}\"/>",
        number(at.x),
        number(at.y),
        number(rect.width()),
        number(rect.height())
    ))
}

/// Pixels with premultiplied colours.
struct Picture {
    width: usize,
    height: usize,
    pixels: Vec<[u8; 4]>,
}

impl Picture {
    fn new(width: usize, height: usize) -> Self {
        Self { width, height, pixels: vec![[0; 4]; width * height] }
    }

    /// Paints the pixels whose centre lies in a triangle, with interpolated corner colours.
    fn triangle(&mut self, corners: [(Pos2, [f32; 4]); 3]) {
        let [a, b, c] = corners.map(|(at, _)| at);
        let area = (b - a).x * (c - a).y - (b - a).y * (c - a).x;
        if area.abs() < 1e-6 {
            return;
        }
        let span = |values: [f32; 3], most: usize| {
            let (low, high) =
                (values.into_iter().fold(f32::INFINITY, f32::min), values.into_iter().fold(0.0, f32::max));
            ((low - 0.5).floor().max(0.0) as usize, ((high + 0.5).ceil() as usize).min(most))
        };
        let (x0, x1) = span([a.x, b.x, c.x], self.width);
        let (y0, y1) = span([a.y, b.y, c.y], self.height);
        // The edges count as inside, so that no seam is left between triangles.
        let inside = -1e-4;
        for y in y0..y1 {
            for x in x0..x1 {
                let p = Pos2::new(x as f32 + 0.5, y as f32 + 0.5);
                let v = ((p - a).x * (c - a).y - (p - a).y * (c - a).x) / area;
                let w = ((b - a).x * (p - a).y - (b - a).y * (p - a).x) / area;
                let u = 1.0 - v - w;
                if u >= inside && v >= inside && w >= inside {
                    let mix = |k: usize| corners[0].1[k] * u + corners[1].1[k] * v + corners[2].1[k] * w;
                    self.pixels[y * self.width + x] = [mix(0), mix(1), mix(2), mix(3)].map(|v| v.round() as u8);
                }
            }
        }
    }

    fn png(&self) -> Option<Vec<u8>> {
        let straight = self.pixels.iter().flat_map(|&[r, g, b, a]| {
            let whole = |v: u8| if a == 0 { 0 } else { (u32::from(v) * 255 / u32::from(a)).min(255) as u8 };
            [whole(r), whole(g), whole(b), a]
        });
        crate::raster::png(self.width as u32, self.height as u32, &straight.collect::<Vec<u8>>()).ok()
    }
}
