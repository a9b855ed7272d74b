//! The small drawings of pages, made once and kept until the page or the look changes.

use std::{
    collections::HashMap,
    sync::{Arc, Weak},
};

use egui::{Rect, Shape, Ui, Vec2, pos2};
use standpoint_board::Page;
use standpoint_geometry::{Court, End};
use standpoint_ui::{
    theme::{Theme, tokens::CourtColors},
    widgets::mini,
};
use standpoint_workbench::session::Session;

/// Size of a drawing.
pub const SIZE: Vec2 = Vec2::new(56.0, 96.0);
/// Drawings that are kept; a list shows a dozen at a time.
const KEPT: usize = 64;

/// Inputs that all drawings depend on.
type Look = (CourtColors, Court, End);

/// The drawings.
#[derive(Default)]
pub struct Thumbs {
    look: Option<Look>,
    /// Keyed by the address of the page; the weak pointer keeps the address from being reused.
    made: HashMap<usize, (Weak<Page>, Vec<Shape>)>,
}

impl Thumbs {
    /// Forgets the drawings when the look has changed or too many are kept.
    pub fn begin(&mut self, session: &Session, theme: &Theme) {
        let look = (theme.court.clone(), session.court(), session.board().coached);
        if self.look.as_ref() != Some(&look) {
            self.made.clear();
            self.look = Some(look);
        }
        if self.made.len() > KEPT {
            self.made.retain(|_, (page, _)| page.strong_count() > 0);
        }
        if self.made.len() > KEPT {
            self.made.clear();
        }
    }

    /// Paints a page into a rectangle.
    pub fn paint(&mut self, ui: &Ui, rect: Rect, page: &Arc<Page>, session: &Session, theme: &Theme) {
        let shapes = self.made.entry(Arc::as_ptr(page) as usize).or_insert_with(|| (Weak::new(), Vec::new()));
        if !std::ptr::eq(shapes.0.as_ptr(), Arc::as_ptr(page)) {
            *shapes = (Arc::downgrade(page), drawing(page, session, theme));
        }
        let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
        let by = rect.min.to_vec2();
        painter.extend(shapes.1.iter().cloned().map(|mut shape| {
            shape.translate(by);
            shape
        }));
    }
}

/// The drawing with its corner at the origin.
fn drawing(page: &Page, session: &Session, theme: &Theme) -> Vec<Shape> {
    let (at, mut shapes) = mini::court(Rect::from_min_size(pos2(0.0, 0.0), SIZE), &session.court(), false, theme);
    let coached = session.board().coached;
    shapes.extend(mini::marks(&at, &page.marks, theme));
    shapes.extend(mini::ways(page).iter().flat_map(|way| mini::way(&at, way, coached, 1.4, theme)));
    shapes
}
