//! The window: its state, and the order of a frame.

mod ending;
mod facts;
mod layout;
mod parts;
mod start;

use std::{path::PathBuf, time::Instant};

use egui::{Context, Ui};
use standpoint_board::Board;
use standpoint_canvas::Canvas;
use standpoint_language::tr;
use standpoint_ui::{
    commands::{Action, Command, Facts, Menu, Outbox, RallyCommand, ViewCommand, catalogue::CATALOGUE},
    theme::{self, Look},
    transform::CourtView,
};
use standpoint_workbench::{
    compare::{Comparison, GATHER_S},
    session::{LONGEST_FRAME_S, Session},
    settings::{Settings, Unreadable, homeless},
    solved::{Background, Shelf},
};

use crate::{
    background_io::Files,
    crash_recovery::CrashRecovery,
    dialogs::{After, Dialog},
    hints::Hints,
    panels,
    test_hooks::TestHooks,
};

pub(crate) use parts::Part;
pub use start::{First, Speaks, Start};

/// The window's state.
pub struct App {
    pub(crate) session: Session,
    pub(crate) settings: Settings,
    pub(crate) comparison: Comparison,
    solver: Background,
    pub(crate) room: standpoint_chart_room::Room,
    pub(crate) view: CourtView,
    pub(crate) canvas: Canvas,
    pub(crate) dialog: Dialog,
    pub(crate) hints: Hints,
    pub(crate) files: Files,
    pub(crate) crash_recovery: CrashRecovery,
    /// State of the board's file when it was last read or written.
    pub(crate) stamp: crate::background_io::Stamped,
    /// Whether what crashed windows have left is still to be offered.
    pub(crate) left_to_offer: bool,
    /// What to do once the board has been saved.
    pub(crate) after_saving: Option<After>,
    /// The export dialog's last choice.
    pub(crate) export: standpoint_workbench::wanted::Export,
    pub(crate) may_close: bool,
    /// Whether a dialog lay over the window in the last frame.
    covered: bool,
    /// The window's size in the last frame, points.
    window: egui::Vec2,
    /// What has just been done, for the line at the bottom.
    pub(crate) message: Option<String>,
    /// The window's title as last set.
    title: String,
    pub(crate) look: Look,
    pub(crate) presenting: Option<crate::present::Presenting>,
    pub(crate) rehearsing: Option<Box<crate::rehearse::Rehearsing>>,
    /// What to open once the board is loaded.
    first: First,
    /// Commands to run then.
    commands: Vec<Command>,
    settings_dir: Option<PathBuf>,
    stored: Settings,
    shot: Option<crate::picture::Picture>,
    pages: panels::pages::Pages,
    strip: panels::rally::Strip,
    /// When the playing rally was last advanced.
    played_at: Option<f64>,
    frame_timing: Option<crate::frame_timing::FrameTiming>,
    test_hooks: TestHooks,
    /// Whether an empty board begins in feet, as people here measure courts.
    pub(crate) begins_in_feet: bool,
}

