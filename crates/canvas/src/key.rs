//! The legend of the shading: ramp, unit and level lines.

use egui::{
    Align2, Color32, CornerRadius, FontId, Mesh, Pos2, Rect, Shape, Stroke, StrokeKind, Vec2, pos2,
    text::{LayoutJob, TextWrapping},
    vec2,
};
use glam::DVec2;
use standpoint_geometry::answer::Play;
use standpoint_language::tr;
use standpoint_ui::theme::{fonts, ramp::Ramp};
use standpoint_workbench::{session::Session, words};

use super::{brush::Brush, field, marks};

/// Width of a key.
pub const WIDTH: f32 = 190.0;
/// A canvas less wide than this has little room beside an upright court.
const NARROW: f32 = 640.0;
/// Height of the ramp in a key.
pub(super) const BAR: f32 = 12.0;
/// Height of a line of a key.
pub(super) const ROW: f32 = 19.0;

/// Largest share of the canvas for the legend each way; otherwise there is none.
const MOST: f32 = 0.6;
/// Room that the legend leaves around the spot while editing, points: small, so that it rarely moves.
pub const CLEAR: f32 = 24.0;

/// The corner in which the legend covers least of the spot and other items of the shot, the lower left one
/// preferred; none without room.
fn corner(canvas: Rect, size: Vec2, clear: f32, spot: Pos2, others: &[Pos2]) -> Option<Rect> {
    if size.x > MOST * canvas.width() || size.y > MOST * canvas.height() {
        return None;
    }
    let low = canvas.bottom() - size.y;
    let right = canvas.right() - size.x;
    let corners = [pos2(canvas.left(), low), pos2(right, low), canvas.left_top(), pos2(right, canvas.top())];
    let in_the_way = |place: &Rect| {
        let spot = u8::from(place.expand(clear).contains(spot)) + 8 * u8::from(place.contains(spot));
        let others = others.iter().filter(|other| place.contains(**other)).count();
        usize::from(spot) + 2 * others
    };
    corners.map(|corner| Rect::from_min_size(corner, size)).into_iter().min_by_key(in_the_way)
}

/// Paints the key into a corner at least `clear` away from the spot, points, and returns where.
pub fn paint(brush: &Brush<'_>, canvas: Rect, play: &Play, clear: f32) -> Option<Rect> {
    let m = &brush.theme.m;
    // On a narrow canvas it lies over the court, so it says less there.
    let rows = play.contours.len().min(if canvas.width() < NARROW { 1 } else { 3 });
    let pad = m.space.item + 2.0;
    let size = vec2(WIDTH, pad * 2.0 + ROW + BAR + ROW + rows as f32 * ROW + m.space.small);
    let met = play.receipt.contact.truncate();
    let others = [met, play.receipt.place, play.recovery.start].map(|place| brush.point(place));
    let rect = corner(canvas.shrink(m.space.edge), size, clear, brush.point(play.spot.place), &others)?;
    board_of(brush, rect);
    let (left, right) = (rect.left() + pad, rect.right() - pad);
    let mut y = rect.top() + pad;
    text(brush, pos2(left, y), Align2::LEFT_TOP, standpoint_language::text("The opponent wins in 100"), true);
    y += ROW;
    bar(brush, Rect::from_min_max(pos2(left, y), pos2(right, y + BAR)));
    y += BAR + 2.0;
    let least = play.spot.exposure;
    text(brush, pos2(left, y), Align2::LEFT_TOP, &words::points(least), false);
    text(brush, pos2((left + right) / 2.0, y), Align2::CENTER_TOP, &words::points(least + Ramp::SPAN / 2.0), false);
    text(brush, pos2(right, y), Align2::RIGHT_TOP, &format!("{}+", words::points(least + Ramp::SPAN)), false);
    y += ROW + m.space.small;
    for (rank, contour) in play.contours.iter().take(rows).enumerate() {
        let above = words::points(contour.above_least);
        let what = if rank == 0 { tr!("zone: up to {} more", above) } else { tr!("{} more", above) };
        level(brush, pos2(left, y), rank, &what);
        y += ROW;
    }
    Some(rect)
}

/// The ramp from the best place on the left to the worst on the right.
pub(super) fn bar(brush: &Brush<'_>, rect: Rect) {
    let mut mesh = Mesh::default();
    let steps = 32;
    for i in 0..=steps {
        let t = i as f32 / steps as f32;
        let x = rect.left() + t * rect.width();
        let color: Color32 = brush.theme.ramp.at(1.0 - f64::from(t));
        mesh.colored_vertex(pos2(x, rect.top()), color);
        mesh.colored_vertex(pos2(x, rect.bottom()), color);
        if i > 0 {
            let k = 2 * i as u32;
            mesh.add_triangle(k - 2, k - 1, k);
            mesh.add_triangle(k - 1, k, k + 1);
        }
    }
    brush.painter.rect_filled(rect, CornerRadius::ZERO, *brush.theme.court.court);
    brush.painter.add(Shape::mesh(mesh));
    let edge = Stroke::new(1.0, *brush.theme.ui.outline);
    brush.painter.rect_stroke(rect, CornerRadius::ZERO, edge, StrokeKind::Outside);
}

