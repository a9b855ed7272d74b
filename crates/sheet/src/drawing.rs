//! A drawing: vectors with real text, of a certain size.

use crate::xml;

/// A drawing as the inside of an SVG; its upper left corner is the origin.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Drawing {
    /// Width, points.
    pub width: f32,
    /// Height, points.
    pub height: f32,
    /// The elements.
    pub body: String,
}

impl Drawing {
    /// A drawing made of SVG elements.
    #[must_use]
    pub fn new(width: f32, height: f32, body: impl Into<String>) -> Self {
        Self { width, height, body: body.into() }
    }

    /// The drawing as an SVG of its own; `title` says what it shows.
    #[must_use]
    pub fn to_svg(&self, title: &str) -> String {
        let (w, h) = (xml::number(self.width), xml::number(self.height));
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" width=\"{w}pt\" \
             height=\"{h}pt\" viewBox=\"0 0 {w} {h}\"><title>{}</title>{}</svg>",
            xml::escaped(title),
            self.body
        )
    }
}
