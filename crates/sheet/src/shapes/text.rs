//! Text that was laid out for the screen, as text of an SVG.

use std::fmt::Write as _;

use epaint::{Color32, FontFamily, TextShape, Vec2, text::TextFormat};

use super::paint;
use crate::{
    faces::FAMILY,
    xml::{escaped, number},
};

/// A run of characters of one look in one row.
struct Run<'a> {
    format: &'a TextFormat,
    x: f32,
    baseline: f32,
    text: String,
}

/// Writes a text, with a halo of a colour that reaches so far.
pub fn write(body: &mut String, shape: &TextShape, by: Vec2, halo: Option<(Color32, f32)>) {
    let origin = shape.pos + by;
    let turn = super::turned(shape.angle, origin);
    for run in runs(shape) {
        if run.text.trim().is_empty() {
            continue;
        }
        let own = if run.format.color == Color32::PLACEHOLDER { shape.fallback_color } else { run.format.color };
        let faded = |color: Color32| color.gamma_multiply(shape.opacity_factor);
        let mut look = paint("fill", faded(shape.override_text_color.unwrap_or(own)));
        if let Some((color, reach)) = halo {
            look.push_str(&paint("stroke", faded(color)));
            let width = number(reach * 2.0);
            let _ = write!(look, " stroke-width=\"{width}\" stroke-linejoin=\"round\" paint-order=\"stroke\"");
        }
        let strong = matches!(&run.format.font_id.family, FontFamily::Name(_));
        let weight = if strong { 600 } else { 500 };
        let _ = write!(
            body,
            "<text xml:space=\"preserve\" x=\"{}\" y=\"{}\" font-family=\"{FAMILY}, sans-serif\" \
             font-weight=\"{weight}\" font-size=\"{}\"{turn}{look}>{}</text>",
            number(origin.x + run.x),
            number(origin.y + run.baseline),
            number(run.format.font_id.size),
            escaped(&run.text)
        );
    }
}

/// The runs of a text; which section a character belongs to is found by walking along the text with its glyphs.
fn runs(shape: &TextShape) -> Vec<Run<'_>> {
    let job = &shape.galley.job;
    let mut characters = job.text.char_indices().peekable();
    let mut runs: Vec<Run<'_>> = Vec::new();
    for row in &shape.galley.rows {
        let mut section_before = usize::MAX;
        for glyph in &row.glyphs {
            // Line ends and what was wrapped away have no glyph.
            while characters.next_if(|(_, c)| *c != glyph.chr).is_some() {}
            let byte = characters.next().map_or(job.text.len(), |(i, _)| i);
            let section = job
                .sections
                .iter()
                .position(|s| byte < s.byte_range.end.0)
                .unwrap_or(job.sections.len().saturating_sub(1));
            let Some(format) = job.sections.get(section).map(|s| &s.format) else { continue };
            if section != section_before {
                let (x, baseline) = (row.pos.x + glyph.pos.x, row.pos.y + glyph.pos.y);
                runs.push(Run { format, x, baseline, text: String::new() });
                section_before = section;
            }
            if let Some(run) = runs.last_mut() {
                run.text.push(glyph.chr);
            }
        }
    }
    runs
}
