//! Beginning and leaving a presentation or a rehearsal, each on a copy of the board.

use egui::{Context, Ui, ViewportCommand};
use standpoint_board::Board;
use standpoint_workbench::{rehearsal::Begin, settings::TEXT_SIZES};

use crate::{
    app::App,
    crash_recovery,
    present::Presenting,
    rehearse::{
        Rehearsing,
        course::{Course, Source},
        players::Players,
    },
};

/// The picture is laid out for a screen of this size in points and magnified to the real one, so that words take the
/// same share of any screen: a twentieth of its height for the sentence. Our choice.
const LAID_OUT_FOR: (f32, f32) = (800.0, 600.0);
/// The same for a rehearsal.
const REHEARSED_ON: (f32, f32) = (1280.0, 800.0);

impl App {
    /// The presentation, while there is one.
    #[must_use]
    pub fn presenting(&self) -> Option<&Presenting> {
        self.presenting.as_ref()
    }

    /// Begins to present the board as it stands.
    pub(crate) fn present(&mut self, ctx: &Context) {
        let was_full = ctx.input(|i| i.viewport().fullscreen).unwrap_or(false);
        let turn = (self.view.turn, self.settings.turned);
        self.presenting = Some(Presenting::new(&self.session, turn, !self.settings.present_keys_shown, was_full));
        self.settings.present_keys_shown = true;
        ctx.memory_mut(|m| m.stop_text_input());
        ctx.send_viewport_cmd(ViewportCommand::Fullscreen(true));
    }

    /// One frame of the presentation.
    pub(crate) fn present_frame(&mut self, ui: &mut Ui) {
        let Some(presenting) = &mut self.presenting else { return };
        if !presenting.frame(ui, &self.look) {
            self.stop_presenting(ui.ctx());
        }
    }

    /// Leaves the presentation and restores the window size.
    pub(crate) fn stop_presenting(&mut self, ctx: &Context) {
        if let Some(presenting) = self.presenting.take() {
            ctx.send_viewport_cmd(ViewportCommand::Fullscreen(presenting.was_full));
            ctx.request_repaint();
        }
    }

    /// Magnification of a presentation or a rehearsal for its screen.
    pub(crate) fn magnify(&self, ctx: &Context) -> Option<f32> {
        let size = ctx.content_rect().size() * ctx.zoom_factor();
        let fits = |(x, y): (f32, f32)| (size.x / x).min(size.y / y).clamp(0.5, 8.0);
        if self.presenting.is_some() {
            return Some(fits(LAID_OUT_FOR));
        }
        self.rehearsing.as_ref()?;
        // A rehearsal is read from nearby: never smaller than the text of the board's window.
        let text = f32::from(self.settings.text_size.clamp(TEXT_SIZES.0, TEXT_SIZES.1)) / 100.0;
        Some(fits(REHEARSED_ON).max(text))
    }

    /// The rehearsal, while there is one.
    #[must_use]
    pub fn rehearsing(&self) -> Option<&Rehearsing> {
        self.rehearsing.as_deref()
    }

    /// Begins to rehearse.
    pub(crate) fn rehearse(&mut self, ctx: &Context, begin: Begin) {
        let board = self.session.board().clone();
        self.rehearse_from(ctx, &board, begin);
    }

    /// Begins to rehearse for the player whom a board is about.
    pub(crate) fn rehearse_from(&mut self, ctx: &Context, board: &Board, begin: Begin) {
        let now = crash_recovery::now();
        let mut players = match self.crash_recovery.folder() {
            Some(folder) => Players::of(&folder.join("rehearsal"), &folder.join("open")),
            None => Players::default(),
        };
        let log = players.choose(None, now);
        let source = match begin.theme {
            Some(theme) => Source::Theme(theme),
            None if begin.board => Source::Board,
            None => Source::Mixed,
        };
        let course = Course::new(board, source, begin.seed.unwrap_or(now as u64), log, now);
        let turn = (self.view.turn, self.settings.turned);
        let player = board.card(board.coached).name.clone();
        self.rehearsing = Some(Box::new(Rehearsing::new(course, player, players, turn, self.session.colours())));
        ctx.memory_mut(|m| m.stop_text_input());
    }

    /// One frame of the rehearsal.
    pub(crate) fn rehearse_frame(&mut self, ui: &mut Ui) {
        let Some(rehearsing) = &mut self.rehearsing else { return };
        if !rehearsing.frame(ui, &self.look) {
            let sitting = rehearsing.sitting();
            let player = rehearsing.player.clone();
            self.rehearsing = None;
            if let Some(sitting) = sitting {
                self.log_rehearsal(ui.ctx(), &player, sitting);
            }
            ui.ctx().request_repaint();
        }
    }
}
