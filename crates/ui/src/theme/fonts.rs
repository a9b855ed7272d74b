//! The typeface: two weights, with figures of one width.

use std::sync::Arc;

use egui::{FontData, FontDefinitions, FontFamily, FontId, Painter};

/// The family of emphasised text.
#[must_use]
pub fn strong() -> FontFamily {
    FontFamily::Name("strong".into())
}

/// The font of a line: shrunk to fit its width, but not below `least`.
#[must_use]
pub fn fitting(painter: &Painter, line: &str, font: FontId, width: f32, least: f32) -> FontId {
    let wide = self::width(painter, line, font.clone());
    let part = (width / wide.max(1.0)).min(1.0);
    FontId::new((font.size * part).floor().max(least), font.family)
}

/// The width of a line.
#[must_use]
pub fn width(painter: &Painter, line: &str, font: FontId) -> f32 {
    // Measured only, so the colour does not matter.
    painter.layout_no_wrap(line.to_owned(), font, Default::default()).size().x
}

/// The font set: the program's own faces first, the toolkit's faces for anything they lack.
#[must_use]
pub fn definitions() -> FontDefinitions {
    let mut fonts = FontDefinitions::default();
    let medium = FontData::from_static(include_bytes!("../../../../assets/fonts/Barlow-Medium-Tabular.ttf"));
    let semi_bold = FontData::from_static(include_bytes!("../../../../assets/fonts/Barlow-SemiBold-Tabular.ttf"));
    fonts.font_data.insert("text".to_owned(), Arc::new(medium));
    fonts.font_data.insert("strong".to_owned(), Arc::new(semi_bold));
    let usual = fonts.families.entry(FontFamily::Proportional).or_default();
    let fallback = usual.clone();
    usual.insert(0, "text".to_owned());
    fonts.families.insert(strong(), std::iter::once("strong".to_owned()).chain(fallback).collect());
    fonts
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_keep_their_place() {
        let ctx = egui::Context::default();
        ctx.set_fonts(definitions());
        let mut widths = Vec::new();
        let mut output = ctx.run_ui(egui::RawInput::default(), |ui| {
            widths = [FontFamily::Proportional, strong()]
                .into_iter()
                .map(|family| {
                    "0123456789′"
                        .chars()
                        .map(|c| ui.fonts_mut(|f| f.glyph_width(&FontId::new(20.0, family.clone()), c)))
                        .collect::<Vec<f32>>()
                })
                .collect();
        });
        output.textures_delta.clear();
        for mut family in widths {
            let prime = family.pop().unwrap_or_default();
            assert!(prime > 0.0 && prime < 0.5 * family[0], "3′ 2″ has a hole in it: {prime}");
            assert!(family.iter().all(|w| (w - family[0]).abs() < 1e-3 && *w > 0.0), "{family:?}");
        }
    }
}
