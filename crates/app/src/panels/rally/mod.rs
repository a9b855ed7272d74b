//! The strip below the court: the rally as a row of shots, and playing it.

pub mod chip;
pub mod scrub;
pub mod transport;

use egui::{Align, Layout, ScrollArea, Ui, vec2};

use super::menu;
use crate::{
    commands::{Command, Facts, Outbox},
    session::{Selection, Session},
    theme::Theme,
};

/// A window lower than this has the chips without their middle line.
const ROOMY: f32 = 820.0;

/// The strip.
#[derive(Debug, Clone, Copy, Default)]
pub struct Strip {
    /// What was looked at in the last frame: a chip that is newly chosen is scrolled to.
    last: Option<Selection>,
}

impl Strip {
    /// The row of shots and the row of playing.
    pub fn ui(&mut self, ui: &mut Ui, session: &Session, facts: &Facts, theme: &Theme, out: &mut Outbox) {
        let roomy = ui.ctx().content_rect().height() >= ROOMY;
        let at = session.selection();
        let turned_to = self.last != Some(at);
        self.last = Some(at);
        let height = chip::height(roomy);
        let width = ui.available_width();
        ui.allocate_ui_with_layout(vec2(width, height), Layout::right_to_left(Align::Center), |ui| {
            ui.set_min_size(vec2(width, height));
            for command in [Command::DeleteShot, Command::DuplicateShot, Command::AddShotAfter] {
                menu::tool(ui, command.spec(), command.spec().icon, facts, theme, out);
            }
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                ScrollArea::horizontal().id_salt("shots").auto_shrink([false, true]).show(ui, |ui| {
                    ui.horizontal(|ui| {
                        ui.spacing_mut().item_spacing.x = 0.0;
                        let shots = session.page().map_or(0, |page| page.shots.len());
                        for shot in 0..shots {
                            chip::ui(ui, session, shot, roomy, turned_to, facts, theme, out);
                        }
                    });
                });
            });
        });
        transport::ui(ui, session, facts, theme, out);
    }
}
