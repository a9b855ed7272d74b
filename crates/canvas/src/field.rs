//! The exposure as a smooth shading with its level lines.

use std::sync::Arc;

use egui::{Mesh, Pos2, Shape, Stroke, epaint::Vertex};
use glam::dvec2;
use standpoint_geometry::{Contour, Field};
use standpoint_ui::{
    theme::{Theme, ramp::Ramp},
    transform::Transform,
};

use super::brush::{Brush, Dash};

/// The shading of the last answer, kept until the answer, the view or the colours change.
#[derive(Default)]
pub struct Shading {
    made_for: Option<(u64, Transform, Ramp)>,
    mesh: Arc<Mesh>,
}

impl Shading {
    /// Paints the shading of a field whose best value is `least`; another generation is another field.
    pub fn paint(&mut self, brush: &Brush<'_>, field: &Field, least: f64, generation: u64) {
        let wanted = (generation, brush.at, brush.theme.ramp.clone());
        if self.made_for.as_ref() != Some(&wanted) {
            self.mesh = Arc::new(mesh(field, least, &brush.at, &brush.theme.ramp));
            self.made_for = Some(wanted);
        }
        brush.painter.add(Shape::mesh(Arc::clone(&self.mesh)));
    }
}

/// The field as triangles with a shade at each sample.
fn mesh(field: &Field, least: f64, at: &Transform, ramp: &Ramp) -> Mesh {
    let mut mesh = Mesh::default();
    if field.columns < 2 || field.rows < 2 {
        return mesh;
    }
    mesh.reserve_vertices(field.columns * field.rows);
    mesh.reserve_triangles(2 * (field.columns - 1) * (field.rows - 1));
    for j in 0..field.rows {
        for i in 0..field.columns {
            let place = field.origin + dvec2(i as f64, j as f64) * field.step;
            let above = f64::from(field.values[j * field.columns + i]) - least;
            mesh.vertices.push(Vertex {
                pos: at.screen_from_court(place),
                uv: egui::epaint::WHITE_UV,
                color: ramp.shade(above),
            });
        }
    }
    let columns = field.columns as u32;
    for j in 0..field.rows as u32 - 1 {
        for i in 0..columns - 1 {
            let (a, b) = (j * columns + i, (j + 1) * columns + i);
            mesh.add_triangle(a, a + 1, b);
            mesh.add_triangle(a + 1, b + 1, b);
        }
    }
    mesh
}

/// The pattern and width of a level line by its rank, the zone first.
#[must_use]
pub fn contour_style(theme: &Theme, rank: usize) -> (Stroke, Dash) {
    let (m, p) = (&theme.m.stroke, &theme.m.pattern);
    let (width, dash) = match rank {
        0 => (m.medium, Dash::Solid),
        1 => (m.thin, Dash::Pattern(p.dashed)),
        _ => (m.thin, Dash::Pattern(p.dotted)),
    };
    (Stroke::new(width, *theme.court.contour), dash)
}

/// The level lines.
pub fn contours(brush: &Brush<'_>, contours: &[Contour]) {
    for (rank, contour) in contours.iter().enumerate().rev() {
        let (stroke, dash) = contour_style(brush.theme, rank);
        for ring in &contour.rings {
            let points: Vec<Pos2> = brush.points(ring.iter().copied());
            brush.stroke(&points, stroke, dash);
        }
    }
}

#[cfg(test)]
mod tests {
    use egui::{Rect, pos2, vec2};
    use standpoint_geometry::Court;

    use super::*;
    use standpoint_ui::{theme::tokens::Tokens, transform::CourtView};

    #[test]
    fn every_cell_is_covered_once() {
        let field = Field { origin: dvec2(-2.0, -8.0), step: 0.5, columns: 5, rows: 4, values: vec![0.4; 20] };
        let rect = Rect::from_min_size(pos2(0.0, 0.0), vec2(600.0, 800.0));
        let at = CourtView::fitted(0).transform(rect, &Court::default());
        let ramp = Ramp::new(&Tokens::load().unwrap().courts.hard.light);
        let mesh = mesh(&field, 0.4, &at, &ramp);
        assert!(mesh.is_valid());
        let area: f32 = mesh
            .indices
            .chunks(3)
            .map(|t| {
                let [a, b, c] = [t[0], t[1], t[2]].map(|i| mesh.vertices[i as usize].pos);
                ((b - a).x * (c - a).y - (b - a).y * (c - a).x).abs() / 2.0
            })
            .sum();
        let expected = at.length(2.0) * at.length(1.5);
        assert!((area / expected - 1.0).abs() < 1e-3);
    }
}
