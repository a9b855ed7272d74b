//! Pictures of a player's shots without a window: for reports, and as files of their own.

use egui::{Context, Pos2, RawInput, Rect, pos2, vec2};
use standpoint_board::Units;
use standpoint_canvas::pictures::{height, paint};
use standpoint_charting::pictures::Picture;
use standpoint_geometry::Court;
use standpoint_sheet::{Drawing, SheetError, raster, shapes};
use standpoint_ui::theme::{self, LookError};
use standpoint_workbench::edit::{Colours, Ground};

/// Distance between pictures beside each other, points.
const GAP: f32 = 14.0;
/// Pixels a point of a picture in pixels.
const FINE: f32 = 3.0;

/// Paints pictures on paper.
pub struct PicturePress {
    ctx: Context,
    look: theme::Look,
}

impl PicturePress {
    /// A press with the typefaces and tokens of the window.
    ///
    /// # Errors
    /// When a built-in file does not say what it should.
    pub fn new() -> Result<Self, LookError> {
        let look = theme::Look::load()?;
        let ctx = Context::default();
        look.install(&ctx);
        Ok(Self { ctx, look })
    }

    /// Pictures so many beside each other, each so wide, as one drawing.
    pub fn drawing(
        &mut self,
        pictures: &[&Picture],
        court: &Court,
        units: Units,
        (columns, width): (usize, f32),
    ) -> Drawing {
        let theme = self.look.theme(false, Colours::Paper, Ground::Hard);
        let mut places = Vec::new();
        let mut top = 0.0;
        for row in pictures.chunks(columns.max(1)) {
            let tall = row.iter().map(|picture| height(picture.kind, court, width)).fold(0.0, f32::max);
            for (i, picture) in row.iter().enumerate() {
                let corner = pos2(i as f32 * (width + GAP), top);
                let size = vec2(width, height(picture.kind, court, width));
                places.push((Rect::from_min_size(corner, size), *picture));
            }
            top += tall + GAP;
        }
        let beside = columns.max(1).min(pictures.len().max(1)) as f32;
        let size = vec2(beside * (width + GAP) - GAP, (top - GAP).max(1.0));
        let rect = Rect::from_min_size(Pos2::ZERO, size);
        let input = RawInput { screen_rect: Some(rect), ..RawInput::default() };
        let mut output = self.ctx.run_ui(input, |ui| {
            let painter = ui.painter_at(rect);
            for (place, picture) in &places {
                paint(&painter, *place, picture, court, units, &theme);
            }
        });
        output.textures_delta.clear();
        shapes::drawing(&output.shapes, rect)
    }
}

/// A drawing as the bytes of a file: PNG where its name ends so, else SVG.
///
/// # Errors
/// See [`SheetError`].
pub fn bytes(drawing: &Drawing, png: bool, title: &str) -> Result<Vec<u8>, SheetError> {
    if !png {
        return Ok(drawing.to_svg(title).into_bytes());
    }
    let size = ((drawing.width * FINE).round() as u32, (drawing.height * FINE).round() as u32);
    raster::pixels(drawing, size, [255, 255, 255])?.to_png()
}
