//! The window solves the rally of the players in view. The games on the disk here are not solved, because solving is
//! slow; the window cannot detect this.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod common;

use std::{path::PathBuf, time::Duration};

use common::{Window, app, opened};
use egui::vec2;
use egui_kittest::kittest::Queryable as _;
use standpoint_app::app::Start;
use standpoint_board::{Board, store::save_board};
use standpoint_geometry::{
    Air,
    worth::{Basis, pack, stand_in},
};
use standpoint_workbench::solved::{Shelf, of_board};

/// The demo board at a temperature for which the program ships no game.
fn board(temperature_c: f64) -> Board {
    Board { air: Air { temperature_c, altitude_m: 12.0 }, ..Board::demo() }
}

/// A window with a board from a file; `solved` is the folder of solved rallies.
fn window(board: &Board, folder: PathBuf, solved: Option<Shelf>) -> Window {
    let path = folder.join("board.standpoint");
    save_board(&path, board).unwrap();
    let start = move || Start { file: Some(path.clone()), solved: solved.clone(), ..Start::default() };
    let mut window = opened(vec2(1440.0, 900.0), None, start);
    let air = board.air;
    until(&mut window, |window| app(window).session().board().air == air);
    window
}

#[track_caller]
fn until(window: &mut Window, so: impl Fn(&Window) -> bool) {
    for _ in 0..2000 {
        window.step();
        if so(window) {
            return;
        }
        std::thread::sleep(Duration::from_millis(5));
    }
    panic!("it never came to be");
}

fn basis(window: &Window) -> Basis {
    app(window).session().answer().unwrap().basis
}

#[test]
fn a_rally_that_is_there_takes_the_place_of_the_nearest_level() {
    let dir = tempfile::tempdir().unwrap();
    let board = board(23.0);
    let canonical = of_board(&board).canonical();
    let shelf = Shelf::in_folder(dir.path().join("solved"));
    shelf.put(&canonical, &pack(&canonical, &stand_in(&canonical).0)).unwrap();
    let mut window = window(&board, dir.path().to_owned(), Some(shelf));
    until(&mut window, |window| basis(window) == Basis::Solved);
    window.run_steps(2);
    assert_eq!(window.query_all_by_label_contains("Estimate for the nearest level").count(), 0);
    assert_ne!(window.query_all_by_label_contains("for these players").count(), 0, "the panel says so");
}

#[test]
fn without_it_the_nearest_level_answers_and_says_so() {
    let dir = tempfile::tempdir().unwrap();
    let mut window = window(&board(24.0), dir.path().to_owned(), None);
    window.run_steps(3);
    assert_eq!(basis(&window), Basis::Level);
    assert_eq!(window.query_all_by_label("Estimate for the nearest level").count(), 1, "nothing is on its way");
}
