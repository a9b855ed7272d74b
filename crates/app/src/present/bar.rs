//! Around the court: the sentence above it, the quiet bar below it, and the keys over it.

use egui::{
    Align2, Area, FontId, Frame, Grid, Id, Label, Order, Rect, RichText, Sense, Ui, accesskit::Role, pos2, vec2,
};
use standpoint_language::{text, tr};
use standpoint_ui::{
    theme::{Theme, fonts, icons::Icon, style},
    widgets::ends,
};
use standpoint_workbench::session::Session;

use super::{
    keys,
    show::{Move, RevealStep, Show},
    words,
};

/// Height of the sentence and of the bar, points.
pub const HEAD: f32 = 86.0;
pub const FOOT: f32 = 42.0;
/// Sizes of the sentence and of what stands below it, points.
const TEXT: (f32, f32) = (32.0, super::LEGIBLE);
/// They do not get smaller than this where the screen is narrow: an answer that is cut off is none.
const LEAST_TEXT: f32 = 20.0;

/// The least size at the text size that was chosen: larger text is larger on the screen for the same number of points.
fn least(ui: &Ui) -> f32 {
    LEAST_TEXT / ui.ctx().zoom_factor().max(1.0)
}

/// The sentence.
pub fn head(ui: &mut Ui, rect: Rect, show: &Show, session: &Session, theme: &Theme) {
    let (first, second) = words::describe(show, session);
    let inner = rect.shrink2(vec2(theme.m.space.edge * 1.4, theme.m.space.small));
    let ink = *theme.ui.ink;
    let fitting = |said: &str, font, least| fonts::fitting(ui.painter(), said, font, inner.width(), least);
    let upper = fitting(&first, FontId::new(TEXT.0, fonts::strong()), least(ui));
    let lower = fitting(&second, FontId::proportional(TEXT.1), least(ui));
    ui.scope_builder(egui::UiBuilder::new().max_rect(inner), |ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        let first = RichText::new(&first).font(upper).color(ink);
        ui.add(Label::new(first).truncate().selectable(false));
        let second = RichText::new(&second).font(lower).color(*theme.ui.soft);
        ui.add(Label::new(second).truncate().selectable(false));
    });
}

/// The bar: progress at the left, keys at the right.
pub fn foot(ui: &mut Ui, rect: Rect, show: &Show, session: &Session, theme: &Theme) -> Vec<Move> {
    let mut asked = Vec::new();
    let inner = rect.shrink2(vec2(theme.m.space.edge * 1.4, 3.0));
    ui.scope_builder(egui::UiBuilder::new().max_rect(inner), |ui| {
        let left = |ui: &mut Ui| {
            let title = words::title(show, session);
            let place = words::place(session);
            let both = [title, &place].into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" · ");
            let said = if show.step() == RevealStep::Answer && session.play().is_some() {
                tr!("Estimates of a model · {}", both)
            } else {
                both
            };
            let font = FontId::proportional(super::LEGIBLE);
            let font = fonts::fitting(ui.painter(), &said, font, ui.available_width(), least(ui));
            ui.add(Label::new(RichText::new(said).font(font).color(*theme.ui.soft)).truncate().selectable(false));
        };
        ends::row(ui, "keys", left, |ui| {
            ui.spacing_mut().item_spacing.x = theme.m.space.hair;
            pips(ui, words::count(show, session), theme);
            ui.add_space(theme.m.space.item);
            for (icon, label, asks, on) in buttons(show) {
                if button(ui, icon, label, on, theme) {
                    asked.push(asks);
                }
            }
        });
    });
    asked
}

/// From the left to the right.
fn buttons(show: &Show) -> [(Icon, &'static str, Move, bool); 9] {
    [
        (Icon::Previous, text("Previous step"), Move::Back, false),
        (Icon::Next, text("Next step"), Move::Forward, false),
        (Icon::Spotlight, text("Spotlight"), Move::Spotlight, show.spotlight),
        (Icon::Eye, text("Player’s eye, and from behind"), Move::Sight, show.sight.is_some()),
        (Icon::Pen, text("Draw with the pointer"), Move::Draw, show.drawing),
        (Icon::BlackScreen, text("Black screen"), Move::Black, show.black),
        (Icon::Notes, text("Notes in a window of their own"), Move::Notes, false),
        (Icon::Keyboard, text("Keys of the presentation"), Move::Keys, false),
        (Icon::Close, text("Leave the presentation"), Move::Leave, false),
    ]
}

fn button(ui: &mut Ui, icon: Icon, label: &str, on: bool, theme: &Theme) -> bool {
    let side = theme.m.control;
    let response = ui.allocate_response(vec2(side, side), Sense::click());
    response.widget_info(|| egui::WidgetInfo::selected(Role::Button, true, on, label));
    let visuals = ui.style().interact_selectable(&response, on);
    if on || response.hovered() || response.has_focus() {
        let corner = visuals.corner_radius;
        ui.painter().rect(response.rect, corner, visuals.weak_bg_fill, visuals.bg_stroke, egui::StrokeKind::Inside);
    }
    theme.icons.paint(ui.painter(), response.rect.shrink(6.0), icon, *theme.ui.soft);
    response.on_hover_text(label).clicked()
}

/// A dot for each step, filled as far as it is revealed.
fn pips(ui: &mut Ui, (done, of): (usize, usize), theme: &Theme) {
    let apart = 14.0;
    let (rect, _) = ui.allocate_exact_size(vec2(apart * of as f32, theme.m.control), Sense::hover());
    for i in 0..of {
        let c = pos2(rect.left() + apart * (i as f32 + 0.5), rect.center().y);
        if i < done {
            ui.painter().circle_filled(c, 4.5, *theme.ui.accent);
        } else {
            ui.painter().circle_stroke(c, 4.0, egui::Stroke::new(1.5, *theme.ui.outline));
        }
    }
}

/// The keys, over the court.
pub fn keys_overlay(ui: &Ui, rect: Rect, theme: &Theme) {
    let frame = Frame::new()
        .fill(*theme.ui.raised)
        .stroke(egui::Stroke::new(1.0, *theme.ui.outline))
        .corner_radius(theme.m.radius.large)
        .inner_margin(theme.m.space.edge);
    let at = rect.right_bottom() - vec2(theme.m.space.edge, theme.m.space.edge);
    let area = Area::new(Id::unique("presentation keys")).order(Order::Foreground).pivot(Align2::RIGHT_BOTTOM);
    area.fixed_pos(at).interactable(false).show(ui.ctx(), |ui| {
        frame.show(ui, |ui| {
            ui.label(RichText::new(text("Keys, or a remote control")).text_style(style::emphasis()));
            Grid::new("presentation key list")
                .num_columns(2)
                .min_row_height(0.0)
                .spacing(vec2(theme.m.space.edge, 2.0))
                .show(ui, |ui| {
                    for (key, what) in keys::SAID {
                        ui.label(RichText::new(text(key)).color(*theme.ui.accent));
                        ui.label(text(what));
                        ui.end_row();
                    }
                });
            ui.label(RichText::new(text("H shows or hides this")).color(*theme.ui.soft));
        });
    });
}
