//! Commands by the part of the program that carries them out. Every match names each command, so that the compiler finds
//! one that nobody does.

use egui::{Context, ViewportCommand};
use standpoint_board::Units;
use standpoint_canvas::{Canvas, handles::HandleId};
use standpoint_geometry::{ReceiptChoice, Stage};
use standpoint_language::{Language, text};
use standpoint_ui::commands::{
    BoardCommand, Command, HelpCommand, LibraryCommand, LookCommand, TeachCommand, ViewCommand,
};
use standpoint_workbench::{
    edit::{Colours, Edit},
    settings::{Layers, Sight, TEXT_SIZES, ThemeChoice},
};

use crate::{
    app::{App, Part},
    dialogs::{After, Dialog, explain::How, finder::Finder, left::LeftWork},
};

/// Factor of one step of zooming.
const ZOOM: f64 = 1.25;
/// One step of the text size, in hundredths.
const TEXT_STEP: u16 = 10;

impl App {
    pub(super) fn run(&mut self, ctx: &Context, command: Command) {
        if self.run_in_room(ctx, command) {
            return;
        }
        match command {
            Command::Board(command) => self.run_on_board(ctx, command),
            Command::View(command) => self.run_on_view(ctx, command),
            Command::Look(command) => self.run_on_look(ctx, command),
            Command::Help(command) => self.run_help(ctx, command),
            Command::Rally(command) => self.run_on_rally(command),
            Command::Page(command) => self.run_on_pages(command),
            Command::Compare(command) => self.run_on_compare(command),
            Command::Draw(command) => self.run_on_sketch(ctx, command),
            Command::Library(command) => self.run_on_library(ctx, command),
            Command::Chart(command) => self.run_on_chart(ctx, command),
            Command::Teach(command) => self.run_teaching(ctx, command),
        }
    }

    fn run_on_board(&mut self, ctx: &Context, command: BoardCommand) {
        match command {
            BoardCommand::NewBoard => self.guarded(ctx, After::New),
            BoardCommand::NewRed => self.guarded(ctx, After::Stage(Stage::Red)),
            BoardCommand::NewOrange => self.guarded(ctx, After::Stage(Stage::Orange)),
            BoardCommand::NewGreen => self.guarded(ctx, After::Stage(Stage::Green)),
            BoardCommand::DemoBoard => self.guarded(ctx, After::Demo),
            BoardCommand::Open => self.guarded(ctx, After::Open),
            BoardCommand::Save => self.save(ctx),
            BoardCommand::SaveAs => self.save_as(ctx),
            BoardCommand::Export => self.show_export(),
            BoardCommand::CopyPicture => self.copy_picture(ctx),
            BoardCommand::Quit => ctx.send_viewport_cmd(ViewportCommand::Close),
            BoardCommand::Undo => self.message = self.session.undo(),
            BoardCommand::Redo => self.message = self.session.redo(),
            BoardCommand::SwapHitter => self.step(Edit::SwapEnds),
            BoardCommand::Mirror => {
                self.mirror(Edit::Mirror, text("This page is mirrored; the players kept their hands"))
            }
            BoardCommand::MirrorBoard => {
                self.mirror(Edit::MirrorBoard, text("All pages are mirrored; the players kept their hands"));
            }
            BoardCommand::SwapHands => self.mirror(Edit::SwapHands, text("Both players play with the other hand now")),
            BoardCommand::ResetReceipt => self.step(Edit::Receipt(ReceiptChoice::Best)),
            BoardCommand::ResetHitter => self.step(Edit::HitterPlace(None)),
            BoardCommand::Metres => self.choose_units(Units::Metres),
            BoardCommand::Feet => {
                let units = if self.session.units() == Units::Feet { Units::Metres } else { Units::Feet };
                self.choose_units(units);
            }
            BoardCommand::Snap => self.settings.snap = !self.settings.snap,
        }
    }

    /// Mirrors something and says what.
    fn mirror(&mut self, edit: Edit, said: &str) {
        self.step(edit);
        self.message = Some(said.to_owned());
    }

