//! Drawing, the library and recovery of unsaved work, through the accessibility tree.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod common;

use std::path::{Path, PathBuf};

use egui::{Key, Modifiers, Pos2, vec2};
use egui_kittest::kittest::Queryable as _;
use standpoint_app::app::Start;
use standpoint_board::{
    Board,
    marks::{Appears, Form, Ink, Marks, Pattern, Step},
    recovery_copy::{About, Kind, RecoveryCopy},
};
use standpoint_ui::commands::{Action, BoardCommand, Command, DrawCommand, LibraryCommand};
use standpoint_workbench::sketch::draw::Draw;

use common::{Window, app, drag, opened};

fn window() -> Window {
    window_with(None, None)
}

/// A window on a board that saves its recovery copies in a folder.
fn window_with(data: Option<&Path>, file: Option<PathBuf>) -> Window {
    let data = data.map(Path::to_owned);
    opened(vec2(1440.0, 900.0), None, move || Start { data_dir: data.clone(), file: file.clone(), ..Start::default() })
}

fn marks(window: &Window) -> &Marks {
    app(window).session().marks().unwrap()
}

fn key(window: &mut Window, modifiers: Modifiers, key: Key) {
    window.key_press_modifiers(modifiers, key);
    window.run_steps(3);
}

fn ask(window: &mut Window, actions: impl IntoIterator<Item = Action>) {
    let ctx = window.ctx.clone();
    window.state_mut().as_mut().unwrap().apply_all(&ctx, actions);
    window.run_steps(2);
}

fn wait(window: &mut Window, until: impl Fn(&Window) -> bool) {
    for _ in 0..400 {
        window.step();
        if until(window) {
            window.run_steps(2);
            return;
        }
        std::thread::sleep(std::time::Duration::from_millis(5));
    }
    panic!("it was never done");
}

/// A place on the court with nothing on it.
fn bare(window: &Window) -> Pos2 {
    window.get_by_label("Net crossing").rect().center() + vec2(60.0, 90.0)
}

