//! Shared helpers of the window tests: opening a window, finding widgets and dragging them.

#![allow(dead_code, reason = "every test program uses its own part of this")]

pub mod room;

use egui::{Pos2, Vec2, vec2};
use egui_kittest::{Harness, kittest::Queryable as _};
use standpoint_app::app::{App, Start};
use standpoint_ui::theme::Look;
use standpoint_workbench::settings::{Parts, Settings};

/// A window under test; the app is created with the first frame.
pub type Window = Harness<'static, Option<App>>;

/// The window with the demo board, after layout has settled.
pub fn window_of(width: f32, height: f32) -> Window {
    opened(vec2(width, height), None, Start::default)
}

/// A settled window of a given size; `frame` is the time from frame to frame, s. The court stands upright and every
/// part is shown, so that drags and presses hit the positions the tests name.
pub fn opened(size: Vec2, frame: Option<f32>, start: impl Fn() -> Start + 'static) -> Window {
    bare(size, frame, move || {
        let parts = Parts { panel: Some(true), rally: Some(true), pages: Some(true) };
        let start = start();
        Start { settings: Settings { turned: true, parts, ..start.settings.clone() }, ..start }
    })
}

/// The same with the settings of a first start.
pub fn bare(size: Vec2, frame: Option<f32>, start: impl Fn() -> Start + 'static) -> Window {
    let show = move |ui: &mut egui::Ui, slot: &mut Option<App>| {
        let ctx = ui.ctx().clone();
        slot.get_or_insert_with(|| App::new(&ctx, Look::load().unwrap(), start())).frame(ui);
    };
    let dress = |ctx: &egui::Context| Look::load().unwrap().install(ctx);
    let mut builder = Harness::builder().with_size(size).with_context_setup(dress);
    if let Some(frame) = frame {
        builder = builder.with_step_dt(frame);
    }
    let mut window = builder.build_ui_state(show, None);
    window.run_steps(4);
    window
}

/// The program in a window.
pub fn app(window: &Window) -> &App {
    window.state().as_ref().unwrap()
}

/// The centre of the widget with this label.
pub fn center(window: &Window, label: &str) -> Pos2 {
    window.get_by_label(label).rect().center()
}

/// Drags from a point in several steps, as a real pointer does.
pub fn drag(window: &mut Window, from: Pos2, by: Vec2) {
    window.hover_at(from);
    window.step();
    window.drag_at(from);
    window.step();
    for i in 1..=5 {
        window.hover_at(from + by * (i as f32 / 5.0));
        window.step();
    }
    window.drop_at(from + by);
    window.run_steps(2);
}

/// Clicks at a point with pointer events, and lets the window settle.
pub fn click_at(window: &mut Window, at: Pos2) {
    window.hover_at(at);
    window.step();
    window.drag_at(at);
    window.step();
    window.drop_at(at);
    window.run_steps(3);
}

/// Clicks through the hints of the first start.
pub fn past_the_hints(window: &mut Window) {
    for _ in 0..3 {
        for label in ["Next", "Good"] {
            if let Some(button) = window.query_by_label(label) {
                button.click();
            }
            window.run_steps(2);
        }
    }
}

/// Runs a command by its name.
pub fn run(window: &mut Window, name: &str) {
    window.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::K);
    window.run_steps(3);
    window.get_by_label("Command").type_text(name);
    window.run_steps(3);
    window.key_press(egui::Key::Enter);
    window.run_steps(3);
}
