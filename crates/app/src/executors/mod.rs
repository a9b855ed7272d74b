//! The one place where commands and changes are carried out.

mod chart;
mod chart_keeping;
mod exporting;
mod open_save;
mod rally;
mod sketch;
mod weigh;

use egui::{Context, ViewportCommand};
use standpoint_board::{Board, Units};
use standpoint_canvas::{Canvas, handles::HandleId};
use standpoint_geometry::situation::ReceiptChoice;
use standpoint_language::Language;
use standpoint_ui::{
    commands::{Action, Command, choices::Unsaved},
    transform::View,
};
use standpoint_workbench::{
    edit::{Colours, Edit, Gesture},
    settings::{Layers, TEXT_SIZES, ThemeChoice},
};

use crate::{
    app::App,
    dialogs::{After, Dialog, finder::Finder, how::How, left::LeftWork},
};

/// Factor of one step of zooming.
const ZOOM: f64 = 1.25;
/// One step of the text size, in hundredths.
const TEXT_STEP: u16 = 10;

impl App {
    /// Carries out everything that was asked for, in order. Whether there was anything.
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
            Action::Weigh(change) => self.change_weighing(change),
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

    fn run(&mut self, ctx: &Context, command: Command) {
        if self.run_in_room(ctx, command) {
            return;
        }
        match command {
            Command::NewBoard => self.guarded(ctx, After::New),
            Command::DemoBoard => self.guarded(ctx, After::Demo),
            Command::Open => self.guarded(ctx, After::Open),
            Command::Save => self.save(ctx),
            Command::SaveAs => self.save_as(ctx),
            Command::Export => self.show_export(),
            Command::CopyPicture => self.copy_picture(ctx),
            Command::Quit => ctx.send_viewport_cmd(ViewportCommand::Close),
            Command::Undo => self.message = self.session.undo(),
            Command::Redo => self.message = self.session.redo(),
            Command::SwapHitter => self.step(Edit::SwapEnds),
            Command::Mirror => self.step(Edit::Mirror),
            Command::ResetReceipt => self.step(Edit::Receipt(ReceiptChoice::Best)),
            Command::ResetHitter => self.step(Edit::HitterPlace(None)),
            Command::Metres => self.choose_units(Units::Metres),
            Command::Feet => {
                let units = if self.session.units() == Units::Feet { Units::Metres } else { Units::Feet };
                self.choose_units(units);
            }
            Command::ColoursSurface => self.step(Edit::Colours(Colours::Surface)),
            Command::ColoursPaper => self.step(Edit::Colours(Colours::Paper)),
            Command::ColoursBright => {
                let bright = self.session.colours() == Colours::Bright;
                self.step(Edit::Colours(if bright { Colours::Surface } else { Colours::Bright }));
            }
            Command::Library => self.show_library(ctx),
            Command::LeftWork => {
                let (copies, fault) = (self.keeper.left(), None);
                self.dialog = Dialog::Left(LeftWork { copies, fault });
            }
            Command::Finder => self.dialog = Dialog::Finder(Finder::default()),
            Command::How => self.dialog = Dialog::How(How::new(&self.session, None)),
            Command::Shortcuts => self.dialog = Dialog::Keys,
            Command::Present => self.present(ctx),
            Command::Rehearse => self.rehearse(ctx, standpoint_workbench::rehearsal::Begin::default()),
            Command::Hints => self.hints.begin(ctx.input(|i| i.time)),
            _ if command.spec().menu == standpoint_ui::commands::Menu::Chart => self.run_on_chart(ctx, command),
            _ => self.run_on_view(ctx, command),
        }
    }

