//! How a window closes on a system signal, and its message about a file that it overwrites.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod common;

use std::fs;

use egui::{Key, Modifiers, vec2};
use standpoint_app::app::Start;
use standpoint_board::{Board, recovery_copy::find_left, store::save_board};

use common::{
    app, center, drag, opened,
    room::{press, until},
};

#[test]
fn a_window_that_the_system_ends_keeps_unsaved_work_and_leaves_nothing_of_saved_work() {
    for unsaved in [true, false] {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("a.standpoint");
        save_board(&path, &Board::demo()).unwrap();
        let (data, file) = (dir.path().join("data"), path.clone());
        let start = move || Start { data_dir: Some(data.clone()), file: Some(file.clone()), ..Start::default() };
        let mut window = opened(vec2(1440.0, 900.0), None, start);
        until(&mut window, |window| app(window).session().path().is_some());
        if unsaved {
            let from = center(&window, "Ball target");
            drag(&mut window, from, vec2(60.0, 10.0));
            assert!(!app(&window).session().document().is_saved());
        }
        let ctx = window.ctx.clone();
        window.state_mut().as_mut().unwrap().end(&ctx);
        drop(window);
        let data = dir.path().join("data");
        let left = find_left(&data.join("unsaved"), 0.0);
        assert_eq!(left.len(), usize::from(unsaved));
        assert!(left.iter().all(|left| left.original.as_deref() == Some(path.as_path())));
        let files = |folder: &str| fs::read_dir(data.join(folder)).map_or(0, Iterator::count);
        assert_eq!(files("open"), 0, "nobody has the file open");
        if !unsaved {
            assert_eq!(files("unsaved"), 0);
        }
    }
}

#[cfg(unix)]
#[test]
fn a_board_saved_over_one_of_several_names_says_what_becomes_of_the_others() {
    let dir = tempfile::tempdir().unwrap();
    let (path, other) = (dir.path().join("a.standpoint"), dir.path().join("b.standpoint"));
    save_board(&path, &Board::demo()).unwrap();
    fs::hard_link(&path, &other).unwrap();
    let file = path.clone();
    let mut window = opened(vec2(1440.0, 900.0), None, move || Start { file: Some(file.clone()), ..Start::default() });
    until(&mut window, |window| app(window).session().path().is_some());
    let from = center(&window, "Ball target");
    drag(&mut window, from, vec2(60.0, 10.0));
    let former = fs::read(&other).unwrap();
    press(&mut window, Modifiers::COMMAND, Key::S);
    until(&mut window, |window| app(window).session().document().is_saved());
    use egui_kittest::kittest::Queryable as _;
    assert!(window.query_by_label_contains("its other names (hard links) keep what was there before").is_some());
    assert_eq!(fs::read(&other).unwrap(), former);
    assert_ne!(fs::read(&path).unwrap(), former);
}