impl App {
    /// The window's state before the first frame.
    #[must_use]
    pub fn new(ctx: &Context, look: Look, start: Start) -> Self {
        let (settings, unreadable) =
            start.settings_dir.as_deref().map_or_else(|| (start.settings, None), Settings::load);
        crate::speak_up();
        match start.speaks {
            Speaks::English => {}
            Speaks::AsSet => settings.speak(),
            Speaks::This(language) => standpoint_language::speak(language),
        }
        look.install(ctx);
        // Desktops without a preference get the light interface: the board is used by day, beside a court.
        ctx.options_mut(|o| {
            o.fallback_theme = egui::Theme::Light;
            // Text size is changed by commands of the catalogue.
            o.zoom_with_keyboard = false;
        });
        ctx.set_theme(theme::preference(settings.theme));
        let mut app = Self {
            session: Session::new(Board { units: settings.units().unwrap_or_default(), ..Board::demo() }, None),
            comparison: comparison_for(ctx),
            solver: start.solved.map_or_else(Background::off, |shelf| solver_for(ctx, shelf)),
            room: standpoint_chart_room::Room::default(),
            view: CourtView::fitted(settings.turn),
            canvas: Canvas::default(),
            dialog: Dialog::None,
            hints: Hints::default(),
            files: Files::default(),
            crash_recovery: CrashRecovery::new(start.data_dir),
            stamp: None,
            left_to_offer: false,
            after_saving: None,
            export: standpoint_workbench::wanted::Export::default(),
            may_close: false,
            covered: false,
            window: ctx.content_rect().size(),
            message: unreadable.map(|there| told_unreadable(&there)).or_else(homeless),
            title: String::new(),
            look,
            presenting: None,
            rehearsing: None,
            first: start.first,
            commands: start.commands,
            settings_dir: start.settings_dir,
            stored: settings.clone(),
            settings,
            shot: start.picture.map(crate::picture::Picture::new),
            pages: panels::pages::Pages::default(),
            strip: panels::rally::Strip::default(),
            played_at: None,
            frame_timing: None,
            test_hooks: start.test_hooks,
            begins_in_feet: start.speaks != Speaks::English && standpoint_language::system_uses_feet(),
        };
        let target = app.session.shot().map(|spec| spec.shot.target);
        app.frame_timing =
            start.frames.zip(target).map(|(frames, target)| crate::frame_timing::FrameTiming::new(frames, target));
        let of_room = start.file.as_deref().and_then(standpoint_workbench::chart::dropped);
        match start.file {
            Some(path) => match of_room {
                Some(act) => app.chart_act(ctx, act),
                None => app.read_board(ctx, path),
            },
            None if !app.settings.hints_shown && app.shot.is_none() && app.first == First::Board => {
                app.hints.begin(0.0)
            }
            None => {}
        }
        app.settings.hints_shown = true;
        app.read_roster(ctx);
        if app.shot.is_none() && app.frame_timing.is_none() && app.first == First::Board {
            app.left_to_offer = true;
        }
        app
    }

    /// The open document with its answer, for tests and benches.
    #[must_use]
    pub fn session(&self) -> &Session {
        &self.session
    }

    /// The comparison of shots, for tests.
    #[must_use]
    pub fn comparison(&self) -> &Comparison {
        &self.comparison
    }

    /// The chart room, for tests.
    #[must_use]
    pub fn room(&self) -> &standpoint_chart_room::Room {
        &self.room
    }

    /// Replaces the document.
    pub fn replace(&mut self, board: Board, path: Option<PathBuf>) {
        self.crash_recovery.replaced();
        if path.is_none() {
            self.crash_recovery.unclaim();
        }
        self.stamp = None;
        self.put(board, path);
    }

    /// Replaces the document by one whose crash copy exists already.
    pub(crate) fn put(&mut self, board: Board, path: Option<PathBuf>) {
        self.session.replace(board, path);
        self.room.document_replaced(self.session.document());
        self.comparison.clear();
        self.view = CourtView::fitted(self.view.turn);
        self.message = None;
    }

    /// Advances a playing rally, and computes later shots while nothing is dragged. Requests another frame only then.
    fn time_passes(&mut self, ctx: &Context) {
        let now = ctx.input(|i| i.time);
        let last = self.played_at.replace(now).unwrap_or(now);
        // A hidden window does not catch up.
        let playing = self.session.pass((now - last).min(LONGEST_FRAME_S));
        if !playing {
            self.played_at = None;
        }
        let filling = !self.session.history().in_gesture() && self.session.fill();
        if playing || filling {
            ctx.request_repaint();
        }
    }

