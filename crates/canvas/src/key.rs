//! The legend of the shading: ramp, unit and level lines.

use egui::{
    Align2, Color32, CornerRadius, FontId, Mesh, Pos2, Rect, Shape, Stroke, StrokeKind, pos2,
    text::{LayoutJob, TextWrapping},
    vec2,
};
use glam::DVec2;
use standpoint_geometry::Play;
use standpoint_language::tr;
use standpoint_ui::{
    theme::{Theme, fonts, ramp::Ramp},
    transform::{CourtView, Moved},
};
use standpoint_workbench::{session::Session, words};

use super::{brush::Brush, field, marks};

/// Width of a key.
pub const WIDTH: f32 = 190.0;
/// Height of the ramp in a key.
const BAR: f32 = 12.0;
/// Height of a line of a key.
const ROW: f32 = 19.0;

/// Part of the height of a strip that its letters take.
const STRIP_PER_LETTER: f32 = 1.7;
/// Length of the ramp in a strip, in heights of its letters.
const STRIP_BAR: f32 = 9.0;

/// What a key says: the ramp with three figures, and what the level lines mean.
pub struct Key {
    /// What the figures are.
    pub title: String,
    /// At the best place, in the middle of the ramp, and at its end.
    pub figures: [String; 3],
    /// What each level line means, the zone first.
    pub levels: Vec<String>,
    /// How far the shading is, where that is worth saying.
    pub note: Option<String>,
}

impl Key {
    /// The key of the exposure.
    #[must_use]
    pub fn exposure(play: &Play) -> Self {
        let least = play.spot.exposure;
        let levels = play.contours.iter().enumerate().map(|(rank, contour)| {
            let above = words::points(contour.above_least);
            if rank == 0 { tr!("zone: up to {} more", above) } else { tr!("{} more", above) }
        });
        Self {
            title: standpoint_language::text("The opponent wins in 100").to_owned(),
            figures: [
                words::points(least),
                words::points(least + Ramp::SPAN / 2.0),
                format!("{}+", words::points(least + Ramp::SPAN)),
            ],
            levels: levels.collect(),
            note: None,
        }
    }
}

/// Height of a strip.
#[must_use]
pub fn strip_height(theme: &Theme) -> f32 {
    (theme.m.text.small * STRIP_PER_LETTER).round()
}

/// A key as a strip beside the court, which covers nothing; what does not fit is left out from the end.
pub fn strip(brush: &Brush<'_>, rect: Rect, key: Option<&Key>) {
    brush.painter.rect_filled(rect, CornerRadius::ZERO, *brush.theme.ui.panel);
    let Some(key) = key else { return };
    let m = &brush.theme.m;
    let (letter, gap) = (m.text.small, m.space.item);
    let y = rect.center().y;
    let end = rect.right() - m.space.edge;
    let mut x = rect.left() + m.space.edge;
    let say = |x: f32, said: &str, strong: bool| {
        let galley = laid_out(brush, said, strong);
        let width = galley.size().x;
        let fits = x + width <= end;
        if fits {
            let at = Align2::LEFT_CENTER.anchor_size(pos2(x, y), galley.size()).min;
            brush.painter.galley(at, galley, *brush.theme.ui.ink);
        }
        fits.then_some(x + width)
    };
    let whole = laid_out(brush, &key.title, true).size().x
        + key.figures.iter().map(|figure| laid_out(brush, figure, false).size().x + gap).sum::<f32>()
        + STRIP_BAR * letter;
    if x + whole <= end {
        x = say(x, &key.title, true).unwrap_or(x) + gap;
    }
    let Some(after) = say(x, &key.figures[0], false) else { return };
    x = after + gap;
    let ramp = Rect::from_min_size(pos2(x, y - letter * 0.45), vec2(STRIP_BAR * letter, letter * 0.9));
    if ramp.right() > end {
        return;
    }
    bar(brush, ramp);
    x = ramp.right() + gap;
    let Some(after) = say(x, &key.figures[2], false) else { return };
    x = after + 2.0 * gap;
    for (rank, what) in key.levels.iter().enumerate() {
        let sample = 2.6 * letter;
        if x + sample + gap + laid_out(brush, what, false).size().x > end {
            return;
        }
        let (stroke, dash) = field::contour_style(brush.theme, rank);
        let stroke = Stroke::new(stroke.width, *brush.theme.ui.ink);
        brush.stroke(&[pos2(x, y), pos2(x + sample, y)], stroke, dash);
        x = say(x + sample + gap, what, false).unwrap_or(end) + 2.0 * gap;
    }
    if let Some(note) = &key.note {
        say(x, note, false);
    }
}

