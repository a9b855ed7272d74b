//! The area allowed for places, and how a dragged place is kept in it.

use glam::{DVec2, DVec3};
use standpoint_geometry::End;

use crate::choices::CourtChoice;

/// Lowest ball centre at a contact, m: the ball lies on the ground (ITF ball type 2, radius 33.5 mm, rounded down).
pub const LOWEST_CONTACT: f64 = 0.03;
/// Highest ball centre at a contact, m: above any serve or smash on record from the ground.
pub const HIGHEST_CONTACT: f64 = 4.0;

/// Margin around the site for marks, m: room for a word beside the court or a bench behind the fence.
pub const MARK_MARGIN: f64 = 6.0;

/// The court with its run-off, as bounds of places.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlayArea {
    /// From the middle line to the fence beside the court, m.
    pub half_width: f64,
    /// From the net to the fence behind the court, m.
    pub half_length: f64,
}

impl PlayArea {
    /// The site of a court.
    #[must_use]
    pub fn of(choice: &CourtChoice) -> Self {
        let court = choice.court();
        Self { half_width: court.site_half_width(), half_length: court.site_half_length() }
    }

    /// Whether a ground place is on the site.
    #[must_use]
    pub fn holds(&self, place: DVec2) -> bool {
        place.x.abs() <= self.half_width && place.y.abs() <= self.half_length
    }

    /// The nearest place on the site at this end. A value that is not finite becomes the middle of that end.
    #[must_use]
    pub fn clamp_at(&self, end: End, place: DVec2) -> DVec2 {
        let mut turned = end.turn2(place);
        if !turned.is_finite() {
            turned = DVec2::new(0.0, -0.5 * self.half_length);
        }
        turned.x = turned.x.clamp(-self.half_width, self.half_width);
        turned.y = turned.y.clamp(-self.half_length, 0.0);
        end.turn2(turned)
    }

    /// The nearest contact point over the site at this end.
    #[must_use]
    pub fn clamp_contact(&self, end: End, contact: DVec3) -> DVec3 {
        let height = if contact.z.is_finite() { contact.z } else { 1.0 };
        self.clamp_at(end, contact.truncate()).extend(height.clamp(LOWEST_CONTACT, HIGHEST_CONTACT))
    }
    /// The greatest magnitudes that a mark's coordinates may have.
    #[must_use]
    pub fn mark_limits(&self) -> DVec2 {
        DVec2::new(self.half_width, self.half_length) + MARK_MARGIN
    }

    /// The nearest place where a mark may lie. A value that is not finite becomes the middle of the court.
    #[must_use]
    pub fn clamp_mark(&self, place: DVec2) -> DVec2 {
        let limits = self.mark_limits();
        if place.is_finite() { place.clamp(-limits, limits) } else { DVec2::ZERO }
    }
}