    /// Commands that change what is seen and nothing on the board.
    fn run_on_view(&mut self, ctx: &Context, command: Command) {
        let settings = &mut self.settings;
        let flip = |on: &mut bool| *on = !*on;
        let Layers { field, wedge, replies, bisector, run, .. } = &mut settings.layers;
        match command {
            Command::Snap => flip(&mut settings.snap),
            Command::Panel => flip(&mut settings.panel),
            Command::ShowField => flip(field),
            Command::ShowWedge => flip(wedge),
            Command::ShowReplies => flip(replies),
            Command::ShowBisector => flip(bisector),
            Command::ShowRun => flip(run),
            Command::ToCourt => ctx.memory_mut(|m| m.request_focus(Canvas::handle_id(HandleId::Target))),
            Command::Fit => self.view = View::fitted(self.view.turn),
            Command::ZoomIn => self.zoom(ZOOM),
            Command::ZoomOut => self.zoom(1.0 / ZOOM),
            Command::Turn => self.turn(1),
            Command::Flip => self.turn(2),
            Command::LargerText => settings.text_size = (settings.text_size + TEXT_STEP).min(TEXT_SIZES.1),
            Command::SmallerText => settings.text_size = (settings.text_size - TEXT_STEP).max(TEXT_SIZES.0),
            Command::ThemeSystem => self.set_theme(ctx, ThemeChoice::System),
            Command::ThemeLight => self.set_theme(ctx, ThemeChoice::Light),
            Command::ThemeDark => {
                let dark = self.settings.theme == ThemeChoice::Dark;
                self.set_theme(ctx, if dark { ThemeChoice::Light } else { ThemeChoice::Dark });
            }
            Command::LanguageSystem => self.set_language(None),
            Command::LanguageEnglish => self.set_language(Some(Language::English)),
            Command::LanguageGerman => self.set_language(Some(Language::German)),
            _ => self.run_on_rally(command),
        }
    }

    /// A change that is a step of its own.
    pub(crate) fn step(&mut self, edit: Edit) {
        self.session.gesture(Gesture::Seal);
        self.edit(&edit);
        self.session.gesture(Gesture::Seal);
    }

    fn zoom(&mut self, factor: f64) {
        if let Some(rect) = self.canvas.rect() {
            self.view = self.view.zoomed(rect, &self.session.court(), rect.center(), factor);
        }
    }

    fn turn(&mut self, quarters: u8) {
        self.view = View::fitted(self.view.turn + quarters);
        self.settings.turn = self.view.turn;
    }

    fn set_theme(&mut self, ctx: &Context, choice: ThemeChoice) {
        self.settings.theme = choice;
        ctx.set_theme(standpoint_ui::theme::preference(choice));
    }

    fn set_language(&mut self, language: Option<Language>) {
        self.settings.language = language;
        self.settings.speak();
    }

    /// Does something that gives the board up, unless it has unsaved changes: then it asks first.
    pub fn guarded(&mut self, ctx: &Context, after: After) {
        if self.board_is_saved() {
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

    /// A board that comes with the program, in the units chosen or else in those in use.
    fn in_our_units(&self, board: Board) -> Board {
        Board { units: self.settings.units().unwrap_or(self.session.units()), ..board }
    }

    /// Shows this board in these units, and begins others in them.
    fn choose_units(&mut self, units: Units) {
        self.settings.feet = Some(units == Units::Feet);
        self.step(Edit::Units(units));
    }

    /// Does what was to be done once the board may be given up.
    pub fn proceed(&mut self, ctx: &Context, after: After) {
        match after {
            After::New => {
                let usual = if self.begins_in_feet { Units::Feet } else { self.session.units() };
                let units = self.settings.units().unwrap_or(usual);
                self.replace(Board { units, ..Board::blank() }, None);
            }
            After::Demo => self.replace(self.in_our_units(Board::demo()), None),
            After::Open => self.ask_open(ctx),
            After::OpenPath(path) => self.files.read(ctx, path),
            After::Teaching(pick) => self.replace(self.in_our_units((*pick.board).clone()), None),
            After::Quit => {
                self.may_close = true;
                self.keeper.close();
                ctx.send_viewport_cmd(ViewportCommand::Close);
            }
        }
    }
}
