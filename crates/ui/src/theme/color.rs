//! Colours of the token files, with contrast and difference.
#![expect(clippy::disallowed_methods, reason = "the one place where a written colour becomes a painted one")]

use egui::Color32;
use serde::{Deserialize, Deserializer, de::Error as _};

/// A colour read from `#RRGGBB` or `#RRGGBBAA`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Color(pub Color32);

impl<'de> Deserialize<'de> for Color {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        Color32::from_hex(&text).map(Self).map_err(|_| D::Error::custom(format!("{text} is not #RRGGBB or #RRGGBBAA")))
    }
}

impl std::ops::Deref for Color {
    type Target = Color32;

    fn deref(&self) -> &Color32 {
        &self.0
    }
}

/// Contrast ratio of two opaque colours, 1 to 21.
///
/// Source: Web Content Accessibility Guidelines 2.2, definitions of relative luminance and contrast ratio.
#[must_use]
pub fn contrast(a: Color32, b: Color32) -> f32 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

fn luminance(c: Color32) -> f32 {
    let [r, g, b, _] = c.to_array().map(|v| linear(f32::from(v) / 255.0));
    0.2126 * r + 0.7152 * g + 0.0722 * b
}

/// The linear light of a colour: red, green and blue, 0 to 1.
#[cfg(test)]
pub fn light_of(c: Color32) -> [f32; 3] {
    let [r, g, b, _] = c.to_array().map(|v| linear(f32::from(v) / 255.0));
    [r, g, b]
}

/// The opaque colour of a linear light; what is outside the gamut is put on its edge.
#[cfg(test)]
pub fn of_light(light: [f32; 3]) -> Color32 {
    let [r, g, b] = light.map(|v| (companded(v.clamp(0.0, 1.0)) * 255.0).round() as u8);
    Color32::from_rgb(r, g, b)
}

/// A grey.
#[cfg(test)]
pub fn grey(level: u8) -> Color32 {
    Color32::from_gray(level)
}

fn linear(v: f32) -> f32 {
    if v <= 0.040_45 { v / 12.92 } else { ((v + 0.055) / 1.055).powf(2.4) }
}

fn companded(v: f32) -> f32 {
    if v <= 0.003_130_8 { v * 12.92 } else { 1.055 * v.powf(1.0 / 2.4) - 0.055 }
}

/// A colour in a perceptual space: lightness, green-red, blue-yellow.
///
/// Source: B. Ottosson, "A perceptual color space for image processing" (2020), matrices of the published text.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Perceived {
    /// Lightness, 0 to 1.
    pub l: f32,
    /// Green (negative) to red.
    pub a: f32,
    /// Blue (negative) to yellow.
    pub b: f32,
}

impl From<Color32> for Perceived {
    fn from(c: Color32) -> Self {
        let [r, g, b, _] = c.to_array().map(|v| linear(f32::from(v) / 255.0));
        let l = (0.412_221_46 * r + 0.536_332_55 * g + 0.051_445_995 * b).cbrt();
        let m = (0.211_903_5 * r + 0.680_699_5 * g + 0.107_396_96 * b).cbrt();
        let s = (0.088_302_46 * r + 0.281_718_85 * g + 0.629_978_7 * b).cbrt();
        Self {
            l: 0.210_454_26 * l + 0.793_617_8 * m - 0.004_072_047 * s,
            a: 1.977_998_5 * l - 2.428_592_2 * m + 0.450_593_7 * s,
            b: 0.025_904_037 * l + 0.782_771_77 * m - 0.808_675_77 * s,
        }
    }
}

impl Perceived {
    /// The mixture of two colours; `t` runs from 0 to 1.
    #[must_use]
    pub fn mix(self, other: Self, t: f32) -> Self {
        let lerp = |a: f32, b: f32| a + (b - a) * t;
        Self { l: lerp(self.l, other.l), a: lerp(self.a, other.a), b: lerp(self.b, other.b) }
    }

    /// Perceived difference of two colours (Euclidean distance in this space).
    #[must_use]
    pub fn distance(self, other: Self) -> f32 {
        ((self.l - other.l).powi(2) + (self.a - other.a).powi(2) + (self.b - other.b).powi(2)).sqrt()
    }

    /// The painted colour with this opacity, 0 to 1.
    #[must_use]
    pub fn to_color(self, alpha: f32) -> Color32 {
        let l = (self.l + 0.396_337_78 * self.a + 0.215_803_76 * self.b).powi(3);
        let m = (self.l - 0.105_561_346 * self.a - 0.063_854_17 * self.b).powi(3);
        let s = (self.l - 0.089_484_18 * self.a - 1.291_485_5 * self.b).powi(3);
        let r = 4.076_741_7 * l - 3.307_711_6 * m + 0.230_969_94 * s;
        let g = -1.268_438 * l + 2.609_757_4 * m - 0.341_319_4 * s;
        let b = -0.004_196_086_3 * l - 0.703_418_6 * m + 1.707_614_7 * s;
        let byte = |v: f32| (companded(v.clamp(0.0, 1.0)) * 255.0).round() as u8;
        Color32::from_rgba_unmultiplied(byte(r), byte(g), byte(b), (alpha.clamp(0.0, 1.0) * 255.0).round() as u8)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn contrast_of_black_and_white_is_twenty_one() {
        assert!((contrast(Color32::BLACK, Color32::WHITE) - 21.0).abs() < 1e-3);
    }

    #[test]
    fn no_colour_is_named_in_the_program() {
        // Clippy forbids building colours; this finds the toolkit's own constants.
        fn walk(dir: &std::path::Path, found: &mut Vec<String>) {
            for entry in std::fs::read_dir(dir).unwrap().flatten() {
                let path = entry.path();
                if path.is_dir() {
                    walk(&path, found);
                } else if !path.ends_with("theme/color.rs") {
                    let text = std::fs::read_to_string(&path).unwrap();
                    let named = text.lines().filter(|line| {
                        line.split("Color32::").skip(1).any(|rest| rest.starts_with(|c: char| c.is_uppercase()))
                    });
                    found.extend(named.map(|line| format!("{}: {line}", path.display())));
                }
            }
        }
        let mut found = Vec::new();
        let crates = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
        for name in ["app", "canvas", "chart_room", "cli", "export", "ui", "workbench"] {
            walk(&crates.join(name).join("src"), &mut found);
        }
        assert!(found.is_empty(), "{found:#?}");
    }

    #[test]
    fn a_colour_survives_the_way_through_the_perceptual_space() {
        for c in [[12, 200, 90], [255, 255, 255], [0, 0, 0], [185, 104, 63]] {
            let before = Color32::from_rgb(c[0], c[1], c[2]);
            let after = Perceived::from(before).to_color(1.0);
            for (x, y) in before.to_array().into_iter().zip(after.to_array()) {
                assert!(x.abs_diff(y) <= 1, "{before:?} became {after:?}");
            }
        }
    }
}
