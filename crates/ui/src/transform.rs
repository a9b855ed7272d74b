//! Conversion between places on the court and points on the screen.

use egui::{Pos2, Rect, Vec2};
use glam::{DVec2, dvec2};
use standpoint_geometry::court::Court;

/// The view of the court.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CourtView {
    /// Quarter turns clockwise; 0 has the near side down.
    pub turn: u8,
    /// Where the view was moved by hand; `None` fits the court.
    pub moved: Option<Moved>,
}

/// A view moved by hand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moved {
    /// The place in the middle of the canvas.
    pub center: DVec2,
    /// Points a metre.
    pub scale: f64,
}

/// Least and greatest magnification, points a metre.
pub const SCALES: (f64, f64) = (4.0, 400.0);

/// Ground shown around the lines when the court is fitted, m: a player's place behind the baseline, and the posts.
const SHOWN_BEHIND: f64 = 5.0;
const SHOWN_BESIDE: f64 = 1.9;

impl CourtView {
    /// The court fitted, with these quarter turns.
    #[must_use]
    pub fn fitted(turn: u8) -> Self {
        Self { turn: turn % 4, moved: None }
    }

    /// The transform of this view into a rectangle of the screen.
    #[must_use]
    pub fn transform(&self, rect: Rect, court: &Court) -> Transform {
        let moved = self.moved.unwrap_or_else(|| self.fit(rect, court));
        Transform { middle: rect.center(), turn: self.turn % 4, center: moved.center, scale: moved.scale }
    }

    /// Ground that is shown when the court is fitted, across and down the screen, m.
    #[must_use]
    pub fn shown(&self, court: &Court) -> DVec2 {
        let wide = 2.0 * (court.outer_half_width() + SHOWN_BESIDE.min(court.run_off_beside));
        let long = 2.0 * (court.half_length() + SHOWN_BEHIND.min(court.run_off_behind));
        if self.turn.is_multiple_of(2) { dvec2(wide, long) } else { dvec2(long, wide) }
    }

    fn fit(&self, rect: Rect, court: &Court) -> Moved {
        let shown = self.shown(court);
        let scale = (f64::from(rect.width()) / shown.x).min(f64::from(rect.height()) / shown.y);
        Moved { center: DVec2::ZERO, scale: scale.clamp(SCALES.0, SCALES.1) }
    }

    /// The view after zooming by `factor` around a point of the screen, whose place stays under it.
    #[must_use]
    pub fn zoomed(&self, rect: Rect, court: &Court, around: Pos2, factor: f64) -> Self {
        let before = self.transform(rect, court);
        let scale = (before.scale * factor).clamp(SCALES.0, SCALES.1);
        let after = Transform { scale, ..before };
        let drift = before.court_from_screen(around) - after.court_from_screen(around);
        self.held(court, Moved { center: before.center + drift, scale })
    }

    /// The view after the court was pulled along by `by` points.
    #[must_use]
    pub fn panned(&self, rect: Rect, court: &Court, by: Vec2) -> Self {
        let before = self.transform(rect, court);
        let drift = before.displacement_from_screen(by);
        self.held(court, Moved { center: before.center - drift, scale: before.scale })
    }

    /// Keeps the middle of the canvas over the site, so that the court cannot be lost.
    fn held(&self, court: &Court, moved: Moved) -> Self {
        let limit = dvec2(court.site_half_width(), court.site_half_length());
        Self { moved: Some(Moved { center: moved.center.clamp(-limit, limit), ..moved }), ..*self }
    }
}

/// Maps places on the court to points on the screen and back.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Transform {
    middle: Pos2,
    turn: u8,
    center: DVec2,
    scale: f64,
}

impl Transform {
    /// Points a metre.
    #[must_use]
    pub fn scale(&self) -> f32 {
        self.scale as f32
    }

    /// Quarter turns clockwise.
    #[must_use]
    pub fn turn(&self) -> u8 {
        self.turn
    }

    /// The point of a place.
    #[must_use]
    pub fn screen_from_court(&self, place: DVec2) -> Pos2 {
        self.middle + self.screen_displacement(place - self.center)
    }

