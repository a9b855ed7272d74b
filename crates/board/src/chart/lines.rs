//! The lines: which balls are out.

use glam::DVec2;
use standpoint_geometry::{Court, Stroke};

use super::score::Miss;

/// The limits of where a shot may land, in the hitter's frame: lowest and highest x, greatest y.
#[must_use]
pub fn limits(court: &Court, stroke: Stroke, contact: DVec2) -> (f64, f64, f64) {
    let half = court.half_width();
    match (stroke, court.service_line) {
        (Stroke::Serve, Some(service)) if contact.x >= 0.0 => (-half, 0.0, service),
        (Stroke::Serve, Some(service)) => (0.0, half, service),
        _ => (-half, half, court.half_length()),
    }
}

/// How far and in which direction a landing is out; `None` if it is in.
#[must_use]
pub fn out_by(court: &Court, stroke: Stroke, contact: DVec2, landing: DVec2) -> Option<(f64, Miss)> {
    if landing.y <= 0.0 {
        return Some((-landing.y, Miss::Net));
    }
    let (left, right, deep) = limits(court, stroke, contact);
    let (long, wide) = (landing.y - deep, (left - landing.x).max(landing.x - right));
    if long <= 0.0 && wide <= 0.0 {
        None
    } else if long >= wide {
        Some((long, Miss::Long))
    } else {
        Some((wide, Miss::Wide))
    }
}