    /// Commands that change the view only.
    fn run_on_view(&mut self, ctx: &Context, command: ViewCommand) {
        let flip = |on: &mut bool| *on = !*on;
        let Layers { field, wedge, replies, bisector, run, .. } = &mut self.settings.layers;
        match command {
            ViewCommand::Panel => self.fold(Part::Panel),
            ViewCommand::ShowField => flip(field),
            ViewCommand::ShowWedge => flip(wedge),
            ViewCommand::ShowReplies => flip(replies),
            ViewCommand::ShowBisector => flip(bisector),
            ViewCommand::ShowRun => flip(run),
            ViewCommand::ToCourt => ctx.memory_mut(|m| m.request_focus(Canvas::handle_id(HandleId::Target))),
            ViewCommand::Fit => self.view.moved = None,
            ViewCommand::ZoomIn => self.zoom(ZOOM),
            ViewCommand::ZoomOut => self.zoom(1.0 / ZOOM),
            ViewCommand::Turn => self.turn(1),
            ViewCommand::Flip => self.turn(2),
            ViewCommand::TurnedFreely => {
                self.settings.turned = false;
                self.view.moved = None;
            }
            ViewCommand::Upright => self.set_lying(false),
            ViewCommand::Lying => self.set_lying(true),
            ViewCommand::Eyes => self.show_eyes(false),
            ViewCommand::EyesAlone => self.show_eyes(true),
            ViewCommand::EyesBehind => {
                let perspective = &mut self.settings.perspective;
                perspective.sight = if perspective.sight == Sight::Eyes { Sight::Behind } else { Sight::Eyes };
                perspective.shown = true;
            }
            ViewCommand::Clean => flip(&mut self.canvas.clean),
        }
    }

    fn run_on_look(&mut self, ctx: &Context, command: LookCommand) {
        let settings = &mut self.settings;
        match command {
            LookCommand::ColoursSurface => self.step(Edit::Colours(Colours::Surface)),
            LookCommand::ColoursPaper => self.step(Edit::Colours(Colours::Paper)),
            LookCommand::ColoursBright => {
                let bright = self.session.colours() == Colours::Bright;
                self.step(Edit::Colours(if bright { Colours::Surface } else { Colours::Bright }));
            }
            LookCommand::LargerText => settings.text_size = (settings.text_size + TEXT_STEP).min(TEXT_SIZES.1),
            LookCommand::SmallerText => settings.text_size = (settings.text_size - TEXT_STEP).max(TEXT_SIZES.0),
            LookCommand::ThemeSystem => self.set_theme(ctx, ThemeChoice::System),
            LookCommand::ThemeLight => self.set_theme(ctx, ThemeChoice::Light),
            LookCommand::ThemeDark => {
                let dark = self.settings.theme == ThemeChoice::Dark;
                self.set_theme(ctx, if dark { ThemeChoice::Light } else { ThemeChoice::Dark });
            }
            LookCommand::LanguageSystem => self.set_language(None),
            LookCommand::LanguageEnglish => self.set_language(Some(Language::English)),
            LookCommand::LanguageGerman => self.set_language(Some(Language::German)),
        }
    }

    fn run_help(&mut self, ctx: &Context, command: HelpCommand) {
        match command {
            HelpCommand::Guide => self.dialog = Dialog::Guide(Box::default()),
            HelpCommand::Finder => self.dialog = Dialog::Finder(Finder::default()),
            HelpCommand::How => self.dialog = Dialog::How(How::new(&self.session, None)),
            HelpCommand::Shortcuts => self.dialog = Dialog::Keys,
            HelpCommand::Hints => self.hints.begin(ctx.input(|i| i.time)),
        }
    }

    fn run_on_library(&mut self, ctx: &Context, command: LibraryCommand) {
        match command {
            LibraryCommand::Library => self.show_library(ctx),
            LibraryCommand::LeftWork => {
                let (copies, fault) = (self.crash_recovery.left(), None);
                self.dialog = Dialog::Left(LeftWork { copies, fault });
            }
        }
    }

    fn run_teaching(&mut self, ctx: &Context, command: TeachCommand) {
        match command {
            TeachCommand::Present => self.present(ctx),
            TeachCommand::Rehearse => self.rehearse(ctx, standpoint_workbench::rehearsal::Begin::default()),
        }
    }
}