/// A level line and what it means.
pub(super) fn level(brush: &Brush<'_>, at: Pos2, rank: usize, what: &str) {
    let (stroke, dash) = field::contour_style(brush.theme, rank);
    let stroke = Stroke::new(stroke.width, *brush.theme.ui.ink);
    let y = at.y + ROW / 2.0 - 2.0;
    brush.stroke(&[pos2(at.x, y), pos2(at.x + 34.0, y)], stroke, dash);
    text(brush, pos2(at.x + 42.0, at.y), Align2::LEFT_TOP, what, false);
}

/// A piece of text in a key.
pub(super) fn text(brush: &Brush<'_>, at: Pos2, anchor: Align2, text: &str, strong: bool) {
    let m = &brush.theme.m.text;
    let family = if strong { fonts::strong() } else { egui::FontFamily::Proportional };
    brush.painter.text(at, anchor, text, FontId::new(m.small, family), *brush.theme.ui.ink);
}

/// Paints a sign at a place.
type Sign = fn(&Brush<'_>, DVec2);

/// Height of a line of the legend.
const LEGEND_ROW: f32 = 27.0;

/// Least text size of the legend, points.
const LEAST_LEGEND: f32 = 9.0;

/// Signs with their meaning, to the right of the key, for pictures without tooltips.
pub fn legend(brush: &Brush<'_>, canvas: Rect, session: &Session) {
    let Some(spec) = session.shot() else { return };
    let m = &brush.theme.m;
    let board = session.board();
    let name = |end| board.card(end).name.trim().to_owned();
    let rows: [(Sign, String); 5] = [
        (marks::hitter, tr!("{} hits", name(spec.hitter_end))),
        (marks::opponent, name(spec.hitter_end.other())),
        (marks::target, tr!("the shot's target")),
        (marks::spot, tr!("where to stand")),
        (first_reply, tr!("best replies")),
    ];
    let gap = m.space.item;
    let height = LEGEND_ROW * 5.0 + 2.0 * m.space.small;
    let corner = pos2(canvas.left() + m.space.edge + WIDTH + gap, canvas.bottom() - m.space.edge - height);
    let width = (canvas.right() - gap - corner.x).clamp(60.0, WIDTH);
    let rect = Rect::from_min_size(corner, vec2(width, height));
    board_of(brush, rect);
    for (i, (sign, said)) in rows.into_iter().enumerate() {
        let y = rect.top() + m.space.small + LEGEND_ROW * (i as f32 + 0.5);
        sign(brush, brush.at.court_from_screen(pos2(rect.left() + 24.0, y)));
        let font = FontId::new(m.text.small, egui::FontFamily::Proportional);
        let font = fonts::fitting(brush.painter, said.trim(), font, width - 54.0, LEAST_LEGEND);
        let mut job = LayoutJob::simple_singleline(said.trim().to_owned(), font, *brush.theme.ui.ink);
        // A long name is shown in full elsewhere.
        job.wrap = TextWrapping::truncate_at_width(width - 54.0);
        let galley = brush.painter.layout_job(job);
        let at = Align2::LEFT_CENTER.anchor_size(pos2(rect.left() + 48.0, y), galley.size()).min;
        brush.painter.galley(at, galley, *brush.theme.ui.ink);
    }
}

/// The ground of a key.
fn board_of(brush: &Brush<'_>, rect: Rect) {
    let (m, ui) = (&brush.theme.m, &brush.theme.ui);
    brush.painter.rect(
        rect,
        CornerRadius::same(m.radius.medium as u8),
        ui.raised.gamma_multiply(0.94),
        Stroke::new(m.stroke.hair, *ui.line),
        StrokeKind::Inside,
    );
}

fn first_reply(brush: &Brush<'_>, place: DVec2) {
    super::flights::number_mark(brush, brush.point(place), 0);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_key_keeps_clear_of_the_spot_and_of_small_canvases() {
        let canvas = Rect::from_min_size(pos2(10.0, 20.0), vec2(600.0, 500.0));
        let size = vec2(190.0, 120.0);
        let place = |spot, others: &[Pos2]| corner(canvas, size, CLEAR, spot, others).unwrap();
        let free = place(pos2(400.0, 300.0), &[]);
        assert_eq!(free.left_bottom(), canvas.left_bottom());
        for spot in [free.center(), free.right_top() + vec2(10.0, -10.0)] {
            let moved = place(spot, &[]);
            assert_eq!(moved.right_bottom(), canvas.right_bottom());
            assert!(!moved.contains(spot));
        }
        // Close to an item is better than covering it.
        let others =
            [canvas.right_bottom(), canvas.left_top(), canvas.right_top()].map(|c| c.lerp(canvas.center(), 0.1));
        assert_eq!(place(free.right_top() + vec2(10.0, -10.0), &others), free);
        assert_eq!(corner(canvas, vec2(400.0, 120.0), CLEAR, canvas.center(), &[]), None);
        assert_eq!(corner(canvas, vec2(190.0, 320.0), CLEAR, canvas.center(), &[]), None);
    }
}
