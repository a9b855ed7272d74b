//! Drawings in pixels.

use resvg::{
    tiny_skia::{Color, Pixmap, Transform},
    usvg::Tree,
};

use crate::{Drawing, SheetError, layout::Pages, pdf::parse};

/// Least and most pixels of a picture each way.
pub const SIDES: (u32, u32) = (16, 16_384);

/// A picture: rows from the top, four bytes a pixel (red, green, blue, opacity, which is full everywhere).
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pixels {
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
    /// The bytes.
    pub rgba: Vec<u8>,
}

/// Paints a drawing so many pixels wide and high on a ground of a colour; it is scaled evenly and stands in the middle.
///
/// # Errors
/// When the drawing is no proper SVG or the size is out of bounds.
pub fn pixels(drawing: &Drawing, (width, height): (u32, u32), ground: [u8; 3]) -> Result<Pixels, SheetError> {
    let tree = parse(&drawing.to_svg(""))?;
    painted(&tree, (width, height), ground)
}

/// A page of a document as it comes out of the printer, so many pixels wide, on white paper.
///
/// # Errors
/// When there is no such page, a drawing on it is no proper SVG or the size is out of bounds.
pub fn page(pages: &Pages, page: usize, width: u32) -> Result<Pixels, SheetError> {
    let height = (width as f32 * pages.size.1 / pages.size.0).round() as u32;
    let tree = parse(&pages.to_svg(page, "").unwrap_or_default())?;
    painted(&tree, (width, height), [255; 3])
}

fn painted(tree: &Tree, (width, height): (u32, u32), [r, g, b]: [u8; 3]) -> Result<Pixels, SheetError> {
    let wrong = || SheetError::Size { width, height, most: SIDES.1 };
    let within = |side: u32| (SIDES.0..=SIDES.1).contains(&side);
    if !within(width) || !within(height) {
        return Err(wrong());
    }
    let mut pixmap = Pixmap::new(width, height).ok_or_else(wrong)?;
    pixmap.fill(Color::from_rgba8(r, g, b, 255));
    let size = tree.size();
    let scale = (width as f32 / size.width()).min(height as f32 / size.height());
    let (x, y) = ((width as f32 - scale * size.width()) / 2.0, (height as f32 - scale * size.height()) / 2.0);
    resvg::render(tree, Transform::from_row(scale, 0.0, 0.0, scale, x, y), &mut pixmap.as_mut());
    // With an opaque ground nothing is premultiplied.
    Ok(Pixels { width, height, rgba: pixmap.take() })
}

impl Pixels {
    /// The picture as a PNG.
    ///
    /// # Errors
    /// When the writer gives up.
    pub fn to_png(&self) -> Result<Vec<u8>, SheetError> {
        Ok(png(self.width, self.height, &self.rgba)?)
    }
}

/// Bytes of red, green, blue and opacity as a PNG.
pub(crate) fn png(width: u32, height: u32, rgba: &[u8]) -> Result<Vec<u8>, png::EncodingError> {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, width, height);
    encoder.set_color(png::ColorType::Rgba);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_compression(png::Compression::Fast);
    encoder.write_header()?.write_image_data(rgba)?;
    Ok(bytes)
}
