//! A measured place beside the pointer, never under it.

use egui::{Align2, CornerRadius, FontId, Pos2, Rect, Stroke, StrokeKind, Vec2, vec2};
use standpoint_ui::theme::fonts;

use super::brush::Brush;

/// From the point to the nearest corner of the readout; a finger covers more than a pointer.
const OFF: (f32, f32) = (20.0, 34.0);

/// Paints what is measured, one line for each part.
pub fn paint(brush: &Brush<'_>, canvas: Rect, at: Pos2, said: &str, by_finger: bool) {
    let theme = brush.theme;
    let font = FontId::new(theme.m.text.court, fonts::strong());
    let galley = brush.painter.layout_no_wrap(said.replace(", ", "\n"), font, *theme.ui.ink);
    let pad = vec2(theme.m.space.item, theme.m.space.small);
    let rect = place(canvas.shrink(4.0), at, galley.size() + pad * 2.0, if by_finger { OFF.1 } else { OFF.0 });
    let radius = CornerRadius::same(theme.m.radius.medium as u8);
    let edge = Stroke::new(theme.m.stroke.hair, *theme.ui.outline);
    brush.painter.rect(rect, radius, *theme.ui.raised, edge, StrokeKind::Inside);
    brush.painter.galley(Align2::LEFT_TOP.anchor_size(rect.min + pad, galley.size()).min, galley, *theme.ui.ink);
}

/// Above and to the right of the point, or on another side where there is room.
fn place(canvas: Rect, at: Pos2, size: Vec2, off: f32) -> Rect {
    let sides = [vec2(1.0, -1.0), vec2(-1.0, -1.0), vec2(1.0, 1.0), vec2(-1.0, 1.0)];
    let rect = |side: Vec2| Rect::from_center_size(at + side * (size / 2.0 + Vec2::splat(off)), size);
    sides.into_iter().map(rect).find(|rect| canvas.contains_rect(*rect)).unwrap_or_else(|| rect(sides[0]))
}

#[cfg(test)]
mod tests {
    use egui::pos2;

    use super::*;

    #[test]
    fn a_readout_neither_covers_the_point_nor_leaves_the_canvas() {
        let canvas = Rect::from_min_size(Pos2::ZERO, vec2(800.0, 600.0));
        for x in 0..=40 {
            for y in 0..=30 {
                let at = pos2(x as f32 * 20.0, y as f32 * 20.0);
                let rect = place(canvas, at, vec2(180.0, 50.0), 20.0);
                assert!(canvas.contains_rect(rect) && !rect.expand(8.0).contains(at), "{at}: {rect}");
            }
        }
    }
}
