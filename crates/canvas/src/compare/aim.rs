//! The aim map on the far half: shading, level lines, the best place and the key.

use egui::{Align2, CornerRadius, Rect, Stroke, StrokeKind, Vec2, pos2, vec2};
use glam::DVec2;
use standpoint_geometry::answer::Field;
use standpoint_language::{text, tr};
use standpoint_ui::theme::ramp::Ramp;
use standpoint_workbench::{compare::Comparison, words};

use super::OverlayView;
use crate::{
    brush::{Brush, Side},
    field::{self, Shading},
    key,
    labels::{LabelId, Placer, Wish},
    touch_rect,
};

/// Opacity of an outdated map.
const STALE: f32 = 0.35;

/// Paints with the brush, or with a fainter one if the map is outdated.
fn as_fresh(brush: &Brush<'_>, comparison: &Comparison, paint: impl FnOnce(&Brush<'_>)) {
    if comparison.scheduler().map_is_fresh() {
        return paint(brush);
    }
    let mut faint = brush.painter.clone();
    faint.set_opacity(STALE);
    paint(&Brush { painter: &faint, at: brush.at, theme: brush.theme });
}

/// The shading.
pub fn ground(brush: &Brush<'_>, shading: &mut Shading, comparison: &Comparison) {
    let (Some(map), Some(chart)) = (comparison.scheduler().map(), comparison.chart()) else { return };
    let generation = 2 * map.generation() + u64::from(comparison.state().to_middle);
    as_fresh(brush, comparison, |brush| shading.paint(brush, &chart.field, 1.0 - chart.win, generation));
}

/// The level lines.
pub fn lines(brush: &Brush<'_>, comparison: &Comparison) {
    let Some(chart) = comparison.chart() else { return };
    as_fresh(brush, comparison, |brush| field::contours(brush, &chart.contours));
}

/// The best place to aim at: a diamond in a ring.
pub fn best(brush: &Brush<'_>, comparison: &Comparison) {
    let Some(chart) = comparison.chart() else { return };
    as_fresh(brush, comparison, |brush| {
        let (c, g) = (brush.point(chart.best), brush.growth());
        let (ink, edge) = brush.inks(Side::Hitter);
        let r = 8.0 * g;
        let corners = [vec2(0.0, -r), vec2(r, 0.0), vec2(0.0, r), vec2(-r, 0.0)].map(|d| c + d);
        brush.painter.add(egui::Shape::convex_polygon(corners.to_vec(), ink, Stroke::new(2.0, edge)));
        brush.painter.circle_filled(c, 2.4 * g, edge);
        brush.ring(c, 12.5 * g, 1.6, Side::Hitter);
    });
}

/// Areas that labels must not cover.
pub fn obstacle(brush: &Brush<'_>, comparison: &Comparison) -> Option<Rect> {
    comparison.chart().map(|chart| touch_rect(brush.point(chart.best), 28.0 * brush.growth()))
}

/// Label of the best place.
pub fn tag(brush: &Brush<'_>, placer: &mut Placer, view: OverlayView<'_>) {
    let Some(chart) = view.comparison.chart().filter(|_| view.comparison.scheduler().map_is_fresh()) else { return };
    let galley = brush.text(tr!("best aim: {} in 100", words::points(chart.win)), *brush.theme.court.ink);
    let wish = Wish {
        id: LabelId::Aim,
        anchor: brush.point(chart.best),
        size: galley.size() + vec2(6.0, 2.0),
        gap: 16.0 * brush.growth(),
    };
    if let Some(rect) = placer.place(&wish) {
        brush.haloed(rect.center(), Align2::CENTER_CENTER, &galley);
    }
}

/// The key, in the upper left corner, beside the half it belongs to; where that is too narrow, in a lower corner over the
/// other half. Returns where.
pub fn key(brush: &Brush<'_>, canvas: Rect, view: OverlayView<'_>) -> Option<Rect> {
    let comparison = view.comparison;
    let chart = comparison.chart()?;
    let m = &brush.theme.m;
    let pad = m.space.item + 2.0;
    let rows = chart.contours.len() as f32 + 1.0;
    let size = Vec2::new(key::WIDTH, pad * 2.0 + key::ROW * (rows + 2.0) + key::BAR + m.space.small);
    let rect = place_of_key(brush, canvas.shrink(m.space.edge), size, &chart.field, view.layers.field);
    let ui = &brush.theme.ui;
    let radius = CornerRadius::same(m.radius.medium as u8);
    let edge = Stroke::new(m.stroke.hair, *ui.line);
    brush.painter.rect(rect, radius, ui.raised.gamma_multiply(0.94), edge, StrokeKind::Inside);
    let (left, right) = (rect.left() + pad, rect.right() - pad);
    let mut y = rect.top() + pad;
    let line = |x: f32, y: f32, anchor: Align2, said: &str, strong: bool| {
        key::text(brush, pos2(x, y), anchor, said, strong);
    };
    line(left, y, Align2::LEFT_TOP, text("Points won in 100, aimed here"), true);
    y += key::ROW;
    key::bar(brush, Rect::from_min_max(pos2(left, y), pos2(right, y + key::BAR)));
    y += key::BAR + 2.0;
    let figure = |below: f64| words::points((chart.win - below).max(0.0));
    line(left, y, Align2::LEFT_TOP, &figure(0.0), false);
    line((left + right) / 2.0, y, Align2::CENTER_TOP, &figure(Ramp::SPAN / 2.0), false);
    line(right, y, Align2::RIGHT_TOP, &tr!("{} or less", figure(Ramp::SPAN)), false);
    y += key::ROW + m.space.small;
    for (rank, contour) in chart.contours.iter().enumerate() {
        key::level(brush, pos2(left, y), rank, &tr!("{} fewer", words::points(contour.above_least)));
        y += key::ROW;
    }
    line(left, y, Align2::LEFT_TOP, &state(comparison), false);
    Some(rect)
}

/// The first corner in which a key does not cover the map; the lower left one may hold the key of the other shading.
fn place_of_key(brush: &Brush<'_>, canvas: Rect, size: Vec2, field: &Field, other_key: bool) -> Rect {
    let span = DVec2::new((field.columns - 1) as f64, (field.rows - 1) as f64) * field.step;
    let map = Rect::from_two_pos(brush.point(field.origin), brush.point(field.origin + span));
    let corners = [Align2::LEFT_TOP, Align2::LEFT_BOTTOM, Align2::RIGHT_BOTTOM, Align2::RIGHT_TOP];
    let places = corners.map(|corner| corner.align_size_within_rect(size, canvas));
    let taken = |place: &Rect| *place == places[1] && other_key;
    places.iter().copied().find(|place| !taken(place) && !place.intersects(map)).unwrap_or(places[0])
}

/// How far the map is.
#[must_use]
pub fn state(comparison: &Comparison) -> String {
    let part = comparison.scheduler().map_part();
    if part >= 1.0 {
        let apart = words::decimal(standpoint_workbench::compare::map::STEP_M, 1);
        return if comparison.state().to_middle {
            tr!("targets {} m apart, recovery to the middle", apart)
        } else {
            tr!("targets {} m apart", apart)
        };
    }
    if comparison.scheduler().map_is_fresh() {
        tr!("getting finer: {}", words::percent(part))
    } else {
        text("of before …").to_owned()
    }
}
