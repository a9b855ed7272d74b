//! Which state a key or a click changes, and which it does not.

#![allow(clippy::unwrap_used, reason = "a test that finds nothing has failed")]

mod common;

use std::sync::Arc;

use egui::{Event, Key, Modifiers, OutputCommand};
use egui_kittest::kittest::Queryable as _;
use glam::DVec2;
use standpoint_board::{
    Board,
    marks::{Form, Ink, Layer},
    patterns::Pattern,
};
use standpoint_geometry::{End, Level, ReadyArea, Stroke};
use standpoint_ui::commands::{Action, Command, RallyCommand};
use standpoint_workbench::{edit::Edit, selection::Selection};

use common::{Window, app, window_of};

const CTRL_SHIFT: Modifiers = Modifiers::COMMAND.plus(Modifiers::SHIFT);

fn window() -> Window {
    window_of(1440.0, 900.0)
}

fn ask(window: &mut Window, actions: impl IntoIterator<Item = Action>) {
    let ctx = window.ctx.clone();
    window.state_mut().as_mut().unwrap().apply_all(&ctx, actions);
    window.run_steps(3);
}

fn press(window: &mut Window, modifiers: Modifiers, key: Key) {
    window.key_press_modifiers(modifiers, key);
    window.run_steps(4);
}

/// A window with two pages of several shots.
fn pages() -> Window {
    let mut window = window();
    let blank = Board::blank();
    let pages = [Pattern::CrossCrossLine, Pattern::ApproachAndVolley].map(|of| Arc::new(of.page(&blank, false)));
    window.state_mut().as_mut().unwrap().replace(Board { pages: pages.into(), ..blank }, None);
    window.run_steps(4);
    window
}

fn board(window: &Window) -> Board {
    app(window).session().board().clone()
}

#[test]
fn keys_without_ctrl_change_the_shot_or_the_page_in_view_and_nothing_else() {
    for key in [Key::V, Key::M, Key::X, Key::R, Key::H, Key::G, Key::N, Key::B, Key::U] {
        for modifiers in [Modifiers::NONE, Modifiers::SHIFT] {
            let mut window = pages();
            let before = board(&window);
            press(&mut window, modifiers, key);
            let after = board(&window);
            assert_eq!(after.pages[1], before.pages[1], "{key:?} changed a page that is not in view");
            let same = Board { pages: before.pages.clone(), units: before.units, theme: before.theme.clone(), ..after };
            assert_eq!(same, before, "{key:?} changed the whole board");
        }
    }
}

#[test]
fn an_approach_is_one_shot_and_says_so() {
    let mut window = pages();
    press(&mut window, Modifiers::NONE, Key::V);
    assert_eq!(app(&window).session().situation().unwrap().settings.ready, ReadyArea::Net);
    assert!(window.query_by_label_contains("Shot 1 is an approach now").is_some());
    let shots = board(&window).pages[0].shots.clone();
    assert_eq!(shots.iter().filter(|spec| spec.recover_in.is_some()).count(), 1);
    press(&mut window, Modifiers::NONE, Key::Period);
    assert_eq!(app(&window).session().situation().unwrap().settings.ready, ReadyArea::Anywhere);
}

#[test]
fn a_volley_near_the_net_is_followed_by_staying_there_until_v_says_otherwise() {
    let mut window = window();
    ask(&mut window, [Action::Edit(Edit::Stroke(Stroke::Volley))]);
    let ready = |window: &Window| app(window).session().situation().unwrap().settings.ready;
    assert_eq!(ready(&window), ReadyArea::Net);
    press(&mut window, Modifiers::NONE, Key::V);
    assert_eq!(ready(&window), ReadyArea::Anywhere);
    press(&mut window, Modifiers::NONE, Key::V);
    assert_eq!(ready(&window), ReadyArea::Net);
}

#[test]
fn mirroring_keeps_the_hands_and_says_what_it_did() {
    let mut window = pages();
    let before = board(&window);
    press(&mut window, Modifiers::NONE, Key::M);
    assert_eq!(*board(&window).pages[0], before.pages[0].mirrored());
    assert_eq!((board(&window).near, board(&window).far), (before.near, before.far));
    assert!(window.query_by_label_contains("This page is mirrored").is_some());
}

#[test]
fn another_view_is_no_change_to_be_saved() {
    let mut window = window();
    press(&mut window, Modifiers::NONE, Key::B);
    assert_eq!(board(&window).theme, "bright");
    assert!(app(&window).session().history().is_saved());
    assert!(window.query_by_label("not saved to a file yet").is_some());
    ask(&mut window, [Action::Edit(Edit::Speed(25.0))]);
    press(&mut window, Modifiers::COMMAND, Key::Z);
    assert_eq!(board(&window).theme, "bright", "undo leaves the view alone");
}

