//! The status line: hint, message and state of the file.

use egui::{Align, Label, Layout, RichText, Ui};
use standpoint_language::{text, tr};
use standpoint_ui::theme::Theme;
use standpoint_workbench::session::Session;

/// The line.
pub fn ui(ui: &mut Ui, session: &Session, unsaved: bool, hint: &str, message: Option<&str>, theme: &Theme) {
    ui.horizontal(|ui| {
        ui.set_min_height(22.0);
        let said = message.unwrap_or(hint);
        let color = if message.is_some() { *theme.ui.ink } else { *theme.ui.soft };
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let name = session.path().and_then(|p| p.file_name()).map(|n| n.to_string_lossy().into_owned());
            let file = match (name, !unsaved) {
                (Some(name), true) => name,
                (Some(name), false) => tr!("{}, changed", name),
                (None, true) => text("not saved to a file yet").to_owned(),
                (None, false) => text("not saved to a file yet, changed").to_owned(),
            };
            ui.label(RichText::new(file).small().color(*theme.ui.soft));
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                ui.add(Label::new(RichText::new(said).small().color(color)).truncate());
            });
        });
    });
}