#[test]
fn an_arrow_is_drawn_bent_and_taken_back() {
    let mut window = window();
    key(&mut window, Modifiers::NONE, Key::Y);
    let from = bare(&window);
    drag(&mut window, from, vec2(0.0, 120.0));
    let [mark] = &marks(&window).list[..] else { panic!("{:?}", marks(&window)) };
    assert!(matches!(mark.form, Form::Arrow { pattern: Pattern::Dashed, .. }));
    assert!(window.get_by_label("Arrow 1").value().unwrap().contains("long"));
    drag(&mut window, from + vec2(0.0, 60.0), vec2(50.0, 0.0));
    let Form::Arrow { bend, .. } = marks(&window).list[0].form else { panic!() };
    assert!(bend.abs() > 1.0, "the middle was pulled aside: {bend}");
    key(&mut window, Modifiers::COMMAND, Key::Z);
    let Form::Arrow { bend, .. } = marks(&window).list[0].form else { panic!() };
    assert!(bend.abs() < 1e-9);
    key(&mut window, Modifiers::COMMAND, Key::Z);
    assert!(marks(&window).list.is_empty());
    assert!(window.query_by_label("Arrow 1").is_none());
    key(&mut window, Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
    assert_eq!(app(&window).session().chosen(), [marks(&window).list[0].id], "the choice comes back");
}

#[test]
fn a_cone_is_placed_with_the_keys_and_says_where_it_stands() {
    let mut window = window();
    key(&mut window, Modifiers::SHIFT, Key::C);
    let court = app(&window).session().court();
    for _ in 0..5 {
        key(&mut window, Modifiers::SHIFT, Key::ArrowRight);
    }
    key(&mut window, Modifiers::NONE, Key::ArrowRight);
    key(&mut window, Modifiers::NONE, Key::Enter);
    let Form::Cone { at } = marks(&window).list[0].form else { panic!() };
    assert!((at.x - 2.6).abs() < 1e-9 && (at.y + court.half_length() / 2.0).abs() < 1e-9, "{at}");
    let said = window.get_by_label("Cone 1").value().unwrap();
    let expected = format!("{:.1} m inside the sideline", court.half_width() - 2.6);
    assert!(said.contains(&expected) && said.contains("the service line"), "{said}");
    key(&mut window, Modifiers::NONE, Key::Escape);
    window.get_by_label("Cone 1").focus();
    window.run_steps(3);
    key(&mut window, Modifiers::NONE, Key::ArrowUp);
    let Form::Cone { at: moved } = marks(&window).list[0].form else { panic!() };
    assert!((moved.y - at.y - 0.1).abs() < 1e-9, "the arrows move what has the focus");
    key(&mut window, Modifiers::COMMAND, Key::D);
    assert_eq!(marks(&window).list.len(), 2);
    key(&mut window, Modifiers::NONE, Key::Delete);
    assert_eq!(marks(&window).list.len(), 1);
}

#[test]
fn what_is_in_a_hidden_layer_is_not_announced() {
    let mut window = window();
    key(&mut window, Modifiers::SHIFT, Key::C);
    key(&mut window, Modifiers::NONE, Key::Enter);
    assert!(window.query_by_label("Cone 1").is_some());
    ask(&mut window, [Action::Run(Command::Draw(DrawCommand::ShowDrill))]);
    assert!(window.query_by_label("Cone 1").is_none());
    ask(&mut window, [Action::Run(Command::Board(BoardCommand::Undo))]);
    assert!(window.query_by_label("Cone 1").is_some());
}

#[test]
fn words_are_written_where_the_pointer_was() {
    let mut window = window();
    key(&mut window, Modifiers::SHIFT, Key::W);
    let at = bare(&window);
    window.hover_at(at);
    window.step();
    window.drag_at(at);
    window.drop_at(at);
    window.run_steps(4);
    window.get_by_label("Text on the court").type_text("deep, heavy");
    window.run_steps(2);
    key(&mut window, Modifiers::NONE, Key::Enter);
    assert!(matches!(&marks(&window).list[0].form, Form::Text { text, .. } if text == "deep, heavy"));
}

#[test]
fn the_eraser_and_the_rubber_band_find_marks() {
    let mut window = window();
    key(&mut window, Modifiers::SHIFT, Key::C);
    let at = bare(&window);
    for by in [0.0, 50.0] {
        let at = at + vec2(0.0, by);
        drag(&mut window, at, vec2(1.0, 0.0));
    }
    assert_eq!(marks(&window).list.len(), 2);
    key(&mut window, Modifiers::NONE, Key::Q);
    drag(&mut window, at + vec2(-40.0, -40.0), vec2(80.0, 130.0));
    assert_eq!(app(&window).session().chosen().len(), 2);
    key(&mut window, Modifiers::SHIFT, Key::E);
    drag(&mut window, at + vec2(0.0, -40.0), vec2(0.0, 130.0));
    assert!(marks(&window).list.is_empty());
    key(&mut window, Modifiers::COMMAND, Key::Z);
    assert_eq!(marks(&window).list.len(), 2, "wiping is one step");
}

#[test]
fn the_library_is_searched_and_opens_a_copy() {
    let mut window = window();
    ask(&mut window, [Action::Run(Command::Library(LibraryCommand::Library))]);
    wait(&mut window, |w| w.query_by_label_contains("Folder of your own").is_some());
    window.get_by_label("Search the library").focus();
    window.run_steps(2);
    window.get_by_label("Search the library").type_text("orange");
    window.run_steps(3);
    key(&mut window, Modifiers::NONE, Key::Enter);
    assert!(app(&window).session().board().title.to_lowercase().contains("orange"));
    assert_eq!(app(&window).session().path(), None);
}

#[test]
fn work_left_by_a_crash_is_offered_and_comes_back() {
    let dir = tempfile::tempdir().unwrap();
    let board = Board { title: "Left work".to_owned(), ..Board::demo() };
    let copy = RecoveryCopy::open(&dir.path().join("unsaved"), Kind::Board).unwrap();
    copy.write(&board.into(), &About::default()).unwrap();
    drop(copy);
    let mut window = window_with(Some(dir.path()), None);
    assert!(window.query_by_label_contains("Left work").is_some());
    window.get_by_label("Restore").click();
    window.run_steps(4);
    assert_eq!(app(&window).session().board().title, "Left work");
    assert!(!app(&window).session().history().is_saved(), "it is in no file yet");
}

#[test]
fn a_second_window_on_a_file_is_told_and_works_on_a_copy() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("ours.standpoint");
    standpoint_board::store::save_board(&path, &Board::demo()).unwrap();
    let mut first = window_with(Some(dir.path()), Some(path.clone()));
    wait(&mut first, |w| app(w).session().path().is_some());
    let mut second = window_with(Some(dir.path()), Some(path));
    wait(&mut second, |w| w.query_by_label("Open a copy").is_some());
    second.get_by_label("Open a copy").click();
    second.run_steps(3);
    assert_eq!(app(&second).session().path(), None);
    assert!(!app(&second).session().history().is_saved());
}

