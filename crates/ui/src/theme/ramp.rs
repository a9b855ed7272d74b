//! The ramp that shades the exposure.

use egui::Color32;

use super::{color::Perceived, tokens::CourtColors};

/// Shades between the most exposed end (0) and the best place (1).
#[derive(Debug, Clone, PartialEq)]
pub struct Ramp {
    shades: [Color32; Self::SHADES],
}

impl Ramp {
    const SHADES: usize = 64;
    /// Position from which on the shading is opaque.
    const OPAQUE_FROM: f32 = 0.45;
    /// Exposure above the least at which the shading ends.
    pub const SPAN: f64 = 0.25;

    /// The ramp of a court's colours: even steps of the perceptual space from the gloom to the glow, which is the lighter
    /// end everywhere. Where the gloom is the court itself, the ramp becomes transparent towards it, so that the run-off
    /// keeps its own colour there.
    #[must_use]
    pub fn new(colors: &CourtColors) -> Self {
        let (gloom, glow) = (Perceived::from(*colors.gloom), Perceived::from(*colors.glow));
        let fades = *colors.gloom == *colors.court;
        let shades = std::array::from_fn(|i| {
            let t = i as f32 / (Self::SHADES - 1) as f32;
            let alpha = if fades { (t / Self::OPAQUE_FROM).min(1.0) } else { 1.0 };
            gloom.mix(glow, t / alpha.max(f32::EPSILON)).to_color(alpha)
        });
        Self { shades }
    }

    /// The shade of an exposure that lies `above_least` over the best one.
    #[must_use]
    pub fn shade(&self, above_least: f64) -> Color32 {
        self.at(1.0 - above_least / Self::SPAN)
    }

    /// The shade at a position along the ramp, 0 for the most exposed end to 1 for the best place.
    #[must_use]
    pub fn at(&self, position: f64) -> Color32 {
        let i = (position.clamp(0.0, 1.0) * (Self::SHADES - 1) as f64).round() as usize;
        self.shades[i]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::theme::tokens::Tokens;

    #[test]
    fn every_ramp_gets_lighter_in_even_steps_towards_the_best_place() {
        let tokens = Tokens::load().unwrap();
        for (name, colors) in tokens.courts.all() {
            let ramp = Ramp::new(colors);
            let over_court = |i: i32| Perceived::from(colors.court.blend(ramp.at(f64::from(i) / 8.0)));
            let seen: Vec<Perceived> = (0..=8).map(over_court).collect();
            let steps: Vec<f32> = seen.windows(2).map(|w| w[0].distance(w[1])).collect();
            let mean = steps.iter().sum::<f32>() / steps.len() as f32;
            for (w, step) in seen.windows(2).zip(&steps) {
                assert!(w[1].l > w[0].l, "{name}: the best place is not the lightest");
                assert!(*step > 0.55 * mean && *step < 1.5 * mean, "{name}: uneven step {step} against {mean}");
            }
            assert!(seen[8].l - seen[0].l > 0.2, "{name}: too little lightness in the ramp");
        }
    }
}
