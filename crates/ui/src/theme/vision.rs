//! Simulation of colour vision deficiency, for checks of the tokens.
//!
//! Source: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, "A Physiologically-based Model for Simulation of Color Vision
//! Deficiency", IEEE TVCG 15 (2009), the matrices for complete deficiency, on linear red, green and blue (the numbers from
//! memory). `scripts/colour-vision` applies the same to pictures.

use egui::Color32;

use super::color;

/// One matrix for each kind: without the long, the middle and the short wavelengths.
pub const KINDS: [(&str, [[f32; 3]; 3]); 3] = [
    (
        "protanopia",
        [[0.152_286, 1.052_583, -0.204_868], [0.114_503, 0.786_281, 0.099_216], [-0.003_882, -0.048_116, 1.051_998]],
    ),
    (
        "deuteranopia",
        [[0.367_322, 0.860_646, -0.227_968], [0.280_085, 0.672_501, 0.047_413], [-0.011_82, 0.042_94, 0.968_881]],
    ),
    (
        "tritanopia",
        [[1.255_528, -0.076_749, -0.178_779], [-0.078_411, 0.930_809, 0.147_602], [0.004_733, 0.691_367, 0.303_9]],
    ),
];

/// The perceived colour.
pub fn seen(kind: &[[f32; 3]; 3], color: Color32) -> Color32 {
    let light = color::light_of(color);
    color::of_light(kind.map(|row| row.iter().zip(light).map(|(weight, part)| weight * part).sum()))
}

mod tests {
    use super::*;
    use crate::theme::{
        color::{Perceived, contrast},
        ramp::Ramp,
        tokens::Tokens,
    };

    #[test]
    fn greys_look_the_same_to_everybody() {
        for (name, kind) in &KINDS {
            for grey in [0u8, 60, 128, 255] {
                let [r, g, b, _] = seen(kind, color::grey(grey)).to_array();
                for part in [r, g, b] {
                    assert!(part.abs_diff(grey) <= 2, "{name}: {grey} is seen as {r}, {g}, {b}");
                }
            }
        }
    }

    #[test]
    fn the_shading_runs_from_dark_to_light_for_everybody() {
        for (court, colors) in Tokens::load().unwrap().courts.all() {
            let ramp = Ramp::new(colors);
            for (name, kind) in &KINDS {
                let lightness: Vec<f32> = (0..=8)
                    .map(|i| Perceived::from(seen(kind, colors.court.blend(ramp.at(f64::from(i) / 8.0)))).l)
                    .collect();
                let way = (lightness[8] - lightness[0]).signum();
                let steps = lightness.windows(2).map(|pair| way * (pair[1] - pair[0]));
                assert!(steps.fold(f32::INFINITY, f32::min) > 0.008, "{court}, {name}: {lightness:?}");
            }
        }
    }

    #[test]
    fn whose_side_a_thing_is_on_and_its_label_are_told_apart_by_everybody() {
        for (court, c) in Tokens::load().unwrap().courts.all() {
            for (name, kind) in &KINDS {
                let ratio = |a: Color32, b: Color32| contrast(seen(kind, a), seen(kind, b));
                assert!(ratio(*c.hitter, *c.opponent) >= 4.5, "{court}, {name}: the two players");
                assert!(ratio(*c.ink, *c.halo) >= 4.5, "{court}, {name}: labels");
                assert!(ratio(*c.alert, *c.alert_ink) >= 4.5, "{court}, {name}: warnings");
                assert!(ratio(*c.line, *c.court) >= 2.2, "{court}, {name}: lines, {}", ratio(*c.line, *c.court));
            }
        }
    }

    #[test]
    fn the_interface_stays_legible_for_everybody() {
        let tokens = Tokens::load().unwrap();
        for dark in [false, true] {
            let c = tokens.interface.get(dark);
            for (name, kind) in &KINDS {
                for (what, ink) in [("ink", c.ink), ("soft", c.soft), ("accent", c.accent), ("bad", c.bad)] {
                    for ground in [c.panel, c.raised, c.sunken, c.chosen] {
                        let ratio = contrast(seen(kind, *ink), seen(kind, *ground));
                        assert!(ratio >= 4.0, "{what}, dark: {dark}, {name}: {ratio:.2}");
                    }
                }
            }
        }
    }
}