    /// The place of a point.
    #[must_use]
    pub fn court_from_screen(&self, point: Pos2) -> DVec2 {
        self.center + self.displacement_from_screen(point - self.middle)
    }

    /// A displacement on the court as one on the screen.
    #[must_use]
    pub fn screen_displacement(&self, d: DVec2) -> Vec2 {
        let (x, y) = match self.turn {
            0 => (d.x, -d.y),
            1 => (d.y, d.x),
            2 => (-d.x, d.y),
            _ => (-d.y, -d.x),
        };
        Vec2::new((x * self.scale) as f32, (y * self.scale) as f32)
    }

    /// A displacement on the screen as one on the court.
    #[must_use]
    pub fn displacement_from_screen(&self, d: Vec2) -> DVec2 {
        let (x, y) = (f64::from(d.x) / self.scale, f64::from(d.y) / self.scale);
        match self.turn {
            0 => dvec2(x, -y),
            1 => dvec2(y, x),
            2 => dvec2(-x, y),
            _ => dvec2(-y, -x),
        }
    }

    /// A length on the court in points.
    #[must_use]
    pub fn length(&self, metres: f64) -> f32 {
        (metres * self.scale) as f32
    }
}

#[cfg(test)]
mod tests {
    use egui::{pos2, vec2};

    use super::*;

    fn rect() -> Rect {
        Rect::from_min_size(pos2(300.0, 40.0), vec2(800.0, 700.0))
    }

    fn views() -> Vec<CourtView> {
        (0..4)
            .flat_map(|turn| {
                let moved = Moved { center: dvec2(1.5, -7.0), scale: 61.0 };
                [CourtView::fitted(turn), CourtView { turn, moved: Some(moved) }]
            })
            .collect()
    }

    #[test]
    fn there_and_back_is_the_same_place() {
        let court = Court::default();
        for view in views() {
            let t = view.transform(rect(), &court);
            for place in [dvec2(0.0, 0.0), dvec2(4.115, -11.885), dvec2(-3.2, 9.1)] {
                let back = t.court_from_screen(t.screen_from_court(place));
                assert!((back - place).length() < 1e-4, "{place} came back as {back} (turn {})", view.turn);
            }
        }
    }

    #[test]
    fn the_near_side_is_down_and_right_is_right() {
        let t = CourtView::fitted(0).transform(rect(), &Court::default());
        assert!(t.screen_from_court(dvec2(0.0, -5.0)).y > t.screen_from_court(dvec2(0.0, 5.0)).y);
        assert!(t.screen_from_court(dvec2(2.0, 0.0)).x > t.screen_from_court(dvec2(-2.0, 0.0)).x);
    }

    #[test]
    fn a_turn_never_mirrors() {
        let court = Court::default();
        for view in views() {
            let t = view.transform(rect(), &court);
            let (x, y) = (t.screen_displacement(DVec2::X), t.screen_displacement(DVec2::Y));
            assert!(x.x * y.y - x.y * y.x < 0.0, "turn {}", view.turn);
        }
    }

    #[test]
    fn a_fitted_court_is_inside_the_canvas() {
        let court = Court::default();
        for turn in 0..4 {
            let t = CourtView::fitted(turn).transform(rect(), &court);
            for corner in [dvec2(5.485, 11.885), dvec2(-5.485, -11.885)] {
                assert!(rect().contains(t.screen_from_court(corner)));
            }
        }
    }

    #[test]
    fn zooming_keeps_the_place_under_the_pointer() {
        let court = Court::default();
        for view in views() {
            let around = pos2(610.0, 222.0);
            let before = view.transform(rect(), &court).court_from_screen(around);
            let after = view.zoomed(rect(), &court, around, 1.1).transform(rect(), &court).court_from_screen(around);
            assert!((before - after).length() < 1e-3);
        }
    }

    #[test]
    fn panning_moves_the_court_with_the_pointer() {
        let court = Court::default();
        for view in views() {
            let place = dvec2(1.0, -2.0);
            let before = view.transform(rect(), &court).screen_from_court(place);
            let after =
                view.panned(rect(), &court, vec2(12.0, -7.0)).transform(rect(), &court).screen_from_court(place);
            assert!((after - before - vec2(12.0, -7.0)).length() < 1e-2);
        }
    }
}
