//! Executors: the one place where commands and changes are carried out.

mod chart;
mod chart_files;
mod chart_keeping;
mod commands;
mod compare;
mod exporting;
mod open_save;
mod rally;
mod roster;
mod sketch;
mod teaching;

use egui::{Context, ViewportCommand};
use standpoint_board::{Board, Units};
use standpoint_language::Language;
use standpoint_ui::{
    commands::{Action, choices::Unsaved},
    transform::CourtView,
};
use standpoint_workbench::{
    edit::{Edit, Gesture, board_of_stage},
    settings::ThemeChoice,
};

use crate::{
    app::App,
    dialogs::{After, Dialog},
};

impl App {
    /// Carries out all actions in order; returns whether there were any.
    pub fn apply_all(&mut self, ctx: &Context, actions: impl IntoIterator<Item = Action>) -> bool {
        let mut any = false;
        for action in actions {
            any |= action != Action::Gesture(Gesture::Seal);
            self.apply(ctx, action);
        }
        any
    }

    fn apply(&mut self, ctx: &Context, action: Action) {
        match action {
            Action::Run(command) => self.run(ctx, command),
            Action::Edit(edit) => self.edit(&edit),
            Action::Arrange(arrange) => self.arrange(&arrange),
            Action::Select(selection) => self.session.select(selection),
            Action::Play(control) => self.session.control(control),
            Action::Gesture(gesture) => {
                if matches!(gesture, Gesture::Begin(_)) {
                    self.message = None;
                    self.hints.next(ctx.input(|i| i.time));
                }
                self.session.gesture(gesture);
            }
            Action::Compare(change) => self.change_comparison(change),
            Action::Draw(draw) => self.draw(&draw),
            Action::ChooseMarks(marks) => self.session.choose(marks),
            Action::View(view) => self.view = view,
            Action::OpenPath(path) => self.guarded(ctx, After::OpenPath(path)),
            Action::SavePath(path) => self.save_to(ctx, path),
            Action::Export(wanted) => self.ask_export(ctx, *wanted),
            Action::ExportPath(path) => self.export_to(ctx, path),
            Action::Guard(choice) => self.guard_answered(ctx, choice),
            Action::LeftWork(choice) => self.left_answered(ctx, &choice),
            Action::Conflict(choice) => self.conflict_answered(ctx, &choice),
            Action::OpenTeaching(pick) => self.guarded(ctx, After::Teaching(pick)),
            Action::OwnFolder(folder) => self.set_own_folder(ctx, folder),
            Action::ChooseOwnFolder => self.choose_own_folder(ctx),
            Action::Chart(act) => self.chart_act(ctx, act),
            Action::ReadTable => self.import_table(ctx),
            Action::CloseDialog => self.close_dialog(),
        }
    }

    /// A change that is a step of its own.
    pub(crate) fn step(&mut self, edit: Edit) {
        self.session.gesture(Gesture::Seal);
        self.edit(&edit);
        self.session.gesture(Gesture::Seal);
    }

    pub(super) fn zoom(&mut self, factor: f64) {
        if let Some(rect) = self.canvas.rect() {
            self.view = self.view.zoomed(rect, &self.session.court(), rect.center(), factor);
        }
    }

    /// Turns the court: by a quarter to lying or upright and back, or by a half to the other side down.
    pub(super) fn turn(&mut self, quarters: u8) {
        let now = if self.room.is_open() { self.settings.turn } else { self.view.turn };
        if quarters == 1 {
            self.settings.turned = true;
        }
        let turn = if quarters == 1 { now ^ 1 } else { (now + quarters) % 4 };
        // Left to itself the court lies or stands anyway, so that only the end is kept.
        self.settings.turn = if self.settings.turned { turn } else { turn / 2 * 2 };
        self.view = CourtView { turn, moved: None, ..self.view };
    }

    /// Shows the view in perspective beside the court or instead of it, or hides it when it is shown that way.
    pub(super) fn show_eyes(&mut self, alone: bool) {
        let perspective = &mut self.settings.perspective;
        perspective.shown = !(perspective.shown && perspective.alone == alone);
        perspective.alone = alone;
    }

    /// Keeps the court lying or upright.
    pub(super) fn set_lying(&mut self, lying: bool) {
        let turn = self.view.turn / 2 * 2 + u8::from(lying);
        (self.settings.turned, self.settings.turn) = (true, turn);
        self.view = CourtView { turn, moved: None, ..self.view };
    }

    pub(super) fn set_theme(&mut self, ctx: &Context, choice: ThemeChoice) {
        self.settings.theme = choice;
        ctx.set_theme(standpoint_ui::theme::preference(choice));
    }

    pub(super) fn set_language(&mut self, language: Option<Language>) {
        self.settings.language = language;
        self.settings.speak();
    }

    /// Does something that closes the board; asks first if there are unsaved changes.
    pub fn guarded(&mut self, ctx: &Context, after: After) {
        if self.session.document().is_saved() {
            self.proceed(ctx, after);
        } else {
            self.dialog = Dialog::Guard(after);
        }
    }

    fn guard_answered(&mut self, ctx: &Context, choice: Unsaved) {
        let Dialog::Guard(after) = std::mem::take(&mut self.dialog) else { return };
        match choice {
            Unsaved::Discard => self.proceed(ctx, after),
            Unsaved::Save => {
                self.after_saving = Some(after);
                self.save(ctx);
            }
        }
    }

    /// A built-in board, in the chosen units or else in the current ones.
    fn in_our_units(&self, board: Board) -> Board {
        Board { units: self.settings.units().unwrap_or(self.session.units()), ..board }
    }

    /// Changes the units of this board and of new ones.
    pub(super) fn choose_units(&mut self, units: Units) {
        self.settings.feet = Some(units == Units::Feet);
        self.step(Edit::Units(units));
    }

    /// A new board, in the units chosen or else in the usual ones.
    fn begin_new(&mut self, board: Board) {
        let usual = if self.begins_in_feet { Units::Feet } else { self.session.units() };
        let units = self.settings.units().unwrap_or(usual);
        self.replace(Board { units, ..board }, None);
    }

    /// Does the waiting action once the board may be closed.
    pub fn proceed(&mut self, ctx: &Context, after: After) {
        match after {
            After::New => self.begin_new(Board::blank()),
            After::Stage(stage) => self.begin_new(board_of_stage(stage)),
            After::Demo => self.replace(self.in_our_units(Board::demo()), None),
            After::Open => self.ask_open(ctx),
            After::OpenPath(path) => self.read_board(ctx, path),
            After::Teaching(pick) => self.replace(self.in_our_units((*pick.board).clone()), None),
            After::Quit => {
                self.may_close = true;
                self.crash_recovery.close();
                ctx.send_viewport_cmd(ViewportCommand::Close);
            }
        }
    }
}
