//! Extent of a drawing: the court with its surroundings, and everything placed or drawn beyond.

use egui::Rect;
use glam::DVec2;
use standpoint_board::marks::Form;
use standpoint_ui::transform::{CourtView, Moved, Transform};
use standpoint_workbench::session::Session;

/// Room around the middle of a mark or a player, m.
const AROUND: f64 = 0.9;
/// Width of a letter as a part of its height.
const LETTER: f64 = 0.6;

/// A rectangle of ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Extent {
    least: DVec2,
    most: DVec2,
    turn: u8,
}

impl Extent {
    /// The extent of the page being looked at, for these quarter turns.
    #[must_use]
    pub fn of(session: &Session, turn: u8) -> Self {
        let usual = CourtView::fitted(0).shown(&session.court());
        let mut extent = Self { least: usual.least, most: usual.most, turn: turn % 4 };
        for mark in session.marks().into_iter().flat_map(|marks| marks.shown()) {
            mark.form.outline().into_iter().for_each(|place| extent.include(place, AROUND));
            if let Form::Text { at, text, size } = &mark.form {
                let longest = text.lines().map(|line| line.chars().count()).max().unwrap_or(0) as f64;
                let lines = text.lines().count() as f64;
                extent.include(*at + extent.right() * (LETTER * size * longest), *size);
                extent.include(*at - extent.right().perp() * (1.3 * size * lines), *size);
            }
        }
        for resolved in session.rally() {
            let spec = &resolved.spec;
            let spot = resolved.play().map(|play| play.spot.place);
            let places = [Some(session.board().hitter_place(spec)), Some(spec.opponent_place), spot];
            places.into_iter().flatten().for_each(|place| extent.include(place, AROUND));
        }
        extent
    }

    fn include(&mut self, place: DVec2, around: f64) {
        self.least = self.least.min(place - around);
        self.most = self.most.max(place + around);
    }

    /// The direction to the right on the drawing.
    fn right(&self) -> DVec2 {
        match self.turn {
            0 => DVec2::X,
            1 => DVec2::Y,
            2 => -DVec2::X,
            _ => -DVec2::Y,
        }
    }

    /// Width and height as drawn, m.
    #[must_use]
    pub fn size(&self) -> DVec2 {
        let size = self.most - self.least;
        if self.turn.is_multiple_of(2) { size } else { DVec2::new(size.y, size.x) }
    }

    /// The transform that shows all of it in a rectangle.
    #[must_use]
    pub fn transform(&self, rect: Rect, session: &Session) -> Transform {
        let size = self.size();
        let scale = (f64::from(rect.width()) / size.x).min(f64::from(rect.height()) / size.y);
        let moved = Moved { center: (self.least + self.most) / 2.0, scale };
        CourtView { moved: Some(moved), ..CourtView::fitted(self.turn) }.transform(rect, &session.court())
    }
}

#[cfg(test)]
mod tests {
    use egui::{Pos2, vec2};
    use glam::dvec2;
    use standpoint_board::{
        Board,
        marks::{Ink, Layer},
    };

    use super::*;

    #[test]
    fn what_is_drawn_far_off_is_on_the_drawing_whichever_way_it_lies() {
        let mut board = Board::demo();
        let far = [dvec2(-8.0, -17.5), dvec2(7.5, 16.0)];
        for at in far {
            board.page_mut(0).unwrap().marks.add(Layer::Drill, Ink::Plain, Form::Cone { at });
        }
        let words = Form::Text { at: dvec2(-2.0, -17.0), text: "Coach feeds the first ball".to_owned(), size: 0.5 };
        board.page_mut(0).unwrap().marks.add(Layer::Notes, Ink::Plain, words);
        let session = Session::new(board, None);
        for turn in 0..4 {
            let extent = Extent::of(&session, turn);
            let size = extent.size() * 25.0;
            let rect = Rect::from_min_size(Pos2::ZERO, vec2(size.x as f32, size.y as f32));
            let at = extent.transform(rect, &session);
            assert!((at.scale() - 25.0).abs() < 1e-3);
            for place in far.into_iter().chain([dvec2(0.0, 0.0)]) {
                assert!(rect.contains(at.screen_from_court(place)), "{place}, turn {turn}");
            }
        }
    }
}
