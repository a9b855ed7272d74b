//! What the plots share.

use egui::{Id, Rangef, Ui, accesskit::Role};
use egui_plot::{AxisHints, GridMark, Plot};
use standpoint_language::decimal;

/// A static plot.
#[must_use]
pub fn still(id: &str, height: f32) -> Plot<'static> {
    Plot::new(id.to_owned())
        .height(height)
        .allow_drag(false)
        .allow_zoom(false)
        .allow_scroll(false)
        .allow_boxed_zoom(false)
        .allow_double_click_reset(false)
        .show_background(false)
        .label_formatter(|_| None)
        .custom_x_axes(vec![legible(AxisHints::new_x(), 34.0).formatter(|mark, _| number(mark))])
        .custom_y_axes(vec![legible(AxisHints::new_y(), 18.0).formatter(|mark, _| number(mark))])
        .y_grid_spacer(|input| lines(input.bounds))
}

/// Grid lines at round numbers, four to eight of them, so that each has room for its number in a low plot.
fn lines((low, high): (f64, f64)) -> Vec<GridMark> {
    let least = (high - low) / 5.0;
    if !(least.is_finite() && least > 0.0) {
        return Vec::new();
    }
    let power = 10_f64.powf(least.log10().floor());
    let step_size = [1.0, 2.0, 5.0, 10.0].map(|of| of * power).into_iter().find(|step| *step >= least).unwrap_or(power);
    let (first, last) = ((low / step_size).ceil() as i64, (high / step_size).floor() as i64);
    (first..=last).map(|i| GridMark { value: i as f64 * step_size, step_size }).collect()
}

/// An axis whose numbers stand in full ink wherever there is room for them, this many points from the next; the toolkit
/// lets them fade where they are close, below a contrast that can be read.
#[must_use]
pub fn legible(axis: AxisHints<'_>, apart: f32) -> AxisHints<'_> {
    axis.label_spacing(Rangef::new(apart, apart))
}

/// The number at a grid line, with as many figures as the distance to the next one needs.
#[must_use]
pub fn number(mark: GridMark) -> String {
    let figures = (-mark.step_size.log10()).ceil().clamp(0.0, 6.0);
    decimal(mark.value, figures as usize)
}

/// Tells assistive technology what a plot shows.
pub fn say(ui: &Ui, id: Id, label: &str, value: &str) {
    ui.ctx().accesskit_node_builder(id, |node| {
        node.set_role(Role::Image);
        node.set_label(label);
        node.set_value(value);
    });
}

#[cfg(test)]
mod tests {
    use egui::{Color32, Context, Pos2, RawInput, Rect, Shape, vec2};
    use egui_plot::{Line, PlotPoints};

    use super::*;
    use crate::theme::{Look, color::contrast};

    #[test]
    fn grid_lines_are_few_and_at_round_numbers() {
        let values = |low, high| lines((low, high)).iter().map(|mark| mark.value).collect::<Vec<_>>();
        assert_eq!(values(-2.0, 88.0), [0.0, 20.0, 40.0, 60.0, 80.0]);
        assert_eq!(values(-0.4, 0.5), [-0.4, -0.2, 0.0, 0.2, 0.4]);
        assert_eq!(values(0.0, 4.3), [0.0, 1.0, 2.0, 3.0, 4.0]);
        assert!(values(1.0, 1.0).is_empty() && values(0.0, f64::NAN).is_empty());
    }

    /// The colours of the texts in a shape.
    fn inks(shape: &Shape, found: &mut Vec<(String, Color32)>) {
        match shape {
            Shape::Text(text) => {
                let of_job = text.galley.job.sections.first().map(|section| section.format.color);
                let own = of_job.unwrap_or(text.fallback_color);
                let ink = text.override_text_color.unwrap_or(own).gamma_multiply(text.opacity_factor);
                found.push((text.galley.text().to_owned(), ink));
            }
            Shape::Vec(shapes) => shapes.iter().for_each(|shape| inks(shape, found)),
            _ => {}
        }
    }

    #[test]
    fn the_numbers_of_axes_have_the_contrast_of_text() {
        // Source: Web Content Accessibility Guidelines 2.2, success criterion 1.4.3: 4.5 to 1.
        for theme in [egui::Theme::Light, egui::Theme::Dark] {
            for (width, height) in [(320.0, 100.0), (320.0, 180.0), (700.0, 320.0)] {
                let ctx = Context::default();
                Look::load().unwrap().install(&ctx);
                ctx.set_theme(theme);
                let mut found = Vec::new();
                for _ in 0..3 {
                    let rect = Rect::from_min_size(Pos2::ZERO, vec2(width, 400.0));
                    let mut output = ctx.run_ui(RawInput { screen_rect: Some(rect), ..RawInput::default() }, |ui| {
                        let points: Vec<[f64; 2]> =
                            (0..24).map(|i| [f64::from(i) - 11.9, f64::from(i * i) / 100.0]).collect();
                        still("plot", height).show(ui, |plot| plot.line(Line::new("line", PlotPoints::from(points))));
                    });
                    output.textures_delta.clear();
                    found.clear();
                    output.shapes.iter().for_each(|clipped| inks(&clipped.shape, &mut found));
                }
                let ground = ctx.style_of(theme).visuals.panel_fill;
                assert!(found.len() > 3, "{theme:?}, {width} by {height}: {} numbers", found.len());
                for (number, ink) in &found {
                    let seen = contrast(ground.blend(*ink), ground);
                    assert!(seen >= 4.5, "{theme:?}, {width} by {height}: {number} has {seen:.1}");
                }
            }
        }
    }
}
