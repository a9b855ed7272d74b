//! The dialog of ready patterns, mirrored or not.

use egui::{Button, RichText, Ui, vec2};
use standpoint_board::patterns::Pattern;
use standpoint_language::text;
use standpoint_ui::{
    commands::{Action, Outbox},
    theme::{Theme, style},
};
use standpoint_workbench::arrange::Arrange;

/// What has been chosen so far.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Patterns {
    mirrored: bool,
}

impl Patterns {
    /// The patterns with what they teach; a click adds the page.
    pub fn ui(&mut self, ui: &mut Ui, theme: &Theme, out: &mut Outbox) {
        ui.checkbox(&mut self.mirrored, text("Mirrored, for the other wing"));
        ui.add_space(theme.m.space.item);
        for pattern in Pattern::ALL {
            let mut lines = egui::text::LayoutJob::default();
            let strong = RichText::new(pattern.label()).text_style(style::emphasis()).color(*theme.ui.ink);
            strong.append_to(&mut lines, ui.style(), egui::FontSelection::Default, egui::Align::Min);
            let why = RichText::new(format!("\n{}", pattern.purpose())).small().color(*theme.ui.soft);
            why.append_to(&mut lines, ui.style(), egui::FontSelection::Default, egui::Align::Min);
            let size = vec2(ui.available_width(), theme.m.touch + theme.m.space.item);
            let response = ui.add(Button::new(lines).wrap().min_size(size));
            response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, pattern.label()));
            if response.clicked() {
                out.push(Action::CloseDialog);
                out.push(Action::Arrange(Arrange::AddPattern(pattern, self.mirrored)));
            }
        }
        ui.add_space(theme.m.space.group);
        if ui.button(text("Cancel")).clicked() {
            out.push(Action::CloseDialog);
        }
    }
}