#[test]
fn a_new_level_is_told_with_its_speed_and_spin() {
    let mut window = window();
    let before = board(&window).pages[0].shots[0].shot;
    ask(&mut window, [Action::Edit(Edit::Level(End::Near, Level::RedJunior))]);
    let after = board(&window).pages[0].shots[0].shot;
    assert!(after.speed < before.speed && after.topspin < before.topspin);
    assert!(window.query_by_label_contains("Speed and spin of Mara Quell’s shots").is_some());
    assert!(app(&window).session().refusal().is_none());
}

#[test]
fn a_hitter_who_cannot_reach_the_ball_is_told() {
    let mut window = window_of(1440.0, 900.0);
    assert!(window.query_by_label_contains("cannot reach it").is_none());
    ask(&mut window, [Action::Edit(Edit::HitterPlace(Some(DVec2::new(-3.5, -12.4))))]);
    assert!(window.query_by_label_contains("Mara Quell stands 6.7 m from the ball and cannot reach it").is_some());
    press(&mut window, Modifiers::SHIFT, Key::R);
    assert!(window.query_by_label_contains("cannot reach it").is_none());
}

#[test]
fn the_positioning_report_opens_from_the_board_and_f5_and_f6_work_there() {
    let mut window = window();
    press(&mut window, CTRL_SHIFT, Key::A);
    assert!(app(&window).room().is_open());
    assert_eq!(app(&window).room().tab, standpoint_workbench::chart::Tab::Audit);
    press(&mut window, Modifiers::NONE, Key::F5);
    assert!(window.query_by_label("Presentation").is_some());
    press(&mut window, Modifiers::NONE, Key::Escape);
    assert!(app(&window).room().is_open(), "back to where one came from");
    press(&mut window, Modifiers::NONE, Key::F6);
    assert!(window.query_by_label("Leave the rehearsal").is_some());
}

#[test]
fn marks_go_by_the_clipboard_to_another_page() {
    let mut window = pages();
    let cone = Form::Cone { at: DVec2::new(1.0, -4.0) };
    ask(&mut window, [Action::Draw(standpoint_workbench::sketch::draw::Draw::Add(Ink::Warning, cone.clone()))]);
    window.event(Event::Copy);
    window.step();
    let copied = |command: &OutputCommand| match command {
        OutputCommand::CopyText(text) => Some(text.clone()),
        _ => None,
    };
    let text = window.output().platform_output.commands.iter().find_map(copied).unwrap();
    assert!(text.contains("standpoint_marks") && text.contains("Cone"), "{text}");
    ask(&mut window, [Action::Select(Selection { page: 1, shot: 0 })]);
    window.event(Event::Paste(text.clone()));
    window.run_steps(3);
    let pasted = board(&window).pages[1].marks.list.clone();
    assert_eq!(pasted.len(), 1);
    assert_eq!((&pasted[0].form, pasted[0].ink, pasted[0].layer), (&cone, Ink::Warning, Layer::Drill));
    assert_eq!(app(&window).session().chosen(), [pasted[0].id]);
    window.event(Event::Cut);
    window.run_steps(3);
    assert!(board(&window).pages[1].marks.list.is_empty());
    assert_eq!(app(&window).session().history().undo_label(), Some("Delete marks"));
    window.event(Event::Paste("deep".to_owned()));
    window.run_steps(3);
    assert!(window.query_by_label("There are no marks on the clipboard").is_some());
}

#[test]
fn while_a_board_is_being_read_the_one_in_view_takes_no_keys() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("slow.standpoint");
    let saved = Board { title: "Read at last".to_owned(), ..Board::blank() };
    standpoint_board::store::save_board(&path, &saved).unwrap();
    let mut window = window();
    let before = board(&window);
    // Both in one frame, before the file can have been read.
    ask(&mut window, [Action::OpenPath(path), Action::Run(Command::Rally(RallyCommand::AddShotAfter))]);
    for _ in 0..200 {
        if board(&window).title == saved.title {
            break;
        }
        assert_eq!(board(&window).pages[0].marks, before.pages[0].marks);
        window.key_press(Key::M);
        window.step();
        std::thread::sleep(std::time::Duration::from_millis(5));
    }
    assert_eq!(board(&window).title, "Read at last");
}
