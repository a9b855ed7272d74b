use std::sync::Arc;

use standpoint_board::marks::{Form, Ink, Layer};

use glam::dvec2;

use super::{court::ball_of, *};

const HERE: Selection = Selection { page: 0, shot: 0 };

#[test]
fn mirroring_and_swapping_twice_change_nothing() {
    for edit in [Edit::Mirror, Edit::MirrorBoard, Edit::SwapHands, Edit::SwapEnds] {
        let mut board = Board::demo();
        edit.apply(&mut board, HERE);
        assert_ne!(board, Board::demo());
        edit.apply(&mut board, HERE);
        assert_eq!(board, Board::demo());
    }
}

#[test]
fn what_is_drawn_is_mirrored_and_turned_with_the_shots() {
    for (edit, there) in [(Edit::Mirror, dvec2(-3.0, 8.0)), (Edit::SwapEnds, dvec2(-3.0, -8.0))] {
        let mut board = Board::demo();
        let id = board.page_mut(0).unwrap().marks.add(Layer::Drill, Ink::Plain, Form::Cone { at: dvec2(3.0, 8.0) });
        edit.apply(&mut board, HERE);
        assert_eq!(board.page_mut(0).unwrap().marks.get_mut(id).unwrap().form, Form::Cone { at: there });
    }
}

#[test]
fn a_target_stays_on_the_other_half() {
    let mut board = Board::demo();
    Edit::Target(dvec2(90.0, -3.0)).apply(&mut board, HERE);
    let target = board.shot(0, 0).unwrap().shot.target;
    assert!(target.y.abs() < 1e-9 && (target.x - board.play_area().half_width).abs() < 1e-9);
}

#[test]
fn a_smaller_court_keeps_the_picture() {
    let mut board = Board::demo();
    let before = board.shot(0, 0).unwrap().shot.target.y / board.court.court().length;
    Edit::Court(Stage::Red, NetPosts::SinglesSticks).apply(&mut board, HERE);
    let after = board.shot(0, 0).unwrap().shot.target.y / board.court.court().length;
    assert!((before - after).abs() < 1e-9);
}

#[test]
fn a_junior_court_has_its_ball_and_a_shot_that_can_be_played_on_it() {
    for stage in [Stage::Green, Stage::Orange, Stage::Red] {
        let mut board = Board::demo();
        Edit::Court(stage, NetPosts::SinglesSticks).apply(&mut board, HERE);
        assert_eq!(board.ball, ball_of(stage));
        let situation = board.situation(0, 0).unwrap();
        let answer = standpoint_geometry::solve(&situation);
        assert!(answer.is_ok(), "{stage:?}: {answer:?}");
        Edit::Court(Stage::Full, NetPosts::SinglesSticks).apply(&mut board, HERE);
        assert_eq!(board.ball, Board::demo().ball);
        let speed = Board::demo().shot(0, 0).unwrap().shot.speed;
        assert!((board.shot(0, 0).unwrap().shot.speed - speed).abs() < 1e-9);
    }
}

#[test]
fn what_is_drawn_comes_along_to_a_smaller_court_and_can_be_saved() {
    let mut board = Board::demo();
    let limits = board.play_area().mark_limits();
    let corner = Form::Cone { at: limits };
    let id = board.page_mut(0).unwrap().marks.add(Layer::Drill, Ink::Plain, corner);
    Edit::Court(Stage::Red, NetPosts::SinglesSticks).apply(&mut board, HERE);
    let Form::Cone { at } = board.page_mut(0).unwrap().marks.get_mut(id).unwrap().form.clone() else { panic!() };
    assert!(
        at.x > 0.0 && at.x <= board.play_area().mark_limits().x && at.y <= board.play_area().mark_limits().y,
        "{at}"
    );
    let bytes = standpoint_board::file::to_text(&board).unwrap();
    assert!(!bytes.is_empty());
}

#[test]
fn mirroring_a_page_leaves_the_other_pages_and_the_hands_alone() {
    let mut board = Board::demo();
    board.duplicate_page(0);
    let before = board.clone();
    Edit::Mirror.apply(&mut board, Selection { page: 1, shot: 0 });
    assert_eq!(board.pages[0], before.pages[0]);
    assert_eq!(*board.pages[1], before.pages[1].mirrored());
    assert_eq!((&board.near, &board.far), (&before.near, &before.far));
    Edit::MirrorBoard.apply(&mut board, HERE);
    assert_eq!((&board.pages[0], &board.pages[1]), (&Arc::new(before.pages[0].mirrored()), &before.pages[1]));
    assert_eq!((&board.near, &board.far), (&before.near, &before.far));
    Edit::SwapHands.apply(&mut board, HERE);
    assert_eq!(board.near.hand, before.near.hand.mirrored());
    assert_eq!(board.far.hand, before.far.hand.mirrored());
}

#[test]
fn a_new_board_of_a_stage_has_its_court_ball_and_players_and_an_answer() {
    for stage in [Stage::Green, Stage::Orange, Stage::Red] {
        let board = board_of_stage(stage);
        assert_eq!((board.court.stage, board.ball), (stage, ball_of(stage)));
        assert_eq!(board.near.level(), board.far.level());
        assert_ne!(board.near.level(), Board::blank().near.level());
        let answer = standpoint_geometry::solve(&board.situation(0, 0).unwrap());
        assert!(answer.as_ref().is_ok_and(|answer| answer.play().is_some()), "{stage:?}: {answer:?}");
        assert!(standpoint_board::file::to_text(&board).is_ok());
    }
}
