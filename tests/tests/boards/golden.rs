//! Boards of every version load for ever. Files in `tests/boards` are added, never changed.

use std::{fs, path::PathBuf};

use standpoint_board::{Board, Figures, Units, file};
use standpoint_geometry::{frame::End, presets::Level, situation::ReceiptChoice, units::KMH};

fn boards_of_version_1() -> Vec<(PathBuf, String)> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("boards/v1");
    let mut paths: Vec<PathBuf> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    paths.into_iter().map(|path| (path.clone(), fs::read_to_string(path).unwrap())).collect()
}

fn load(name: &str) -> Board {
    let (_, text) = boards_of_version_1().into_iter().find(|(path, _)| path.ends_with(name)).unwrap();
    file::from_text(&text).unwrap()
}

#[test]
fn every_board_of_version_1_loads_and_can_be_computed() {
    let boards = boards_of_version_1();
    assert!(boards.len() >= 3);
    for (path, text) in boards {
        let board = file::from_text(&text).unwrap_or_else(|report| panic!("{}:\n{report}", path.display()));
        assert_eq!(board.situation(0, 0).unwrap().validate(), vec![], "{}", path.display());
    }
}

#[test]
fn the_demo_of_version_1_says_what_it_said() {
    let board = load("demo.standpoint");
    let mut demo = Board::demo();
    demo.tidy();
    assert_eq!((board.near.name.as_str(), board.far.name.as_str()), ("Mara Quell", "Ivo Tander"));
    let spec = board.shot(0, 0).unwrap();
    assert!((spec.shot.speed - 100.0 * KMH).abs() < 1e-12);
    assert_eq!((spec.hitter_end, spec.hitter_place, spec.receipt), (End::Near, None, ReceiptChoice::Best));
    assert!((spec.shot.contact.x - 3.2).abs() < 1e-12 && (spec.shot.contact.z - 0.9).abs() < 1e-12);
}

#[test]
fn a_board_of_version_1_with_every_part_says_what_it_said() {
    let board = load("every_part.standpoint");
    assert_eq!(
        (board.units, board.coached, board.near.figures.clone()),
        (Units::Feet, End::Far, Figures::Level(Level::Wheelchair))
    );
    assert_eq!((board.pages.len(), board.pages[0].shots.len()), (2, 2));
    assert!((board.surface.measured.unwrap().friction - 0.62).abs() < 1e-12);
    let far = board.far.player();
    assert_eq!(far.bounces, 1);
    assert!((far.movement.v_max - 6.2).abs() < 1e-12 && (far.serve.first_speed - 170.0 * KMH).abs() < 1e-12);
    let spec = board.shot(0, 1).unwrap();
    assert!(matches!(spec.receipt, ReceiptChoice::Near(place) if (place.y + 9.1).abs() < 1e-12));
    assert_eq!(board.pages[0].notes, "First line\nsecond \"line\"\tafter a tab, ü 場");
}

#[test]
fn a_board_written_by_hand_may_have_comments_and_its_own_layout() {
    let board = load("by_hand.standpoint");
    assert_eq!(board.title, "By hand");
}
