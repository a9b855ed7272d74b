//! A picture that a dialog keeps on the graphics card as long as it is open.

use egui::{ColorImage, Context, Image, Rect, TextureHandle, TextureOptions, Ui, Vec2};

/// The picture.
#[derive(Clone, PartialEq)]
pub struct Painted(TextureHandle);

impl std::fmt::Debug for Painted {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_tuple("Painted").field(&self.0.name()).finish()
    }
}

impl Painted {
    /// A picture of these pixels.
    #[must_use]
    pub fn new(ctx: &Context, name: &str, image: ColorImage) -> Self {
        Self(ctx.load_texture(name, image, TextureOptions::LINEAR))
    }

    /// Its size in pixels.
    #[must_use]
    pub fn size(&self) -> Vec2 {
        self.0.size_vec2()
    }

    /// Paints it into a rectangle.
    pub fn paint(&self, ui: &Ui, rect: Rect) {
        Image::new(&self.0).paint_at(ui, rect);
    }
}
