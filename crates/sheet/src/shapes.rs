//! What the canvas paints, as a drawing.
//!
//! The canvas paints into a list of shapes. The same list that a window turns into triangles is turned into SVG here,
//! so that screen and paper cannot say different things. Text becomes text; a mesh of shaded triangles, such as the
//! exposure, becomes a picture in its place.

mod mesh;
mod text;

use std::fmt::Write as _;

use epaint::{ClippedShape, Color32, Pos2, Rect, Shape, Stroke, StrokeKind, TextShape, Vec2, color::ColorMode, pos2};

use crate::{Drawing, xml::number};

/// The part of what was painted that lies in a rectangle, as a drawing of its size.
#[must_use]
pub fn drawing<'a>(shapes: impl IntoIterator<Item = &'a ClippedShape>, rect: Rect) -> Drawing {
    let mut writer = Writer { body: String::new(), by: -rect.min.to_vec2(), dashes: None, halo: Vec::new() };
    for clipped in shapes {
        writer.shape(&clipped.shape);
    }
    writer.flush();
    Drawing::new(rect.width(), rect.height(), writer.body)
}

/// Writes shapes one after the other.
struct Writer {
    body: String,
    /// Moves everything so that the drawing begins at the origin.
    by: Vec2,
    /// Pieces of a dashed line that are waiting to be written as one path.
    dashes: Option<(Stroke, String)>,
    /// Copies of a text around it, which together are its halo.
    halo: Vec<TextShape>,
}

impl Writer {
    fn shape(&mut self, shape: &Shape) {
        match shape {
            Shape::LineSegment { points, stroke } => return self.segment(*points, *stroke),
            Shape::Text(text) => return self.text(text),
            Shape::Vec(shapes) => return shapes.iter().for_each(|shape| self.shape(shape)),
            Shape::Noop => return,
            _ => self.flush(),
        }
        match shape {
            Shape::Circle(c) => {
                let look = look(c.fill, c.stroke);
                let at = self.place(c.center);
                let _ = write!(self.body, "<circle cx=\"{}\" cy=\"{}\" r=\"{}\"{look}/>", at.0, at.1, number(c.radius));
            }
            Shape::Ellipse(e) => {
                let (look, at) = (look(e.fill, e.stroke), self.place(e.center));
                let (rx, ry) = (number(e.radius.x), number(e.radius.y));
                let turn = turned(e.angle, e.center + self.by);
                let _ =
                    write!(self.body, "<ellipse cx=\"{}\" cy=\"{}\" rx=\"{rx}\" ry=\"{ry}\"{turn}{look}/>", at.0, at.1);
            }
            Shape::Path(path) => {
                let color = solid(&path.stroke.color);
                let look = look(path.fill, Stroke::new(path.stroke.width, color));
                let line = self.line(&path.points, path.closed);
                let _ = write!(self.body, "<path d=\"{line}\"{look}/>");
            }
            Shape::Rect(rect) => self.rect(rect),
            Shape::Mesh(mesh) => {
                if let Some(image) = mesh::image(mesh, self.by) {
                    self.body.push_str(&image);
                }
            }
            Shape::QuadraticBezier(curve) => {
                let [a, b, c] = curve.points.map(|p| self.pair(p));
                let look = look(curve.fill, Stroke::new(curve.stroke.width, solid(&curve.stroke.color)));
                let _ = write!(self.body, "<path d=\"M{a}Q{b} {c}\"{look}/>");
            }
            Shape::CubicBezier(curve) => {
                let [a, b, c, d] = curve.points.map(|p| self.pair(p));
                let look = look(curve.fill, Stroke::new(curve.stroke.width, solid(&curve.stroke.color)));
                let _ = write!(self.body, "<path d=\"M{a}C{b} {c} {d}\"{look}/>");
            }
            // The canvas paints no band of changing width and calls nothing back.
            Shape::Band(_) | Shape::Callback(_) => {}
            Shape::Noop | Shape::Vec(_) | Shape::LineSegment { .. } | Shape::Text(_) => {}
        }
    }

    /// A segment joins the ones before it that look the same: so a dashed line is one path.
    fn segment(&mut self, points: [Pos2; 2], stroke: Stroke) {
        self.write_halo();
        if self.dashes.as_ref().is_some_and(|(before, _)| *before != stroke) {
            self.write_dashes();
        }
        let [a, b] = points.map(|p| self.pair(p));
        let (_, path) = self.dashes.get_or_insert_with(|| (stroke, String::new()));
        let _ = write!(path, "M{a}L{b}");
    }

