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
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = theme.m.space.small;
        menu::tool(
            ui,
            Command::Rally(RallyCommand::StepBack).spec(),
            Command::Rally(RallyCommand::StepBack).spec().icon,
            facts,
            theme,
            out,
        );
        let icon = if playback.playing { Icon::Pause } else { Icon::Play };
        menu::tool(ui, Command::Rally(RallyCommand::Play).spec(), Some(icon), facts, theme, out);
        menu::tool(
            ui,
            Command::Rally(RallyCommand::StepOn).spec(),
            Command::Rally(RallyCommand::StepOn).spec().icon,
            facts,
            theme,
            out,
        );
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
        menu::tool(
            ui,
            Command::Rally(RallyCommand::Loop).spec(),
            Command::Rally(RallyCommand::Loop).spec().icon,
            facts,
            theme,
            out,
        );
        menu::tool(
            ui,
            Command::Rally(RallyCommand::LeavePlaying).spec(),
            Command::Rally(RallyCommand::LeavePlaying).spec().icon,
            facts,
            theme,
            out,
        );
    });
}
