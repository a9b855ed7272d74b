//! Small things that the parts of the panel share.

use egui::{Align2, ComboBox, FontId, Rect, Response, Sense, Stroke, Ui, accesskit::Role, pos2, vec2};

use crate::{
    canvas::{brush::Dash, weigh::ghosts},
    panels::row,
    theme::{Theme, fonts},
    weigh::state::Weighing,
};

/// Height of a line in the lists.
pub const LINE: f32 = 30.0;

/// A letter in a disc.
pub fn letter(ui: &Ui, center: egui::Pos2, rank: usize, theme: &Theme) {
    let c = &theme.ui;
    ui.painter().circle(center, 9.5, *c.ink, Stroke::NONE);
    let font = FontId::new(theme.m.text.small, fonts::strong());
    ui.painter().text(center, Align2::CENTER_CENTER, Weighing::letter(rank), font, *c.panel);
}

/// A letter with a sample of its line, as on the court.
pub fn badge(ui: &mut Ui, rank: Option<usize>, theme: &Theme) {
    let (rect, _) = ui.allocate_exact_size(vec2(44.0, LINE), Sense::hover());
    let Some(rank) = rank else { return };
    letter(ui, pos2(rect.left() + 10.0, rect.center().y), rank, theme);
    let sample = [pos2(rect.left() + 22.0, rect.center().y), pos2(rect.right(), rect.center().y)];
    line_sample(ui, sample, ghosts::dash(theme, rank), theme.m.stroke.medium, *theme.ui.ink);
}

/// A piece of line in a pattern.
pub fn line_sample(ui: &Ui, ends: [egui::Pos2; 2], dash: Dash, width: f32, color: egui::Color32) {
    let stroke = Stroke::new(width, color);
    match dash {
        Dash::Solid => {
            ui.painter().line_segment(ends, stroke);
        }
        Dash::Pattern((a, b, c, d)) => {
            let shapes = egui::Shape::dashed_line_with_offset(&ends, stroke, &[a, c], &[b, d], 0.0);
            ui.painter().extend(shapes);
        }
    }
}

/// A bar with a figure, of a share of the whole; announced under a label.
pub fn bar(ui: &mut Ui, width: f32, share: f64, figure: &str, label: &str, strong: bool, theme: &Theme) -> Response {
    let (rect, response) = ui.allocate_exact_size(vec2(width, LINE), Sense::hover());
    let value = format!("wins {figure} in 100");
    response.widget_info(|| egui::WidgetInfo::labeled(Role::Meter, true, label));
    ui.ctx().accesskit_node_builder(response.id, |node| {
        node.set_value(value.as_str());
    });
    let c = &theme.ui;
    let track = Rect::from_min_max(
        pos2(rect.left(), rect.center().y - 6.0),
        pos2(rect.right() - 34.0, rect.center().y + 6.0),
    );
    ui.painter().rect_filled(track, theme.m.radius.small, *c.sunken);
    let mut filled = track;
    filled.set_width(track.width() * share.clamp(0.0, 1.0) as f32);
    let ink = if strong { *c.accent } else { *c.outline };
    ui.painter().rect_filled(filled, theme.m.radius.small, ink);
    let family = if strong { fonts::strong() } else { egui::FontFamily::Proportional };
    let font = FontId::new(theme.m.text.body, family);
    ui.painter().text(rect.right_center(), Align2::RIGHT_CENTER, figure, font, *c.ink);
    response
}

/// A choice from a list that is no change of the board; what was chosen, if it is another one.
pub fn pick<T: PartialEq + Copy>(
    ui: &mut Ui,
    theme: &Theme,
    label: &str,
    current: T,
    all: &[T],
    name: impl Fn(T) -> String,
) -> Option<T> {
    let mut chosen = None;
    row::row(ui, theme, label, |ui| {
        let width = ui.available_width();
        let list = ComboBox::from_id_salt(label).width(width).selected_text(name(current)).truncate();
        list.show_ui(ui, |ui| {
            for item in all {
                if ui.selectable_label(*item == current, name(*item)).clicked() && *item != current {
                    chosen = Some(*item);
                }
            }
        })
        .response
    });
    chosen
}
