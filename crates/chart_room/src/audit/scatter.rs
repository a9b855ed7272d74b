//! The court with the actual and recommended places of a player.

use egui::{Align2, Id, Sense, Stroke, Ui};
use glam::{DVec2, dvec2};
use standpoint_canvas::{
    announce,
    brush::{Brush, Dash, Side},
    court,
};
use standpoint_charting::audit::{AuditedShot, Judged};
use standpoint_geometry::Court;
use standpoint_language::{text, tr};
use standpoint_ui::transform::{CourtView, Moved};

use super::ReportView;
use crate::court::person;

/// Most places with lines to the recommended places.
const WITH_LINES: usize = 60;
/// Most places painted; more are thinned evenly.
const PAINTED: usize = 4000;
/// Height of what the key takes below the court, points.
const KEY: f32 = 52.0;
/// Hit distance of a place, points.
const NEAR: f32 = 14.0;

/// The court; places of the player are turned to the near end, so that they face up.
pub fn ui(ui: &mut Ui, told: &ReportView<'_>, chosen: &mut Option<usize>, finding: Option<usize>) {
    let rect = ui.available_rect_before_wrap();
    let response = ui.interact(rect, Id::unique("audit court"), Sense::CLICK);
    ui.advance_cursor_after_rect(rect);
    let theme = told.view.theme;
    let lines = told.view.setup.court.court();
    let painter = ui.painter_at(rect);
    painter.rect_filled(rect, 0.0, *theme.ui.canvas);
    // The key has a place of its own below the court.
    let above = rect.with_max_y((rect.bottom() - KEY).max(rect.top() + 1.0));
    let near = Moved { center: dvec2(0.0, -0.5 * lines.half_length() - 2.2), scale: scale(above, &lines) };
    // A shot takes the whole court, places only the near half.
    let view = CourtView { moved: chosen.is_none().then_some(near), ..CourtView::fitted(0) };
    let brush = Brush::new(&painter, view.transform(above, &lines), theme);
    court::ground(&brush, &lines);
    court::lines(&brush, &lines);
    court::net(&brush, &lines);
    let judged: Vec<(usize, &Judged)> = told
        .shots
        .iter()
        .enumerate()
        .filter(|(_, shot)| shot.began == told.player)
        .filter_map(|(i, shot)| Some((i, shot.judged()?)))
        .collect();
    let group = finding.and_then(|i| Some(told.view.audited?.report.findings.get(i)?.0.group));
    let (judged, others): (Vec<_>, Vec<_>) = match group {
        Some(group) => judged.into_iter().partition(|(i, _)| group.holds(&told.shots[*i])),
        None => (judged, Vec::new()),
    };
    let thin = others.len().div_ceil(PAINTED).max(1);
    for (_, judged) in others.iter().step_by(thin) {
        place(&brush, judged, false, true);
    }
    let thin = judged.len().div_ceil(PAINTED).max(1);
    let with_lines = judged.len() <= WITH_LINES && chosen.is_none();
    for (_, judged) in judged.iter().step_by(thin) {
        place(&brush, judged, with_lines, chosen.is_some());
    }
    let shot = chosen.and_then(|i| told.shots.get(i)).filter(|shot| shot.began == told.player);
    if let Some(shot) = shot {
        whole(&brush, shot);
    }
    key(&brush, rect, shot.is_some());
    let value = tr!("{n} place judged" | "{n} places judged" % judged.len());
    announce::describe(ui, &response, egui::accesskit::Role::GraphicsDocument, text("Places on the court"), &value);
    if response.clicked()
        && let Some(pos) = response.interact_pointer_pos()
    {
        let far = |judged: &Judged| brush.point(judged.stood).distance(pos);
        let nearest = judged.iter().min_by(|(_, a), (_, b)| far(a).total_cmp(&far(b)));
        *chosen = nearest.filter(|(_, judged)| far(judged) < NEAR).map(|(i, _)| *i);
    }
}

/// Points a metre at which the near half with its run-off fits.
fn scale(rect: egui::Rect, court: &Court) -> f64 {
    let (wide, long) = (2.0 * court.outer_half_width() + 2.0, court.half_length() + 6.4);
    (f64::from(rect.width()) / wide).min(f64::from(rect.height()) / long)
}

