//! The building blocks of a panel: sections, rows with a label, choices and sliders.

use std::ops::RangeInclusive;

use egui::{
    CollapsingHeader, ComboBox, CursorIcon, FontId, Frame, Label, Margin, Rect, Response, RichText, Sense, Slider,
    Stroke, StrokeKind, TextStyle, TextWrapMode, Ui, WidgetInfo, WidgetText, accesskit::Role, pos2, vec2,
};
use standpoint_language::{decimal, parse_decimal, text, tr};
use standpoint_workbench::explain::ExplainStep;

use super::list;
use crate::{
    explain,
    theme::{Theme, fonts, style},
};

/// Width of the labels before the controls.
const LABEL: f32 = 106.0;
/// Height of a line of figures.
const LINE: f32 = 22.0;

/// Placeholder without a figure.
pub const NOTHING: &str = "–";

/// Contents that leave room for a scroll bar on their right.
pub fn inset<R>(ui: &mut Ui, theme: &Theme, body: impl FnOnce(&mut Ui) -> R) -> R {
    let margin = Margin { right: theme.m.space.group as i8, ..Margin::ZERO };
    Frame::new().inner_margin(margin).show(ui, body).inner
}

/// A collapsible section. The English title is its id in any language.
pub fn section(ui: &mut Ui, theme: &Theme, title: &'static str, open: bool, body: impl FnOnce(&mut Ui)) {
    CollapsingHeader::new(RichText::new(text(title)).text_style(style::title()))
        .id_salt(title)
        .default_open(open)
        .show_unindented(ui, |ui| {
            ui.add_space(theme.m.space.hair);
            body(ui);
            ui.add_space(theme.m.space.small);
        });
    ui.separator();
}

/// A label and what belongs to it.
pub fn row(ui: &mut Ui, theme: &Theme, label: &str, control: impl FnOnce(&mut Ui) -> Response) -> Response {
    ui.horizontal(|ui| {
        let said = RichText::new(label).color(*theme.ui.soft);
        let label = ui
            .allocate_ui_with_layout(
                vec2(LABEL, theme.m.control),
                egui::Layout::left_to_right(egui::Align::Center),
                |ui| {
                    ui.set_min_width(LABEL);
                    ui.add(Label::new(said).truncate())
                },
            )
            .inner;
        control(ui).labelled_by(label.id)
    })
    .inner
}

/// A figure with its label; the figure stands at the right edge and keeps its place, and a long label gives way to it.
pub fn figure(ui: &mut Ui, theme: &Theme, label: &str, value: &str) {
    // Where both have no room in a line they get smaller, rather than being cut off.
    let gap = ui.spacing().item_spacing.x;
    let (strong, plain) = (style::emphasis().resolve(ui.style()), TextStyle::Body.resolve(ui.style()));
    let wide = fonts::width(ui.painter(), value, strong.clone()) + fonts::width(ui.painter(), label, plain.clone());
    let part = ((ui.available_width() - gap) / wide.max(1.0)).min(1.0);
    let fit = |font: FontId| FontId::new((font.size * part).max(theme.m.text.small.min(font.size)), font.family);
    let figure = WidgetText::from(RichText::new(value).font(fit(strong)));
    let figure = figure.into_galley(ui, Some(TextWrapMode::Extend), f32::INFINITY, TextStyle::Body);
    let size = vec2(ui.available_width(), LINE);
    ui.allocate_ui_with_layout(size, egui::Layout::left_to_right(egui::Align::Center), |ui| {
        ui.set_min_size(size);
        let before = size.x - figure.size().x - ui.spacing().item_spacing.x;
        ui.scope(|ui| {
            ui.set_max_width(before.max(0.0));
            ui.add(Label::new(RichText::new(label).font(fit(plain)).color(*theme.ui.soft)).truncate());
        });
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| ui.label(figure));
    });
}

/// A figure that opens its explanation when clicked.
pub fn figure_of(ui: &mut Ui, theme: &Theme, step: ExplainStep, label: &str, value: &str) {
    let top = ui.cursor().top();
    figure(ui, theme, label, value);
    let line = Rect::from_min_size(pos2(ui.max_rect().left(), top), vec2(ui.max_rect().width(), LINE));
    let response = ui.interact(line, ui.auto_id_with(("how", step)), Sense::click());
    let said = tr!("{0}: {1}. How it came about", label, value);
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, &said));
    if response.hovered() || response.has_focus() {
        let color = if response.has_focus() { *theme.ui.accent } else { *theme.ui.outline };
        let stroke = Stroke::new(if response.has_focus() { 2.0 } else { 1.0 }, color);
        ui.painter().rect_stroke(line.expand2(vec2(4.0, 0.0)), 4.0, stroke, StrokeKind::Inside);
    }
    let response = response.on_hover_cursor(CursorIcon::Help).on_hover_text(text("How did this come about?"));
    if response.clicked() {
        explain::ask(ui.ctx(), step);
    }
}

