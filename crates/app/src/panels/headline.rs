//! The sentence over the court.

use egui::{Align, FontId, Label, Layout, RichText, TextStyle, Ui, vec2};
use standpoint_ui::theme::{Theme, fonts, icons::Icon};
use standpoint_workbench::{
    headline::{Tone, explanation, sentence},
    session::Session,
};

/// Height of the strip: two lines that never make the court jump.
const HEIGHT: f32 = 66.0;

/// The strip with the sentence and what it means.
pub fn ui(ui: &mut Ui, session: &Session, theme: &Theme) {
    let (first, second, tone) = {
        let (first, tone) = sentence(session);
        (first, explanation(session), tone)
    };
    strip(ui, &first, second, tone, theme);
}

/// A sentence and what it means, in the strip.
pub fn strip(ui: &mut Ui, first: &str, second: String, tone: Tone, theme: &Theme) {
    let color = if tone == Tone::Refusal { *theme.ui.bad } else { *theme.ui.ink };
    let width = ui.available_width();
    ui.allocate_ui_with_layout(vec2(width, HEIGHT), Layout::top_down(Align::Min), |ui| {
        ui.set_min_size(vec2(width, HEIGHT));
        ui.add_space(theme.m.space.item);
        ui.horizontal(|ui| {
            if tone == Tone::Refusal {
                let (rect, _) = ui.allocate_exact_size(vec2(24.0, 24.0), egui::Sense::hover());
                theme.icons.paint(ui.painter(), rect, Icon::Warning, color);
            }
            let line =
                RichText::new(first).font(fitting(ui, first, &TextStyle::Heading, &TextStyle::Body)).color(color);
            // A long sentence alone has both lines.
            let label = Label::new(line);
            ui.add(if second.is_empty() { label.wrap() } else { label.truncate() });
        });
        let font = fitting(ui, &second, &TextStyle::Body, &TextStyle::Small);
        ui.add(Label::new(RichText::new(second).font(font).color(*theme.ui.soft)).truncate());
    });
}

/// The font of a line: smaller where the window is too narrow for it, but never smaller than `least`.
fn fitting(ui: &Ui, line: &str, usual: &TextStyle, least: &TextStyle) -> FontId {
    let least = least.resolve(ui.style()).size;
    fonts::fitting(ui.painter(), line, usual.resolve(ui.style()), ui.available_width(), least)
}
