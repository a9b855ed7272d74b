//! Painting in places in space, as a camera sees them.

use egui::{Color32, Mesh, Pos2, Rect, Shape, Stroke, epaint::Vertex, vec2};
use glam::{DVec2, DVec3, dvec2};
use standpoint_geometry::{End, Field};

use crate::{
    brush::{Brush, Dash, Side},
    pinhole::Pinhole,
};

/// Points further out of the picture than so many halves of its width are drawn in no more.
const FAR_OUT: f64 = 40.0;
/// Corners of a disc on the ground.
const ROUND: usize = 28;

/// A picture that is being painted.
pub(super) struct Film<'a, 'b> {
    pub brush: &'a Brush<'b>,
    pub camera: Pinhole,
    pub rect: Rect,
    /// The end that is turned to the near one.
    pub end: End,
}

/// The point of the screen for one of the picture.
pub(super) fn on_screen(rect: Rect, seen: DVec2) -> Pos2 {
    let seen = seen.clamp(DVec2::splat(-FAR_OUT), DVec2::splat(FAR_OUT));
    rect.center() + vec2(seen.x as f32, -seen.y as f32) * (rect.width() / 2.0)
}

impl Film<'_, '_> {
    fn screen(&self, seen: DVec2) -> Pos2 {
        on_screen(self.rect, seen)
    }

    /// Where a place is seen.
    pub fn point(&self, place: DVec3) -> Option<Pos2> {
        self.camera.seen(place).map(|seen| self.screen(seen))
    }

    /// Points a metre at a place.
    pub fn scale(&self, place: DVec3) -> Option<f32> {
        self.camera.scale(place).map(|scale| scale as f32 * self.rect.width() / 2.0)
    }

    /// Fills everything below the horizon.
    pub fn below_horizon(&self, color: Color32) {
        let y = self.screen(dvec2(0.0, self.camera.horizon())).y;
        self.brush.painter.rect_filled(self.rect.with_min_y(y.max(self.rect.top())), 0.0, color);
    }

    /// A flat shape without dents.
    pub fn shape(&self, corners: &[DVec3], fill: Color32, edge: Stroke) {
        let points: Vec<Pos2> = self.camera.shape(corners).into_iter().map(|seen| self.screen(seen)).collect();
        if points.len() > 2 {
            self.brush.painter.add(Shape::convex_polygon(points, fill, edge));
        }
    }

    /// A plain line.
    pub fn plain(&self, places: &[DVec3], stroke: Stroke) {
        self.stroke(places, stroke, Dash::Solid);
    }

    /// A line in a pattern.
    pub fn stroke(&self, places: &[DVec3], stroke: Stroke, dash: Dash) {
        for part in self.camera.path(places) {
            let points: Vec<Pos2> = part.into_iter().map(|seen| self.screen(seen)).collect();
            self.brush.stroke(&points, stroke, dash);
        }
    }

    /// A line in a side's ink with a casing.
    pub fn cased(&self, places: &[DVec3], width: f32, side: Side, dash: Dash) {
        for part in self.camera.path(places) {
            let points: Vec<Pos2> = part.into_iter().map(|seen| self.screen(seen)).collect();
            self.brush.line(&points, width, side, dash);
        }
    }

    fn ring(&self, middle: DVec3, radius: f64) -> Vec<DVec3> {
        let turn = |i: usize| DVec2::from_angle(std::f64::consts::TAU * i as f64 / ROUND as f64);
        (0..ROUND).map(|i| middle + (turn(i) * radius).extend(0.0)).collect()
    }

    /// A disc on the ground.
    pub fn disc(&self, middle: DVec3, radius: f64, side: Side) {
        let (ink, edge) = self.brush.inks(side);
        self.shape(&self.ring(middle, radius), ink, Stroke::new(1.6, edge));
    }

    /// The spot, lying on the ground.
    pub fn spot(&self, place: DVec2) {
        let c = &self.brush.theme.court;
        let middle = place.extend(0.0);
        for (radius, color) in [(0.62, *c.hitter_ink), (0.56, *c.spot_ink), (0.48, *c.spot)] {
            self.shape(&self.ring(middle, radius), color, Stroke::NONE);
        }
        for side in [-1.0, 1.0] {
            let foot = middle + DVec3::new(side * 0.14, 0.02, 0.0);
            let sole: Vec<DVec3> =
                self.ring(DVec3::ZERO, 0.09).iter().map(|p| foot + *p * DVec3::new(0.8, 2.4, 1.0)).collect();
            self.shape(&sole, *c.spot_ink, Stroke::NONE);
        }
    }

    /// The shading of a field whose best value is `least`.
    pub fn field(&self, field: &Field, least: f64) {
        if field.columns < 2 || field.rows < 2 {
            return;
        }
        let mut mesh = Mesh::default();
        let mut there = Vec::with_capacity(field.columns * field.rows);
        for j in 0..field.rows {
            for i in 0..field.columns {
                let place = self.end.turn2(field.origin + dvec2(i as f64, j as f64) * field.step).extend(0.0);
                let above = f64::from(field.values[j * field.columns + i]) - least;
                let seen = self.camera.seen(place);
                there.push(seen.is_some());
                mesh.vertices.push(Vertex {
                    pos: seen.map_or(self.rect.center(), |seen| self.screen(seen)),
                    uv: egui::epaint::WHITE_UV,
                    color: self.brush.theme.ramp.shade(above),
                });
            }
        }
        for j in 0..field.rows - 1 {
            for i in 0..field.columns - 1 {
                let (a, b) = (j * field.columns + i, (j + 1) * field.columns + i);
                if [a, a + 1, b, b + 1].into_iter().all(|corner| there[corner]) {
                    let [a, b] = [a as u32, b as u32];
                    mesh.add_triangle(a, a + 1, b);
                    mesh.add_triangle(a + 1, b + 1, b);
                }
            }
        }
        self.brush.painter.add(Shape::mesh(mesh));
    }
}