/// One place: a disc where they stood, larger the more it cost, and a line to where they should have.
fn place(brush: &Brush<'_>, judged: &Judged, with_line: bool, faint: bool) {
    let (ink, edge) = brush.inks(Side::Hitter);
    let fade = if faint { 0.35 } else { 1.0 };
    let at = brush.point(judged.stood);
    if with_line {
        let goal = brush.point(judged.goal);
        brush.stroke(&[at, goal], Stroke::new(1.2, edge.gamma_multiply(0.7)), Dash::Solid);
        brush.painter.circle_stroke(goal, 3.0, Stroke::new(1.2, edge.gamma_multiply(0.9)));
    }
    let radius = 2.6 + (judged.avoidable * 30.0).min(6.0) as f32;
    let alert = judged.avoidable > 0.08;
    let fill = if alert { *brush.theme.court.alert } else { ink };
    brush.painter.circle(at, radius, fill.gamma_multiply(fade), Stroke::new(1.0, edge.gamma_multiply(fade)));
}

/// The shot that was chosen, with all its places.
fn whole(brush: &Brush<'_>, shot: &AuditedShot) {
    let Some(judged) = shot.judged() else { return };
    let ball = brush.points([shot.contact, shot.landing, judged.met]);
    brush.line(&ball[..2], 2.4, Side::Hitter, Dash::Solid);
    brush.line(&ball[1..], 2.4, Side::Hitter, Dash::Pattern(brush.theme.m.pattern.dashed));
    brush.arrow_head(ball[1], ball[2], 10.0, Side::Hitter);
    brush.bounce(ball[1], Side::Hitter);
    brush.ring(ball[0], 6.0, 2.0, Side::Hitter);
    brush.ring(ball[2], 6.0, 2.0, Side::Opponent);
    let run = brush.points([shot.contact, judged.stood]);
    brush.line(&run, 1.8, Side::Hitter, Dash::Pattern(brush.theme.m.pattern.dotted));
    brush.ring(brush.point(judged.middle), 5.0, 1.6, Side::Opponent);
    // On the free side, away from the recommended place.
    let side = if judged.goal.x < judged.middle.x { Align2::LEFT_CENTER } else { Align2::RIGHT_CENTER };
    label(brush, judged.middle, text("middle"), side);
    if judged.spot.distance(judged.goal) > 0.05 {
        brush.ring(brush.point(judged.spot), 8.0, 1.4, Side::Hitter);
        label(brush, judged.spot, text("spot"), Align2::CENTER_BOTTOM);
    }
    let goal = brush.point(judged.goal);
    brush.ring(goal, 9.0, 2.6, Side::Hitter);
    label(brush, judged.goal, text("should have"), Align2::CENTER_BOTTOM);
    person(brush, judged.stood, Side::Hitter, "");
    label(brush, judged.stood, text("stood"), Align2::CENTER_TOP);
}

fn label(brush: &Brush<'_>, place: DVec2, text: &str, anchor: Align2) {
    let galley = brush.text(text, *brush.theme.court.ink);
    let away = match anchor {
        Align2::CENTER_TOP => egui::vec2(0.0, 12.0),
        Align2::LEFT_CENTER => egui::vec2(14.0, 0.0),
        Align2::RIGHT_CENTER => egui::vec2(-14.0, 0.0),
        _ => egui::vec2(0.0, -12.0),
    };
    brush.haloed(brush.point(place) + away, anchor, &galley);
}

/// What the signs mean.
fn key(brush: &Brush<'_>, rect: egui::Rect, chosen: bool) {
    let said = if chosen {
        text("Click beside it to see all places")
    } else {
        text("Discs: where they stood, larger where it cost more. The player faces up; click one to see the shot")
    };
    let theme = brush.theme;
    let font = egui::FontId::proportional(theme.m.text.small);
    let galley = brush.painter.layout(said.to_owned(), font, *theme.court.ink, rect.width() - 28.0);
    let size = galley.size() + egui::vec2(12.0, 8.0);
    let corner = rect.left_bottom() + egui::vec2(8.0, -8.0 - size.y);
    let ground = egui::Rect::from_min_size(corner, size);
    brush.painter.rect_filled(ground, theme.m.radius.small, theme.court.halo.gamma_multiply(0.9));
    brush.painter.galley(corner + egui::vec2(6.0, 4.0), galley, *theme.court.ink);
}
