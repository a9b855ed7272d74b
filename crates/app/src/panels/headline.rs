//! The sentence over the court.

use egui::{Align, FontId, Label, Layout, RichText, TextStyle, Ui, vec2};
use standpoint_ui::theme::{Theme, fonts, icons::Icon};
use standpoint_workbench::{
    headline::{Tone, basis, explanation, sentence, warning},
    session::Session,
};

/// Height of the strip: two lines that never make the court jump.
const HEIGHT: f32 = 60.0;

/// The strip with headline and explanation; `solving` while the game of these players is being solved.
pub fn ui(ui: &mut Ui, session: &Session, solving: bool, theme: &Theme) {
    let (first, tone) = sentence(session);
    let second = warning(session).unwrap_or_else(|| explanation(session));
    strip(ui, &first, &second, basis(session, solving), tone, theme);
}

/// A sentence and what it means, in the strip, with a note behind what it means: as much of it as there is room for, so
/// that nothing gets out of its way and
/// jumps back again.
pub fn strip(ui: &mut Ui, first: &str, second: &str, note: Option<&str>, tone: Tone, theme: &Theme) {
    let color = if tone == Tone::Refusal { *theme.ui.bad } else { *theme.ui.ink };
    let width = ui.available_width();
    ui.allocate_ui_with_layout(vec2(width, HEIGHT), Layout::top_down(Align::Min), |ui| {
        ui.set_min_size(vec2(width, HEIGHT));
        ui.add_space(theme.m.space.hair);
        ui.horizontal(|ui| {
            if tone == Tone::Refusal {
                let (rect, _) = ui.allocate_exact_size(vec2(24.0, 24.0), egui::Sense::hover());
                theme.icons.paint(ui.painter(), rect, Icon::Warning, color);
            }
            let line =
                RichText::new(first).font(fitting(ui, first, &TextStyle::Heading, &TextStyle::Body)).color(color);
            // A long headline without explanation takes both lines.
            let label = Label::new(line);
            ui.add(if second.is_empty() { label.wrap() } else { label.truncate() });
        });
        let font = fitting(ui, second, &TextStyle::Body, &TextStyle::Small);
        if fonts::width(ui.painter(), second, font.clone()) > ui.available_width() {
            // Too long for the smallest letters: it takes two lines, in the same strip.
            ui.add(two_lines(second, font, *theme.ui.soft));
            return;
        }
        let soft = |line: &str| Label::new(RichText::new(line).font(font.clone()).color(*theme.ui.soft)).truncate();
        let Some(note) = note else {
            ui.add(soft(second));
            return;
        };
        // As high as the line alone.
        ui.spacing_mut().interact_size.y = 0.0;
        ui.horizontal(|ui| {
            ui.add(soft(second));
            if ui.available_width() > theme.m.space.section {
                ui.add(soft("·"));
                ui.add(soft(note));
            }
        });
    });
}

/// A text of at most two lines.
fn two_lines(said: &str, font: FontId, color: egui::Color32) -> Label {
    let mut job = egui::text::LayoutJob::simple(said.to_owned(), font, color, f32::INFINITY);
    job.wrap.max_rows = 2;
    Label::new(job).wrap()
}

/// The font of a line: smaller where the window is too narrow for it, but never smaller than `least`.
fn fitting(ui: &Ui, line: &str, usual: &TextStyle, least: &TextStyle) -> FontId {
    let least = least.resolve(ui.style()).size;
    fonts::fitting(ui.painter(), line, usual.resolve(ui.style()), ui.available_width(), least)
}
