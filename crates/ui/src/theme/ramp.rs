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

    /// The ramp of a court's colours. Over the court it has even steps in perceptual space from the court
    /// to the glow. Towards the court it becomes transparent, so that run-off and lines keep their own colours there.
    #[must_use]
    pub fn new(colors: &CourtColors) -> Self {
        let (court, glow) = (Perceived::from(*colors.court), Perceived::from(*colors.glow));
        let shades = std::array::from_fn(|i| {
            let t = i as f32 / (Self::SHADES - 1) as f32;
            let alpha = (t / Self::OPAQUE_FROM).min(1.0);
            court.mix(glow, t / alpha.max(f32::EPSILON)).to_color(alpha)
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
    fn every_ramp_changes_lightness_one_way_in_even_steps() {
        let tokens = Tokens::load().unwrap();
        for (name, colors) in tokens.courts.all() {
            let ramp = Ramp::new(colors);
            let over_court = |i: i32| Perceived::from(colors.court.blend(ramp.at(f64::from(i) / 8.0)));
            let seen: Vec<Perceived> = (0..=8).map(over_court).collect();
            let up = seen[8].l > seen[0].l;
            let steps: Vec<f32> = seen.windows(2).map(|w| w[0].distance(w[1])).collect();
            let mean = steps.iter().sum::<f32>() / steps.len() as f32;
            for (w, step) in seen.windows(2).zip(&steps) {
                assert_eq!(w[1].l > w[0].l, up, "{name}: lightness turns back");
                assert!(*step > 0.55 * mean && *step < 1.5 * mean, "{name}: uneven step {step} against {mean}");
            }
            assert!((seen[8].l - seen[0].l).abs() > 0.2, "{name}: too little lightness in the ramp");
        }
    }
}
