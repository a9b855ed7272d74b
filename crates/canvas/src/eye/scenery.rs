//! The court and its net as they are seen.

use egui::Stroke;
use glam::{DVec3, dvec2};
use standpoint_geometry::Court;

use super::film::Film;

/// Sky, the screen behind the far end, the run-off and the court.
pub(super) fn ground(film: &Film<'_, '_>, court: &Court) {
    let theme = film.brush.theme;
    film.brush.painter.rect_filled(film.rect, 0.0, *theme.ui.canvas);
    let c = &theme.court;
    film.below_horizon(*c.surround);
    let (wide, long) = (court.site_half_width(), court.site_half_length());
    let back: Vec<DVec3> = [(-wide, 0.0), (wide, 0.0), (wide, 3.0), (-wide, 3.0)]
        .into_iter()
        .map(|(x, z)| DVec3::new(x, long, z))
        .collect();
    film.shape(&back, *c.surround, Stroke::NONE);
    film.shape(&back, c.halo.gamma_multiply(0.45), Stroke::NONE);
    let (x, y) = (court.outer_half_width(), court.half_length());
    let inside = [dvec2(-x, -y), dvec2(x, -y), dvec2(x, y), dvec2(-x, y)].map(|p| p.extend(0.0));
    film.shape(&inside, *c.court, Stroke::NONE);
}

pub(super) fn lines(film: &Film<'_, '_>, court: &Court) {
    let color = *film.brush.theme.court.line;
    for line in court.lines() {
        let along = (line.to - line.from).normalize_or_zero();
        let across = along.perp() * line.width / 2.0;
        let corners = [line.from - across, line.from + across, line.to + across, line.to - across];
        film.shape(&corners.map(|p| p.extend(0.0)), color, Stroke::NONE);
        film.plain(&[line.from.extend(0.0), line.to.extend(0.0)], Stroke::new(1.0, color));
    }
}

pub(super) fn net(film: &Film<'_, '_>, court: &Court) {
    let c = &film.brush.theme.court;
    let post = court.post_x();
    let top = |x: f64| DVec3::new(x, 0.0, court.net_height(x));
    let places: Vec<f64> = (0..=24).map(|i| post * (f64::from(i) / 12.0 - 1.0)).collect();
    for pair in places.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let mesh = [DVec3::new(a, 0.0, 0.0), DVec3::new(b, 0.0, 0.0), top(b), top(a)];
        film.shape(&mesh, c.net.gamma_multiply(0.30), Stroke::NONE);
        film.plain(&[mesh[0], mesh[3]], Stroke::new(0.8, c.net.gamma_multiply(0.5)));
    }
    for part in [0.2, 0.4, 0.6, 0.8] {
        let at = |x: f64| DVec3::new(x, 0.0, court.net_height(x) * part);
        film.plain(&[at(-post), at(0.0), at(post)], Stroke::new(0.8, c.net.gamma_multiply(0.5)));
    }
    for pair in places.windows(2) {
        let (a, b) = (top(pair[0]), top(pair[1]));
        let band = [a - DVec3::Z * 0.06, b - DVec3::Z * 0.06, b, a];
        film.shape(&band, *c.tape, Stroke::NONE);
    }
    film.plain(&[top(-post), top(0.0), top(post)], Stroke::new(1.4, *c.tape));
    film.plain(&[DVec3::ZERO, top(0.0)], Stroke::new(2.0, *c.tape));
    for x in [-post, post] {
        film.plain(&[DVec3::new(x, 0.0, 0.0), top(x)], Stroke::new(3.0, *c.net));
    }
}
