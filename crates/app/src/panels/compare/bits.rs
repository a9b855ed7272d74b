//! Small things that the parts of the panel share.

use egui::{Align2, ComboBox, FontId, Rect, Response, Sense, Stroke, Ui, accesskit::Role, pos2, vec2};
use standpoint_canvas::{brush::Dash, compare::ghosts};
use standpoint_language::{text, tr};
use standpoint_ui::{
    theme::{Theme, fonts},
    widgets::list,
};
use standpoint_workbench::{compare::state::CompareState, words};

/// Height of a line in the lists.
pub const LINE: f32 = 30.0;

/// A letter in a disc.
pub fn letter(ui: &Ui, center: egui::Pos2, rank: usize, theme: &Theme) {
    let c = &theme.ui;
    ui.painter().circle(center, 9.5, *c.ink, Stroke::NONE);
    let font = FontId::new(theme.m.text.small, fonts::strong());
    ui.painter().text(center, Align2::CENTER_CENTER, CompareState::letter(rank), font, *c.panel);
}

/// A letter with a sample of its line, as on the court.
pub fn badge(ui: &mut Ui, rank: Option<usize>, theme: &Theme) {
    let (rect, _) = ui.allocate_exact_size(vec2(40.0, LINE), Sense::hover());
    let Some(rank) = rank else { return };
    letter(ui, pos2(rect.left() + 10.0, rect.center().y), rank, theme);
    let sample = [pos2(rect.left() + 22.0, rect.center().y), pos2(rect.right(), rect.center().y)];
    // A short sample shows the pattern at half its length.
    let dash = match ghosts::dash(theme, rank) {
        Dash::Pattern((a, b, c, d)) => Dash::Pattern((a / 2.0, b / 2.0, c / 2.0, d / 2.0)),
        Dash::Solid => Dash::Solid,
    };
    line_sample(ui, sample, dash, theme.m.stroke.medium, *theme.ui.ink);
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

/// Room for a figure at the right of a dot.
pub const FIGURE: f32 = 34.0;

/// The scale that holds all these chances, in whole tens of points.
#[must_use]
pub fn range(chances: impl Iterator<Item = f64>) -> (f64, f64) {
    let (low, high) = chances.fold((1.0, 0.0), |(low, high): (f64, f64), c| (low.min(c), high.max(c)));
    if low > high {
        return (0.0, 1.0);
    }
    let (low, high) = ((low * 10.0).floor() / 10.0, (high * 10.0).ceil() / 10.0);
    if high - low < 0.05 { (low, low + 0.1) } else { (low, high) }
}

/// Width of a dot with its figure in the list.
pub const DOT: f32 = 102.0;

/// Where the scale of a dot begins and ends.
#[must_use]
pub fn dot_ends(rect: Rect) -> (f32, f32) {
    (rect.left() + 8.0, rect.right() - FIGURE - 8.0)
}

/// A chance on a scale.
#[derive(Debug, Clone, Copy)]
pub struct Dot {
    /// The chance.
    pub win: f64,
    /// The ends of the scale.
    pub range: (f64, f64),
    /// Whether it is the best one.
    pub strong: bool,
}

/// A dot on a line with its figure, announced under a label. A dot, not a bar: its scale need not begin at nought.
pub fn dot(ui: &mut Ui, width: f32, dot: Dot, label: &str, theme: &Theme) -> Response {
    let (rect, response) = ui.allocate_exact_size(vec2(width, LINE), Sense::hover());
    let figure = words::points(dot.win);
    let value = tr!("wins {} in 100", figure);
    response.widget_info(|| egui::WidgetInfo::labeled(Role::Meter, true, label));
    ui.ctx().accesskit_node_builder(response.id, |node| {
        node.set_value(value.as_str());
    });
    let c = &theme.ui;
    let (from, to) = dot_ends(rect);
    let y = rect.center().y;
    ui.painter().line_segment([pos2(from, y), pos2(to, y)], Stroke::new(theme.m.stroke.thin, *c.line));
    for end in [from, to] {
        ui.painter().line_segment([pos2(end, y - 4.0), pos2(end, y + 4.0)], Stroke::new(theme.m.stroke.hair, *c.line));
    }
    let share = ((dot.win - dot.range.0) / (dot.range.1 - dot.range.0)).clamp(0.0, 1.0) as f32;
    let place = pos2(from + (to - from) * share, y);
    if dot.strong {
        ui.painter().circle(place, 6.5, *c.accent, Stroke::NONE);
    } else {
        ui.painter().circle(place, 5.0, *c.panel, Stroke::new(2.0, *c.ink));
    }
    let family = if dot.strong { fonts::strong() } else { egui::FontFamily::Proportional };
    let font = FontId::new(theme.m.text.body, family);
    ui.painter().text(rect.right_center(), Align2::RIGHT_CENTER, figure, font, *c.ink);
    response
}

/// A choice from a list that is no change of the board; what was chosen, if it is another one. The label is English: by
/// it the list is known, in any language.
pub fn pick<T: PartialEq + Copy>(
    ui: &mut Ui,
    theme: &Theme,
    label: &'static str,
    current: T,
    all: &[T],
    name: impl Fn(T) -> String,
) -> Option<T> {
    let mut chosen = None;
    ui.horizontal(|ui| {
        let name_of = ui
            .allocate_ui_with_layout(vec2(52.0, LINE), egui::Layout::left_to_right(egui::Align::Center), |ui| {
                ui.set_min_width(52.0);
                ui.label(egui::RichText::new(text(label)).color(*theme.ui.soft))
            })
            .inner;
        let width = ui.available_width();
        // A long name gets smaller rather than being cut off.
        let shown = name(current);
        let font = egui::TextStyle::Button.resolve(ui.style());
        let room = width - 2.0 * ui.spacing().button_padding.x - ui.spacing().icon_width - ui.spacing().icon_spacing;
        let font = fonts::fitting(ui.painter(), &shown, font, room, theme.m.text.small);
        let list =
            ComboBox::from_id_salt(label).width(width).selected_text(egui::RichText::new(shown).font(font)).truncate();
        list.show_ui(ui, |ui| {
            let entries: Vec<Response> = all
                .iter()
                .map(|item| {
                    let entry = ui.selectable_label(*item == current, name(*item));
                    if entry.clicked() && *item != current {
                        chosen = Some(*item);
                    }
                    entry
                })
                .collect();
            list::arrows(ui, &entries);
        })
        .response
        .labelled_by(name_of.id)
    });
    chosen
}
