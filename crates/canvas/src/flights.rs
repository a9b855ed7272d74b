//! The hitter's shot and the opponent's best replies, seen from above.

use egui::{Align2, FontId, Pos2, Stroke};
use glam::DVec2;
use standpoint_geometry::{PathPoint, Reply, ShotFlight};
use standpoint_ui::theme::fonts;

use super::{
    brush::{Brush, Dash, Side},
    numbers::{self, number_radius},
};

/// The part of a path between two times, seen from above.
fn seen(path: &[PathPoint], from: f64, to: f64) -> Vec<DVec2> {
    path.iter().filter(|p| p.time >= from - 1e-9 && p.time <= to + 1e-9).map(|p| p.point.truncate()).collect()
}

/// The hitter's shot: to the bounce in one stroke, then to the opponent's contact in dashes.
pub fn shot(brush: &Brush<'_>, flight: &ShotFlight, until: f64) {
    let m = &brush.theme.m;
    let landing = flight.landing;
    let mut first = brush.points(seen(&flight.path, 0.0, landing.time.min(until)));
    if until >= landing.time {
        first.push(brush.point(landing.place));
        let mut second = vec![brush.point(landing.place)];
        second.extend(brush.points(seen(&flight.path, landing.time, until)));
        brush.line(&second, m.stroke.medium, Side::Hitter, Dash::Pattern(m.pattern.dashed));
    }
    brush.line(&first, m.stroke.bold, Side::Hitter, Dash::Solid);
    if let [.., before, tip] = first[..] {
        brush.arrow_head(before, tip, 11.0, Side::Hitter);
    }
}

/// The drawn shot as a faint line, from contact to target.
pub fn hinted(brush: &Brush<'_>, session: &standpoint_workbench::session::Session) {
    let Some(spec) = session.shot() else { return };
    let (ink, _) = brush.inks(Side::Hitter);
    let ends = brush.points([spec.shot.contact.truncate(), spec.shot.target]);
    brush.stroke(&ends, Stroke::new(brush.theme.m.stroke.hair, ink.gamma_multiply(0.5)), Dash::Solid);
}

/// A shot that cannot be played: from contact to target in dots.
pub fn refused(brush: &Brush<'_>, contact: DVec2, target: DVec2) {
    let m = &brush.theme.m;
    brush.line(&brush.points([contact, target]), m.stroke.thin, Side::Hitter, Dash::Pattern(m.pattern.dotted));
}

/// A reply: to the bounce in one stroke, then to where it is met in dashes.
pub fn reply(brush: &Brush<'_>, reply: &Reply, number: usize) {
    let m = &brush.theme.m;
    let width = if number == 0 { m.stroke.bold * 1.3 } else { m.stroke.bold };
    let landing = brush.point(reply.landing);
    let mut first = brush.points(seen(&reply.path, 0.0, reply.landing_time));
    first.push(landing);
    let met = met_time(reply);
    if met > reply.landing_time {
        let mut second = vec![landing];
        second.extend(brush.points(seen(&reply.path, reply.landing_time, met)));
        second.push(brush.point(reply.met_at.truncate()));
        brush.line(&second, m.stroke.thin, Side::Opponent, Dash::Pattern(m.pattern.dashed));
    }
    brush.line(&first, width, Side::Opponent, Dash::Solid);
}

/// The marks of a reply: its number at a place, which is where it bounces or beside that, and a square where it is met.
pub fn reply_marks(brush: &Brush<'_>, reply: &Reply, number: usize, place: Pos2) {
    meeting(brush, brush.point(reply.met_at.truncate()));
    numbers::link(brush, reply, place);
    number_mark(brush, place, number);
}

/// When the reply is met, judged by the sample of its path nearest to the meeting point.
pub(super) fn met_time(reply: &Reply) -> f64 {
    reply
        .path
        .iter()
        .min_by(|a, b| a.point.distance_squared(reply.met_at).total_cmp(&b.point.distance_squared(reply.met_at)))
        .map_or(0.0, |p| p.time)
}

/// Where the player meets a reply: a small open square.
pub fn meeting(brush: &Brush<'_>, center: Pos2) {
    let (ink, edge) = brush.inks(Side::Hitter);
    let d = 4.0;
    let corners = [(-d, -d), (d, -d), (d, d), (-d, d)].map(|(x, y)| Pos2::new(center.x + x, center.y + y));
    brush.painter.add(egui::Shape::closed_line(corners.to_vec(), Stroke::new(3.2, edge)));
    brush.painter.add(egui::Shape::closed_line(corners.to_vec(), Stroke::new(1.6, ink)));
}

/// A bounce with the reply's number in it.
pub(super) fn number_mark(brush: &Brush<'_>, center: Pos2, number: usize) {
    let (ink, edge) = brush.inks(Side::Opponent);
    brush.painter.circle(center, number_radius(brush), ink, Stroke::new(2.0, edge));
    let font = FontId::new((brush.font().size * 1.25).round(), fonts::strong());
    let galley = brush.painter.layout_no_wrap((number + 1).to_string(), font, edge);
    let corner = Align2::CENTER_CENTER.anchor_size(center, galley.size()).min;
    brush.painter.galley(corner, galley, edge);
}
