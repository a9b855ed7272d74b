//! Conversion between places on the court and points on the screen.

use egui::{Pos2, Rect, Vec2};
use glam::{DVec2, dvec2};
use standpoint_geometry::Court;

/// The view of the court.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CourtView {
    /// Quarter turns clockwise; 0 has the near side down.
    pub turn: u8,
    /// The ground that is shown when the court is fitted; the usual ground around the lines without it.
    pub ground: Option<Ground>,
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

/// A rectangle of ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ground {
    /// Its corner with the least coordinates.
    pub least: DVec2,
    /// Its corner with the greatest ones.
    pub most: DVec2,
}

impl Ground {
    /// Whether another rectangle lies within this one.
    #[must_use]
    pub fn contains(&self, other: &Self) -> bool {
        self.least.cmple(other.least).all() && self.most.cmpge(other.most).all()
    }

    /// The part of it that lies within a rectangle around the middle of the court.
    #[must_use]
    pub fn within(self, half: DVec2) -> Self {
        Self { least: self.least.max(-half), most: self.most.min(half) }
    }

    /// Extent across and along the court, m.
    #[must_use]
    pub fn size(&self) -> DVec2 {
        self.most - self.least
    }
}

/// Least and greatest magnification, points a metre.
pub const SCALES: (f64, f64) = (4.0, 400.0);

/// Ground shown around the lines when the court is fitted, m: a player's place behind the baseline, and the posts.
const SHOWN_BEHIND: f64 = 5.0;
const SHOWN_BESIDE: f64 = 1.9;
/// The court turns by itself where it becomes so many times larger.
const WORTH_TURNING: f64 = 1.04;

impl CourtView {
    /// The court fitted, with these quarter turns.
    #[must_use]
    pub fn fitted(turn: u8) -> Self {
        Self { turn: turn % 4, ground: None, moved: None }
    }

    /// The transform of this view into a rectangle of the screen.
    #[must_use]
    pub fn transform(&self, rect: Rect, court: &Court) -> Transform {
        let moved = self.moved.unwrap_or_else(|| self.fit(rect, court));
        Transform { middle: rect.center(), turn: self.turn % 4, center: moved.center, scale: moved.scale }
    }

    /// The same view of this ground.
    #[must_use]
    pub fn of(self, ground: Ground) -> Self {
        Self { ground: Some(ground), ..self }
    }

    /// The ground that is shown when the court is fitted.
    #[must_use]
    pub fn shown(&self, court: &Court) -> Ground {
        self.ground.unwrap_or_else(|| {
            let wide = court.outer_half_width() + SHOWN_BESIDE.min(court.run_off_beside);
            let long = court.half_length() + SHOWN_BEHIND.min(court.run_off_behind);
            Ground { least: -dvec2(wide, long), most: dvec2(wide, long) }
        })
    }

    fn fit(&self, rect: Rect, court: &Court) -> Moved {
        let ground = self.shown(court);
        let size = ground.size();
        let shown = if self.turn.is_multiple_of(2) { size } else { dvec2(size.y, size.x) };
        let scale = (f64::from(rect.width()) / shown.x).min(f64::from(rect.height()) / shown.y);
        Moved { center: (ground.least + ground.most) / 2.0, scale: scale.clamp(SCALES.0, SCALES.1) }
    }

    /// The view that shows the same ground larger in a rectangle: as it is, or turned by a quarter. It turns only where
    /// that gains something to speak of, so that it does not change with every point of the window's width.
    #[must_use]
    pub fn largest(self, rect: Rect, court: &Court) -> Self {
        let turned = Self { turn: self.turn ^ 1, ..self };
        let gain = turned.fit(rect, court).scale / self.fit(rect, court).scale;
        if gain > WORTH_TURNING { turned } else { self }
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
                [CourtView::fitted(turn), CourtView { moved: Some(moved), ..CourtView::fitted(turn) }]
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
    fn the_court_lies_in_a_wide_window_and_stands_in_a_high_one() {
        let court = Court::default();
        let room = |x, y| Rect::from_min_size(Pos2::ZERO, vec2(x, y));
        for flipped in [0, 2] {
            let view = CourtView::fitted(flipped);
            assert_eq!(view.largest(room(1000.0, 700.0), &court).turn, flipped + 1);
            assert_eq!(view.largest(room(400.0, 700.0), &court).turn, flipped);
            // Both orientations give the same size, so the current one is kept.
            let square = room(600.0, 600.0);
            for turn in [flipped, flipped + 1] {
                assert_eq!(CourtView::fitted(turn).largest(square, &court).turn, turn);
            }
        }
    }

    #[test]
    fn ground_off_the_middle_fills_the_rectangle() {
        let court = Court::default();
        let ground = Ground { least: dvec2(-6.0, -17.0), most: dvec2(8.0, 13.0) };
        for turn in 0..4 {
            let size = if turn % 2 == 0 { vec2(14.0, 30.0) } else { vec2(30.0, 14.0) } * 20.0;
            let rect = Rect::from_min_size(pos2(50.0, 30.0), size);
            let t = CourtView::fitted(turn).of(ground).transform(rect, &court);
            assert!((t.scale() - 20.0).abs() < 1e-4);
            for corner in [ground.least, ground.most] {
                assert!(rect.expand(0.01).contains(t.screen_from_court(corner)), "turn {turn}");
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
