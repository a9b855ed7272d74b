//! The aim map on the far half: shading, level lines, the best place and the key.

use egui::{Align2, Rect, Stroke, vec2};
use standpoint_language::{text, tr};
use standpoint_ui::theme::ramp::Ramp;
use standpoint_workbench::{compare::Comparison, words};

use super::OverlayView;
use crate::{
    brush::{Brush, Side},
    field::{self, Shading},
    key::Key,
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
    paint(&brush.with(&faint));
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
        size: galley.size() + vec2(12.0, 4.0),
        gap: 16.0 * brush.growth(),
        beside: false,
    };
    if let Some(rect) = placer.place(&wish) {
        // On a plate: the brightest ground lies below it.
        brush.painter.rect_filled(rect, brush.theme.m.radius.small, brush.theme.court.halo.gamma_multiply(0.85));
        brush.haloed(rect.center(), Align2::CENTER_CENTER, &galley);
    }
}

/// The key of the map, once there is one.
#[must_use]
pub fn key(comparison: &Comparison) -> Option<Key> {
    let chart = comparison.chart()?;
    let figure = |below: f64| words::points((chart.win - below).max(0.0));
    Some(Key {
        title: text("Points won in 100, aimed here").to_owned(),
        figures: [figure(0.0), figure(Ramp::SPAN / 2.0), tr!("{} or less", figure(Ramp::SPAN))],
        levels: chart.contours.iter().map(|contour| tr!("{} fewer", words::points(contour.above_least))).collect(),
        note: Some(state(comparison)),
    })
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
