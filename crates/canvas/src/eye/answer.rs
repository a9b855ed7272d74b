//! The answer as it is seen: zone and spot, the opponent's angle, and the flights of the replies.

use egui::Stroke;
use glam::DVec3;
use standpoint_geometry::{PathPoint, Play, Reply};

use super::film::Film;
use crate::{
    brush::{Dash, Side},
    field,
    flights::{meeting, met_time, number_mark},
};

pub(super) fn zone(film: &Film<'_, '_>, play: &Play) {
    let (stroke, dash) = field::contour_style(film.brush.theme, 0);
    for ring in play.contours.first().into_iter().flat_map(|zone| &zone.rings) {
        let places: Vec<DVec3> = ring.iter().map(|place| film.end.turn2(*place).extend(0.0)).collect();
        film.stroke(&places, stroke, dash);
    }
    film.spot(film.end.turn2(play.spot.place));
}

pub(super) fn wedge(film: &Film<'_, '_>, play: &Play) {
    let wedge = &play.wedge;
    let [apex, left, right] =
        [wedge.apex, wedge.left_landing, wedge.right_landing].map(|place| film.end.turn2(place).extend(0.0));
    film.shape(&[apex, left, right], *film.brush.theme.court.wedge, Stroke::NONE);
    let long = Dash::Pattern(film.brush.theme.m.pattern.long);
    for landing in [left, right] {
        film.cased(&[apex, landing], film.brush.theme.m.stroke.thin, Side::Opponent, long);
    }
}

/// The flight of a reply: its part beyond the net or the one on this side, with its shadow on the ground.
pub(super) fn flight(film: &Film<'_, '_>, reply: &Reply, number: usize, beyond: bool) {
    let met = met_time(reply);
    let seen = |p: &&PathPoint| p.time <= met + 1e-9;
    let all: Vec<DVec3> = reply.path.iter().filter(seen).map(|p| film.end.turn3(p.point)).collect();
    let Some(crossing) = all.iter().position(|p| p.y <= 0.0) else { return };
    let part = if beyond { &all[..=crossing] } else { &all[crossing.saturating_sub(1)..] };
    let theme = film.brush.theme;
    let shadow: Vec<DVec3> = part.iter().map(|p| p.truncate().extend(0.0)).collect();
    film.plain(&shadow, Stroke::new(2.4, theme.court.hitter_ink.gamma_multiply(0.35)));
    let width = if number == 0 { theme.m.stroke.bold * 1.3 } else { theme.m.stroke.bold };
    film.cased(part, width, Side::Opponent, Dash::Solid);
}

/// Its number where it lands, and a square where it is met.
pub(super) fn marks(film: &Film<'_, '_>, reply: &Reply, number: usize) {
    let met = film.end.turn3(reply.met_at);
    if let Some(at) = film.point(met) {
        meeting(film.brush, at);
    }
    let landing = film.end.turn2(reply.landing).extend(0.0);
    film.disc(landing, 0.22, Side::Opponent);
    if let Some(at) = film.point(landing) {
        number_mark(film.brush, at - egui::vec2(0.0, 20.0), number);
    }
}