    /// Has the game of the players in view solved, and recomputes the answers when it is: not during a drag.
    fn solve_rally(&mut self, ctx: &Context) {
        let still = !self.session.history().in_gesture() && !self.session.playback().playing;
        let update = self.solver.update(ctx.input(|i| i.time), self.session.matchup().as_ref(), still);
        if update.fresh {
            self.session.renew();
            self.comparison.outdate();
            if let Dialog::Export(exporting) = &mut self.dialog {
                exporting.outdate();
            }
            if let Some(presenting) = &mut self.presenting {
                presenting.renew();
            }
            ctx.request_repaint();
        }
        if let Some(wait) = update.wait {
            ctx.request_repaint_after_secs(wait as f32 + 0.005);
        }
    }

    /// Shortcuts of commands, unless text is being typed or a dialog is open.
    fn shortcuts(&self, ctx: &Context, facts: &Facts) -> Outbox {
        if self.dialog.is_open() {
            return Outbox::new();
        }
        // Open lists and text fields take plain letters.
        let typing = ctx.text_edit_focused() || egui::Popup::is_any_open(ctx);
        let mut specs: Vec<_> =
            CATALOGUE.iter().flat_map(|spec| spec.shortcuts().map(move |keys| (spec, keys))).collect();
        // Shortcuts with more modifiers first: those with fewer accept extra ones.
        specs.sort_by_key(|(_, s)| {
            let held = [s.modifiers.command, s.modifiers.shift, s.modifiers.alt];
            std::cmp::Reverse(held.map(u8::from).iter().sum::<u8>())
        });
        specs
            .into_iter()
            .filter(|(spec, _)| (spec.enabled)(facts))
            .filter(|(_, shortcut)| !typing || shortcut.modifiers.command)
            // In the chart room plain letters note strokes.
            .filter(|(spec, shortcut)| {
                let ours = matches!(spec.menu, Menu::Chart | Menu::Help | Menu::Teach);
                !facts.chart.open || shortcut.modifiers.command || ours
            })
            .filter(|(_, shortcut)| shortcut.logical_key != egui::Key::Space || Canvas::may_take_space(ctx))
            .filter(|(_, shortcut)| ctx.input_mut(|i| i.consume_shortcut(shortcut)))
            .map(|(spec, _)| Action::Run(spec.command))
            .collect()
    }

    fn dropped(&self, ctx: &Context) -> Option<Action> {
        let path = ctx.input(|i| i.raw.dropped_files.first().map(|file| file.path().to_owned()))?;
        Some(standpoint_workbench::chart::dropped(&path).map_or(Action::OpenPath(path), Action::Chart))
    }

    /// One frame: first input is applied, then everything is shown, so that all of it belongs to one state.
    pub fn frame(&mut self, ui: &mut Ui) {
        let ctx = ui.ctx().clone();
        self.window = ctx.content_rect().size();
        self.closing(&ctx);
        self.files_done(&ctx);
        self.begin_with(&ctx);
        self.solve_rally(&ctx);
        if !self.dialog.is_open() && (self.presenting.is_some() || self.rehearsing.is_some()) {
            self.present_frame(ui);
            self.rehearse_frame(ui);
            return self.after_frame(&ctx);
        }
        let facts = self.facts();
        let mut asked = Outbox::new();
        let in_room = self.room.is_open();
        if !self.dialog.is_open() && !in_room {
            asked.extend(self.canvas.drawing_tools().keys_first(&ctx, &self.session));
            self.clipboard_keys(&ctx);
        }
        asked.extend(self.shortcuts(&ctx, &facts));
        asked.extend(self.dropped(&ctx));
        // A key that changes the tool applies to a click in the same frame.
        self.apply_all(&ctx, std::mem::take(&mut asked));
        let (idle, touch) = (!self.dialog.is_open(), self.look.measures().touch);
        let acts = self.room.react(&ctx, self.session.document(), idle, touch, &self.settings);
        asked.extend(acts.into_iter().map(Action::Chart));
        if !self.dialog.is_open() && !in_room {
            if ctx.input(|i| i.key_pressed(egui::Key::Escape)) {
                if self.session.moment().is_some() {
                    asked.push(Action::Run(Command::Rally(RallyCommand::LeavePlaying)));
                } else if self.canvas.clean && !self.canvas.is_busy() {
                    asked.push(Action::Run(Command::View(ViewCommand::Clean)));
                }
            }
            let touch = self.look.measures().touch;
            asked.extend(self.canvas.react(&ctx, &self.session, &self.view, &self.settings, touch));
        }
        self.apply_all(&ctx, asked);
        self.time_passes(&ctx);
        if let Some(wait) = self.comparison.update(ctx.input(|i| i.time), &self.session, &self.settings) {
            ctx.request_repaint_after_secs(wait as f32 + 0.005);
        }
        let theme = self.look.theme(ui.visuals().dark_mode, self.session.colours(), self.session.ground());
        let facts = self.facts();
        let mut out = Outbox::new();
        self.show(ui, &facts, &theme, &mut out);
        self.dialog.show(&ctx, &self.session, &facts, &theme, &mut out);
        self.preview_export(&ctx);
        if self.apply_all(&ctx, out) {
            ctx.request_repaint();
        }
        self.after_frame(&ctx);
    }

