//! The chart room in the window under test.

use std::{path::Path, sync::Arc, time::Duration};

use egui::{Key, Modifiers, accesskit::Role};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use standpoint_chart_room::Room;
use standpoint_charting::notebook::Notebook;
use standpoint_workbench::chart::worker::Audited;

use super::{Window, app, window_of};

pub fn room(window: &Window) -> &Room {
    app(window).room()
}

/// The notes being edited.
pub fn notes(window: &Window) -> &Notebook {
    room(window).notes(app(window).session().document())
}

/// The audit of the notes as they are now.
pub fn audited(window: &Window) -> Option<&Arc<Audited>> {
    room(window).audited(app(window).session().document())
}

/// The screen position of a court place while a match is noted.
pub fn point_of(window: &Window, place: glam::DVec2) -> Option<egui::Pos2> {
    room(window).point(app(window).session().document(), place)
}

/// Clicks the button with this name.
pub fn button(window: &mut Window, label: &str) {
    window.get_all_by_label(label).find(|n| n.accesskit_node().role() == Role::Button).unwrap().click();
    window.run_steps(3);
}

pub fn press(window: &mut Window, modifiers: Modifiers, key: Key) {
    window.key_press_modifiers(modifiers, key);
    window.run_steps(3);
}

pub fn keys(window: &mut Window, all: &[Key]) {
    for key in all {
        press(window, Modifiers::NONE, *key);
    }
}

/// The window with the chart room open.
pub fn opened(width: f32, height: f32) -> Window {
    let mut window = window_of(width, height);
    press(&mut window, Modifiers::SHIFT, Key::M);
    assert!(room(&window).is_open());
    window
}

/// Waits until a condition holds.
#[track_caller]
pub fn until(window: &mut Window, so: impl Fn(&Window) -> bool) {
    for _ in 0..1500 {
        window.step();
        if so(window) {
            window.run_steps(3);
            return;
        }
        std::thread::sleep(Duration::from_millis(5));
    }
    panic!("it never came to be");
}

/// Drops a file on the window, as a desktop does.
#[derive(Debug)]
struct Dropped(std::path::PathBuf);

impl egui::DroppedFile for Dropped {
    fn path(&self) -> &Path {
        &self.0
    }

    fn bytes(&self) -> Result<Vec<u8>, String> {
        std::fs::read(&self.0).map_err(|error| error.to_string())
    }
}

pub fn drop_file(window: &mut Window, path: &Path) {
    window.input_mut().dropped_files.push(std::sync::Arc::new(Dropped(path.to_owned())));
    window.step();
}

/// A rally of two shots and a point of one, noted with the keys.
pub fn noted(window: &mut Window) {
    keys(
        window,
        &[Key::Num3, Key::F, Key::Num7, Key::Num7, Key::Num2, Key::S, Key::Num9, Key::Num9, Key::Num8, Key::E],
    );
    keys(window, &[Key::Num1, Key::Num9, Key::Num9, Key::Num3, Key::E]);
    assert_eq!(notes(window).shots(), 3);
}

/// Types the requested path, in the prompt shown without a desktop file dialog, and confirms it.
pub fn type_path(window: &mut Window, path: &Path) {
    fill_path(window, path);
    window.key_press(Key::Enter);
    window.run_steps(3);
}

/// Types the requested path.
pub fn fill_path(window: &mut Window, path: &Path) {
    until(window, |window| window.query_by_label("Path").is_some());
    let field = window.get_by_label("Path");
    field.focus();
    window.run_steps(2);
    press(window, Modifiers::COMMAND, Key::A);
    window.get_by_label("Path").type_text(path.to_str().unwrap());
    window.run_steps(2);
}