fn laid_out(brush: &Brush<'_>, said: &str, strong: bool) -> std::sync::Arc<egui::Galley> {
    let family = if strong { fonts::strong() } else { egui::FontFamily::Proportional };
    let font = FontId::new(brush.theme.m.text.small, family);
    brush.painter.layout_no_wrap(said.to_owned(), font, *brush.theme.ui.ink)
}

/// Paints a key as a card with its lower left corner at a point, for a picture that leaves room for it.
pub fn card(brush: &Brush<'_>, low_left: Pos2, key: &Key) {
    let m = &brush.theme.m;
    let rows = key.levels.len().min(3);
    let pad = m.space.item + 2.0;
    let size = vec2(WIDTH, pad * 2.0 + ROW + BAR + ROW + rows as f32 * ROW + m.space.small);
    let rect = Rect::from_min_size(low_left - vec2(0.0, size.y), size);
    board_of(brush, rect);
    let (left, right) = (rect.left() + pad, rect.right() - pad);
    let mut y = rect.top() + pad;
    text(brush, pos2(left, y), Align2::LEFT_TOP, &key.title, true);
    y += ROW;
    bar(brush, Rect::from_min_max(pos2(left, y), pos2(right, y + BAR)));
    y += BAR + 2.0;
    let [least, middle, most] = &key.figures;
    text(brush, pos2(left, y), Align2::LEFT_TOP, least, false);
    text(brush, pos2((left + right) / 2.0, y), Align2::CENTER_TOP, middle, false);
    text(brush, pos2(right, y), Align2::RIGHT_TOP, most, false);
    y += ROW + m.space.small;
    for (rank, what) in key.levels.iter().take(rows).enumerate() {
        level(brush, pos2(left, y), rank, what);
        y += ROW;
    }
}

/// The ramp from the best place on the left to the worst on the right.
fn bar(brush: &Brush<'_>, rect: Rect) {
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
fn level(brush: &Brush<'_>, at: Pos2, rank: usize, what: &str) {
    let (stroke, dash) = field::contour_style(brush.theme, rank);
    let stroke = Stroke::new(stroke.width, *brush.theme.ui.ink);
    let y = at.y + ROW / 2.0 - 2.0;
    brush.stroke(&[pos2(at.x, y), pos2(at.x + 34.0, y)], stroke, dash);
    text(brush, pos2(at.x + 42.0, at.y), Align2::LEFT_TOP, what, false);
}

/// A piece of text in a key.
fn text(brush: &Brush<'_>, at: Pos2, anchor: Align2, text: &str, strong: bool) {
    let m = &brush.theme.m.text;
    let family = if strong { fonts::strong() } else { egui::FontFamily::Proportional };
    brush.painter.text(at, anchor, text, FontId::new(m.small, family), *brush.theme.ui.ink);
}

/// Paints a sign at a place.
type Sign = fn(&Brush<'_>, DVec2);

/// Height of a line of the legend.
const LEGEND_ROW: f32 = 34.0;
/// Points a metre at which its signs are painted: so that the largest has room in its line.
const LEGEND_SCALE: f64 = 12.0;

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
    let moved = Moved { center: DVec2::ZERO, scale: LEGEND_SCALE };
    let view = CourtView { moved: Some(moved), ..CourtView::fitted(brush.at.turn()) };
    let small = brush.through(view.transform(canvas, &session.court()));
    let gap = m.space.item;
    let height = LEGEND_ROW * 5.0 + 2.0 * m.space.small;
    let corner = pos2(canvas.left() + m.space.edge + WIDTH + gap, canvas.bottom() - m.space.edge - height);
    let width = (canvas.right() - gap - corner.x).clamp(60.0, WIDTH);
    let rect = Rect::from_min_size(corner, vec2(width, height));
    board_of(brush, rect);
    for (i, (sign, said)) in rows.into_iter().enumerate() {
        let y = rect.top() + m.space.small + LEGEND_ROW * (i as f32 + 0.5);
        sign(&small, small.at.court_from_screen(pos2(rect.left() + 26.0, y)));
        let font = FontId::new(m.text.small, egui::FontFamily::Proportional);
        let font = fonts::fitting(brush.painter, said.trim(), font, width - 60.0, LEAST_LEGEND);
        let mut job = LayoutJob::simple_singleline(said.trim().to_owned(), font, *brush.theme.ui.ink);
        // A long name is told in full elsewhere.
        job.wrap = TextWrapping::truncate_at_width(width - 60.0);
        let galley = brush.painter.layout_job(job);
        let at = Align2::LEFT_CENTER.anchor_size(pos2(rect.left() + 54.0, y), galley.size()).min;
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
