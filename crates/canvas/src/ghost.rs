//! Cost of recovering away from the spot: the place, the run, and the reply that punishes it.

use egui::{Align2, CornerRadius, Stroke, StrokeKind, Vec2, vec2};
use glam::DVec2;
use standpoint_workbench::{
    elsewhere,
    session::{Elsewhere, Session},
};

use super::{
    brush::{Brush, Dash, Side},
    flights,
    labels::{LabelId, Placer, Wish},
    marks, tags,
};

/// Paints the ghost.
pub fn paint(brush: &Brush<'_>, session: &Session, elsewhere: &Elsewhere) {
    let place = elsewhere.chosen.place.place;
    let m = &brush.theme.m;
    flights::reply(brush, &elsewhere.chosen.reply, 0);
    flights::meeting(brush, brush.point(elsewhere.chosen.reply.met_at.truncate()));
    if let Some(play) = session.play() {
        let way = brush.points([play.spot.place, place]);
        brush.line(&way, m.stroke.thin, Side::Hitter, Dash::Pattern(m.pattern.dotted));
    }
    gap(brush, elsewhere);
    figure(brush, place);
}

/// The stretch to the ball that is not covered: a bar with end strokes.
fn gap(brush: &Brush<'_>, elsewhere: &Elsewhere) {
    let (place, met) = (elsewhere.chosen.place.place, elsewhere.chosen.reply.met_at.truncate());
    let way = met - place;
    if elsewhere.chosen.uncovered < elsewhere::LEAST_GAP || way.length() < 1e-6 {
        return;
    }
    let from = met - way.clamp_length_max(elsewhere.chosen.uncovered);
    let (a, b) = (brush.point(from), brush.point(met));
    brush.line(&[a, b], brush.theme.m.stroke.bold, Side::Opponent, Dash::Solid);
    let across = (b - a).normalized().rot90() * 7.0;
    for end in [a, b] {
        brush.line(&[end - across, end + across], brush.theme.m.stroke.medium, Side::Opponent, Dash::Solid);
    }
}

/// A hollow player: a ring in dashes with a question mark.
pub fn figure(brush: &Brush<'_>, place: DVec2) {
    let (c, r) = (brush.point(place), marks::player_radius(brush));
    let ring: Vec<_> = (0..=48).map(|i| c + Vec2::angled(std::f32::consts::TAU * i as f32 / 48.0) * r).collect();
    brush.line(&ring, 2.2, Side::Hitter, Dash::Pattern((5.0, 3.5, 5.0, 3.5)));
    let mark = brush.text("?", *brush.theme.court.ink);
    brush.haloed(c, Align2::CENTER_CENTER, &mark);
}

/// The tag of the ghost.
pub fn tag(brush: &Brush<'_>, placer: &mut Placer, session: &Session, elsewhere: &Elsewhere) {
    let (first, second) = elsewhere::describe(elsewhere, session);
    let (ink, edge) = brush.inks(Side::Hitter);
    let galley = tags::two_lines(brush, &first, &second, edge);
    let pad = vec2(8.0, 5.0);
    let anchor = brush.point(elsewhere.chosen.place.place);
    let gap = marks::player_radius(brush) + 8.0;
    let Some(rect) =
        placer.place(&Wish { id: LabelId::Elsewhere, anchor, size: galley.size() + pad * 2.0, gap, beside: true })
    else {
        return;
    };
    tags::leader(brush, anchor, rect, Side::Hitter);
    let radius = CornerRadius::same(brush.theme.m.radius.medium as u8);
    brush.painter.rect(rect, radius, ink, Stroke::new(1.4, edge), StrokeKind::Inside);
    brush.painter.galley(rect.min + pad, galley, edge);
}
