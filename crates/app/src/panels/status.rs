//! The status line: hint, message and state of the file.

use egui::{Align, Button, Label, Layout, RichText, Ui};
use standpoint_language::{text, tr};
use standpoint_ui::{
    commands::{Action, Command, Facts, Outbox, PageCommand, RallyCommand, ViewCommand},
    theme::Theme,
    widgets::menu,
};
use standpoint_workbench::session::Session;

/// The line.
pub fn ui(
    ui: &mut Ui,
    session: &Session,
    facts: &Facts,
    hint: &str,
    message: Option<&str>,
    theme: &Theme,
    out: &mut Outbox,
) {
    ui.horizontal(|ui| {
        ui.set_min_height(22.0);
        let said = message.unwrap_or(hint);
        let color = if message.is_some() { *theme.ui.ink } else { *theme.ui.soft };
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let name = session.path().and_then(|p| p.file_name()).map(|n| n.to_string_lossy().into_owned());
            let file = match (name, !facts.unsaved) {
                (Some(name), true) => name,
                (Some(name), false) => tr!("{}, changed", name),
                (None, true) => text("not saved to a file yet").to_owned(),
                (None, false) => text("not saved to a file yet, changed").to_owned(),
            };
            ui.label(RichText::new(file).small().color(*theme.ui.soft));
            ui.spacing_mut().interact_size.y = 0.0;
            for (shown, command) in [
                (facts.parts.rally, Command::Rally(RallyCommand::ShowRally)),
                (facts.parts.pages, Command::Page(PageCommand::ShowPages)),
                (facts.parts.panel, Command::View(ViewCommand::Panel)),
            ] {
                // What is folded can be opened from here.
                if !shown {
                    let spec = command.spec();
                    let button = Button::new(RichText::new(spec.label()).small()).frame_when_inactive(false);
                    if ui.add(button).on_hover_text(menu::tip(ui.ctx(), spec.label(), spec)).clicked() {
                        out.push(Action::Run(command));
                    }
                }
            }
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                ui.add(Label::new(RichText::new(said).small().color(color)).truncate());
            });
        });
    });
}
