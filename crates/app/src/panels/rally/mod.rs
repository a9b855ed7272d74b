//! The strip below the court: the rally as a row of shots, and playing it.

pub mod chip;
pub mod scrub;
pub mod transport;

use egui::{Align, Layout, ScrollArea, Sense, Ui, UiBuilder, vec2};
use standpoint_ui::{
    commands::{Action, Command, Facts, Outbox, RallyCommand},
    theme::{Theme, focus::Following as _, tokens::Measures},
    widgets::menu,
};
use standpoint_workbench::{selection::Selection, session::Session};

/// A window lower than this has the chips without their middle line.
const ROOMY: f32 = 960.0;

/// Height of the strip in a window of a height.
#[must_use]
pub fn height(window: f32, m: &Measures) -> f32 {
    chip::height(window >= ROOMY) + m.control + 3.0 * m.space.small
}

/// The strip.
#[derive(Debug, Clone, Copy, Default)]
pub struct Strip {
    /// The shot selected in the last frame: a newly selected chip is scrolled to.
    last: Option<Selection>,
}

impl Strip {
    /// The row of shots and the transport row.
    pub fn ui(&mut self, ui: &mut Ui, session: &Session, facts: &Facts, theme: &Theme, out: &mut Outbox) {
        let roomy = ui.ctx().content_rect().height() >= ROOMY;
        let at = session.selection();
        let turned_to = self.last != Some(at);
        self.last = Some(at);
        let size = vec2(ui.available_width(), chip::height(roomy));
        let (row, _) = ui.allocate_exact_size(size, Sense::hover());
        let tools = [
            Command::Rally(RallyCommand::AddShotAfter),
            Command::Rally(RallyCommand::DuplicateShot),
            Command::Rally(RallyCommand::DeleteShot),
        ];
        let (chips, tool_row) = row.split_left_right_at_x(row.right() - tools.len() as f32 * (theme.m.control + 12.0));
        ui.scope_builder(UiBuilder::new().max_rect(chips).layout(Layout::left_to_right(Align::Min)), |ui| {
            ui.spacing_mut().item_spacing.x = 0.0;
            ScrollArea::horizontal().id_salt("shots").auto_shrink(false).show_following(ui, |ui| {
                let shots = session.page().map_or(0, |page| page.shots.len());
                for shot in 0..shots {
                    chip::ui(ui, session, shot, roomy, turned_to, facts, theme, out);
                }
            });
        });
        ui.scope_builder(UiBuilder::new().max_rect(tool_row).layout(Layout::left_to_right(Align::Center)), |ui| {
            standpoint_ui::widgets::ends::end(ui, "tools", |ui| {
                for command in tools {
                    out.extend(menu::tool(ui, command.spec(), command.spec().icon, facts, theme).map(Action::Run));
                }
            });
        });
        transport::ui(ui, session, facts, theme, out);
    }
}
