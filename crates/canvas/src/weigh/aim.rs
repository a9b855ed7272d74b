//! The aim map on the far half: shading, level lines, the best place and the key.

use egui::{Align2, Rect, Stroke, vec2};
use standpoint_language::{text, tr};
use standpoint_ui::theme::ramp::Ramp;
use standpoint_workbench::{weigh::Weigh, words};

use super::View;
use crate::{
    brush::{Brush, Side},
    field::{self, Shading},
    key::Key,
    labels::{LabelId, Placer, Wish},
    touch_rect,
};

/// How much of its strength a map keeps that belongs to what was drawn before.
const STALE: f32 = 0.35;

/// Does something with the brush, or with a fainter one when the map is out of date.
fn as_fresh(brush: &Brush<'_>, weigh: &Weigh, paint: impl FnOnce(&Brush<'_>)) {
    if weigh.scheduler().map_is_fresh() {
        return paint(brush);
    }
    let mut faint = brush.painter.clone();
    faint.set_opacity(STALE);
    paint(&brush.with(&faint));
}

/// The shading.
pub fn ground(brush: &Brush<'_>, shading: &mut Shading, weigh: &Weigh) {
    let (Some(map), Some(chart)) = (weigh.scheduler().map(), weigh.chart()) else { return };
    let generation = 2 * map.generation() + u64::from(weigh.weighing().to_middle);
    as_fresh(brush, weigh, |brush| shading.paint(brush, &chart.field, 1.0 - chart.win, generation));
}

/// The level lines.
pub fn lines(brush: &Brush<'_>, weigh: &Weigh) {
    let Some(chart) = weigh.chart() else { return };
    as_fresh(brush, weigh, |brush| field::contours(brush, &chart.contours));
}

/// The best place to aim at: a diamond in a ring.
pub fn best(brush: &Brush<'_>, weigh: &Weigh) {
    let Some(chart) = weigh.chart() else { return };
    as_fresh(brush, weigh, |brush| {
        let (c, g) = (brush.point(chart.best), brush.growth());
        let (ink, edge) = brush.inks(Side::Hitter);
        let r = 8.0 * g;
        let corners = [vec2(0.0, -r), vec2(r, 0.0), vec2(0.0, r), vec2(-r, 0.0)].map(|d| c + d);
        brush.painter.add(egui::Shape::convex_polygon(corners.to_vec(), ink, Stroke::new(2.0, edge)));
        brush.painter.circle_filled(c, 2.4 * g, edge);
        brush.ring(c, 12.5 * g, 1.6, Side::Hitter);
    });
}

/// What words must leave uncovered.
pub fn obstacle(brush: &Brush<'_>, weigh: &Weigh) -> Option<Rect> {
    weigh.chart().map(|chart| touch_rect(brush.point(chart.best), 28.0 * brush.growth()))
}

/// What the best place wins.
pub fn tag(brush: &Brush<'_>, placer: &mut Placer, view: View<'_>) {
    let Some(chart) = view.weigh.chart().filter(|_| view.weigh.scheduler().map_is_fresh()) else { return };
    let galley = brush.text(tr!("best aim: {} in 100", words::points(chart.win)), *brush.theme.court.ink);
    let wish = Wish {
        id: LabelId::Aim,
        anchor: brush.point(chart.best),
        size: galley.size() + vec2(6.0, 2.0),
        gap: 16.0 * brush.growth(),
        beside: false,
    };
    if let Some(rect) = placer.place(&wish) {
        brush.haloed(rect.center(), Align2::CENTER_CENTER, &galley);
    }
}

/// The key of the map, once there is one.
#[must_use]
pub fn key(weigh: &Weigh) -> Option<Key> {
    let chart = weigh.chart()?;
    let figure = |below: f64| words::points((chart.win - below).max(0.0));
    Some(Key {
        title: text("Points won in 100, aimed here").to_owned(),
        figures: [figure(0.0), figure(Ramp::SPAN / 2.0), tr!("{} or less", figure(Ramp::SPAN))],
        levels: chart.contours.iter().map(|contour| tr!("{} fewer", words::points(contour.above_least))).collect(),
        note: Some(state(weigh)),
    })
}

/// How far the map is.
#[must_use]
pub fn state(weigh: &Weigh) -> String {
    let part = weigh.scheduler().map_part();
    if part >= 1.0 {
        let apart = words::decimal(standpoint_workbench::weigh::map::STEP_M, 1);
        return if weigh.weighing().to_middle {
            tr!("targets {} m apart, recovery to the middle", apart)
        } else {
            tr!("targets {} m apart", apart)
        };
    }
    if weigh.scheduler().map_is_fresh() {
        tr!("getting finer: {}", words::percent(part))
    } else {
        text("of before …").to_owned()
    }
}
