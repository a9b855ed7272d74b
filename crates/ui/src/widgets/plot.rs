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
    use super::*;

    #[test]
    fn grid_lines_are_few_and_at_round_numbers() {
        let values = |low, high| lines((low, high)).iter().map(|mark| mark.value).collect::<Vec<_>>();
        assert_eq!(values(-2.0, 88.0), [0.0, 20.0, 40.0, 60.0, 80.0]);
        assert_eq!(values(-0.4, 0.5), [-0.4, -0.2, 0.0, 0.2, 0.4]);
        assert_eq!(values(0.0, 4.3), [0.0, 1.0, 2.0, 3.0, 4.0]);
        assert!(values(1.0, 1.0).is_empty() && values(0.0, f64::NAN).is_empty());
    }
}
