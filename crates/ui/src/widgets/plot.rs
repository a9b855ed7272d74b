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
