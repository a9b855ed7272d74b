//! Labels beside their items: plain text with a halo, and tags of two lines.

use std::sync::Arc;

use egui::{Align2, Color32, FontId, Galley, Pos2, Rect, Stroke, Vec2, text::LayoutJob, vec2};
use glam::DVec2;
use standpoint_ui::theme::fonts;

use super::{
    brush::{Brush, Dash, Side},
    labels::{LabelId, Placer, Wish},
    numbers::number_radius,
};

/// A label farther than this many times its usual distance has a leader line.
const FAR: f32 = 1.7;

/// A thin line from a tag that stands off to what it belongs to.
pub fn leader(brush: &Brush<'_>, anchor: Pos2, rect: Rect, side: Side) {
    let near = rect.clamp(anchor);
    if near.distance(anchor) > number_radius(brush) + 4.0 {
        let (ink, edge) = brush.inks(side);
        let from = anchor + (near - anchor).normalized() * number_radius(brush);
        brush.cased(&[from, near], Stroke::new(1.4, ink), edge, Dash::Solid);
    }
}

/// Two lines, the first one strong.
pub fn two_lines(brush: &Brush<'_>, first: &str, second: &str, color: Color32) -> Arc<Galley> {
    let (m, growth) = (&brush.theme.m.text, brush.growth());
    let mut job = LayoutJob::default();
    let format = |size, family| egui::TextFormat::simple(FontId::new(f32::round(size * growth), family), color);
    job.append(first, 0.0, format(m.court, fonts::strong()));
    job.append("\n", 0.0, format(m.small, egui::FontFamily::Proportional));
    job.append(second, 0.0, format(m.small, egui::FontFamily::Proportional));
    brush.painter.layout_job(job)
}

/// Text with a halo beside a place.
pub fn plain(brush: &Brush<'_>, placer: &mut Placer, id: LabelId, place: DVec2, gap: f32, text: &str) {
    written(brush, (id, place, gap, text), |wish| placer.place(wish));
}

/// The same, but only where it lies over nothing that is painted; says whether there was room.
pub fn where_clear(brush: &Brush<'_>, placer: &mut Placer, id: LabelId, place: DVec2, gap: f32, text: &str) -> bool {
    let mut found = false;
    written(brush, (id, place, gap, text), |wish| {
        let rect = placer.place_clear(wish);
        found = rect.is_some();
        rect
    });
    found
}

fn written(
    brush: &Brush<'_>,
    (id, place, gap, text): (LabelId, DVec2, f32, &str),
    put: impl FnOnce(&Wish) -> Option<Rect>,
) {
    if text.is_empty() {
        return;
    }
    let galley = brush.text(text, *brush.theme.court.ink);
    let size: Vec2 = galley.size() + vec2(6.0, 2.0);
    let anchor = brush.point(place);
    if let Some(rect) = put(&Wish { id, anchor, size, gap, beside: id == LabelId::Net }) {
        // What had to go elsewhere says what it belongs to.
        let near = rect.clamp(anchor);
        let away = near.distance(anchor);
        if away > gap * FAR {
            let from = anchor + (near - anchor) * (gap / away);
            let ink = *brush.theme.court.ink;
            brush.cased(&[from, near], Stroke::new(1.2, ink), *brush.theme.court.halo, Dash::Solid);
        }
        brush.haloed(rect.center(), Align2::CENTER_CENTER, &galley);
    }
}