#[test]
fn a_file_changed_by_somebody_else_is_not_saved_over_unasked() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("ours.standpoint");
    standpoint_board::store::save_board(&path, &Board::demo()).unwrap();
    let mut window = window_with(Some(dir.path()), Some(path.clone()));
    wait(&mut window, |w| app(w).session().path().is_some());
    let theirs = Board { title: "Theirs".to_owned(), ..Board::demo() };
    standpoint_board::store::save_board(&path, &theirs).unwrap();
    ask(
        &mut window,
        [Action::Run(Command::Board(BoardCommand::Mirror)), Action::Run(Command::Board(BoardCommand::Save))],
    );
    wait(&mut window, |w| w.query_by_label("The file has changed").is_some());
    assert_eq!(standpoint_board::store::load_board(&path).unwrap().title, "Theirs");
    window.get_by_label("Save over it").click();
    wait(&mut window, |w| app(w).session().history().is_saved());
    assert_ne!(standpoint_board::store::load_board(&path).unwrap().title, "Theirs");
}

#[test]
fn a_fault_of_the_program_leaves_the_work_to_be_found() {
    let dir = tempfile::tempdir().unwrap();
    let fault = std::panic::catch_unwind(|| {
        let mut window = window_with(Some(dir.path()), None);
        key(&mut window, Modifiers::SHIFT, Key::C);
        key(&mut window, Modifiers::NONE, Key::Enter);
        panic!("planted");
    });
    assert!(fault.is_err());
    let mut window = window_with(Some(dir.path()), None);
    window.get_by_label("Restore").click();
    window.run_steps(4);
    assert!(matches!(marks(&window).list[0].form, Form::Cone { .. }));
}

#[test]
fn a_window_closed_in_peace_leaves_nothing() {
    let dir = tempfile::tempdir().unwrap();
    let mut window = window_with(Some(dir.path()), None);
    key(&mut window, Modifiers::NONE, Key::M);
    for _ in 0..400 {
        window.step();
    }
    let kept = || std::fs::read_dir(dir.path().join("unsaved")).is_ok_and(|mut d| d.next().is_some());
    wait(&mut window, |_| kept());
    ask(&mut window, [Action::Run(Command::Board(BoardCommand::NewBoard))]);
    window.get_by_label("Don't save").click();
    window.run_steps(4);
    drop(window);
    let window = window_with(Some(dir.path()), None);
    assert!(window.query_by_label("Restore").is_none());
}

#[test]
fn a_command_ties_the_chosen_marks_to_a_step_of_the_presentation_and_can_be_undone() {
    let mut window = window();
    let form = Form::Cone { at: glam::DVec2::new(1.0, -3.0) };
    ask(&mut window, [Action::Draw(Draw::Add(Ink::Plain, form))]);
    ask(&mut window, [Action::Run(Command::Draw(DrawCommand::AppearWithAnswer))]);
    assert_eq!(marks(&window).list[0].appears, Appears { shot: 0, step: Step::Answer });
    let said = window.get_by_label("Cone 1").value().unwrap();
    assert!(said.ends_with("from step 4"), "{said}");
    ask(&mut window, [Action::Run(Command::Board(BoardCommand::Undo))]);
    assert_eq!(marks(&window).list[0].appears, Appears::AT_ONCE);
}
