//! The toolkit's style, built from the tokens.

use std::collections::BTreeMap;

use egui::{
    CornerRadius, FontFamily, FontId, Margin, Shadow, Stroke, Style, TextStyle, Vec2, Visuals,
    style::{ScrollStyle, Selection, Spacing, WidgetVisuals, Widgets},
};

use super::{
    fonts,
    tokens::{InterfaceColors, Measures},
};

/// The text style of section titles.
#[must_use]
pub fn title() -> TextStyle {
    TextStyle::Name("title".into())
}

/// The text style of emphasised running text.
#[must_use]
pub fn emphasis() -> TextStyle {
    TextStyle::Name("emphasis".into())
}

/// The text style of figures that stand alone.
#[must_use]
pub fn figure() -> TextStyle {
    TextStyle::Name("figure".into())
}

/// The style for a light or dark interface.
#[must_use]
pub fn build(dark: bool, colors: &InterfaceColors, m: &Measures) -> Style {
    Style {
        text_styles: text_styles(m),
        drag_value_text_style: TextStyle::Body,
        spacing: spacing(m),
        visuals: visuals(dark, colors, m),
        animation_time: 0.12,
        ..Style::default()
    }
}

fn text_styles(m: &Measures) -> BTreeMap<TextStyle, FontId> {
    let text = |size| FontId::new(size, FontFamily::Proportional);
    let strong = |size| FontId::new(size, fonts::strong());
    BTreeMap::from([
        (TextStyle::Small, text(m.text.small)),
        (TextStyle::Body, text(m.text.body)),
        (TextStyle::Button, text(m.text.body)),
        (TextStyle::Monospace, FontId::new(m.text.small, FontFamily::Monospace)),
        (TextStyle::Heading, strong(m.text.headline)),
        (title(), strong(m.text.title)),
        (emphasis(), strong(m.text.body)),
        (figure(), strong(m.text.figure)),
    ])
}

fn spacing(m: &Measures) -> Spacing {
    Spacing {
        item_spacing: Vec2::new(m.space.item, m.space.small),
        window_margin: Margin::same(m.space.edge as i8),
        menu_margin: Margin::same(m.space.small as i8),
        button_padding: Vec2::new(m.space.item, m.space.small),
        interact_size: Vec2::new(m.touch, m.control),
        icon_width: 18.0,
        icon_width_inner: 10.0,
        icon_spacing: 6.0,
        combo_width: 120.0,
        menu_width: 300.0,
        tooltip_width: 340.0,
        scroll: scroll(),
        ..Spacing::default()
    }
}

/// Thin scroll bars are always visible, to show that there is more below.
fn scroll() -> ScrollStyle {
    ScrollStyle {
        floating_width: 4.0,
        floating_allocated_width: 6.0,
        dormant_handle_opacity: 0.5,
        ..ScrollStyle::floating()
    }
}

fn visuals(dark: bool, c: &InterfaceColors, m: &Measures) -> Visuals {
    let mut v = if dark { Visuals::dark() } else { Visuals::light() };
    let large = CornerRadius::same(m.radius.large as u8);
    let medium = CornerRadius::same(m.radius.medium as u8);
    v.widgets = widgets(c, m);
    v.selection = Selection { bg_fill: *c.chosen, stroke: Stroke::new(m.stroke.thin, *c.ink) };
    v.weak_text_color = Some(*c.soft);
    v.hyperlink_color = *c.accent;
    v.faint_bg_color = *c.sunken;
    v.extreme_bg_color = *c.sunken;
    v.text_edit_bg_color = Some(*c.raised);
    v.code_bg_color = *c.sunken;
    v.warn_fg_color = *c.warn;
    v.error_fg_color = *c.bad;
    v.window_fill = *c.raised;
    v.window_stroke = Stroke::new(m.stroke.hair, *c.line);
    v.window_corner_radius = large;
    v.menu_corner_radius = medium;
    v.window_shadow = Shadow { offset: [0, 6], blur: 24, spread: 0, color: *c.shadow };
    v.popup_shadow = Shadow { offset: [0, 3], blur: 12, spread: 0, color: *c.shadow };
    v.panel_fill = *c.panel;
    v.slider_trailing_fill = true;
    v.disabled_alpha = 0.55;
    v
}

fn widgets(c: &InterfaceColors, m: &Measures) -> Widgets {
    let one = |fill, edge, ink, width| WidgetVisuals {
        bg_fill: fill,
        weak_bg_fill: fill,
        bg_stroke: Stroke::new(width, edge),
        corner_radius: CornerRadius::same(m.radius.small as u8),
        fg_stroke: Stroke::new(m.stroke.thin, ink),
        expansion: 0.0,
    };
    Widgets {
        noninteractive: one(*c.panel, *c.line, *c.ink, m.stroke.hair),
        inactive: WidgetVisuals { bg_fill: *c.line, ..one(*c.raised, *c.outline, *c.ink, m.stroke.hair) },
        hovered: one(*c.hovered, *c.outline, *c.ink, m.stroke.hair),
        active: one(*c.pressed, *c.accent, *c.ink, 2.0),
        open: one(*c.hovered, *c.accent, *c.ink, m.stroke.hair),
    }
}
