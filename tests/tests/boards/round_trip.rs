//! Reading gives back what was written.

use proptest::prelude::*;
use standpoint_board::{
    Board, check, file,
    marks::{Form, Ink, Layer, Pattern},
    store,
};

use crate::{samples::every_part, strategies::board};

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn a_board_comes_back_from_its_text_as_its_tidy_self(board in board()) {
        prop_assert_eq!(check::check(&board), vec![]);
        let text = file::to_text(&board).unwrap();
        let read = file::from_text(&text).unwrap();
        let mut tidy = board;
        tidy.tidy();
        prop_assert_eq!(&read, &tidy);
        let text_again = file::to_text(&read).unwrap();
        prop_assert_eq!(text_again, text, "writing again changes nothing");
    }

    #[test]
    fn a_tidy_board_stays_as_it_is(board in board()) {
        let mut tidy = board;
        tidy.tidy();
        let mut twice = tidy.clone();
        twice.tidy();
        prop_assert!(tidy.pages.iter().zip(&twice.pages).all(|(a, b)| std::sync::Arc::ptr_eq(a, b)), "pages stay shared");
        prop_assert_eq!(twice, tidy);
    }

    #[test]
    fn every_board_that_is_well_can_be_computed(board in board()) {
        for page in 0..board.pages.len() {
            for shot in 0..board.pages[page].shots.len() {
                let situation = board.situation(page, shot).unwrap();
                prop_assert_eq!(situation.validate(), vec![]);
            }
        }
    }

    #[test]
    fn lines_of_unix_and_of_windows_read_the_same(board in board()) {
        let text = file::to_text(&board).unwrap();
        let windows = format!("\u{feff}{}", text.replace('\n', "\r\n"));
        prop_assert_eq!(file::from_text(&windows).unwrap(), file::from_text(&text).unwrap());
    }
}

#[test]
fn a_board_survives_the_disk() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("demo.standpoint");
    let mut board = Board::demo();
    board.tidy();
    store::save_board(&path, &board).unwrap();
    assert_eq!(store::load_board(&path).unwrap(), board);
}

#[test]
fn a_board_with_every_part_comes_back_and_its_marks_stay_in_view() {
    let board = every_part();
    let text = file::to_text(&board).unwrap();
    assert_eq!(file::from_text(&text).unwrap(), board);
    let mut narrow = board;
    narrow.court.run_off.beside = 0.0;
    let page = narrow.page_mut(1).unwrap();
    let far_off = Form::Cone { at: glam::DVec2::new(f64::NAN, 99.0) };
    let id = page.marks.add(Layer::Drill, Ink::Plain, far_off);
    page.marks.add(Layer::Sketch, Ink::Plain, Form::Pen { points: vec![glam::DVec2::ONE], pattern: Pattern::Solid });
    let count = page.marks.list.len();
    narrow.tidy();
    assert_eq!(check::check(&narrow), vec![], "what is tidy can be saved");
    let marks = &narrow.page(1).unwrap().marks;
    assert_eq!(marks.list.len(), count - 1, "a line of one point shows nothing");
    assert_eq!(marks.get(id).unwrap().form, Form::Cone { at: glam::DVec2::ZERO });
}

#[test]
fn a_board_that_could_not_be_read_back_is_not_written() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("a.standpoint");
    store::save_board(&path, &Board::demo()).unwrap();
    let former = std::fs::read(&path).unwrap();
    let mut board = Board::demo();
    board.shot_mut(0, 0).unwrap().shot.target.x = f64::NAN;
    let refused = store::save_board(&path, &board).unwrap_err().to_string();
    assert!(refused.contains("page 1, shot 1, target.x"), "{refused}");
    assert_eq!(std::fs::read(&path).unwrap(), former);
}

#[test]
fn places_kept_on_the_site_are_always_well() {
    let area = Board::demo().play_area();
    for end in [standpoint_geometry::End::Near, standpoint_geometry::End::Far] {
        for x in [-1e9, -3.0, 0.0, 7.0, f64::INFINITY, f64::NAN] {
            for y in [-1e9, -3.0, 0.0, 7.0, f64::INFINITY, f64::NAN] {
                let kept = area.clamp_at(end, glam::DVec2::new(x, y));
                assert!(area.holds(kept) && kept.y * end.sign() <= 0.0, "{x} {y} became {kept}");
            }
        }
    }
}

#[test]
#[ignore = "writes the golden files of a new version, once"]
fn write_golden_files() {
    let folder = std::path::PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("boards/v{}", file::VERSION));
    let mut demo = Board::demo();
    demo.tidy();
    for (name, board) in [("demo", demo), ("every_part", every_part())] {
        let path = folder.join(name).with_extension(file::EXTENSION);
        assert!(!path.exists(), "golden files are never changed");
        store::save_board(&path, &board).unwrap();
    }
}
