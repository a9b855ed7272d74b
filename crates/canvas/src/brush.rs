//! Painting in places on the court: lines with a casing, patterns, arrows and text with a halo.

use std::sync::Arc;

use egui::{Align2, Color32, FontId, Galley, Painter, Pos2, Shape, Stroke, Vec2, vec2};
use glam::DVec2;
use standpoint_ui::{
    theme::{Theme, fonts, tokens::Pattern},
    transform::Transform,
};
use standpoint_workbench::session::Session;

/// Points a metre at which marks and words have their natural size.
const USUAL_SCALE: f32 = 24.0;

/// How a line is drawn along its length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Dash {
    /// Without gaps.
    Solid,
    /// In a pattern of points.
    Pattern(Pattern),
}

/// The painter of a frame with what it needs to know.
#[derive(Clone, Copy)]
pub struct Brush<'a> {
    /// Paints.
    pub painter: &'a Painter,
    /// Where.
    pub at: Transform,
    /// How it looks.
    pub theme: &'a Theme,
    /// Whether the coached player is the opponent of the shot that is painted: each player keeps their own inks and sign,
    /// whoever strikes.
    swapped: bool,
}

/// Whose something is. The coached player's inks are light with a dark edge, the other one's dark with a light edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Of the player who strikes the shot.
    Hitter,
    /// Of the player who has to answer it.
    Opponent,
}

impl<'a> Brush<'a> {
    /// A brush for a shot of the coached player.
    #[must_use]
    pub fn new(painter: &'a Painter, at: Transform, theme: &'a Theme) -> Self {
        Self { painter, at, theme, swapped: false }
    }

    /// The same brush for the shot that is being looked at.
    #[must_use]
    pub fn of(&self, session: &Session) -> Self {
        Self { swapped: !session.coached_hits(), ..*self }
    }

    /// The same brush with another painter.
    #[must_use]
    pub fn with<'b>(&self, painter: &'b Painter) -> Brush<'b>
    where
        'a: 'b,
    {
        Brush { painter, at: self.at, theme: self.theme, swapped: self.swapped }
    }

    /// The same brush with another view of the court.
    #[must_use]
    pub fn through(&self, at: Transform) -> Self {
        Self { at, ..*self }
    }

    /// Whether what belongs to a side belongs to the coached player.
    #[must_use]
    pub fn is_coached(&self, side: Side) -> bool {
        (side == Side::Hitter) != self.swapped
    }

    /// The point of a place.
    #[must_use]
    pub fn point(&self, place: DVec2) -> Pos2 {
        self.at.screen_from_court(place)
    }

    /// The ink of a side: fill and edge.
    #[must_use]
    pub fn inks(&self, side: Side) -> (Color32, Color32) {
        let c = &self.theme.court;
        if self.is_coached(side) { (*c.hitter, *c.hitter_ink) } else { (*c.opponent, *c.opponent_ink) }
    }

    /// A line in a side's ink with a casing of its edge.
    pub fn line(&self, points: &[Pos2], width: f32, side: Side, dash: Dash) {
        let (ink, edge) = self.inks(side);
        self.cased(points, Stroke::new(width, ink), edge, dash);
    }

    /// A line with a thin casing of another colour.
    pub fn cased(&self, points: &[Pos2], stroke: Stroke, casing: Color32, dash: Dash) {
        let under = Stroke::new(stroke.width + 2.0, casing.gamma_multiply(0.7));
        self.stroke(points, under, dash);
        self.stroke(points, stroke, dash);
    }

    /// A plain line.
    pub fn stroke(&self, points: &[Pos2], stroke: Stroke, dash: Dash) {
        if points.len() < 2 {
            return;
        }
        match dash {
            Dash::Solid => {
                self.painter.line(points.to_vec(), stroke);
            }
            Dash::Pattern((a, b, c, d)) => {
                let shapes = Shape::dashed_line_with_offset(points, stroke, &[a, c], &[b, d], 0.0);
                self.painter.extend(shapes);
            }
        }
    }

    /// The points of places.
    #[must_use]
    pub fn points(&self, places: impl IntoIterator<Item = DVec2>) -> Vec<Pos2> {
        places.into_iter().map(|p| self.point(p)).collect()
    }

    /// An arrow head at the end of a line.
    pub fn arrow_head(&self, from: Pos2, tip: Pos2, size: f32, side: Side) {
        let (ink, edge) = self.inks(side);
        let along = (tip - from).normalized();
        if !along.is_finite() || along == Vec2::ZERO {
            return;
        }
        let (back, across) = (tip - along * size, along.rot90() * size * 0.5);
        let head = vec![tip, back + across, back - across];
        self.painter.add(Shape::convex_polygon(head, ink, Stroke::new(1.0, edge.gamma_multiply(0.7))));
    }

    /// Scale of marks and words on a large court: they grow more slowly than the court.
    #[must_use]
    pub fn growth(&self) -> f32 {
        (self.at.scale() / USUAL_SCALE).sqrt().clamp(1.0, 1.7)
    }

    /// The font of labels on the court.
    #[must_use]
    pub fn font(&self) -> FontId {
        FontId::new((self.theme.m.text.court * self.growth()).round(), fonts::strong())
    }

    /// Lays out one line of a label on the court.
    #[must_use]
    pub fn text(&self, text: impl Into<String>, color: Color32) -> Arc<Galley> {
        self.painter.layout_no_wrap(text.into(), self.font(), color)
    }

    /// Text with a halo, so that it can be read on lines and shading alike.
    pub fn haloed(&self, at: Pos2, anchor: Align2, galley: &Arc<Galley>) {
        let halo = *self.theme.court.halo;
        let corner = anchor.anchor_size(at, galley.size()).min;
        for step in 0..8 {
            let by = Vec2::angled(std::f32::consts::TAU * step as f32 / 8.0) * 1.7;
            self.painter.galley_with_override_text_color(corner + by, Arc::clone(galley), halo.gamma_multiply(0.85));
        }
        self.painter.galley(corner, Arc::clone(galley), *self.theme.court.ink);
    }

    /// A ring with a casing.
    pub fn ring(&self, center: Pos2, radius: f32, width: f32, side: Side) {
        let (ink, edge) = self.inks(side);
        self.painter.circle_stroke(center, radius, Stroke::new(width + 1.6, edge.gamma_multiply(0.55)));
        self.painter.circle_stroke(center, radius, Stroke::new(width, ink));
    }

    /// Where a ball meets the ground: a flattened ring with a cross, seen from above.
    pub fn bounce(&self, center: Pos2, side: Side) {
        let (ink, edge) = self.inks(side);
        self.painter.circle(center, 4.2, ink, Stroke::new(1.4, edge));
        let arm = 2.0;
        for d in [vec2(arm, arm), vec2(arm, -arm)] {
            self.painter.line_segment([center - d, center + d], Stroke::new(1.3, edge));
        }
    }
}