/// A quiet line of explanation.
pub fn note(ui: &mut Ui, theme: &Theme, text: &str) {
    ui.add(Label::new(RichText::new(text).small().color(*theme.ui.soft)).wrap());
}

/// A control, and what a person did to it in this frame.
pub struct Changed<T> {
    /// The control.
    pub response: Response,
    /// The new value, if it was changed.
    pub value: Option<T>,
    /// Whether a series of changes is over.
    pub ended: bool,
}

/// A choice from a list.
pub fn choice<T: PartialEq + Copy>(
    ui: &mut Ui,
    id: &str,
    current: T,
    all: &[T],
    name: impl Fn(T) -> String,
) -> Changed<T> {
    let width = ui.available_width();
    let mut value = None;
    let response = ComboBox::from_id_salt(id)
        .width(width)
        .selected_text(name(current))
        .show_ui(ui, |ui| {
            let mut entry = |item: &T| {
                let entry = ui.selectable_label(*item == current, name(*item));
                if entry.clicked() && *item != current {
                    value = Some(*item);
                }
                entry
            };
            let entries: Vec<Response> = all.iter().map(&mut entry).collect();
            list::arrows(ui, &entries);
        })
        .response;
    Changed { response, ended: value.is_some(), value }
}

/// A quantity shown in a person's unit.
pub struct Quantity {
    /// In that unit.
    pub value: f64,
    /// Bounds in that unit.
    pub range: RangeInclusive<f64>,
    /// One step.
    pub step: f64,
    /// Name of the unit.
    pub unit: &'static str,
    /// Figures behind the point.
    pub figures: usize,
}

/// A slider with a field to type into; the value is in the person's unit.
pub fn slider(ui: &mut Ui, q: Quantity) -> Changed<f64> {
    let unit = q.unit;
    slider_as(ui, q, decimal, move |typed| typed_number(typed, unit))
}

/// A slider for a value with two named directions, of which the row names the current one: it shows no sign. A typed
/// number counts in that direction.
pub fn two_way_slider(ui: &mut Ui, q: Quantity) -> Changed<f64> {
    let (unit, way) = (q.unit, if q.value < 0.0 { -1.0 } else { 1.0 });
    let typed = move |typed: &str| typed_number(typed, unit).map(|value| way * value);
    slider_as(ui, q, |value, figures| decimal(value.abs(), figures), typed)
}

fn slider_as(
    ui: &mut Ui,
    q: Quantity,
    written: impl Fn(f64, usize) -> String,
    typed: impl Fn(&str) -> Option<f64>,
) -> Changed<f64> {
    // A value between steps or out of bounds, from a rally or another unit, is shown at the nearest
    // step; only input of a person is a change.
    let (least, most) = (*q.range.start(), *q.range.end());
    let stepped = least + ((q.value.clamp(least, most) - least) / q.step).round() * q.step;
    let shown = egui::emath::round_to_decimals(stepped, q.figures);
    let mut value = shown;
    let field = 100.0;
    ui.spacing_mut().slider_width = (ui.available_width() - field - ui.spacing().item_spacing.x).max(60.0);
    ui.spacing_mut().interact_size.x = field;
    let response = ui.add(
        Slider::new(&mut value, q.range)
            .step_by(q.step)
            .fixed_decimals(q.figures)
            .suffix(format!(" {}", q.unit))
            .custom_formatter(|value, figures| written(value, *figures.end()))
            .custom_parser(typed)
            .clamping(egui::SliderClamping::Always),
    );
    let ended = response.drag_stopped() || response.lost_focus();
    let value = (response.changed() && (value - shown).abs() > q.step * 1e-3).then_some(value);
    Changed { response, value, ended }
}

/// The number that somebody typed into a field, with or without its unit.
#[must_use]
pub fn typed_number(typed: &str, unit: &str) -> Option<f64> {
    parse_decimal(typed.trim().strip_suffix(unit).unwrap_or(typed))
}