    fn text(&mut self, text: &TextShape) {
        self.write_dashes();
        if self.halo.last().is_some_and(|before| !std::sync::Arc::ptr_eq(&before.galley, &text.galley)) {
            self.write_halo();
        }
        self.halo.push(text.clone());
    }

    fn rect(&mut self, shape: &epaint::RectShape) {
        let half = shape.stroke.width / 2.0;
        let rect = match shape.stroke_kind {
            StrokeKind::Inside => shape.rect.shrink(half),
            StrokeKind::Middle => shape.rect,
            StrokeKind::Outside => shape.rect.expand(half),
        };
        if !rect.is_positive() {
            return;
        }
        let (x, y) = self.place(rect.min);
        let (w, h) = (number(rect.width()), number(rect.height()));
        let radius = f32::from(shape.corner_radius.nw).min(rect.width().min(rect.height()) / 2.0);
        let radius = if radius > 0.0 { format!(" rx=\"{}\"", number(radius)) } else { String::new() };
        let look = look(shape.fill, shape.stroke);
        let turn = turned(shape.angle, rect.center() + self.by);
        let _ = write!(self.body, "<rect x=\"{x}\" y=\"{y}\" width=\"{w}\" height=\"{h}\"{radius}{turn}{look}/>");
    }

    fn flush(&mut self) {
        self.write_dashes();
        self.write_halo();
    }

    fn write_dashes(&mut self) {
        if let Some((stroke, path)) = self.dashes.take() {
            let look = look(Color32::TRANSPARENT, stroke);
            let _ = write!(self.body, "<path d=\"{path}\"{look}/>");
        }
    }

    /// Writes the texts that are waiting: copies in another colour around the last one are its halo.
    fn write_halo(&mut self) {
        let waiting = std::mem::take(&mut self.halo);
        let Some((last, around)) = waiting.split_last() else { return };
        let is_halo = !around.is_empty() && around.iter().all(|copy| copy.override_text_color.is_some());
        if is_halo && last.override_text_color.is_none() {
            let reach = around.iter().map(|copy| copy.pos.distance(last.pos)).fold(0.0, f32::max);
            let color = around[0].override_text_color.unwrap_or(last.fallback_color);
            text::write(&mut self.body, last, self.by, Some((color, reach)));
        } else {
            waiting.iter().for_each(|shape| text::write(&mut self.body, shape, self.by, None));
        }
    }

    fn line(&self, points: &[Pos2], closed: bool) -> String {
        let mut line = String::with_capacity(points.len() * 12);
        for (i, point) in points.iter().enumerate() {
            line.push(if i == 0 { 'M' } else { 'L' });
            line.push_str(&self.pair(*point));
        }
        if closed {
            line.push('Z');
        }
        line
    }

    fn pair(&self, point: Pos2) -> String {
        let (x, y) = self.place(point);
        format!("{x} {y}")
    }

    fn place(&self, point: Pos2) -> (String, String) {
        let p = point + self.by;
        (number(p.x), number(p.y))
    }
}

fn solid(mode: &ColorMode) -> Color32 {
    match mode {
        ColorMode::Solid(color) => *color,
        ColorMode::UV(paint) => paint(Rect::ZERO, pos2(0.0, 0.0)),
    }
}

/// Fill and stroke as attributes.
fn look(fill: Color32, stroke: Stroke) -> String {
    let mut look = paint("fill", fill);
    if !stroke.is_empty() {
        look.push_str(&paint("stroke", stroke.color));
        let _ = write!(look, " stroke-width=\"{}\"", number(stroke.width));
    }
    look
}

/// A colour as an attribute, with its opacity where it has one.
fn paint(what: &str, color: Color32) -> String {
    let [r, g, b, a] = color.to_srgba_unmultiplied();
    match a {
        0 => format!(" {what}=\"none\""),
        255 => format!(" {what}=\"#{r:02X}{g:02X}{b:02X}\""),
        _ => format!(" {what}=\"#{r:02X}{g:02X}{b:02X}\" {what}-opacity=\"{:.3}\"", f32::from(a) / 255.0),
    }
}

fn turned(angle: f32, about: Pos2) -> String {
    if angle.abs() < 1e-4 {
        return String::new();
    }
    format!(" transform=\"rotate({} {} {})\"", number(angle.to_degrees()), number(about.x), number(about.y))
}

#[cfg(test)]
mod tests;