    /// Carries out the start options once the board is loaded.
    fn begin_with(&mut self, ctx: &Context) {
        if self.files.busy() {
            return;
        }
        let commands = std::mem::take(&mut self.commands);
        self.apply_all(ctx, commands.into_iter().map(Action::Run));
        if self.first == First::Board {
            return;
        }
        let first = std::mem::take(&mut self.first);
        match first {
            _ if self.dialog.is_open() => {}
            First::Board => {}
            First::Present => self.present(ctx),
            First::Rehearse(begin) => self.rehearse(ctx, begin),
        }
    }
}

/// The comparison of shots, whose threads wake this window.
fn comparison_for(ctx: &Context) -> Comparison {
    let ctx = ctx.clone();
    Comparison::new(move || ctx.request_repaint_after_secs(GATHER_S))
}

/// The background solver, which wakes this window.
fn solver_for(ctx: &Context, shelf: Shelf) -> Background {
    let ctx = ctx.clone();
    Background::new(shelf, move || ctx.request_repaint())
}

/// Message for a settings file that cannot be read; also written to standard error.
fn told_unreadable(there: &Unreadable) -> String {
    let (path, kept) = (there.path.display(), there.kept.display());
    let said = tr!(
        "The settings in {path} cannot be read ({why}), so the usual ones are in use; once one is changed here, the file is kept as {kept}",
        path = path,
        why = there.why,
        kept = kept
    );
    standpoint_cli::complain(&format!("standpoint: {said}."));
    said
}

impl eframe::App for App {
    /// Opening a dialog removes the pointer, so that the tooltip of what lies under it closes.
    fn raw_input_hook(&mut self, _: &Context, input: &mut egui::RawInput) {
        let covered = std::mem::replace(&mut self.covered, self.dialog.is_open());
        if self.covered && !covered {
            input.events.push(egui::Event::PointerGone);
        }
    }

    fn ui(&mut self, ui: &mut Ui, frame: &mut eframe::Frame) {
        if let Some(factor) = self.magnify(ui.ctx()) {
            ui.ctx().set_zoom_factor(factor);
        }
        let Some(frame_timing) = &mut self.frame_timing else { return self.frame(ui) };
        let edit = frame_timing.frame(ui.ctx(), frame.info().cpu_usage);
        let began = Instant::now();
        if let Some(edit) = edit {
            self.session.edit(&edit);
            self.session.gesture(standpoint_workbench::edit::Gesture::Seal);
        }
        let answered = Instant::now();
        self.frame(ui);
        if let Some(frame_timing) = &mut self.frame_timing {
            frame_timing.parts(answered - began, answered.elapsed());
        }
    }
}
