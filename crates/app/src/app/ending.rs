//! The end of a frame, and of the window.

use egui::{Context, ViewportCommand};
use standpoint_canvas::Canvas;
use standpoint_language::{text, tr};
use standpoint_ui::{explain, theme};
use standpoint_workbench::{settings::TEXT_SIZES, solved::Doing};

use super::App;
use crate::{
    dialogs::{After, Dialog, explain::How},
    faults, signals,
};

impl App {
    /// A window that is closed with unsaved changes asks first.
    pub(super) fn closing(&mut self, ctx: &Context) {
        if signals::wanted() && !self.may_close {
            self.end(ctx);
        }
        if ctx.input(|i| i.viewport().close_requested()) && !self.may_close {
            if self.shot.is_some() {
                // A run for a picture has no user to ask and no work to lose.
                self.may_close = true;
                self.crash_recovery.close();
            } else if !self.notes_are_saved() {
                ctx.send_viewport_cmd(ViewportCommand::CancelClose);
                self.dialog = Dialog::LeaveChart(standpoint_workbench::chart::leave::Then::Quit);
            } else if self.session.document().is_saved() {
                self.may_close = true;
                self.crash_recovery.close();
            } else {
                ctx.send_viewport_cmd(ViewportCommand::CancelClose);
                self.stop_presenting(ctx);
                self.rehearsing = None;
                self.dialog = Dialog::Guard(After::Quit);
            }
        }
    }

    /// The system ends the program: nobody can be asked. Unsaved work is kept and offered at the next start; of saved
    /// work nothing is left behind.
    pub fn end(&mut self, ctx: &Context) {
        if !self.session.document().is_saved() || !self.room.alone.is_saved() {
            let said = self.crash_recovery.last_words(ctx, self.session.document(), &self.room.alone);
            said.iter().for_each(|line| standpoint_cli::complain(&format!("standpoint: {line}")));
        }
        self.crash_recovery.close();
        self.may_close = true;
        ctx.send_viewport_cmd(ViewportCommand::Close);
    }

    /// Work after a frame: crash copies, window title, settings.
    pub(super) fn after_frame(&mut self, ctx: &Context) {
        let dark = ctx.global_style().visuals.dark_mode;
        let theme = || self.look.theme(dark, self.session.colours(), self.session.ground());
        theme::focus::show(ctx, theme, Canvas::is_handle);
        if let Some(step) = explain::asked(ctx) {
            self.dialog = Dialog::How(How::new(&self.session, Some(step)));
            ctx.request_repaint();
        }
        if self.presenting.is_none() && self.rehearsing.is_none() {
            ctx.set_zoom_factor(f32::from(self.settings.text_size.clamp(TEXT_SIZES.0, TEXT_SIZES.1)) / 100.0);
        }
        if !self.may_close
            && let Some(problem) = self.crash_recovery.frame(ctx, self.session.document(), &self.room.alone)
        {
            self.message = Some(problem);
        }
        self.name_window(ctx);
        self.store_settings();
        let busy = self.files.busy() || self.room.is_busy() || self.comparison.is_busy() || self.is_solving();
        if let Some(picture) = &mut self.shot {
            picture.frame(ctx, busy);
        }
        self.test_hooks.frame(ctx);
        if self.test_hooks.says_handles(ctx)
            && let Some(rect) = self.canvas.rect()
        {
            self.test_hooks.handles(ctx, &self.view.transform(rect, &self.session.court()), &self.session);
        }
        if faults::aside() {
            let said = text("A part of the program stopped because of a fault; save, and start again");
            self.message = Some(said.to_owned());
        }
    }

    /// Whether the rally of the players in view is being solved.
    pub(super) fn is_solving(&self) -> bool {
        self.solver.doing() == Doing::Solving
    }

    fn name_window(&mut self, ctx: &Context) {
        let mark = if self.session.document().is_saved() { "" } else { "• " };
        let file = self.session.path().and_then(|p| p.file_stem()).map(|n| n.to_string_lossy().into_owned());
        let title = format!("{mark}{} – Standpoint", file.unwrap_or_else(|| self.session.board().title.clone()));
        if self.title != title {
            self.title.clone_from(&title);
            ctx.send_viewport_cmd(ViewportCommand::Title(title));
        }
    }

    fn store_settings(&mut self) {
        // Runs for a picture or a measurement store nothing.
        if self.settings == self.stored || self.shot.is_some() || self.frame_timing.is_some() {
            return;
        }
        if let Some(dir) = &self.settings_dir
            && let Err(problem) = self.settings.store(dir)
        {
            self.message = Some(tr!("The settings cannot be kept in {0}: {1}", dir.display(), problem));
        }
        self.stored = self.settings.clone();
    }
}

impl Drop for App {
    fn drop(&mut self) {
        if std::thread::panicking() {
            // A second panic would abort the process before the report is shown.
            let last = std::panic::AssertUnwindSafe(|| {
                self.crash_recovery.last_words(&Context::default(), self.session.document(), &self.room.alone)
            });
            match std::panic::catch_unwind(last) {
                Ok(said) => said.into_iter().for_each(faults::say_of_work),
                Err(_) => {
                    faults::say_of_work(
                        text("The latest changes could not be kept; an earlier copy may be.").to_owned(),
                    );
                }
            }
        }
    }
}
