//! The crash window: says that the program had to stop, and what happened to the work.

use std::process::ExitCode;

use egui::{
    Button, CentralPanel, Frame, Key, Label, Margin, RichText, ScrollArea, TextStyle, Ui, ViewportCommand, vec2,
};
use standpoint_cli::{EXIT_NO_DISPLAY, stopped::StoppedArgs};
use standpoint_language::{text, tr};
use standpoint_ui::theme::{Look, Theme};
use standpoint_workbench::{
    edit::{Colours, Ground},
    settings::{self, Settings},
};

/// Size of the window, points.
const SIZE: (f32, f32) = (600.0, 300.0);

/// Writes the message to standard error.
pub(super) fn complain(told: &StoppedArgs) {
    eprintln!("standpoint: the program had to stop because of a fault of its own: {}.", told.fault);
    for line in told.work.iter().chain(&log(told)) {
        eprintln!("standpoint: {line}");
    }
}

/// Starts the crash window in a process of its own.
pub(super) fn start(told: &StoppedArgs) -> std::io::Result<()> {
    let mut program = super::again()?;
    program.args(["stopped", "--fault", &told.fault]);
    for sentence in &told.work {
        program.args(["--work", sentence]);
    }
    if let Some(report) = &told.report {
        program.arg("--report").arg(report);
    }
    program.spawn().map(drop)
}

/// The sentence about the report.
fn log(told: &StoppedArgs) -> Option<String> {
    told.report.as_ref().map(|path| tr!("What happened is written down in {}.", path.display()))
}

/// Opens the window.
#[must_use]
pub fn open(told: StoppedArgs) -> ExitCode {
    settings::directory().map(|dir| Settings::load(&dir).0).unwrap_or_default().speak();
    let Ok(look) = Look::load() else { return ExitCode::from(EXIT_NO_DISPLAY) };
    let viewport = egui::ViewportBuilder::default()
        .with_title(text("Standpoint had to stop"))
        .with_app_id("standpoint")
        .with_icon(crate::icon::icon())
        .with_inner_size(vec2(SIZE.0, SIZE.1));
    let options = eframe::NativeOptions { viewport, centered: true, ..eframe::NativeOptions::default() };
    let make = move |cc: &eframe::CreationContext<'_>| {
        look.install(&cc.egui_ctx);
        cc.egui_ctx.options_mut(|o| o.fallback_theme = egui::Theme::Light);
        Ok(Box::new(CrashWindow { told, look, problem: None }) as Box<dyn eframe::App>)
    };
    match eframe::run_native("standpoint", options, Box::new(make)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(_) => ExitCode::from(EXIT_NO_DISPLAY),
    }
}

struct CrashWindow {
    told: StoppedArgs,
    look: Look,
    /// Why the program could not be started again.
    problem: Option<String>,
}

impl eframe::App for CrashWindow {
    fn ui(&mut self, ui: &mut Ui, _: &mut eframe::Frame) {
        let theme = self.look.theme(ui.visuals().dark_mode, Colours::Surface, Ground::Hard);
        let edge = theme.m.space.edge as i8 + 8;
        let ground = Frame::new().fill(*theme.ui.panel).inner_margin(Margin::same(edge));
        CentralPanel::default().frame(ground).show(ui, |ui| {
            ScrollArea::vertical().auto_shrink(false).show(ui, |ui| self.words(ui, &theme));
        });
        if ui.input(|i| i.key_pressed(Key::Escape)) {
            ui.ctx().send_viewport_cmd(ViewportCommand::Close);
        }
    }
}

impl CrashWindow {
    fn words(&mut self, ui: &mut Ui, theme: &Theme) {
        let line = |ui: &mut Ui, text: RichText| {
            ui.add(Label::new(text).wrap());
            ui.add_space(theme.m.space.item);
        };
        line(ui, RichText::new(text("Standpoint had to stop")).text_style(TextStyle::Heading));
        line(ui, RichText::new(text("The program came to a fault of its own. You did nothing wrong.")));
        for sentence in &self.told.work {
            line(ui, RichText::new(sentence).strong());
        }
        if let Some(log) = log(&self.told) {
            line(ui, RichText::new(log + " " + text("Please send that file to whoever looks after the program.")));
        }
        line(ui, RichText::new(tr!("It says: {}", self.told.fault)).small().color(*theme.ui.soft));
        if let Some(problem) = &self.problem {
            line(ui, RichText::new(problem));
        }
        ui.horizontal(|ui| {
            if ui.add(Button::new(text("Start again")).fill(*theme.ui.chosen)).clicked() {
                match super::again().and_then(|mut program| program.spawn()) {
                    Ok(_) => ui.ctx().send_viewport_cmd(ViewportCommand::Close),
                    Err(why) => self.problem = Some(tr!("It cannot be started from here: {}", why)),
                }
            }
            if ui.button(text("Close")).clicked() {
                ui.ctx().send_viewport_cmd(ViewportCommand::Close);
            }
        });
    }
}
