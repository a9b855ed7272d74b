//! Starts the window, or explains why there is no display for it.

use std::process::ExitCode;

use egui::{ViewportBuilder, vec2};
use standpoint_cli::{EXIT_INPUT, EXIT_NO_DISPLAY, EXIT_STOPPED, Window};
use standpoint_ui::theme::Look;
use standpoint_workbench::settings;

use crate::{
    app::{App, First, Speaks, Start},
    faults,
    icon::icon,
    signals,
    test_hooks::TestHooks,
};

/// Size of the window at its first start, points.
const SIZE: (f32, f32) = (1440.0, 900.0);
/// Least size of the window, points.
const LEAST: (f32, f32) = (640.0, 480.0);

/// Opens the window and stays until it is closed.
#[must_use]
pub fn open(window: Window) -> ExitCode {
    open_as(window, First::Board)
}

/// Opens the window with what comes first in it.
#[must_use]
pub fn open_as(window: Window, first: First) -> ExitCode {
    if !display() {
        return no_display("neither DISPLAY nor WAYLAND_DISPLAY is set");
    }
    if let Some(code) = without_strange_scale() {
        return code;
    }
    if let Some(said) = settings::homeless() {
        standpoint_cli::complain(&format!("standpoint: {said}."));
    }
    let look = match Look::load() {
        Ok(look) => look,
        Err(problem) => {
            eprintln!("standpoint: {problem}");
            return ExitCode::from(EXIT_INPUT);
        }
    };
    let (width, height) = window.size.unwrap_or(SIZE);
    let viewport = ViewportBuilder::default()
        .with_title("Standpoint")
        .with_app_id("standpoint")
        .with_icon(icon())
        .with_inner_size(vec2(width, height))
        .with_min_inner_size(vec2(LEAST.0, LEAST.1))
        .with_drag_and_drop(true);
    let options = eframe::NativeOptions { viewport, ..eframe::NativeOptions::default() };
    let start = Start {
        settings: Default::default(),
        file: window.file,
        settings_dir: settings::directory(),
        data_dir: settings::data_directory(),
        // A measurement runs without a background solver.
        solved: window.frames.is_none().then(standpoint_workbench::solved::Shelf::usual),
        picture: window.picture,
        frames: window.frames,
        first,
        speaks: window.language.map_or(Speaks::AsSet, Speaks::This),
        commands: window.commands,
        test_hooks: TestHooks {
            say_handles: window.say_handles,
            say_painted: window.say_painted,
            fault_after_s: window.fault_after,
            ..TestHooks::default()
        },
    };
    let data_dir = start.data_dir.clone();
    faults::write_down(data_dir.as_deref());
    // Runs for a picture or a measurement have no user.
    let watching = start.picture.is_none() && start.frames.is_none();
    faults::guard(data_dir.as_deref(), watching, || run(options, look, start))
}

fn run(options: eframe::NativeOptions, look: Look, start: Start) -> ExitCode {
    let made = eframe::run_native(
        "standpoint",
        options,
        Box::new(move |cc| {
            signals::watch(&cc.egui_ctx);
            Ok(Box::new(App::new(&cc.egui_ctx, look, start)))
        }),
    );
    match made {
        Ok(()) if signals::wanted() => ExitCode::from(EXIT_STOPPED),
        Ok(()) => ExitCode::SUCCESS,
        Err(problem) => {
            // The toolkit's message begins with its source location; the problem is at the end.
            let said = problem.to_string();
            no_display(said.rsplit(": ").next().unwrap_or(&said).trim_end_matches('.'))
        }
    }
}

/// The variable by which a desktop on X11 says how large to draw.
#[cfg(unix)]
const SCALE: &str = "WINIT_X11_SCALE_FACTOR";
/// Scales that a window can be drawn in.
#[cfg(unix)]
const SCALES: std::ops::RangeInclusive<f64> = 0.25..=16.0;

/// Whether the toolkit can draw by what [`SCALE`] says; it panics where it cannot.
#[cfg(unix)]
fn is_a_scale(said: &str) -> bool {
    said.is_empty() || said.eq_ignore_ascii_case("randr") || said.parse().is_ok_and(|scale| SCALES.contains(&scale))
}

/// Starts the program again without [`SCALE`] where that says nothing to draw by, and gives its code. A program cannot
/// take a variable out of its own environment safely.
#[cfg(unix)]
fn without_strange_scale() -> Option<ExitCode> {
    let said = std::env::var_os(SCALE)?.to_string_lossy().into_owned();
    if is_a_scale(&said) {
        return None;
    }
    standpoint_cli::complain(&format!(
        "standpoint: {SCALE} is `{}`, which is no size to draw in, so it is left out — Write a number from {} to {}, or randr.",
        standpoint_board::file::shortened(&said),
        SCALES.start(),
        SCALES.end()
    ));
    let problem = match std::env::current_exe() {
        Ok(program) => {
            let mut again = std::process::Command::new(program);
            again.args(std::env::args_os().skip(1)).env_remove(SCALE);
            // Returns only where it fails.
            std::os::unix::process::CommandExt::exec(&mut again)
        }
        Err(problem) => problem,
    };
    standpoint_cli::complain(&format!("standpoint: the program cannot start again without it: {problem}."));
    Some(ExitCode::from(EXIT_INPUT))
}

/// Other systems have no such variable.
#[cfg(not(unix))]
fn without_strange_scale() -> Option<ExitCode> {
    None
}

/// Whether there may be a display; other systems than Unix desktops always have one.
fn display() -> bool {
    if !cfg!(all(unix, not(target_os = "macos"))) {
        return true;
    }
    ["DISPLAY", "WAYLAND_DISPLAY"].into_iter().any(|name| std::env::var_os(name).is_some_and(|v| !v.is_empty()))
}

fn no_display(why: &str) -> ExitCode {
    eprintln!("standpoint: no window can be opened here: {why}.");
    eprintln!("Start it from a desktop session (over ssh: with -X), or use the command line instead:");
    eprintln!("  standpoint solve FILE    prints where to stand for the board in FILE");
    eprintln!("  standpoint --help        lists everything else");
    ExitCode::from(EXIT_NO_DISPLAY)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[cfg(unix)]
    #[test]
    fn a_scale_that_nothing_can_be_drawn_in_is_left_out() {
        for said in ["0", "-1", "nan", "inf", "1e300", "1e-300", "0.0", "two", " 1"] {
            assert!(!is_a_scale(said), "{said}");
        }
        for said in ["", "randr", "RandR", "1", "1.5", "2", "0.5"] {
            assert!(is_a_scale(said), "{said}");
        }
    }

    #[test]
    fn the_icon_can_be_read_and_has_colours() {
        let icon = icon();
        assert_eq!((icon.width, icon.height, icon.rgba.len()), (128, 128, 128 * 128 * 4));
        let opaque = icon.rgba.chunks(4).filter(|pixel| pixel[3] == 255).count();
        assert!(opaque > 128 * 128 / 2, "{opaque}");
    }
}
