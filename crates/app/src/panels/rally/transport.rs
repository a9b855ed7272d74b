//! Transport of a rally: step, play, scrub, pace and loop.

use egui::{RichText, Ui};
use standpoint_board::playback::{Control, Pace};
use standpoint_ui::{
    commands::{Action, Command, Facts, Outbox, RallyCommand},
    theme::{Theme, icons::Icon},
    widgets::menu,
};
use standpoint_workbench::session::Session;

use super::scrub;

/// Room after the bar for time, pace and loop.
const AFTER: f32 = 292.0;

/// The row.
pub fn ui(ui: &mut Ui, session: &Session, facts: &Facts, theme: &Theme, out: &mut Outbox) {
    let playback = facts.rally.playback;
    let tool = |ui: &mut Ui, command: Command, icon: Option<Icon>, out: &mut Outbox| {
        let spec = command.spec();
        out.extend(menu::tool(ui, spec, icon.or(spec.icon), facts, theme).map(Action::Run));
    };
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = theme.m.space.small;
        tool(ui, Command::Rally(RallyCommand::StepBack), None, out);
        let icon = if playback.playing { Icon::Pause } else { Icon::Play };
        tool(ui, Command::Rally(RallyCommand::Play), Some(icon), out);
        tool(ui, Command::Rally(RallyCommand::StepOn), None, out);
        scrub::ui(ui, (ui.available_width() - AFTER).max(90.0), session, theme, out);
        let time = playback.time.unwrap_or(0.0);
        let text = scrub::clock(time, facts.rally.duration);
        ui.add_sized([104.0, theme.m.control], egui::Label::new(RichText::new(text)));
        for (pace, text) in [(Pace::True, "1"), (Pace::Half, "½"), (Pace::Quarter, "¼")] {
            let button = egui::Button::selectable(playback.pace == pace, text);
            let response = ui.add_sized([30.0, theme.m.control], button);
            let label = match pace {
                Pace::True => Command::Rally(RallyCommand::PaceTrue),
                Pace::Half => Command::Rally(RallyCommand::PaceHalf),
                Pace::Quarter => Command::Rally(RallyCommand::PaceQuarter),
            }
            .spec()
            .label();
            response.widget_info(|| {
                egui::WidgetInfo::selected(egui::accesskit::Role::RadioButton, true, playback.pace == pace, label)
            });
            if response.on_hover_text(label).clicked() {
                out.push(Action::Play(Control::Pace(pace)));
            }
        }
        tool(ui, Command::Rally(RallyCommand::Loop), None, out);
        tool(ui, Command::Rally(RallyCommand::LeavePlaying), None, out);
    });
}
