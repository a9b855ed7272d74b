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
    /// Exposure above the least at which the shading ends: beyond it one place is as bad as another.
    pub const SPAN: f64 = 0.25;

    /// The ramp of a court's colours, with even steps in the perceptual space.
    #[must_use]
    pub fn new(colors: &CourtColors) -> Self {
        let stops: Vec<Perceived> = colors.ramp.iter().map(|c| Perceived::from(c.0)).collect();
        let lengths: Vec<f32> = stops.windows(2).map(|w| w[0].distance(w[1])).collect();
        let total: f32 = lengths.iter().sum();
        let shades = std::array::from_fn(|i| {
            let mut along = total * i as f32 / (Self::SHADES - 1) as f32;
            for (k, length) in lengths.iter().enumerate() {
                if along <= *length || k + 1 == lengths.len() {
                    let t = (along / length.max(f32::EPSILON)).clamp(0.0, 1.0);
                    return stops[k].mix(stops[k + 1], t).to_color(colors.ramp_alpha);
                }
                along -= length;
            }
            stops.first().map_or(Color32::TRANSPARENT, |c| c.to_color(colors.ramp_alpha))
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
            let seen: Vec<Perceived> = (0..=8).map(|i| Perceived::from(opaque(ramp.at(f64::from(i) / 8.0)))).collect();
            let up = seen[8].l > seen[0].l;
            let steps: Vec<f32> = seen.windows(2).map(|w| w[0].distance(w[1])).collect();
            let mean = steps.iter().sum::<f32>() / steps.len() as f32;
            for (w, step) in seen.windows(2).zip(&steps) {
                assert_eq!(w[1].l > w[0].l, up, "{name}: lightness turns back");
                assert!(*step > 0.55 * mean && *step < 1.45 * mean, "{name}: uneven step {step} against {mean}");
            }
            assert!((seen[8].l - seen[0].l).abs() > 0.25, "{name}: too little lightness in the ramp");
        }
    }

    #[expect(clippy::disallowed_methods, reason = "undoes the opacity to measure the colour itself")]
    fn opaque(c: Color32) -> Color32 {
        let [r, g, b, _] = c.to_srgba_unmultiplied();
        Color32::from_rgb(r, g, b)
    }
}
